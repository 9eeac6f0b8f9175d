"""Depth of every ground and corner: how far the face stands off the bare wall and off the string there."""

from __future__ import annotations

import numpy as np
import shapely

from darby.grounds.checks import Array
from darby.grounds.faces import Grid, Set
from darby.grounds.model import Ground, GroundsAsk
from darby.grounds.proof import PLACES
from darby.grounds.wall import Wall
from darby.measure.units import unit
from darby.measure.writing import HAIR, number, rounded
from darby.rulebook.model import Figure
from darby.working.model import Quantity, Working

IN = unit("in")


def grounds(ask: GroundsAsk, wall: Wall, face: Set, nodes: Grid, working: Working, key: str, limit: Figure | None,
            reach: float) -> tuple[Ground, ...]:  # fmt: skip
    """The crossings of the grid that lie on the wall, by row from the foot up: "2-1" is the second across, first up."""
    names = [f"{i}-{j}" for j, _ in enumerate(nodes.vs, 1) for i, _ in enumerate(nodes.us, 1)]
    points = nodes.nodes
    on = shapely.distance(shapely.points(points), wall.net) <= float(HAIR)
    kept = [name for name, here in zip(names, on, strict=True) if here]
    return _set(ask, wall, face, kept, points[on], working, f"{key}/ground", limit, reach)


def corners(ask: GroundsAsk, wall: Wall, face: Set, working: Working, key: str, limit: Figure | None,
            reach: float) -> tuple[Ground, ...]:  # fmt: skip
    """Corners of the outline and of the openings that lie on the wall: what beads are set to."""
    several = [(c.id, c) for c in ask.outline] + [(f"{o.id}/{c.id}", c) for o in ask.openings for c in o.outline]
    points = np.array([[float(c.u), float(c.v)] for _, c in several])
    on = shapely.distance(shapely.points(points), wall.net) <= float(HAIR)
    kept = [name for (name, _), here in zip(several, on, strict=True) if here]
    return _set(ask, wall, face, kept, points[on], working, f"{key}/corner", limit, reach)


def _set(ask: GroundsAsk, wall: Wall, face: Set, names: list[str], points: Array, working: Working, key: str,
         limit: Figure | None, reach: float) -> tuple[Ground, ...]:  # fmt: skip
    to = ask.book.number("grounds.to").number
    outs, bare = face.at(points), wall.at(points)
    which, shares = wall.folded.weights(points)
    near = shapely.distance(shapely.points(points), shapely.multipoints(wall.readings[:, :2])) <= reach + float(HAIR)
    finish = Quantity(ask.finish, IN)
    found = []
    for n, name in enumerate(names):
        own = f"{key}/{name}"
        said = _read(wall, which[n], shares[n])
        wall_there = working.found(f"{own}/wall", float(bare[n]), IN, "grounds.step.wall",
                                   method="grounds.method.folded", proof=(said,))  # fmt: skip
        out = Quantity(float(outs[n]), IN, f"{key.rpartition('/')[0]}/{face.name}/out")
        if limit is None:
            depth = working.step(f"{own}/depth", "face - wall", IN, "grounds.step.depth", face=out, wall=wall_there)
        else:
            depth = working.step(f"{own}/depth", "min(face - wall, limit)", IN, "grounds.step.depth", face=out,
                                 wall=wall_there, limit=limit)  # fmt: skip
        ground = working.step(f"{own}/ground", "depth - finish", IN, "grounds.step.ground", depth=depth, finish=finish)
        line = working.step(f"{own}/line", "wall + depth - finish", IN, "grounds.step.line", wall=wall_there,
                            depth=depth, finish=finish)  # fmt: skip
        u, v = (float(x) for x in points[n])
        found.append(Ground(name, u, v, _to(depth, to), _to(ground, to), _to(line, to), bool(near[n])))
    return tuple(found)


def _to(quantity: Quantity, to: float) -> Quantity:
    """To the nearest of what a rule is read to."""
    return Quantity(int(rounded(float(quantity) / to)) * to, quantity.unit, quantity.key)


def _read(wall: Wall, triangle: int, shares: Array) -> str:
    """The three points it lies between, each with its share: readings R by number, corners carried on C."""
    parts = []
    for point, share in zip(wall.folded.corners[triangle].tolist(), shares.tolist(), strict=True):
        read = point < len(wall.readings)
        name = f"R{wall.numbers[point]}" if read else f"C{point - len(wall.readings) + 1}"
        parts.append(f"{number(share, PLACES)} × {name}")
    return " + ".join(parts)
