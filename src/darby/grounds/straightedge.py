"""The straightedge, rolled: over readings, all that is known of a wall, and over a face that is known throughout.

Both mean the same thing by a gap. Three points p < q < r on a line, r no farther from p than the straightedge is long:
the gap is how far q lies off the straight line from p to r. Behind it: a hollow, and the light under a straightedge
that touches at p and r. In front: a crown, and what shows at both ends of a straightedge that is held even on q.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from darby.grounds.checks import THREE, Array, refuse
from darby.grounds.model import Bend, Gap, Length, Rolled
from darby.measure.limits import SLACK, at_most
from darby.measure.units import unit
from darby.measure.writing import HAIR
from darby.working.model import Quantity

IN, FT_IN = unit("in"), unit("ft-in")


@dataclass(frozen=True, slots=True)
class Sag:
    """The worst triple of a line: how far q lies off [m], above nought in front of the straight; p, q, r along it."""

    off: float
    p: float
    q: float
    r: float


# --- readings ---------------------------------------------------------------------------------------


def worst_of_readings(along: Array, outs: Array, length: float) -> Sag | None:
    """The worst triple of readings on a line; None if no three lie within one length of the straightedge."""
    order = np.argsort(along, kind="stable")
    s, h = along[order], outs[order]
    worst: Sag | None = None
    for first in range(len(s) - 2):
        last = int(np.searchsorted(s, s[first] + length * (1 + float(SLACK)), side="right"))
        if last - first < THREE or s[last - 1] <= s[first]:
            continue
        # every r at once: rows are r, columns are q
        x, y = s[first:last] - s[first], h[first:last]
        with np.errstate(invalid="ignore", divide="ignore"):
            chord = y[0] + (y[:, None] - y[0]) * (x[None, :] / x[:, None])
        off = np.where((x[None, :] < x[:, None]) & (x[None, :] > 0), y[None, :] - chord, 0.0)
        r, q = np.unravel_index(int(np.abs(off).argmax()), off.shape)
        found = Sag(float(off[r, q]), float(s[first]), float(s[first + q]), float(s[first + r]))
        if worst is None or abs(found.off) > abs(worst.off):
            worst = found
    return worst


def rolled(lines: Iterable[tuple[Array, Array]], length: Length, gap: Length | None) -> Rolled:
    """A straightedge along every line: places (n, 2) and how far out they stand (n,)."""
    found: list[Gap] = []
    for places, outs in lines:
        start = places[0]
        way = places[-1] - start
        reach = float(np.hypot(*way))
        along = (places - start) @ way / reach if reach else np.zeros(len(places))
        sag = worst_of_readings(along, outs, float(length))
        if sag is not None:
            found.append(gap_of(sag, start, way / reach, length))
    worst = max(found, key=lambda g: float(g.gap), default=None)
    allowed = None if gap is None else Quantity(gap, IN)
    keeps = None if worst is None or gap is None else at_most(float(worst.gap), float(gap))
    return Rolled(worst, tuple(found), allowed, keeps)


def gap_of(sag: Sag, start: Array, way: Array, length: Length) -> Gap:
    """The worst triple of a line as a Gap: where it is on the wall."""
    at, p, r = (tuple(float(x) for x in start + s * way) for s in (sag.q, sag.p, sag.r))
    bend: Bend | None = None if abs(sag.off) <= float(SLACK) * float(HAIR) else "crown" if sag.off > 0 else "hollow"
    return Gap(Quantity(length, FT_IN), Quantity(abs(sag.off), IN), bend, at, p, r)  # type: ignore[arg-type]


def lines_of(readings: Sequence[Sequence[Length]]) -> list[tuple[Array, Array]]:
    """Readings as lines: (n, 2) is one line, along and out; (n, 3) every level and every plumb line that holds three.

    Raises
    ------
    Unreadable
        "grounds.few": fewer than three readings; "grounds.no-number": neither two nor three numbers each.
    """
    if len(readings) < THREE:
        raise refuse("grounds.few", "", str(len(readings)), f"{THREE} ...")
    rows = np.array([[float(x) for x in r] for r in readings], dtype=float)
    if rows.shape[1] not in (2, THREE) or not np.isfinite(rows).all():
        raise refuse("grounds.no-number", "", str(rows.shape[1]), f"2, {THREE}")
    if rows.shape[1] == 2:
        rows = rows[np.argsort(rows[:, 0], kind="stable")]
        return [(np.column_stack([rows[:, 0], np.zeros(len(rows))]), rows[:, 1])]
    lines = []
    for across, along in ((1, 0), (0, 1)):
        groups: dict[float, list[int]] = defaultdict(list)
        for n, row in enumerate(rows):
            groups[float(row[across])].append(n)
        for _, several in sorted(groups.items()):
            if len(several) >= THREE:
                line = rows[sorted(several, key=lambda n: rows[n, along])]
                lines.append((line[:, :2], line[:, 2]))
    return lines


# --- a face that is known throughout -----------------------------------------------------------------


class Line:
    """A line on a face that is straight between its knots: ``along`` (k,) where they lie [m].

    ``triples`` are the rows (m, k) that read a gap off the heights at the knots, for every window that may be worst,
    up to the sliding of windows between two knots: ``refine`` finds those.
    """

    def __init__(self, along: Array, length: float) -> None:
        self.along, self.length = along, length
        self.slides, self.under = _slides(along, length)
        self.p, self.q, self.r = _windows(along, length, self.slides, self.under)
        self.triples = self.rows(self.p, self.q, self.r)

    def rows(self, p: Array, q: Array, r: Array) -> Array:
        """Rows that read the gap of the triples p, q, r off heights at the knots."""
        span = r - p
        share = ((q - p) / span)[:, None]
        return self._hats(q) - (1 - share) * self._hats(p) - share * self._hats(r)

    def _hats(self, places: Array) -> Array:
        """Rows that read the height at places off heights at the knots."""
        n = len(self.along)
        left = np.clip(np.searchsorted(self.along, places, side="right") - 1, 0, n - 2)
        t = (places - self.along[left]) / (self.along[left + 1] - self.along[left])
        rows = np.zeros((len(places), n))
        every = np.arange(len(places))
        rows[every, left] = 1 - t
        rows[every, left + 1] += t
        return rows

    def worst(self, heights: Array) -> Sag | None:
        """The worst triple, exactly; None if the straightedge finds no three points here."""
        if not len(self.p):
            return None
        sags = self.triples @ heights
        n = int(np.abs(sags).argmax())
        best = Sag(float(sags[n]), float(self.p[n]), float(self.q[n]), float(self.r[n]))
        return self._slid(heights, best)

    def _slid(self, heights: Array, best: Sag) -> Sag:
        """Windows of full length slid between knots: there the gap is a parabola, and its top may lie between."""
        p, q = self.slides, self.under
        if not len(q):
            return best
        sags = [self._sag(heights, p[:, n], q) for n in range(p.shape[1])]
        low, middle, high = sags
        bend = low - 2 * middle + high
        with np.errstate(invalid="ignore", divide="ignore"):
            top = (low - high) / (2 * bend)  # in half steps from the middle
        between = np.isfinite(top) & (np.abs(top) < 1)
        if not between.any():
            return best
        at = p[between, 1] + top[between] * (p[between, 2] - p[between, 1])
        found = self._sag(heights, at, q[between])
        n = int(np.abs(found).argmax())
        if abs(found[n]) <= abs(best.off):
            return best
        return Sag(float(found[n]), float(at[n]), float(q[between][n]), float(at[n] + self.length))

    def _sag(self, heights: Array, p: Array, q: Array) -> Array:
        r = p + self.length
        ends = [np.interp(x, self.along, heights) for x in (p, q, r)]
        return np.asarray(ends[1] - (ends[0] * (r - q) + ends[2] * (q - p)) / self.length)


def _windows(along: Array, length: float, slides: Array, under: Array) -> tuple[Array, Array, Array]:
    """Triples that may be worst: all three at knots; or a full length with an end or its middle at a knot."""
    reach = length * (1 + float(SLACK))
    trios = [(p, q, r) for n, q in enumerate(along) for p in along[:n] for r in along[n + 1 :] if r - p <= reach]
    full = [(s, k, s + length) for row, k in zip(slides.tolist(), under.tolist(), strict=True) for s in row]
    every = np.array([*trios, *full], dtype=float).reshape(-1, THREE)
    every = np.unique(every[(every[:, 1] > every[:, 0]) & (every[:, 1] < every[:, 2])], axis=0)
    return every[:, 0], every[:, 1], every[:, 2]


def _slides(along: Array, length: float) -> tuple[Array, Array]:
    """Stretches over which a full length slides without either end passing a knot: first, middle and last start (m, 3),
    and the knot under it (m,)."""
    first, last = along[0], along[-1] - length
    if last <= first:
        return np.zeros((0, THREE)), np.zeros(0)
    stops = np.unique(np.concatenate([along, along - length, [first, last]]))
    stops = stops[(stops >= first) & (stops <= last)]
    low, high = stops[:-1], stops[1:]
    knots = along[1:-1]
    under = (knots[None, :] >= high[:, None]) & (knots[None, :] <= low[:, None] + length)
    stretch, knot = np.nonzero(under)
    low, high = low[stretch], high[stretch]
    return np.column_stack([low, (low + high) / 2, high]), knots[knot]
