"""[[patch]]: how far old plaster is cut back round an opening, and what the patch joins.

Faults: ``condition.not-a-patch`` (the surface is no [[ring]]), ``condition.no-side`` (a side where the patch does not
run), ``condition.off-wall-side`` (hollow, or a line, farther from the frame than the wall goes on).
"""

from __future__ import annotations

from darby import measure
from darby.job import allowed as ok
from darby.job.condition import OldWork, Patch
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.part import Part
from darby.measure.amounts import lengths_by
from darby.measure.solids import ROUND
from darby.measure.surface import Length, Side
from darby.measure.writing import write

Sides = tuple[tuple[Side, Length], ...]


class SidesDocument(Document):
    """A length for each side of the opening."""

    head: Measured = key("Over it.")
    sill: Measured = key("Under it.")
    left: Measured = key("Left of it, seen from outside.")
    right: Measured = key("Right of it.")


class PatchDocument(Document):
    """[[patch]]: one patch round an opening."""

    surface: str = must("The `id` of its [[ring]].")
    hollow: SidesDocument = key("How far from the frame it sounds hollow, on each side where it does.")
    lines: SidesDocument = key("How far from the frame a line runs that hides the seam: trim, a band, a corner.")
    flange: Measured = key("How wide the nailing flange of the new window or door is.")
    old: OldWork = key("Whether a nail scratches the old plaster easily: then it is soft.")
    cut: Measured = key("How much one person cuts back in an hour: `6 sq ft/h`.")


def read(root: Part, draft: Draft) -> None:
    """Read [[patch]] into the draft. What its [[ring]] says of the opening and the wall is read there."""
    rings = {part.raw.get("id"): part for part in root.parts("ring")}
    found: list[Patch] = []
    seen: set[str] = set()
    for part in root.parts("patch"):
        name = draft.surface_named(part, "surface")
        ring = rings.get(name)
        if name is not None and ring is None:
            part.fault("surface", "condition.not-a-patch", name, ", ".join(str(id) for id in rings) or "[[ring]]")
        if name is not None and name in seen:
            part.fault("surface", "job.twice", name, ok.ONCE)
            ring = None
        hollow, lines = _sides(part, "hollow"), _sides(part, "lines")
        flange, cut = part.length("flange", positive=True), part.rate("cut", length=False)
        old: OldWork | None = part.word("old")
        if ring is None or name is None:
            continue
        seen.add(name)
        width = ring.length("width", positive=True)
        sides: tuple[Side, ...] = ring.words("sides") if ring.has("sides") else ROUND  # type: ignore[assignment]
        room = _room(ring)
        _fits(part, "hollow", hollow, sides, room)
        _fits(part, "lines", lines, sides, room)
        if width is not None:
            found.append(Patch(name, width, tuple(sides), hollow, lines, room, flange, old, cut))
    draft.put(patches=tuple(found))


def _sides(part: Part, name: str) -> Sides:
    inner = part.part(name)
    if inner is None:
        return ()
    read = [(side, inner.length(side, positive=True)) for side in ROUND]
    return tuple((side, length) for side, length in read if length is not None)


def _room(ring: Part) -> Sides:
    """How far the wall goes on past each side of the frame, as far as its [[ring]] says."""
    size = _by(ring, "size", opening=True)
    wall = _by(ring, "wall", opening=False) if ring.has("wall") else None
    at, up = ring.length("at"), ring.length("up")
    room: dict[Side, Length] = {}
    if at is not None:
        room["left"] = at
    if up is not None:
        room["sill"] = up
    if wall is not None and size is not None:
        if at is not None:
            room["right"] = wall[0] - at - size[0]
        if up is not None:
            room["head"] = wall[1] - up - size[1]
    return tuple(room.items())


def _by(part: Part, name: str, *, opening: bool) -> tuple[Length, Length] | None:
    """Two lengths with an x between; what cannot be read is a fault of [[ring]] already."""
    text, units = part.raw.get(name), part.units
    read = measure.opening_size if opening else lengths_by
    found = part.attempt((name,), lambda: read(text, units), text) if isinstance(text, str) else None
    return (found[0], found[1]) if found is not None and len(found) == 2 else None


def _fits(part: Part, name: str, said: Sides, sides: tuple[Side, ...], room: Sides) -> None:
    """Every side is one of the patch, and the wall goes on so far there."""
    there = dict(room)
    for side, length in said:
        if side not in sides:
            part.fault_at((name, side), "condition.no-side", side, ", ".join(sides))
        elif side in there and length > there[side]:
            part.fault_at((name, side), "condition.off-wall-side", write(length), f"≤ {write(there[side])}")
