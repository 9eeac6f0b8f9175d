"""Invented walls to draw."""

from __future__ import annotations

from fractions import Fraction

from darby.measure.surface import Corner, Edge, EdgeKind, Meets, Opening, Surface, Zone
from darby.measure.units import FT, IN


def ft(feet: float | Fraction, inches: float | Fraction = 0) -> Fraction:
    return Fraction(feet) * FT + Fraction(inches) * IN


def ring(prefix: str, *corners: tuple[Fraction, Fraction] | tuple[Fraction, Fraction, float]) -> tuple[Corner, ...]:
    return tuple(Corner(f"{prefix}-{i + 1}", c[0], c[1], *c[2:]) for i, c in enumerate(corners))


def box(prefix: str, left: Fraction, low: Fraction, wide: Fraction, high: Fraction) -> tuple[Corner, ...]:
    return ring(prefix, (left, low), (left + wide, low), (left + wide, low + high), (left, low + high))


def edges(outline: tuple[Corner, ...], *kinds: EdgeKind | tuple[EdgeKind, Meets]) -> tuple[Edge, ...]:
    made = []
    for i, (corner, kind) in enumerate(zip(outline, kinds, strict=True)):
        name, meets = (kind, None) if isinstance(kind, str) else kind
        made.append(Edge(f"edge-{i + 1}", name, corner.id, meets=meets))
    return tuple(made)


def bay_south() -> Surface:
    """24 ft of block with a gable, a small door, a big door, an old office at the left."""
    outline = ring(
        "c", (ft(0), ft(0)), (ft(24), ft(0)), (ft(24), ft(12)), (ft(12), ft(15)), (ft(0), ft(12)), (ft(0), ft(9, 4))
    )
    old = Meets("old plaster", ft(0, Fraction(7, 8)), ft(0, Fraction(7, 8)))
    return Surface(
        "bay-south", "Engine bay, south wall", outline,
        edges(outline, "grade", "outside corner", "roof line", "roof line", "outside corner", ("meets old work", old)),
        openings=(
            Opening("door", "door 3068", box("d", ft(1, 8), ft(0), ft(3), ft(6, 8)), ft(0, 4)),
            Opening("engine-door", "engine door", box("e", ft(9), ft(0), ft(12), ft(10)), ft(0, 4)),
        ),
        zones=(
            Zone("field", "block"),
            Zone("hollow", "lath over block", box("h", ft(4, 8), ft(0), ft(4, 4), ft(8, 6))),
        ),
        facing=180.0,
    )  # fmt: skip


def crew_room() -> Surface:
    """14 ft of frame under a soffit, one window with an arched head, old work at the right the whole way up."""
    outline = ring("c", (ft(0), ft(0)), (ft(14), ft(0)), (ft(14), ft(8)), (ft(0), ft(8)))
    arched = ring("w", (ft(5), ft(3)), (ft(8), ft(3)), (ft(8), ft(6), 0.5), (ft(5), ft(6)))
    return Surface(
        "crew-1", "Crew room, west wall", outline,
        edges(outline, "grade", ("meets old work", Meets("old plaster")), "soffit", "outside corner"),
        openings=(Opening("window", "window", arched, ft(0, 2)),),
        zones=(Zone("all", "frame"),),
        facing=270.0,
    )  # fmt: skip


def parapet() -> Surface:
    """45 ft by 2 ft of block on a roof."""
    outline = box("c", ft(0), ft(0), ft(45), ft(2))
    return Surface(
        "parapet", "Roof parapet", outline, edges(outline, "roof line", "outside corner", "drip", "outside corner"),
        zones=(Zone("all", "block"),), foot=ft(12), facing=180.0,
    )  # fmt: skip


def garden_wall() -> Surface:
    """60 ft by 6 ft of block."""
    outline = box("c", ft(0), ft(0), ft(60), ft(6))
    return Surface("wall", "Garden wall", outline, edges(outline, "grade", "outside corner", "top", "outside corner"),
                   zones=(Zone("all", "block"),))  # fmt: skip
