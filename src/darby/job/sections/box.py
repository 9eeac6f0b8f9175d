"""[[box]]: a chimney, a column, a planter as one shape, on the ground or on a roof."""

from __future__ import annotations

from functools import partial
from typing import Annotated, Literal

from quicktions import Fraction

from darby import measure
from darby.job.draft import Draft
from darby.job.fields import AsTable, AsText, Document, Measured, OrTable, key, must
from darby.job.part import Part
from darby.job.sections.ends import EndEntry
from darby.job.sections.openings import OpeningEntry, read_openings
from darby.job.sections.shapes import (
    CAP_SAYS,
    CapEntry,
    ShapeFields,
    finish_shape,
    read_cap,
    read_plain_end,
    read_shape,
)
from darby.measure.shapes import AGAINST
from darby.measure.solids import Roof, box, check_sides
from darby.measure.surface import EdgeKind, Opening

SIDES = 4


class RoofDocument(Document):
    """roof: what a box comes out of."""

    pitch: str = must("`6 in 12`, `30 deg`.")
    down: int = key("The number of the side that looks down the roof; 1 unless you say.")
    ridge: bool = key("Whether it sits on the ridge.")


class BoxDocument(ShapeFields):
    """[[box]]: a chimney, a column, a planter; its surfaces are `ch-1`, `ch-2` and so on."""

    kind: Literal["chimney", "column", "planter"] = must("What it is.")
    sides: list[Measured] = must("Two lengths are all four sides; three are a box against a wall. Side 1 is its front.")
    height: Measured = must("To the top of the plaster; on a roof, on the side that looks down it.")
    cap: CapEntry = must(CAP_SAYS)
    roof: Annotated[AsText | AsTable[RoofDocument], OrTable] = key(
        "The pitch of the roof it comes out of, `6 in 12`, or a table."
    )
    base_edge: Literal["grade", "base", "roof line", "floor line"] = key(
        "What its lower edges are; grade unless you say, roof lines on a roof."
    )
    left: EndEntry = key("Of three sides, what the left one ends at; an inside corner unless you say.")
    right: EndEntry = key("Of three sides, what the right one ends at.")
    openings: dict[str, list[OpeningEntry]] = key("By number of the side.")
    count: int = key("How many equal ones there are; 1 unless you say.")


def read(root: Part, draft: Draft) -> None:
    """Read every [[box]] and make its surfaces."""
    for part in root.parts("box"):
        _read(part, draft)


def _read(part: Part, draft: Draft) -> None:
    plan = read_shape(part, draft)
    plan.place = part.word("kind")
    sides = part.lengths("sides")
    height = part.length("height", positive=True)
    cap = read_cap(part)
    roof, readable = _roof(part)
    base: EdgeKind = part.word("base_edge") or "grade"
    count = part.count("count", 1, most=1000)
    if roof is not None and not part.said("foot"):
        part.assume("job.assumed-foot", plan.id)
    if roof is None and readable and not part.said("base_edge"):
        part.assume("job.assumed-base-edge", plan.id)
    left, right = (
        read_plain_end(part, side, plan.id, AGAINST) if len(sides) == SIDES - 1 else _none(part, side)
        for side in ("left", "right")
    )
    openings = _openings(part, plan.id)
    ids = [*(f"{plan.id}-{n}" for n in range(1, SIDES + 1)), f"{plan.id}-top"]

    ways = {"sides": ("sides",), "cap": ("cap",), "roof": ("roof",)}
    make = None
    lengths = [side for side in sides if side is not None]
    readable &= part.has("sides") and len(lengths) == len(sides)
    if part.has("sides"):  # said even where something else cannot be read
        part.attempt((), lambda: check_sides(len(sides)))
    if 2 <= len(sides) <= 3 and height and cap and left and right and readable:
        make = partial(
            box, plan.id, plan.name, lengths, height, cap, roof=roof, base=base, openings=openings,
            zones=(plan.rest(),), left=left, right=right, facing=plan.facing, foot=plan.foot or Fraction(0),
            count=count,
        )  # fmt: skip
    finish_shape(draft, plan, make, ways, ids)


def _none(part: Part, side: str) -> measure.WallSide:
    """A box with four sides has no ends."""
    if part.said(side):
        part.fault(side, "job.not-here", side, "sides = [..., ..., ...]")
    return AGAINST


def _roof(part: Part) -> tuple[Roof | None, bool]:
    """The roof, and whether it could be read."""
    if not part.has("roof"):
        return None, not part.said("roof")
    inner = part.part("roof")
    if inner is None:
        text = part.text("roof")
        pitch = part.attempt(("roof",), lambda: measure.pitch(text or " "))
        return (None, False) if pitch is None else (Roof(pitch), True)
    text = inner.text("pitch")
    pitch = inner.attempt(("pitch",), lambda: measure.pitch(text or " ")) if inner.has("pitch") else None
    down = inner.count("down", 1, most=SIDES)
    return (None, False) if pitch is None else (Roof(pitch, down, inner.flag("ridge")), True)


def _openings(part: Part, id: str) -> dict[int, tuple[Opening, ...]]:
    found: dict[int, tuple[Opening, ...]] = {}
    inner = part.part("openings")
    if inner is None:
        return found
    for name in inner.names():
        openings = read_openings(inner, name, f"{id}-{name}")
        if name in ("1", "2", "3", "4"):
            found[int(name)] = openings
        else:
            inner.fault(name, "job.no-such-wall", name, f"1 to {SIDES}")
    return found
