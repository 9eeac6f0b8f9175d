"""A photograph of a wall made straight: pixels to metres on the wall, and how far each length may be off.

Known points on the face of the wall (marks) fix the plane's perspective, eight numbers; what the lens bends is six
more, held to what a lens may do. All are fitted at once by least squares, starting from the normalised linear solution
(R. Hartley, A. Zisserman, Multiple View Geometry, 2004, chapter 4) and refined where the errors are made: in pixels.
The ± of a length is of first order: the spread of the fitted numbers carried through to the length, with the jogging
of its own two ends; nothing is drawn at random, so the same marks give the same ±.

Pure numbers: no picture is opened here. numpy is loaded when this file is, and this file when it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any, Literal

import numpy as np
import numpy.typing as npt

from darby.measure.faults import Fault, Unreadable

Points = npt.NDArray[np.float64]
"""(n, 2)."""

JOG = 2.0
"""How far a finger or a mouse misses the point it means, one standard deviation each way [px]."""
TAPE = 0.002
"""How far a tape's reading of a mark's place is off, one standard deviation each way [m]."""
BEND = 0.04
"""The most that a lens moves the corner of a picture in or out, as a share of its distance from the middle.

Phones mend their pictures to within a hundredth; the bound leaves room for one that does not."""
BEND_MORE = 0.01
"""The same for the part that grows with the fifth power of the distance."""
SKEW = 0.002
"""The same for what a lens that sits crooked does."""
MIDDLE = 0.02
"""How far the lens's middle may lie from the picture's, one standard deviation, as a share of the half diagonal."""
MIDDLE_UNKNOWN = 0.35
"""The same where the picture's size is not given and the middle of the marks stands for its middle."""
SURE = 2.0
"""Standard deviations in a printed ±: the true length lies inside it 95 times in 100."""
MARKS_AT_LEAST = 4
"""Marks that fix a plane's perspective; with no more than that nothing is left to check them."""
MARKS_FOR_LENS = 6
"""Marks from which on they, and not the bound, say what the lens bends."""
IN_LINE = 0.08
"""Height of the flattest triangle of the best four marks, as a share of the marks' longest distance, below which they
count as standing in line."""
MARKS_COMPARED = 14
"""Marks, spread as widely as they are, among which the best four are sought."""
COVER = 0.5
"""The least share of the wall that the marks must take in."""
MISFIT = 5.0
"""Standard deviations by which a mark may miss its place before the marks are refused: then one is mistyped."""
REACH = 0.25
"""How far past the marks a point may lie, as a share of the marks' longest distance. Its ± grows on the way there."""
ROUNDS = 60
"""Rounds of refinement at most; a dozen are usual."""
SETTLED = 1e-8
"""Step at which the refinement counts as settled; every number of the fit is about one, or less."""
UNBENT = 1e-12
"""Step at which the unbending of a pixel counts as settled, as a share of the half diagonal."""

_TINY = 1e-30
"""Step into the imaginary numbers, by which derivatives are exact (no difference of near-equal numbers is taken)."""
_PLANE = 8
_LENS = 6


@dataclass(frozen=True, slots=True)
class Taken:
    """A length from a photograph [m]: the true one lies within ``metres`` ± ``give`` 95 times in 100."""

    metres: float
    give: float


@dataclass(frozen=True, slots=True)
class Framed:
    """An opening from a photograph, upright on the wall, each size with its ± (``Taken``).

    ``at``: from the wall's left end to its left side; ``up``: from the wall's base to its sill. ``askew`` [m] is how
    far the farthest corner of four lies from the upright rectangle; 0 of two.
    """

    width: Taken
    height: Taken
    at: Taken
    up: Taken
    askew: float


@dataclass(frozen=True, slots=True, eq=False)
class Straight:
    """A photograph that has been made straight.

    ``misses`` is how far each mark lies from where the others put it [px]. ``lens`` is the share by which the lens
    moves the corner of the picture outward, with its ±; ``lens_from_marks`` says whether there were marks enough to
    tell, or the ± is all but the bound. ``share`` is the part of the wall that the marks take in, if the wall is known.
    """

    misses: tuple[float, ...]
    lens: Taken
    lens_from_marks: bool
    share: float | None
    _fitted: Points
    _covariance: Points
    _frame: _Frame
    _hull: Points
    _reach: float
    _jog: float

    def to_wall(self, points: npt.ArrayLike) -> Points:
        """Pixels (n, 2) to the wall (n, 2) [m]: u to the right, v up, as the marks were given.

        Raises ``Unreadable`` (``measure.photograph-outside``) for a point too far past the marks or above the horizon.
        """
        pixels = _pairs(points, "points")
        with np.errstate(all="ignore"):
            found: Points = self._frame.onto_wall(self._fitted, pixels)
        outside = _past(self._hull, found)
        if not np.all(np.isfinite(found)) or np.any(outside > self._reach):
            worst = int(np.argmax(np.where(np.isfinite(outside), outside, np.inf)))
            raise Unreadable(Fault("measure.photograph-outside", str(worst + 1), _said(pixels[worst]), _share(REACH)))
        return found

    def to_picture(self, points: npt.ArrayLike) -> Points:
        """Points of the wall (n, 2) [m] to pixels (n, 2): where to draw a joint on the photograph."""
        seen: Points = self._frame.into_picture(self._fitted, _pairs(points, "points"))
        return seen

    def length(self, start: Sequence[float] | Points, end: Sequence[float] | Points) -> Taken:
        """The length [m] between two pixels, with its ±."""
        return self.lengths([[list(start), list(end)]])[0]

    def lengths(self, pairs: npt.ArrayLike) -> tuple[Taken, ...]:
        """The lengths [m] between pairs of pixels (n, 2, 2), each with its ±.

        In the ±: the jogging of the marks and of the two ends, the tape at the marks, the lens; and, where the marks
        miss their places by more than jogging explains, that as well.
        """
        ends = np.asarray(pairs, dtype=np.float64)
        if ends.ndim != 3 or ends.shape[1:] != (2, 2):
            raise Unreadable(Fault("measure.photograph-points", "pairs", str(ends.shape), "(n, 2, 2)"))
        wall = self.to_wall(ends.reshape(-1, 2)).reshape(-1, 2, 2)
        return tuple(self._length(one) for one in wall)

    def framed(self, corners: npt.ArrayLike) -> Framed:
        """The upright opening of two opposite corners or of all four, in any order (n, 2) [px].

        A side that two corners show is the mean of both. Raises ``Unreadable``: ``measure.photograph-points`` (neither
        two nor four, or of four not two on each side), ``measure.photograph-outside``.
        """
        pixels = _pairs(corners, "corners")
        if len(pixels) not in (2, 4):
            raise Unreadable(Fault("measure.photograph-points", "corners", str(len(pixels)), "2, 4"))
        wall = self.to_wall(pixels)
        farther = wall > wall.mean(axis=0)  # (n, 2): whether a corner is on the right, whether it is above
        half = len(wall) // 2
        if np.any(farther.sum(axis=0) != half) or len(np.unique(farther, axis=0)) != len(wall):
            raise Unreadable(Fault("measure.photograph-points", "corners", str(len(pixels)), "2, 4"))
        far, near = farther / half, ~farther / half
        right, above = np.array([1.0, 0.0]), np.array([0.0, 1.0])
        sides = np.where(farther, (far * wall).sum(axis=0), (near * wall).sum(axis=0))
        return Framed(
            width=self._sum(wall, (far - near) * right),
            height=self._sum(wall, (far - near) * above),
            at=self._sum(wall, near * right),
            up=self._sum(wall, near * above),
            askew=float(np.hypot(*(wall - sides).T).max()),
        )

    def _length(self, ends: Points) -> Taken:
        way = ends[1] - ends[0]
        metres = float(np.hypot(*way))
        towards = way / metres if metres > 0 else np.array([1.0, 0.0])
        return Taken(metres, self._sum(ends, np.array([-towards, towards])).give)

    def _sum(self, places: Points, weights: Points) -> Taken:
        """The weighted sum of places on the wall (n, 2) [m], with its ±: of a width, +1 at right and -1 at left."""
        # how the sum goes with the pixel of each place [m/px], and through it with the fitted numbers
        pulls = weights[:, None] @ np.linalg.inv(self._frame.by_place(self._fitted, places))
        by_fit = (pulls @ self._frame.by_fit(self._fitted, places)).sum(axis=(0, 1))
        variance = self._jog**2 * np.square(pulls).sum() + by_fit @ self._covariance @ by_fit
        return Taken(float((weights * places).sum()), SURE * float(np.sqrt(variance)))


@dataclass(frozen=True, slots=True, eq=False)
class _Frame:
    """Wall and picture moved and scaled to about one, so that no number of the fit dwarfs another."""

    wall_at: Points
    wall_scale: float
    middle: Points
    radius: float

    def into_picture(self, fitted: Any, wall: Any) -> Any:
        """Wall [m] to pixels, by the eight numbers of the plane and the six of the lens. Takes complex numbers."""
        x, y = ((wall - self.wall_at) / self.wall_scale).T
        a, b, c, d, e, f, g, h = fitted[:_PLANE]
        below = g * x + h * y + 1
        return self.bent(fitted[_PLANE:], (a * x + b * y + c) / below, (d * x + e * y + f) / below)

    def by_fit(self, fitted: Points, wall: Points) -> Points:
        """(n, 2, 14): how each point's pixel goes with each of the fitted numbers."""
        nudged = fitted[:, None, None] + np.eye(len(fitted))[:, :, None] * (1j * _TINY)
        return np.moveaxis(np.imag(self.into_picture(nudged, wall)) / _TINY, 0, -1)

    def by_place(self, fitted: Points, wall: Points) -> Points:
        """(n, 2, 2): how each point's pixel goes with its place on the wall [px/m]."""
        nudged = [self.into_picture(fitted, wall + np.array(way) * (1j * _TINY)) for way in ((1, 0), (0, 1))]
        return np.stack([np.imag(pixel) / _TINY for pixel in nudged], axis=-1)

    def bent(self, lens: Any, x: Any, y: Any) -> Any:
        """Where the lens puts a straight ray (Brown and Conrady: two radial terms, two for one that sits crooked)."""
        k1, k2, p1, p2, right, down = lens
        square = x * x + y * y
        radial = 1 + k1 * square + k2 * square * square
        across = x * radial + 2 * p1 * x * y + p2 * (square + 2 * x * x) + right
        along = y * radial + p1 * (square + 2 * y * y) + 2 * p2 * x * y + down
        return np.stack([across, along], axis=-1) * self.radius + self.middle

    def onto_wall(self, fitted: Points, pixels: Points) -> Points:
        """Pixels to the wall [m]; not-a-number where a pixel sees no point of the plane."""
        flat = (pixels - self.middle) / self.radius - fitted[_PLANE + 4 :]
        straight = flat.copy()
        for _ in range(ROUNDS):  # far outside the picture a ray may not settle: such a pixel is nowhere on the wall
            bent = (self.bent(fitted[_PLANE:], *straight.T) - self.middle) / self.radius
            step = flat + fitted[_PLANE + 4 :] - bent
            straight = straight + step
            if np.max(np.abs(step), initial=0.0) < UNBENT:
                break
        else:
            straight[np.abs(step).max(axis=1) >= UNBENT] = np.nan
        plane = np.append(fitted[:_PLANE], 1.0).reshape(3, 3)
        lifted = np.linalg.solve(plane, np.column_stack([straight, np.ones(len(straight))]).T)
        # one over the plane's denominator, which is 1 at the middle of the marks and below nought behind the camera
        seen = lifted[2] > 0
        wall = (lifted[:2] / np.where(seen, lifted[2], np.nan)).T
        return np.asarray(wall * self.wall_scale + self.wall_at, dtype=np.float64)


def straighten(
    pixels: npt.ArrayLike,
    metres: npt.ArrayLike,
    *,
    size: tuple[float, float] | None = None,
    outline: npt.ArrayLike | None = None,
    jog: float = JOG,
    tape: float = TAPE,
    rows: Literal["down", "either"] = "either",
) -> Straight:
    """Make a photograph of a flat wall straight from marks: points of which the place on the wall is known.

    ``pixels`` (n, 2) [px] and ``metres`` (n, 2) [m, u right, v up] are the marks, in one order, four or more, on the
    face of the wall and taking in most of it. ``size`` is the picture's width and height [px], uncropped; without it
    the marks' middle stands for the picture's, and the ± is larger. ``outline`` (n, 2) [m] is the wall, if the share
    that the marks take in is to be checked. ``jog`` [px] and ``tape`` [m] are standard deviations each way.
    ``rows="down"``, as the rows of every picture count, also refuses marks that show the wall as in a mirror.

    Raises ``Unreadable``: ``measure.photograph-points`` (not pairs of numbers, or not as many), ``-few`` (fewer than
    four), ``-line`` (nearly in line), ``-order`` (folded: two marks are in each other's place), ``-mirrored``,
    ``-cover`` (too little of the wall; says the share), ``-misfit`` (a mark is not where the others put it).
    """
    seen, known = _pairs(pixels, "pixels"), _pairs(metres, "metres")
    if len(seen) != len(known):
        raise Unreadable(Fault("measure.photograph-points", "pixels, metres", f"{len(seen)}, {len(known)}", "n, n"))
    if len(seen) < MARKS_AT_LEAST:
        raise Unreadable(Fault("measure.photograph-few", "marks", str(len(seen)), str(MARKS_AT_LEAST)))
    flatness = min(_flatness(seen), _flatness(known))
    if flatness < IN_LINE:
        raise Unreadable(Fault("measure.photograph-line", "marks", _share(flatness), _share(IN_LINE)))
    hull = _hull(known)
    share = None if outline is None else _area(hull) / _area(_pairs(outline, "outline"))
    if share is not None and share < COVER:
        raise Unreadable(Fault("measure.photograph-cover", "marks", _share(share), _share(COVER)))

    frame = _framed(seen, known, size)
    plane = _linear(frame, seen, known)
    _check_order(frame, plane, known, rows)
    start = np.concatenate([plane, np.zeros(_LENS)])
    spread = _spread_of_marks(frame, start, known, jog, tape)
    held = np.array([BEND / 3**0.5, BEND_MORE, SKEW, SKEW, *(2 * [MIDDLE if size else MIDDLE_UNKNOWN])])

    fitted, slope, off = _fit(frame, seen, known, spread, held, start)
    _check_misfit(frame, seen, known, spread, held, start, off)
    # as many residuals are left free as marks give beyond the plane's eight; the six of the lens are held by six bounds
    free = 2 * len(seen) - _PLANE
    worse = max(1.0, float(off @ off) / free) if free else 1.0
    covariance: Points = np.asarray(np.linalg.inv(slope.T @ slope) * worse, dtype=np.float64)
    corner = Taken(float(fitted[_PLANE]), SURE * float(np.sqrt(covariance[_PLANE, _PLANE])))
    return Straight(
        misses=tuple(float(x) for x in np.hypot(*(frame.into_picture(fitted, known) - seen).T)),
        lens=corner,
        lens_from_marks=len(seen) >= MARKS_FOR_LENS,
        share=share,
        _fitted=fitted,
        _covariance=covariance,
        _frame=frame,
        _hull=hull,
        _reach=REACH * _longest(known),
        _jog=jog,
    )


def _framed(seen: Points, known: Points, size: tuple[float, float] | None) -> _Frame:
    middle = np.array(size) / 2 if size else (seen.max(axis=0) + seen.min(axis=0)) / 2
    radius = float(np.hypot(*size)) / 2 if size else float(np.hypot(*(seen - middle).T).max())
    at = known.mean(axis=0)
    return _Frame(at, float(np.hypot(*(known - at).T).mean()), middle, radius)


def _linear(frame: _Frame, seen: Points, known: Points) -> Points:
    """The eight numbers of the plane by the normalised linear solution, 1 at the middle of the marks."""
    x, y = ((known - frame.wall_at) / frame.wall_scale).T
    u, v = ((seen - frame.middle) / frame.radius).T
    one, none = np.ones_like(x), np.zeros_like(x)
    across = np.column_stack([x, y, one, none, none, none, -u * x, -u * y, -u])
    along = np.column_stack([none, none, none, x, y, one, -v * x, -v * y, -v])
    plane = np.linalg.svd(np.vstack([across, along]))[2][-1]
    if abs(plane[8]) < UNBENT:
        raise Unreadable(Fault("measure.photograph-order", "marks", "0", "1"))
    return np.asarray(plane[:8] / plane[8], dtype=np.float64)


def _check_order(frame: _Frame, plane: Points, known: Points, rows: str) -> None:
    """Every mark in front of the camera, and the wall not as in a mirror where rows are known to count down."""
    x, y = ((known - frame.wall_at) / frame.wall_scale).T
    behind = plane[6] * x + plane[7] * y + 1 <= 0
    if behind.any():
        raise Unreadable(Fault("measure.photograph-order", "marks", str(int(behind.sum())), str(len(known))))
    if rows == "down" and _handed(np.append(plane, 1.0).reshape(3, 3)) > 0:
        raise Unreadable(Fault("measure.photograph-mirrored", "marks", "1", "0"))


def _handed(plane: Points) -> float:
    return float(np.sign(np.linalg.det(plane)))


def _spread_of_marks(frame: _Frame, start: Points, known: Points, jog: float, tape: float) -> Points:
    """One standard deviation of each mark [px]: finger and tape together, the tape at the scale of that place."""
    scale = np.sqrt(np.abs(np.linalg.det(frame.by_place(start, known))))
    return np.asarray(np.hypot(jog, tape * scale), dtype=np.float64)


def _fit(
    frame: _Frame, seen: Points, known: Points, spread: Points, held: Points, start: Points
) -> tuple[Points, Points, Points]:
    """The fitted numbers, and at them slope and residuals: two a mark, then one for each of the lens's bounds."""

    def residuals(fitted: Points) -> Points:
        off = (frame.into_picture(fitted, known) - seen) / spread[:, None]
        return np.concatenate([off.ravel(), fitted[_PLANE:] / held])

    def slopes(fitted: Points) -> Points:
        by_fit = (frame.by_fit(fitted, known) / spread[:, None, None]).reshape(-1, len(fitted))
        return np.vstack([by_fit, np.eye(len(fitted))[_PLANE:] / held[:, None]])

    fitted, slope = _refined(residuals, slopes, start)
    return fitted, slope, residuals(fitted)


def _check_misfit(
    frame: _Frame, seen: Points, known: Points, spread: Points, held: Points, start: Points, off: Points
) -> None:
    """Refuse marks of which one misses its place by too much, and name the one without which the others agree best.

    The one that misses by most need not be it: a wrong mark pulls its neighbours along. Of five, any four agree.
    """
    by = np.hypot(*off[: 2 * len(seen)].reshape(-1, 2).T)
    if by.max() <= MISFIT:
        return
    place, worst = f"1–{len(seen)}", int(np.argmax(by))
    if len(seen) >= MARKS_FOR_LENS:
        left = []
        for out in range(len(seen)):
            rest_seen, rest_known, rest_spread = (np.delete(of, out, axis=0) for of in (seen, known, spread))
            fitted, _, rest = _fit(frame, rest_seen, rest_known, rest_spread, held, start)
            left.append((float(rest @ rest), out, fitted))
        _, worst, fitted = min(left, key=lambda one: one[0])
        place = str(worst + 1)
        by[worst] = np.hypot(*(frame.into_picture(fitted, known[worst]) - seen[worst])) / spread[worst]
    found, allowed = by[worst] * spread[worst], MISFIT * spread[worst]
    raise Unreadable(Fault("measure.photograph-misfit", place, f"{found:.0f} px", f"{allowed:.0f} px"))


def _refined(
    residuals: Callable[[Points], Points], slopes: Callable[[Points], Points], start: Points
) -> tuple[Points, Points]:
    """Least squares by Levenberg's damped Gauss-Newton steps: the fitted numbers and the slope at them."""
    fitted, damping = start, 1e-3
    off = residuals(fitted)
    slope = slopes(fitted)
    for _ in range(ROUNDS):
        square = slope.T @ slope
        step = -np.linalg.solve(square + damping * np.diag(np.diag(square)), slope.T @ off)
        tried = residuals(fitted + step)
        if tried @ tried <= off @ off:
            fitted, off, damping = fitted + step, tried, damping / 10
            slope = slopes(fitted)
            if np.abs(step).max() < SETTLED:
                break
        else:
            damping *= 10
            if np.abs(step).max() < SETTLED:
                break
    return fitted, slope


def _flatness(points: Points) -> float:
    """Of the best four of the points: the height of their flattest triangle, over the points' longest distance."""
    spread = [int(np.argmax(np.hypot(*(points - points.mean(axis=0)).T)))]
    for _ in range(min(len(points), MARKS_COMPARED) - 1):
        apart = np.hypot(*(points[:, None] - points[None, spread]).transpose(2, 0, 1)).min(axis=1)
        spread.append(int(np.argmax(apart)))
    fours = points[np.array(list(combinations(sorted(set(spread)), 4)), dtype=int).reshape(-1, 4)]
    if not len(fours):
        return 0.0
    heights = []
    for three in combinations(range(4), 3):
        a, b, c = (fours[:, k] for k in three)
        double = np.abs((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0])
        base = np.max([np.hypot(*(b - a).T), np.hypot(*(c - b).T), np.hypot(*(a - c).T)], axis=0)
        heights.append(double / np.where(base > 0, base, 1.0))
    return float(np.min(heights, axis=0).max() / _longest(points))


def _longest(points: Points) -> float:
    return float(np.hypot(*(points[:, None] - points[None]).transpose(2, 0, 1)).max())


def _hull(points: Points) -> Points:
    """The corners of the points' convex hull, against the clock (Andrew's two chains)."""
    ordered = sorted({(float(x), float(y)) for x, y in points})
    chains: list[list[tuple[float, float]]] = []
    for way in (ordered, ordered[::-1]):
        chain: list[tuple[float, float]] = []
        for point in way:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0:
                chain.pop()
            chain.append(point)
        chains.append(chain[:-1])
    return np.array(chains[0] + chains[1])


def _turn(a: Sequence[float], b: Sequence[float], c: Sequence[float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _area(corners: Points) -> float:
    x, y = corners.T
    return abs(float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))) / 2


def _past(hull: Points, points: Points) -> Points:
    """(n,): how far each point lies outside the hull [m]; 0 inside."""
    ends = np.roll(hull, -1, axis=0)
    way = ends - hull
    rest = points[:, None] - hull[None]
    along = np.clip(np.sum(rest * way, axis=2) / np.sum(way * way, axis=1), 0, 1)
    apart = np.hypot(*(rest - along[..., None] * way).transpose(2, 0, 1)).min(axis=1)
    inside = (way[:, 0] * rest[..., 1] - way[:, 1] * rest[..., 0] >= 0).all(axis=1)
    return np.where(inside, 0.0, apart)


def _pairs(points: npt.ArrayLike, place: str) -> Points:
    try:
        found = np.asarray(points, dtype=np.float64)
    except (TypeError, ValueError):
        raise Unreadable(Fault("measure.photograph-points", place, str(points)[:60], "(n, 2)")) from None
    if found.ndim != 2 or found.shape[1] != 2 or not np.isfinite(found).all():
        raise Unreadable(Fault("measure.photograph-points", place, str(found.shape), "(n, 2)"))
    return found


def _said(pixel: Points) -> str:
    return f"{pixel[0]:.0f}, {pixel[1]:.0f}"


def _share(of: float) -> str:
    return f"{100 * of:.0f} %"
