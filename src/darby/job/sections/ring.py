"""[[ring]]: the patch round an opening, where old plaster was cut back."""

from __future__ import annotations

from functools import partial
from typing import Literal

from quicktions import Fraction

from darby import measure
from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Measured, key, must
from darby.job.part import Part
from darby.job.sections.openings import ROUND
from darby.job.sections.shapes import ShapeFields, finish_shape, read_shape
from darby.measure.amounts import lengths_by
from darby.measure.solids import ROUND as ALL
from darby.measure.solids import ring
from darby.measure.surface import EdgeKind, Length, Meets, Side


class RingDocument(ShapeFields):
    """[[ring]]: the patch round an opening; one surface, called by its `id`."""

    size: Measured = must("The opening in it: `3040`, or width by height: `3' x 4'`.")
    width: Measured = must("How wide the patch is, all round.")
    sides: list[Literal["head", "sill", "left", "right"]] = key("Where it runs; all round unless you say.")
    kind: Literal["door", "window", "vent", "opening"] = key("What the opening is; a window unless you say.")
    replaced: bool = key("Whether the window or door in it is taken out.")
    wall: Measured = key("The wall it is in, length by height: `20' x 9'`; the patch has to fit.")
    at: Measured = key("From the wall's left end to the opening.")
    up: Measured = key("From the wall's base to the opening's sill.")
    base_edge: Literal["grade", "base", "floor line"] = key("What it stands on, where it does not run under the sill.")
    thickness: Measured = key("Thickness of the old plaster round it.")
    proud: Measured = key("How far the old face stands out past your bare base.")
    reveal: Measured = key("How deep the opening is, from the face of the wall to the frame.")
    plaster: list[Literal["head", "sill", "left", "right"]] = key("Which reveals are plastered.")
    count: int = key("How many equal ones there are; 1 unless you say.")


def read(root: Part, draft: Draft) -> None:
    """Read every [[ring]] and make its surface."""
    for part in root.parts("ring"):
        _read(part, draft)


def _read(part: Part, draft: Draft) -> None:
    plan = read_shape(part, draft)
    plan.place, plan.replaced = "patch", part.flag("replaced")
    size = _by(part, "size", opening=True)
    within = _by(part, "wall", opening=False)
    width = part.length("width", positive=True)
    at, up = part.length("at"), part.length("up")
    sides: tuple[Side, ...] = part.words("sides") if part.has("sides") else ALL  # type: ignore[assignment]
    kind = part.word("kind") or "window"
    old = Meets("old plaster", part.length("thickness", positive=True), part.length("proud"))
    if old.proud is None and not part.said("proud"):
        part.assume("job.assumed-proud", plan.id)
    reveal, plastered = _reveal(part, plan.id)
    count = part.count("count", 1, most=1000)
    base: EdgeKind = part.word("base_edge") or "base"

    make = None
    readable = all(not part.said(name) or part.has(name) for name in ("wall", "at", "up", "sides"))
    if size and width and readable and (within or not part.has("wall")):
        wall = within or (None, None)
        make = partial(
            ring, plan.id, plan.name, *size, width, sides=sides, meets=old, at=at, up=up, wall_length=wall[0],
            wall_height=wall[1], base=base, opening_id=f"{kind}-1", opening_name=kind, reveal=reveal,
            plastered=plastered, zones=(plan.rest(),), facing=plan.facing, foot=plan.foot or Fraction(0), count=count,
        )  # fmt: skip
    finish_shape(draft, plan, make, {"width": ("width",), "sides": ("sides",)}, [plan.id])


def _by(part: Part, name: str, *, opening: bool) -> tuple[Length, Length] | None:
    """Two lengths with an x between; None if they are not there, or cannot be read."""
    if not part.has(name):
        return None
    text, units = part.raw[name], part.units
    read = measure.opening_size if opening else lengths_by
    found = part.attempt((name,), lambda: read(text, units), text)
    if found is None:
        return None
    if len(found) != 2 or min(found) <= 0:
        part.fault(name, "measure.opening-size", text, "20' x 9'")
        return None
    return found[0], found[1]


def _reveal(part: Part, id: str) -> tuple[Length, tuple[Side, ...]]:
    """How deep the reveals are, and which are plastered."""
    reveal = part.length("reveal")
    if part.has("plaster"):
        sides = part.words("plaster")
        if sides and not reveal:
            part.fault("plaster", "job.needs-key", ", ".join(sides), ok.WITH_REVEAL)
        return reveal or Fraction(0), sides  # type: ignore[return-value]
    if not part.said("reveal"):
        part.assume("job.assumed-no-reveal", id)
    elif reveal:
        part.assume("job.assumed-plastered-reveals", id)
    return reveal or Fraction(0), ROUND if reveal else ()
