"""[[house]]: walls around a plan, as one shape: their lengths, one height, one base."""

from __future__ import annotations

from typing import Literal

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Measured, key, must
from darby.job.model import REST
from darby.job.part import Part
from darby.job.sections.bases import BaseFields, note_unsaid, read_base
from darby.job.sections.openings import OpeningEntry, read_openings
from darby.job.sections.plans import HousePlan
from darby.job.sections.wall import StandingFields, read_standing
from darby.measure.surface import Length, Opening

MOST_WALLS = 200


class HouseDocument(BaseFields, StandingFields):
    """[[house]]: walls around a plan; its surfaces are called `crew-1`, `crew-2` and so on."""

    walls: list[Measured] = must("Lengths of the walls, from left to right as you walk round it outside.")
    closed: bool = key("Whether the last wall meets the first; yes unless you say.")
    corners: list[Literal["outside", "inside"]] = key("At the right end of each wall; left out, as the lengths close.")
    gables: dict[str, Measured] = key('By number of the wall, how high its gable peaks: `{ 2 = "3\'" }`.')
    openings: dict[str, list[OpeningEntry]] = key("By number of the wall, its doors and windows.")


def read(root: Part, draft: Draft) -> None:
    """Read every [[house]] into a plan; surfaces are made once all walls are known."""
    for part in root.parts("house"):
        id = part.id("id", draft.ids)
        plan = HousePlan(part, id, part.text("name") or id)
        plan.made = read_base(part)
        plan.walls = part.lengths("walls")
        plan.height = part.length("height", positive=True)
        plan.closed = not part.has("closed") or part.flag("closed")
        if part.has("corners"):
            plan.turns = [90.0 if word == "outside" else -90.0 for word in part.words("corners")]
        read_standing(part, plan, id)
        if plan.closed:
            _no_ends(part)
        count = len(plan.walls)
        if part.has("walls") and not 1 <= count <= MOST_WALLS:
            part.fault("walls", "job.out-of-span", count, f"1 to {MOST_WALLS} walls")
        plan.gables = _gables(part, count)
        plan.openings = _openings(part, id, count)
        note_unsaid(part, id, plan.made)
        ids = [f"{id}-{n}" for n in range(1, count + 1)] if id else []
        if id:
            draft.houses[id] = ids
        for name in ids:
            if name in draft.zones:
                part.fault("id", "job.twice", name, ok.ONCE)
            draft.zones[name] = [REST]
        draft.walls.append(plan)


def _no_ends(part: Part) -> None:
    for side in ("left", "right"):
        if part.said(side):
            part.fault(side, "job.not-here", side, "closed = false")


def _wall_number(inner: Part, key: str, count: int) -> int | None:
    if not count:  # the walls themselves could not be read
        return None
    if key.isdecimal() and key.isascii() and len(key) < 4 and 1 <= int(key) <= count:
        return int(key)
    inner.fault(key, "job.no-such-wall", key, f"1 to {count}")
    return None


def _gables(part: Part, count: int) -> dict[int, Length]:
    gables: dict[int, Length] = {}
    inner = part.part("gables")
    if inner is None:
        return gables
    for name in inner.names():
        number = _wall_number(inner, name, count)
        height = inner.length(name, positive=True)
        if number is not None and height is not None:
            gables[number] = height
    return gables


def _openings(part: Part, id: str, count: int) -> dict[int, tuple[Opening, ...]]:
    found: dict[int, tuple[Opening, ...]] = {}
    inner = part.part("openings")
    if inner is None:
        return found
    for name in inner.names():
        number = _wall_number(inner, name, count)
        openings = read_openings(inner, name, f"{id}-{name}")
        if number is not None:
            found[number] = openings
    return found
