"""Painting: its hours and trips. Its date is nobody's to plan: paint waits for a test of the wall, not for days."""

from __future__ import annotations

from dataclasses import dataclass

from darby.days.model import Real
from darby.measure.units import unit
from darby.rulebook import Book
from darby.working import Given, Quantity, Working

HOURS = unit("h")


@dataclass(frozen=True, slots=True)
class PaintAsk:
    """What is painted: places with their area [m2]; pace of the whole crew on one coat [m2/s]; its working day [s].

    ``again``: places that are painted already, and take no primer.
    """

    book: Book
    places: tuple[tuple[str, Quantity], ...]
    pace: Quantity
    day: Real
    again: tuple[tuple[str, Quantity], ...] = ()


@dataclass(frozen=True, slots=True)
class Paint:
    """Hours of the whole crew at each place, all of them, and the trips they take when the wall is ready."""

    hours: tuple[tuple[str, Quantity], ...]
    total: Quantity | None = None
    trips: Quantity | None = None


def paint(ask: PaintAsk) -> tuple[Paint, Working]:
    """Primer and paint on every place. No places: nothing to paint."""
    working = Working()
    if not ask.places and not ask.again:
        return Paint(()), working
    prime, coats = ask.book.number("coating.coats.prime"), ask.book.number("coating.coats.paint")
    hours = tuple(
        (
            at,
            working.step(f"{at}/paint/hours", "area * (primer + coats) / pace", HOURS, "days.paint-hours",
                         area=area, primer=prime, coats=coats, pace=ask.pace),
        )
        for at, area in ask.places
    )  # fmt: skip
    hours += tuple(
        (
            at,
            working.step(f"{at}/paint/hours", "area * coats / pace", HOURS, "days.paint-hours", area=area, coats=coats,
                         pace=ask.pace),
        )
        for at, area in ask.again
    )  # fmt: skip
    names: dict[str, Given] = {f"h{n}": h for n, (_, h) in enumerate(hours)}
    total = working.step("job/paint/hours", " + ".join(names), HOURS, "days.paint-total", rules=(), **names)
    trips = working.step(
        "job/paint/trips", "ceil(hours / day)", "trips", "days.paint-trips", hours=total, day=Quantity(ask.day, HOURS)
    )
    ready = ask.book.number("cure.paint-ph")
    working.note("days.paint-waits", "caution", "job", rules=(ready.id,), ph=ready, trips=trips)
    return Paint(hours, total, trips), working
