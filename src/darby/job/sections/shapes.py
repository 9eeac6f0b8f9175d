"""What garden walls, boxes, strips and rings share: where they stand, their ends, how their top is kept dry."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Annotated, Literal, TypeVar, get_args

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import AsTable, AsText, Document, Measured, OrTable, key, must
from darby.job.model import REST
from darby.job.part import Part
from darby.job.places import Loc
from darby.job.sections.bases import BaseFields, note_unsaid, read_base
from darby.job.sections.ends import read_end
from darby.job.sections.plans import ShapePlan
from darby.job.sections.wall import read_facing
from darby.measure.faults import Unreadable
from darby.measure.garden import Cap, CapKind
from darby.measure.shapes import WallSide
from darby.measure.surface import Surface

_T = TypeVar("_T")

CAPS: tuple[str, ...] = get_args(CapKind)
OPEN = ("flat", "none", "open", "level")
"""Tops that are refused: water stands on them and goes in behind the plaster."""
SLOPE = 'cap = { kind = "slope", fall = "1 in" }'


class ShapeFields(BaseFields):
    """The keys that garden walls, boxes, strips and rings share."""

    id: str = must("Its short name; its surfaces are called by it.")
    name: str = key("What it is called on papers.")
    facing: Measured = key("Where its front looks: south, north-west, `190 deg`.")
    foot: Measured = key("How high its base is above the ground you stand on; 0 unless you say.")
    sprinklers: bool = key("Whether lawn sprinklers wet it.")


class CapDocument(Document):
    """cap: a plastered top that slopes."""

    kind: str = must("drip, flashing, under or slope.")
    fall: Measured = key("How much a slope falls across it: `1 in`.")
    to: Literal["front", "back", "both"] = key("Where a slope falls to; the back unless you say.")


CapEntry = Annotated[AsText | AsTable[CapDocument], OrTable]
CAP_SAYS = (
    "How its top is kept dry: `drip` (a cap that overhangs), `flashing`, `under` (something stands on it), or "
    '`{ kind = "slope", fall = "1 in" }`. A flat top is refused.'
)


def read_shape(part: Part, draft: Draft) -> ShapePlan:
    """The shape's name, base, place and foot; its surfaces are made by whoever asked."""
    id = part.id("id", draft.ids)
    plan = ShapePlan(part, id, part.text("name") or id)
    plan.made = read_base(part)
    plan.facing = read_facing(part, id)
    plan.foot = part.length("foot") if part.has("foot") else plan.foot
    plan.sprinklers = part.flag("sprinklers")
    note_unsaid(part, id, plan.made)
    draft.walls.append(plan)
    return plan


def read_cap(part: Part) -> Cap | None:
    """How the top is kept dry; None if it cannot be read. A top that stands open is refused, with the reason."""
    if not part.has("cap"):
        return None
    inner = part.part("cap")
    kind = part.text("cap") if inner is None else inner.text("kind")
    at, way = (part, "cap") if inner is None else (inner, "kind")
    if kind.lower() in OPEN:
        at.fault(way, "job.flat-top", kind, f"drip, flashing, under, {SLOPE}")
        return None
    if kind not in CAPS:
        if inner is None or inner.has("kind"):
            at.unknown(way, "job.not-one-of", kind, CAPS)
        return None
    if kind != "slope":
        for name in ("fall", "to") if inner is not None else ():
            if inner is not None and inner.has(name):
                inner.fault(name, "job.not-here", inner.raw[name], 'kind = "slope"')
        return Cap(kind)  # type: ignore[arg-type]
    if inner is None or not inner.said("fall"):
        at.fault(None if inner is not None else "cap", "job.needs-key", kind, SLOPE)
        return None
    fall = inner.length("fall", positive=True)
    return None if fall is None else Cap("slope", fall, inner.word("to") or "back")


def read_plain_end(part: Part, side: str, id: str, otherwise: WallSide, code: str = "") -> WallSide | None:
    """An end of a shape: it meets old work, or stands free or against something, but shares no corner with a wall.

    ``otherwise`` is taken where nobody said, and noted by ``code``. None if it cannot be read.
    """
    end = read_end(part, side, id)
    if end is None:
        if code:
            part.assume(code, f"{id}/{side}")
        return otherwise
    inner = part.part(side)
    for name in ("with", "up_to"):
        if inner is not None and inner.has(name):
            inner.fault(name, "job.not-here", inner.raw[name], "[[wall]]")
            return None
    return WallSide(end.kind, None, end.meets) if end.readable else None


def stands(draft: Draft, plan: ShapePlan, ways: Mapping[str, Loc], first: str, do: Callable[[], _T]) -> _T | None:
    """Do it; what measure refuses is a fault at what says it in the document, and None.

    ``ways``: what measure calls a part of the shape, and the key that says it. ``first``: the surface its openings
    are written on.
    """
    try:
        return do()
    except Unreadable as unreadable:
        fault = unreadable.fault
        known = draft.reading.ways.get((first, fault.place))
        if known is not None:
            draft.reading.fault(known, fault.code, fault.found, fault.allowed, fault.nearest)
        else:
            plan.part.fault_at(ways.get(fault.place, ()), fault.code, fault.found, fault.allowed, fault.nearest)
        return None


def finish_shape(
    draft: Draft,
    plan: ShapePlan,
    make: Callable[[], Surface | tuple[Surface, ...]] | None,
    ways: Mapping[str, Loc],
    ids: Iterable[str],
) -> None:
    """Make the surfaces and name them; ``make`` is None where something could not be read.

    ``ids``: every name that surfaces of this shape may have, so that what speaks of them is not blamed for a shape
    that could not be made.
    """
    named = list(ids)
    if make is not None and plan.foot is not None:
        made = stands(draft, plan, ways, named[0], make)
        plan.surfaces = made if isinstance(made, tuple) else (made,) if made is not None else ()
    if not plan.id:
        return
    names = [surface.id for surface in plan.surfaces] or named
    if names != [plan.id]:
        draft.houses[plan.id] = names
    for name in names:
        if name in draft.zones:
            plan.part.fault("id", "job.twice", name, ok.ONCE)
        draft.zones[name] = [REST]
