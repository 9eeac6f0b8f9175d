"""Whether a crack moves, by readings of a gauge: a change counts only beyond what the gauge can tell apart."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from darby.condition.survey_model import Crack, Follows, GaugeReading, Movement
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.rulebook.book import Book
from darby.working.model import Quantity, Working

_INCH, _DAY = unit("in"), unit("day")


@dataclass(frozen=True, slots=True)
class Gauged:
    """What the readings say: the movement, what it follows, by how much the width changed [m]."""

    movement: Movement
    follows: Follows = ""
    change: Quantity | None = None


def gauged(w: Working, key: str, crack: Crack, book: Book) -> Gauged:
    """Moving where the widest and the narrowest reading differ by more than the gauge tells apart.

    Else "not moving so far" after enough readings over a long enough time (``survey.readings.*``), else too few.
    Without the gauge's own least reading nothing can be told, however many readings there are.
    """
    readings = crack.readings
    if crack.gauge is None or len(readings) < 2:
        return Gauged("too few readings")
    widest = max(r.width for r in readings)
    narrowest = min(r.width for r in readings)
    change = w.step(
        f"{key}/change", "widest - narrowest", _INCH, "condition.survey.step.change",
        widest=Quantity(widest, _INCH), narrowest=Quantity(narrowest, _INCH),
    )  # fmt: skip
    if not at_most(widest - narrowest, crack.gauge):
        return Gauged("moving", follows(readings, crack), change)
    span = w.step(
        f"{key}/span", "days * one", _DAY, "condition.survey.step.span",
        days=(readings[-1].on - readings[0].on).days, one=Quantity(_DAY.scale, _DAY),
    )  # fmt: skip
    least, long = book.number("survey.readings.least"), book.number("survey.readings.span")
    enough = len(readings) >= least.number and at_most(long.number, float(span))
    return Gauged("not moving so far" if enough else "too few readings", "", change)


def follows(readings: tuple[GaugeReading, ...], crack: Crack) -> Follows:
    """What the width follows. Pairs that the gauge cannot tell apart say nothing."""
    assert crack.gauge is not None
    told = [(a, b) for a, b in combinations(readings, 2) if not at_most(abs(a.width - b.width), crack.gauge)]
    if all(r.air is not None for r in readings):
        wider = [(a, b) if a.width > b.width else (b, a) for a, b in told]
        if all(a.air < b.air for a, b in wider):  # type: ignore[operator]
            return "cold"
        if all(a.air > b.air for a, b in wider):  # type: ignore[operator]
            return "warm"
    return "growing" if all(b.width > a.width for a, b in told) else ""
