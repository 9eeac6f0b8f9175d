"""[[garden_wall]]: a free-standing wall as one shape: both faces, ends, pilasters, top."""

from __future__ import annotations

from functools import partial
from typing import Literal

from quicktions import Fraction

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
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
    stands,
)
from darby.measure.garden import FACES, Pilasters, garden_wall, spans_of
from darby.measure.shapes import FREE_END
from darby.measure.surface import Length, Opening

NOUGHT = Fraction(0)
MOST_PILASTERS = 500
PARTS = ("front", "back", "left", "right", "front-returns", "back-returns", "top", "top-front", "top-back")
"""What its surfaces may be called, after its own name."""


class PilastersDocument(Document):
    """pilasters: equal ones, seen from the front."""

    at: list[Measured] = key("Where their centers are, each from the wall's left end.")
    every: Measured = key("Or how far apart they are: the first so far from the left end, then on.")
    width: Measured = must("How wide one is.")
    out: Measured = must("How far it stands out of the face.")
    faces: Literal["both", "front", "back"] = key("On which faces; both unless you say.")


class GardenWallDocument(ShapeFields):
    """[[garden_wall]]: a free-standing wall; its surfaces are `gw-front`, `gw-back`, `gw-left` and so on."""

    length: Measured = must("From end to end.")
    height: Measured = must("From the base to the top of the plaster, where it is lowest.")
    thick: Measured = must("How thick the bare wall is: `8 in`.")
    cap: CapEntry = must(CAP_SAYS)
    faces: int = key("How many faces are plastered, 1 or 2; 2 unless you say.")
    pilasters: PilastersDocument = key('`{ every = "10\'", width = "16 in", out = "4 in" }`.')
    left: EndEntry = key("Its left end, seen from the front; a free end, plastered, unless you say.")
    right: EndEntry = key("Its right end.")
    openings: list[OpeningEntry] = key("Openings through it, as the front shows them.")
    retains: Measured = key("How high earth stands against its back.")


def read(root: Part, draft: Draft) -> None:
    """Read every [[garden_wall]] and make its surfaces."""
    for part in root.parts("garden_wall"):
        _read(part, draft)


def _read(part: Part, draft: Draft) -> None:
    plan = read_shape(part, draft)
    plan.place = "garden wall"
    length, height, thick = (part.length(name, positive=True) for name in ("length", "height", "thick"))
    faces = part.count("faces", 2, most=2)
    cap = read_cap(part)
    plan.retains = part.length("retains", positive=True)
    left, right = (
        read_plain_end(part, side, plan.id, FREE_END, "job.assumed-outside-corner") for side in ("left", "right")
    )
    openings = _openings(part, plan.id, thick, faces)
    readable, pilasters = _pilasters(part, length)
    ids = [f"{plan.id}-{name}" for name in PARTS]
    ways = {"pilasters": ("pilasters",), "cap": ("cap",), "retains": ("retains",)}
    if pilasters is not None and length is not None:  # said even where something else cannot be read
        spans = partial(spans_of, pilasters, length, openings)
        readable = stands(draft, plan, ways, ids[0], spans) is not None

    make = None
    if length and height and thick and cap and left and right and readable:
        make = partial(
            garden_wall, plan.id, plan.name, length, height, thick, cap, faces=faces, pilasters=pilasters, left=left,
            right=right, openings=openings, zones=(plan.rest(),), facing=plan.facing, foot=plan.foot or NOUGHT,
            retains=plan.retains or NOUGHT,
        )  # fmt: skip
    finish_shape(draft, plan, make, ways, ids)


def _openings(part: Part, id: str, thick: Length | None, faces: int) -> tuple[Opening, ...]:
    """Openings of both faces. A reveal nobody measured is as deep as the wall, half of it on each face."""
    deep = thick and thick / faces
    openings = read_openings(part, "openings", f"{id}-front", deep)
    ways = part.reading.ways
    for opening in openings:
        place = f'opening "{opening.id}"'
        ways[f"{id}-back", place] = ways[f"{id}-front", place]
    return openings


def _pilasters(part: Part, length: Length | None) -> tuple[bool, Pilasters | None]:
    """The pilasters, and whether they could be read."""
    inner = part.part("pilasters")
    if inner is None:
        return not part.said("pilasters"), None
    width, out = inner.length("width", positive=True), inner.length("out", positive=True)
    on = frozenset(FACES) if inner.word("faces") in (None, "both") else frozenset({inner.word("faces")})
    if inner.said("at") == inner.said("every"):
        found = "at, every" if inner.said("at") else ""
        inner.fault(None, "job.at-or-every", found, ok.AT_OR_EVERY)
        return False, None
    centres = inner.lengths("at") if inner.has("at") else _evenly(inner, length)
    if len(centres) > MOST_PILASTERS:
        inner.fault("at", "job.out-of-span", len(centres), f"1 to {MOST_PILASTERS} pilasters")
        return False, None
    read = [centre for centre in centres if centre is not None]
    if width is None or out is None or length is None or len(read) < len(centres) or not read:
        if inner.has("at") and not centres:
            inner.fault("at", "job.out-of-span", 0, f"1 to {MOST_PILASTERS} pilasters")
        return False, None
    return True, Pilasters(tuple(read), width, out, on)


def _evenly(inner: Part, length: Length | None) -> list[Length | None]:
    every = inner.length("every", positive=True)
    if every is None or length is None:
        return []
    count = -(-length // every) - 1  # the last one stands short of the end
    if not 1 <= count <= MOST_PILASTERS:
        inner.fault("every", "job.out-of-span", count, f"1 to {MOST_PILASTERS} pilasters")
        return []
    return [every * n for n in range(1, count + 1)]
