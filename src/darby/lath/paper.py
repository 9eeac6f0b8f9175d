"""Paper behind the lath: from the foot up, every course over the one below, so that water runs out and not in."""

from __future__ import annotations

from collections.abc import Sequence

from quicktions import Fraction

from darby.lath.face import NOUGHT, Face, Rect, runs
from darby.lath.model import LathAsk, Paper, PaperStrip
from darby.measure.exact import fraction_of
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import whole
from darby.measure.surface import Length
from darby.measure.units import IN, unit
from darby.measure.writing import rounded, short, write
from darby.rulebook import Figure
from darby.working import Quantity, Working


def hang(working: Working, ask: LathAsk, face: Face) -> Paper | None:
    """The paper of a framed wall; None over masonry, or where none is wanted."""
    layers = _layers(working, ask)
    if not layers:
        return None
    level, upright = ask.book.number("wrb.lap.horizontal"), ask.book.number("wrb.lap.vertical")
    lap, end_lap = exact(level), exact(upright)
    width = ask.roll.width if ask.roll is not None else _width(working, ask)
    if width <= lap or (ask.roll is not None and ask.roll.length <= 2 * end_lap):
        raise Unreadable(Fault("lath.roll", ask.at, write(width), f"> {write(lap)}"))
    hung = layers if ask.roll is None else whole(Fraction(layers, max(1, ask.roll.plies)))
    reel = _Reel(ask.roll.length if ask.roll is not None else None, end_lap)
    strips: list[PaperStrip] = []
    left, right, _, _ = face.box
    walls = [
        (course, run[0].left, run[-1].right, min(s.low for s in run), max(s.high for s in run))
        for course, (low, high) in enumerate(courses(face, width, lap), start=1)
        for run in runs(face.slabs(Rect(left, right, low, high)))
    ]
    for layer in range(1, hung + 1):
        for course, first, last, bottom, top in walls:
            for start, end, roll in reel.run(first, last):
                strips.append(PaperStrip(layer, course, start, end, bottom, top, roll))
    long = sum((s.right - s.left for s in strips), NOUGHT)
    at = f"{ask.at}/paper"
    length = working.found(
        f"{at}/length",
        float(long),
        "ft-in",
        "lath.paper-length",
        method="lath.method.course-by-course",
        proof=_proof(strips),
        rules=(level.id, upright.id),
    )
    area = working.step(f"{at}/covers", "length * width", "sq ft", "lath.paper-area", length=length,
                        width=Quantity(width, unit("in")))  # fmt: skip
    rolls = None
    if ask.roll is not None:
        rolls = Quantity(reel.begun, unit("rolls"))
    return Paper(layers, tuple(strips), length, area, rolls)


def exact(figure: Figure) -> Length:
    """A length of the book as it is written, exactly."""
    return fraction_of(repr(figure.number))


def _layers(working: Working, ask: LathAsk) -> int:
    if ask.base != "frame":
        working.note("lath.no-paper-on-masonry", "fact", ask.at)
        return 0
    if ask.paper is not None:
        return ask.paper
    figure = ask.book.number("prep.paper", sheathing=ask.sheathing or "wood")
    working.note("lath.paper-layers", "fact", ask.at, rules=(figure.id,), layers=figure)
    return round(figure.number)


def _width(working: Working, ask: LathAsk) -> Length:
    figure = ask.book.number("paper.width")
    working.note("lath.assumed.paper-width", "assumed", ask.at, rules=(figure.id,), width=figure)
    return exact(figure)


def courses(face: Face, width: Length, lap: Length) -> list[tuple[Length, Length]]:
    """(low, high) of every course of paper from the foot up, each a lap over the one below."""
    _, _, foot, top = face.box
    count = max(1, whole((top - foot - lap) / (width - lap)))
    return [(foot + n * (width - lap), min(foot + n * (width - lap) + width, top)) for n in range(count)]


class _Reel:
    """Rolls as they run out; ``length`` None = nobody said how long they are."""

    def __init__(self, length: Length | None, lap: Length) -> None:
        self.length, self.lap = length, lap
        self.left = NOUGHT
        self.begun = 0

    def run(self, start: Length, end: Length) -> list[tuple[Length, Length, int]]:
        """(from, to, roll) of one run; where a roll ends within it the next laps over."""
        if self.length is None:
            return [(start, end, 0)]
        found = []
        while start < end:
            if self.left < end - start and self.left <= 2 * self.lap:
                self.left, self.begun = self.length, self.begun + 1
            stop = min(end, start + self.left)
            self.left -= stop - start
            found.append((start, stop, self.begun))
            if stop == end:
                break
            start = stop - self.lap
        return found


def _proof(strips: list[PaperStrip]) -> tuple[str, ...]:
    """Each course of a layer, then all of them together."""
    layers = max(s.layer for s in strips)
    courses = sorted({(s.layer, s.course) for s in strips})
    lines, sums = [], []
    for layer, course in courses:
        lengths = [s.right - s.left for s in strips if (s.layer, s.course) == (layer, course)]
        name = f"{layer}.{course}" if layers > 1 else f"{course}"
        lines.append(f"{name}: {_sum(lengths)}")
        sums.append(sum(lengths, NOUGHT))
    return (*lines, _sum(sums))


def _sum(lengths: Sequence[Length]) -> str:
    """Lengths and what they come to, in feet and inches; in inches with decimals where sixteenths do not add up."""
    total = sum(lengths, NOUGHT)
    if sum((rounded(x / IN * _SIXTEEN) for x in lengths), NOUGHT) == rounded(total / IN * _SIXTEEN):
        return f"{' + '.join(write(x, 'ft-in') for x in lengths)} = {write(total, 'ft-in')}"
    return f"{' + '.join(short(x / IN, 2 + 2) for x in lengths)} = {short(total / IN, 1)}"


_SIXTEEN = 2 ** (2 * 2)
