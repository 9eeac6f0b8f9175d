"""[[joints]]: joints that must be, places where none may be, and the base's own."""

from __future__ import annotations

from fractions import Fraction

from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.joints import JointsWanted, LayoutName
from darby.job.part import Part


class JointsDocument(Document):
    """[[joints]]: what is said about joints on one surface."""

    surface: str = must("The surface.")
    upright: list[Measured] = key('Upright joints that must be, from the left end: `["12\'"]`.')
    level: list[Measured] = key("Level joints that must be, up from the base.")
    not_upright: list[Measured] = key("Where no upright joint may be, from the left end.")
    not_level: list[Measured] = key("Where no level joint may be, up from the base.")
    block: list[Measured] = key("The block's own joints, from the left end; `[]` if it has none.")
    floors: list[Measured] = key("Heights of the floors above the base.")
    choose: LayoutName = key("Which layout: the best, the fewest joints, all run through, or smaller panels.")


def read(root: Part, draft: Draft) -> None:
    """Read [[joints]] into the draft: a surface once."""
    found: list[JointsWanted] = []
    seen: set[str] = set()
    for part in root.parts("joints"):
        surface = draft.surface_named(part, "surface")
        if surface is not None and surface in seen:
            part.fault("surface", "job.twice", surface, "each surface once")
        if surface is None:
            continue
        seen.add(surface)
        found.append(
            JointsWanted(
                surface=surface,
                upright=_lines(part, "upright"),
                level=_lines(part, "level"),
                not_upright=_lines(part, "not_upright"),
                not_level=_lines(part, "not_level"),
                block=_lines(part, "block") if part.has("block") else None,
                floors=_lines(part, "floors"),
                choose=part.word("choose"),
            )
        )
    draft.put(joints=tuple(found))


def _lines(part: Part, key: str) -> tuple[Fraction, ...]:
    return tuple(length for length in part.lengths(key) if length is not None)
