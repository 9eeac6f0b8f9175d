"""Why no face of its kind takes less plaster: arithmetic at the readings that hold it.

Take the middle of the net wall as a mean of the places of a few readings, with weights that add up to one. A plane
stands out in the middle by the same mean of what it stands out there; at each of them that is no less than the reading
and the least. So no plane stands out less in the middle than the mean of reading and least: and this one does not stand
out more. The weights are the dual values of the programme. Where the rise up the wall is at its limit, the weights need
not balance up and down: what they are off by, times the limit, comes off the bound.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from darby.grounds.checks import Array
from darby.grounds.faces import Set
from darby.grounds.model import Gap, GroundsAsk, Straightedge
from darby.grounds.wall import Wall
from darby.measure.limits import SLACK
from darby.measure.units import IN as INCH
from darby.measure.units import unit
from darby.measure.writing import HAIR, number, shown, write

IN, FT = unit("in"), unit("ft")
PLACES = len(str(INCH / HAIR))
"""Decimals that the arithmetic is printed with."""


def of_plane(ask: GroundsAsk, wall: Wall, fixed: Array, face: Set, lean: float) -> tuple[str, ...]:
    """Lines that prove a plane: the readings (R) and fixed points (F) with their weights, and three sums over them."""
    rows = _held(ask, wall, fixed, face)
    weights = np.array([row[1] for row in rows])
    places = np.array([row[2] for row in rows]).reshape(-1, 2)
    outs = np.array([row[-2] for row in rows])
    bound = float(weights @ outs)
    middle = wall.middle
    lines = [
        *(f"{name}: {write(p[0])}, {write(p[1])}: {says}" for name, _, p, _, says in rows),
        f"1 = {_sum(weights, lambda _: '')}",
        f"u: {_feet(middle[0])} = {_sum(weights, lambda n: f' × {_feet(places[n, 0])}')}",
    ]  # fmt: skip
    off = float(middle[1] - weights @ places[:, 1])
    if abs(off) <= float(HAIR):
        lines.append(f"v: {_feet(middle[1])} = {_sum(weights, lambda n: f' × {_feet(places[n, 1])}')}")
    elif lean > 0:
        bound -= abs(off) * lean
        rest = f" {'+' if off > 0 else '-'} {_feet(abs(off))}"
        lines.append(f"v: {_feet(middle[1])} = {_sum(weights, lambda n: f' × {_feet(places[n, 1])}')}{rest}")
    sums = _sum(weights, lambda n: f" × {_inches(outs[n])}")
    rest = f" - {_feet(abs(off))} × {_inches(lean * float(FT.scale))}/ft" if abs(off) > float(HAIR) and lean > 0 else ""
    lines.append(f"{_inches(bound)} = {sums}{rest}")
    return tuple(lines)


Row = tuple[str, float, Array, float, str]
"""Name, weight, place, how far out the face must stand there, and that as arithmetic."""


def _held(ask: GroundsAsk, wall: Wall, fixed: Array, face: Set) -> list[Row]:
    """The readings and fixed points that hold the face. What is fixed and cannot be met is missed alike, out where
    it holds the face in, back where it holds it out."""
    rows: list[Row] = []
    least = float(ask.least)
    for n in np.flatnonzero(face.worth > float(SLACK)):
        read = float(wall.readings[n, 2])
        says = f"{_inches(read)} + {_inches(least)} = {_inches(read + least)}"
        rows.append((f"R{wall.numbers[n]}", float(face.worth[n]), wall.readings[n, :2], read + least, says))
    for n in np.flatnonzero(np.abs(face.fixed_worth) > float(SLACK)):
        flush, back = float(fixed[n, 2]), face.fixed_worth[n] > 0
        out = flush - face.misses if back else flush + face.misses
        missed = f" {'-' if back else '+'} {_inches(face.misses)} = {_inches(out)}" if face.misses > float(HAIR) else ""
        rows.append((f"F{n + 1}", float(face.fixed_worth[n]), fixed[n, :2], out, f"{_inches(flush)}{missed}"))
    return rows


def _sum(weights: Array, what: Callable[[int], str]) -> str:
    text = ""
    for n, weight in enumerate(weights):
        sign = " - " if weight < 0 else " + "
        text += f"{sign if n or weight < 0 else ''}{number(abs(float(weight)), PLACES)}{what(n)}"
    return text.strip()


def _inches(value: float) -> str:
    return shown(value, IN, places=PLACES)


def _feet(value: float) -> str:
    return shown(value, FT, places=PLACES)


def of_wander(
    wall: Wall, face: Set, holds: Sequence[int], gaps: Sequence[Gap], rules: Sequence[Straightedge]
) -> tuple[str, ...]:
    """Lines for a face that wanders: the readings at which it has just the least, and the gaps against the rules."""
    at, read = face.at(wall.readings[:, :2]), wall.readings[:, 2]
    touched = [f"R{wall.numbers[n]}: {_inches(at[n])} - {_inches(read[n])} = {_inches(at[n] - read[n])}" for n in holds]
    kept = [
        f"{shown(g.length.value, FT)}: {_inches(float(g.gap))} <= {_inches(float(r.gap))}"
        for g, r in zip(gaps, rules, strict=True)
    ]
    return (*touched, *kept)
