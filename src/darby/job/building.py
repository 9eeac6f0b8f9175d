"""From what was read of walls and houses to surfaces: corners matched, shapes drawn, geometry checked."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.model import Base
from darby.job.part import Part
from darby.job.places import Loc, nearest
from darby.job.sections.ends import End
from darby.job.sections.plans import HousePlan, Plan, ShapePlan, WallPlan
from darby.measure.checks import faults_of
from darby.measure.faults import Unreadable
from darby.measure.outlined import outlined
from darby.measure.shapes import WallSide, corner_line, house, wall
from darby.measure.surface import Surface
from darby.measure.writing import Style

OTHER = {"left": "right", "right": "left"}
"""Seen from outside, the right end of a wall meets the left end of the next."""

_T = TypeVar("_T")


def build(draft: Draft) -> tuple[tuple[Surface, ...], tuple[Base, ...]]:
    """Surfaces and bases of every plan that could be read; faults of the others, and of geometry, are kept."""
    free = _free_ends(draft.walls)
    _name_no_strangers(draft, free)
    sides = {surface: {side: _side(draft, free, surface, side) for side in ends} for surface, ends in free.items()}
    surfaces: list[Surface] = []
    bases: list[Base] = []
    for plan in draft.walls:
        if isinstance(plan, ShapePlan):
            made = _checked(draft, plan.part, list(plan.surfaces))
        else:
            made = _wall(draft, plan, sides) if isinstance(plan, WallPlan) else _house(draft, plan, sides)
        surfaces += made
        for surface in made:
            own = plan.base(surface.id)
            bases += [base for base in (own, *getattr(plan, "bases", ())) if base is not None]
    return tuple(surfaces), tuple(bases)


# --- ends that meet --------------------------------------------------------------------------------

Ends = dict[str, dict[str, End | None]]
Sides = dict[str, dict[str, WallSide | None]]


def _free_ends(plans: Sequence[Plan]) -> Ends:
    """The ends that a wall has of its own; the corners within a house are not among them."""
    free: Ends = {}
    for plan in plans:
        if not plan.id:
            continue
        if isinstance(plan, WallPlan):
            free[plan.id] = dict(plan.ends)
        elif isinstance(plan, HousePlan) and not plan.closed and plan.walls:
            ids = plan.surfaces()
            free.setdefault(ids[0], {})["left"] = plan.ends.get("left")
            free.setdefault(ids[-1], {})["right"] = plan.ends.get("right")
    return free


def _name_no_strangers(draft: Draft, free: Ends) -> None:
    """An end that names a wall that is not there is a fault, and is not judged further."""
    for surface, ends in free.items():
        for end in ends.values():
            if end is None or not end.other or (end.other in draft.zones and end.other != surface):
                continue
            ids = [name for name in draft.zones if name != surface]
            way = (*end.loc, "with")
            draft.reading.fault(way, "job.no-such-surface", end.other, ", ".join(ids), nearest(end.other, ids))
            end.other, end.readable = None, False


def _side(draft: Draft, free: Ends, surface: str, side: str) -> WallSide | None:
    """What the end becomes; None if nobody said (another wall's ``with`` may still say)."""
    end = free[surface][side]
    if end is None:
        return None
    shared = _shared(draft, free, surface, side, end) if end.other else None
    return WallSide(end.kind, shared, end.meets, end.up_to, end.above)


def _shared(draft: Draft, free: Ends, surface: str, side: str, end: End) -> str | None:
    """The corner line with the wall it names; that wall must have the other side of the corner, or leave it open."""
    other = str(end.other)
    across = OTHER[side]
    there = free.get(other, {})
    if across in there and (there[across] is None):
        there[across] = End(end.loc, end.kind, surface)
    met = there.get(across)
    if met is None or (met.readable and (met.other != surface or met.kind != end.kind)):
        wanted = f'{other}: {across} = {{ kind = "{end.kind}", with = "{surface}" }}'
        draft.reading.fault((*end.loc, "with"), "job.no-matching-edge", other, wanted)
        return None
    return corner_line(surface, other)


# --- shapes ------------------------------------------------------------------------------------------


def _wall(draft: Draft, plan: WallPlan, sides: Sides) -> list[Surface]:
    if plan.length is None or plan.height is None or plan.foot is None or plan.gable is None or plan.outline is None:
        return []
    length, height, foot, gable = plan.length, plan.height, plan.foot, plan.gable
    ends = {side: _said(plan, side, sides.get(plan.id, {}).get(side), "outside corner") for side in OTHER}
    more: dict[str, Any] = {
        "left": ends["left"],
        "right": ends["right"],
        "base": plan.base_edge,
        "top": plan.top,
        "openings": plan.openings,
        "zones": (*plan.zones, plan.rest()),
        "facing": plan.facing,
        "tilt": plan.tilt if plan.tilt is not None else 90.0,
        "foot": foot,
        "count": plan.count,
    }
    if plan.outline:
        corners = plan.outline
        made = _attempt(plan.part, lambda: outlined(plan.id, plan.name, corners, **more))
    else:
        made = _attempt(plan.part, lambda: wall(plan.id, plan.name, length, height, gable=gable, **more))
    return [] if made is None else _checked(draft, plan.part, [made])


def _house(draft: Draft, plan: Plan, sides: Sides) -> list[Surface]:
    assert isinstance(plan, HousePlan)
    walls = [length for length in plan.walls if length is not None]
    if not walls or len(walls) < len(plan.walls) or plan.height is None or plan.foot is None:
        return []
    height, foot = plan.height, plan.foot
    ids = plan.surfaces()
    open_ends = {"left": ids[0], "right": ids[-1]} if ids and not plan.closed else {}
    ends = {
        side: _said(plan, side, sides.get(surface, {}).get(side), "inside corner")
        for side, surface in open_ends.items()
    }
    made = _attempt(
        plan.part,
        lambda: house(
            plan.id,
            plan.name,
            walls,
            height,
            closed=plan.closed,
            facing=plan.facing,
            turns=plan.turns,
            gables=plan.gables,
            openings=plan.openings,
            zones=(plan.rest(),),
            left=ends.get("left", WallSide("inside corner")),
            right=ends.get("right", WallSide("inside corner")),
            base=plan.base_edge,  # type: ignore[arg-type]
            top=plan.top,  # type: ignore[arg-type]
            foot=foot,
        ),
    )
    return [] if made is None else _checked(draft, plan.part, list(made))


def _said(plan: Plan, side: str, said: WallSide | None, otherwise: str) -> WallSide:
    """The end as it is said, or as it is assumed."""
    if said is not None:
        return said
    at = plan.id
    if isinstance(plan, HousePlan):
        at = plan.surfaces()[0 if side == "left" else -1]
    if not plan.part.said(side):
        plan.part.assume(f"job.assumed-{otherwise.replace(' ', '-')}", f"{at}/{side}")
    return WallSide(otherwise)  # type: ignore[arg-type]


WAYS = {"turns": "corners", "left": "left", "right": "right"}
"""What measure calls a part of a shape, and the key of the document that says it."""


def _attempt(part: Part, do: Callable[[], _T]) -> _T | None:
    try:
        return do()
    except Unreadable as unreadable:
        fault = unreadable.fault
        way: Loc = (WAYS[fault.place],) if fault.place in WAYS else ()
        if way in (("left",), ("right",)):
            way = (*way, "up_to")
        part.fault_at(way, fault.code, fault.found, fault.allowed, fault.nearest)
        return None


APART = {
    "measure.openings-overlap": ok.OPENINGS_APART,
    "measure.zones-overlap": ok.ZONES_APART,
    "measure.outline-crosses": ok.CORNERS_IN_ORDER,
    "measure.no-area": ok.AN_AREA,
}
"""What is allowed where measure has no figure to offer."""


def _checked(draft: Draft, part: Part, surfaces: list[Surface]) -> list[Surface]:
    """The surfaces; what is wrong with their geometry is said where it was written."""
    style: Style = "mm" if draft.firm.system == "metric" else "ft-in"
    for surface in surfaces:
        for fault in faults_of(surface, style):
            way = draft.reading.ways.get((surface.id, fault.place), part.loc)
            draft.reading.fault(way, fault.code, fault.found, fault.allowed or APART[fault.code], fault.nearest)
    return surfaces
