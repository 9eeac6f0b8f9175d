"""Dimension strings of a surface: below it openings and pilasters, joints and the whole; beside it the heights."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from quicktions import Fraction

from darby.drawing.geometry import box, flat_outline
from darby.drawing.lettering import size
from darby.drawing.model import Mark, Side
from darby.measure.surface import Corner, Surface
from darby.measure.units import System

SAME = Fraction(1, 1000)
"""Two places nearer than this get one tick [m]."""

Place = tuple[Fraction, Fraction]


def extent(outline: Sequence[Corner]) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Left, low, right, high [m]: exactly at corners, rounded to a float where an arc stands out further."""
    us, vs = [c.u for c in outline], [c.v for c in outline]
    left, low, right, high = box(flat_outline(outline))
    corners = min(us), min(vs), max(us), max(vs)
    return tuple(  # type: ignore[return-value]
        at if abs(float(at) - arc) <= float(SAME) else Fraction(arc)
        for at, arc in zip(corners, (left, low, right, high), strict=True)
    )


def strings(surface: Surface, joints: Iterable[Fraction | float], old: Sequence[float], system: System) -> list[Mark]:
    """Three strings below and the heights at the right; at the left where only the right meets old work."""
    left, low, right, high = extent(surface.outline)
    cuts = [extent(o.outline) for o in surface.openings]
    stand_out = [extent(p.outline) for p in surface.projections]
    patches = [extent(z.outline) for z in surface.zones if z.outline is not None]
    across = [
        _rungs(left, right, [u for a in (*cuts, *stand_out) for u in (a[0], a[2])]),
        _rungs(left, right, [*(Fraction(u) for u in joints), *(u for a in patches for u in (a[0], a[2]))]),
        [left, right],
    ]
    marks: list[Mark] = []
    for row, string in enumerate(_unlike(across)):
        marks += [_dimension(surface, "below", row, (a, low), (b, low), system) for a, b in pairwise(string)]
    side: Side = "left" if old and min(old) > float(left + right) / 2 else "right"
    for row, string in enumerate(_unlike(_heights(surface, [*cuts, *patches], low, high))):
        for a, b in pairwise(string):
            ends = ((_reach(surface, side, a), a), (_reach(surface, side, b), b))
            marks.append(_dimension(surface, side, row, *ends, system))
    return marks


def _heights(
    surface: Surface, cuts: Sequence[tuple[Fraction, ...]], low: Fraction, high: Fraction
) -> list[list[Fraction]]:
    """Sills and heads, when anything stands off the foot; then the breaks of the outline."""
    steps = _rungs(low, high, _breaks(surface.outline))
    raised = [v for a in cuts for v in (a[1], a[3])] if any(a[1] - low > SAME for a in cuts) else []
    top = min((v for v in steps if v >= max(raised, default=low)), default=high)
    return [_rungs(low, top, raised), steps]


def _breaks(outline: Sequence[Corner]) -> list[Fraction]:
    """Heights at which the outline turns; where old work ends on a straight side it does not."""
    found = []
    for i, corner in enumerate(outline):
        a, b = outline[i - 1], outline[(i + 1) % len(outline)]
        turn = (corner.u - a.u) * (b.v - corner.v) - (corner.v - a.v) * (b.u - corner.u)
        if turn or a.bulge or corner.bulge:
            found.append(corner.v)
    return found


def _rungs(first: Fraction, last: Fraction, between: Iterable[Fraction]) -> list[Fraction]:
    """Where a string has ticks: both ends and what lies between, once each."""
    rungs = [first]
    for at in sorted(b for b in between if first < b < last):
        if at - rungs[-1] > SAME and last - at > SAME:
            rungs.append(at)
    return [*rungs, last]


def _unlike(wanted: Sequence[list[Fraction]]) -> list[list[Fraction]]:
    """Strings that say something of their own: none twice, and a bare length only as the last."""
    kept: list[list[Fraction]] = []
    for string in wanted:
        if string not in kept and (len(string) > 2 or string is wanted[-1]):
            kept.append(string)
    return kept


def _reach(surface: Surface, side: Side, v: Fraction) -> Fraction:
    """Where the line out to a height starts: as far towards the string as the wall reaches there."""
    outline = flat_outline(surface.outline)
    us = [u for u, w in outline if abs(w - float(v)) <= float(SAME)]
    for (u0, v0), (u1, v1) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if v0 != v1 and min(v0, v1) <= float(v) <= max(v0, v1):
            us.append(u0 + (u1 - u0) * (float(v) - v0) / (v1 - v0))
    return Fraction(max(us) if side == "right" else min(us))


def _dimension(surface: Surface, side: Side, row: int, a: Place, b: Place, system: System) -> Mark:
    length = b[0] - a[0] if side == "below" else b[1] - a[1]
    ends = ((float(a[0]), float(a[1])), (float(b[0]), float(b[1])))
    return Mark("dimension", ends, "dimension", surface.id, size(length, system), side=side, row=row)
