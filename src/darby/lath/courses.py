"""Sheets in courses: from the foot up, long side level, laps, ends over framing and off those of the course below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from quicktions import Fraction

from darby.lath.face import NOUGHT, Face, Rect, Slab, runs
from darby.lath.model import EndJoint, Piece
from darby.lath.panels import Panel
from darby.lath.sheets import Stack
from darby.measure.limits import whole
from darby.measure.surface import Length


@dataclass(frozen=True, slots=True)
class Rules:
    """What the courses go by, all in metres.

    ``studs`` (first, apart), None = no framing: ends lap where they come. ``turns`` what is carried round the left and
    the right end of the zone.
    """

    width: Length
    length: Length
    side_lap: Length
    end_lap: Length
    least: Length
    studs: tuple[Length, Length] | None
    turns: tuple[Length, Length] = (NOUGHT, NOUGHT)

    @property
    def step(self) -> Length:
        """From one course to the next."""
        return self.width - self.side_lap

    @property
    def reach(self) -> Length:
        """From one end joint to the next at the most, framing apart."""
        return self.length - self.end_lap

    def supported(self, u: Length) -> bool:
        """Whether framing stands behind ``u``."""
        return self.studs is not None and (u - self.studs[0]) % self.studs[1] == 0

    def at_or_before(self, u: Length) -> Length:
        """The last place for an end joint that is not beyond ``u``."""
        if self.studs is None:
            return u
        first, apart = self.studs
        return first + (u - first) // apart * apart

    @property
    def apart(self) -> Length:
        """How far the ends of one course are to be from those of the next, at least."""
        return self.studs[1] if self.studs is not None else self.length / (2 * 2)


@dataclass(frozen=True, slots=True)
class Laid:
    """Pieces and end joints of one panel, and end joints that stand over those of the course below."""

    pieces: tuple[Piece, ...]
    joints: tuple[EndJoint, ...]
    in_line: int


def bands(low: Length, high: Length, rules: Rules) -> list[tuple[Length, Length]]:
    """(low, high) of each course: full sheets from the foot, the rest on top, lowered where it were too narrow."""
    rest = high - low
    count = max(1, whole((rest - rules.side_lap) / rules.step))
    found = [(low + n * rules.step, min(low + n * rules.step + rules.width, high)) for n in range(count)]
    bottom, top = found[-1]
    if count > 1 and top - bottom < rules.least:
        found[-1] = max(low, top - rules.least), top
    return found


def lay(face: Face, panel: Panel, number: int, rules: Rules, stack: Stack) -> Laid:
    """Every course of one panel, cut from ``stack`` in the order it is laid."""
    left, right, _, _ = panel.box
    slabs = face.slabs(panel.box, panel.parts)
    foot, top = min(s.low for s in slabs), max(s.high for s in slabs)
    pieces: list[Piece] = []
    joints: list[EndJoint] = []
    below: list[Length] = []
    in_line = 0
    for course, (low, high) in enumerate(bands(foot, top, rules), start=1):
        here: list[Length] = []
        for run in _runs(face.slabs(Rect(left, right, low, high), panel.parts), panel):
            row = _row(face, run, rules, stack, below)
            for span in row.spans:
                name = f"{number}-{course}-{len(pieces) + 1}"
                pieces.append(_piece(face, panel, Piece(name, number, course, *span.box, 0, False, NOUGHT), stack))
            joints += _joints(number, course, row, rules)
            here += row.joints
            in_line += row.in_line
        below = here
    return Laid(tuple(pieces), tuple(joints), in_line)


def _runs(slabs: Sequence[Slab], panel: Panel) -> list[list[Slab]]:
    """What hangs together in a course, parted at upright joints that pass through it."""
    found = []
    for together in runs(slabs):
        part: list[Slab] = []
        for slab in together:
            if part and _cut(panel, part[-1], slab):
                found.append(part)
                part = []
            part.append(slab)
        found.append(part)
    return found


def _cut(panel: Panel, here: Slab, there: Slab) -> bool:
    """Whether an upright joint passes between two slabs where both have wall."""
    bottom, top = max(here.low, there.low), min(here.high, there.high)
    return any(u == there.left and max(low, bottom) < min(high, top) for u, low, high in panel.upright)


@dataclass(frozen=True, slots=True)
class _Span:
    """From end to end of one piece, and from the lowest to the highest wall behind it."""

    box: Rect

    @property
    def size(self) -> tuple[Length, Length]:
        left, right, low, high = self.box
        return right - left, high - low


@dataclass(frozen=True, slots=True)
class _Row:
    """The end joints of a run, its pieces, and how many joints stand over one of the course below."""

    joints: tuple[Length, ...]
    spans: tuple[_Span, ...]
    in_line: int


def _row(face: Face, run: Sequence[Slab], rules: Rules, stack: Stack, below: Sequence[Length]) -> _Row:
    """The end joints of a run that take the fewest sheets, none over one of the course below if that can be."""
    left, right = run[0].left, run[-1].right
    start = left - (rules.turns[0] if left == face.box[0] else NOUGHT)
    end = right + (rules.turns[1] if right == face.box[1] else NOUGHT)
    best: tuple[tuple[int, int, int, Fraction, Length], _Row] | None = None
    ways = _choices(start, end, left, rules)
    for joints in ways:
        spans = _spans(start, end, joints, run, rules)
        if len(ways) == 1 and not joints:
            return _Row((), spans, 0)
        trial = stack.copy()
        for span in spans:
            trial.cut(*span.size)
        in_line = sum(any(abs(u - v) < rules.apart for v in below) for u in joints)
        rank = in_line, trial.used, len(joints), trial.scrap, -(joints[0] if joints else right)
        if best is None or rank < best[0]:
            best = rank, _Row(tuple(joints), spans, in_line)
    assert best is not None
    return best[1]


def _choices(start: Length, end: Length, left: Length, rules: Rules) -> list[list[Length]]:
    """Ways of placing the end joints: any first place, then as far as a sheet reaches."""
    if end - start <= rules.length:
        return [[]]
    half = rules.end_lap / 2
    last = rules.at_or_before(start + rules.length - half)
    if rules.studs is not None:
        firsts = []
        while last > left:
            firsts.append(last)
            last -= rules.studs[1]
    else:
        firsts = [last - n * rules.apart for n in range(2 * 2)]
    ways = [way for first in firsts if (way := _onward(first, end, rules, half)) is not None]
    tidy = [way for way in ways if way[0] - start >= rules.least and end - way[-1] >= rules.least]
    return tidy or ways or [_anyhow(start, end, rules)]


def _onward(first: Length, end: Length, rules: Rules, half: Length) -> list[Length] | None:
    """Joints from the first on, each as far as a sheet reaches; the last drawn back where it left a sliver."""
    way = [first]
    while end - way[-1] + half > rules.length:
        after = rules.at_or_before(way[-1] + rules.reach)
        if after <= way[-1]:
            return None  # the framing is wider apart than a sheet is long
        way.append(after)
    if len(way) > 1 and end - way[-1] < rules.least:
        drawn = rules.at_or_before(end - rules.least)
        if drawn > way[-2]:
            way[-1] = drawn
    return way if end - way[-1] + half <= rules.length and way[-1] < end else None


def _anyhow(start: Length, end: Length, rules: Rules) -> list[Length]:
    """Where framing is too wide apart for the sheet: ends between supports."""
    count = whole((end - start - rules.length) / rules.reach)
    return [start + rules.length - rules.end_lap / 2 + n * rules.reach for n in range(count)]


def _spans(
    start: Length, end: Length, joints: Sequence[Length], slabs: Sequence[Slab], rules: Rules
) -> tuple[_Span, ...]:
    """The pieces between the joints, half a lap beyond each, as high as the wall behind them."""
    half = rules.end_lap / 2
    lefts = [start, *(u - half for u in joints)]
    rights = [*(u + half for u in joints), end]
    found = []
    for a, b in zip(lefts, rights, strict=True):
        behind = [s for s in slabs if s.left < b and s.right > a]
        found.append(_Span(Rect(a, b, min(s.low for s in behind), max(s.high for s in behind))))
    return tuple(found)


def _piece(face: Face, panel: Panel, piece: Piece, stack: Stack) -> Piece:
    """The piece with the sheet it is cut from, the wall it covers and what of it goes round a corner."""
    taken = stack.cut(piece.right - piece.left, piece.high - piece.low)
    return replace(
        piece,
        sheet=taken.sheet,
        reused=taken.reused,
        net=face.area(Rect(piece.left, piece.right, piece.low, piece.high), panel.parts),
        turn_left=max(NOUGHT, face.box[0] - piece.left),
        turn_right=max(NOUGHT, piece.right - face.box[1]),
    )


def _joints(number: int, course: int, row: _Row, rules: Rules) -> list[EndJoint]:
    found = []
    for u, here, there in zip(row.joints, row.spans, row.spans[1:], strict=False):
        low, high = max(here.box.low, there.box.low), min(here.box.high, there.box.high)
        found.append(EndJoint(number, course, u, low, high, rules.supported(u)))
    return found
