"""[[strip]]: a soffit, a band, the face of a foundation."""

from __future__ import annotations

from functools import partial
from typing import Literal

from quicktions import Fraction

from darby.job.draft import Draft
from darby.job.fields import Measured, key, must
from darby.job.part import Part
from darby.job.sections.ends import EndEntry
from darby.job.sections.openings import OpeningEntry, read_openings
from darby.job.sections.shapes import ShapeFields, finish_shape, read_plain_end, read_shape
from darby.job.sections.wall import read_angle
from darby.measure.shapes import AGAINST
from darby.measure.solids import StripKind, strip

LongEdge = Literal[
    "inside corner", "outside corner", "drip", "flashing", "soffit", "grade", "base", "floor line", "top"
]


class StripDocument(ShapeFields):
    """[[strip]]: a soffit, a band, the face of a foundation; one surface, called by its `id`."""

    kind: StripKind = must("What it is.")
    length: Measured = must("Along it.")
    width: Measured = must("Across it: of a soffit from the wall out, else from below up.")
    inner: LongEdge = key("Its edge at the wall, or its lower one: as such a strip usually ends, unless you say.")
    outer: LongEdge = key("Its edge away from the wall, or its upper one.")
    tilt: Measured = key("`180 deg` is level and seen from below, as a soffit is unless you say; `90 deg` is upright.")
    left: EndEntry = key("Its left end as you look at it; an inside corner unless you say.")
    right: EndEntry = key("Its right end.")
    openings: list[OpeningEntry] = key("Vents and the like.")
    count: int = key("How many equal ones there are; 1 unless you say.")
    retains: Measured = key("Of a foundation, how high earth stands behind it.")


def read(root: Part, draft: Draft) -> None:
    """Read every [[strip]] and make its surface."""
    for part in root.parts("strip"):
        _read(part, draft)


def _read(part: Part, draft: Draft) -> None:
    plan = read_shape(part, draft)
    kind: StripKind | None = part.word("kind")
    plan.place = kind
    plan.retains = part.length("retains", positive=True)
    length, width = part.length("length", positive=True), part.length("width", positive=True)
    tilt = read_angle(part, "tilt", None, most=180) if part.has("tilt") else None
    if kind == "soffit" and not part.said("foot"):
        part.assume("job.assumed-soffit-foot", plan.id)
    left, right = (read_plain_end(part, side, plan.id, AGAINST, "job.assumed-strip-end") for side in ("left", "right"))
    openings = read_openings(part, "openings", plan.id)
    count = part.count("count", 1, most=1000)

    make = None
    if length and width and kind and left and right:
        make = partial(
            strip, plan.id, plan.name, length, width, kind, inner=part.word("inner"), outer=part.word("outer"),
            left=left, right=right, openings=openings, zones=(plan.rest(),), facing=plan.facing, tilt=tilt,
            foot=plan.foot or Fraction(0), count=count,
        )  # fmt: skip
    finish_shape(draft, plan, make, {}, [plan.id])
