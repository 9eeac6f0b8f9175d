"""[[wall]]: one wall as it was measured, seen from outside."""

from __future__ import annotations

import re
from typing import Literal

from quicktions import Fraction

from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.part import Part
from darby.job.places import nearest
from darby.job.sections.bases import BaseFields, ZoneDocument, note_unsaid, read_base, read_points, read_zones
from darby.job.sections.ends import EndEntry, read_end
from darby.job.sections.openings import OpeningEntry, read_openings
from darby.job.sections.plans import Plan, WallPlan
from darby.measure.shapes import Point
from darby.measure.writing import write

FootKind = Literal["grade", "base", "roof line", "floor line"]
TopKind = Literal["top", "soffit", "drip", "roof line", "floor line"]

COMPASS = {
    "north": 0, "north-east": 45, "east": 90, "south-east": 135, "south": 180, "south-west": 225, "west": 270,
    "north-west": 315,
}  # fmt: skip
"""Degrees from north, clockwise."""

NOUGHT = Fraction(0)
_DEGREES = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,3})?)\s*(?:deg(?:rees)?|°)")


class StandingFields(Document):
    """The keys that a wall and a house share."""

    id: str = must("Its short name; everything else calls it by this.")
    name: str = key("What it is called on papers.")
    height: Measured = must("From the base to the top of the plaster.")
    facing: Measured = key("Where it looks: south, north-west, `190 deg`. Of a house, the first wall.")
    foot: Measured = key("How high its base is above the ground you stand on; 0 unless you say.")
    base_edge: FootKind = key("What its lower edge is; grade unless you say.")
    top: TopKind = key("What its upper edge is; covered (soffit, frieze or cap), with no bead, unless you say.")
    above_earth: Measured = key("How far the foot of a framed wall clears the earth.")
    above_paving: Measured = key("How far it clears paving.")
    sprinklers: bool = key("Whether lawn sprinklers wet it.")
    left: EndEntry = key("Its left end, seen from outside; of a house with an open end, the first wall's.")
    right: EndEntry = key("Its right end; of a house with an open end, the last wall's.")


class WallDocument(BaseFields, StandingFields):
    """[[wall]]: one wall, seen from outside."""

    length: Measured = must("From end to end.")
    gable: Measured = key("How high a gable peaks above `height`, in the middle.")
    outline: list[str] = key(
        "Its corners in order, where it is no rectangle with a gable in its middle: from the left end, up from the "
        "base: `4', 2'`. They reach from end to end, and as high as `height`."
    )
    tilt: Measured = key("`90 deg` is upright, as unless you say; `180 deg` a soffit.")
    openings: list[OpeningEntry] = key("Doors, windows and the rest, as lines or tables.")
    zone: list[ZoneDocument] = key("Parts of it that have another base.")
    count: int = key("How many equal ones there are; 1 unless you say.")
    place: Literal["parapet", "foundation"] = key("What part of the building it is, where that matters.")
    retains: Measured = key("How high earth stands behind it.")


def read(root: Part, draft: Draft) -> None:
    """Read every [[wall]] into a plan; surfaces are made once all walls are known."""
    for part in root.parts("wall"):
        id = part.id("id", draft.ids)
        made = read_base(part)
        plan = WallPlan(part, id, part.text("name") or id)
        plan.length = part.length("length", positive=True)
        plan.height = part.length("height", positive=True)
        if part.said("gable"):
            plan.gable = part.length("gable", positive=True)
        if part.said("outline"):
            plan.outline = _outline(part, plan)
        plan.tilt = read_angle(part, "tilt", 90.0, most=180) if part.has("tilt") else 90.0
        plan.count = part.count("count", 1, most=1000)
        read_standing(part, plan, id)
        plan.openings = read_openings(part, "openings", id)
        plan.place, plan.retains = part.word("place"), part.length("retains", positive=True)
        plan.zones, bases, zone_ids = read_zones(part, id, made)
        plan.bases = [plan.placed(base) for base in bases]
        plan.made = made
        note_unsaid(part, id, made)
        if id:
            draft.zones[id] = zone_ids
        draft.walls.append(plan)


def _outline(part: Part, plan: WallPlan) -> list[Point] | None:
    """Its corners; they lie within length by height and touch all four sides of it. None if they cannot be used."""
    if part.said("gable"):
        part.fault("gable", "job.not-here", part.raw["gable"], "length, height")
    points = read_points(part, "outline")
    if points is None or plan.length is None or plan.height is None:
        return None
    reach = (min(u for u, _ in points), max(u for u, _ in points), min(v for _, v in points), max(v for _, v in points))
    if reach != (NOUGHT, plan.length, NOUGHT, plan.height):
        left, right, low, high = map(write, reach)
        wanted = f"at {write(NOUGHT)} … {write(plan.length)}, up {write(NOUGHT)} … {write(plan.height)}"
        part.fault("outline", "job.outline-reach", f"at {left} … {right}, up {low} … {high}", wanted)
        return None
    return points


def read_standing(part: Part, plan: Plan, id: str) -> None:
    """What a wall and a house have in common: where they stand, look and end."""
    plan.facing = read_facing(part, id)
    plan.foot = part.length("foot") if part.has("foot") else plan.foot
    plan.base_edge = part.word("base_edge") or "grade"
    plan.top = part.word("top") or "top"
    plan.sprinklers = part.flag("sprinklers")
    plan.above_earth, plan.above_paving = part.length("above_earth"), part.length("above_paving")
    plan.ends = {side: read_end(part, side, id) for side in ("left", "right")}
    for name in ("base_edge", "top"):
        if not part.said(name):
            part.assume(f"job.assumed-{name.replace('_', '-')}", id)
    if plan.base_edge == "roof line" and not part.said("foot"):
        part.assume("job.assumed-foot", id)


def read_facing(part: Part, id: str) -> float | None:
    """Degrees from north; None if it is not said, which is noted."""
    if not part.said("facing"):
        part.assume("job.unsaid-facing", id)
        return None
    value = part.raw.get("facing")
    if not isinstance(value, str):
        return read_angle(part, "facing", None, most=360) if part.has("facing") else None
    word = re.sub(r"[\s-]+", "", value.strip().lower())
    for name, degrees in COMPASS.items():
        plain = name.replace("-", "")
        if word in (plain, "".join(half[0] for half in name.split("-"))):
            return float(degrees)
    if value[:1].isdigit():
        return read_angle(part, "facing", None, most=360)
    part.fault("facing", "job.not-one-of", value, f"{', '.join(COMPASS)}, 190 deg", nearest(value, COMPASS))
    return None


def read_angle(part: Part, name: str, default: float | None, *, most: int) -> float | None:
    """Degrees, written with the word or the sign."""
    value = part.raw.get(name)
    if not isinstance(value, str):
        part.fault(name, "measure.no-unit", value, "190 deg" if most == 360 else "90 deg")
        return default
    match = _DEGREES.fullmatch(value.strip().lower())
    if not match:
        part.fault(name, "job.not-degrees", value, "190 deg" if most == 360 else "90 deg")
        return default
    degrees = float(match[1])
    if degrees > most:
        part.fault(name, "job.out-of-span", value, f"0 deg to {most} deg")
        return default
    return degrees % 360
