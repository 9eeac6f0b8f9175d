"""Working days: so many days of the week from Monday, less the holidays."""

from __future__ import annotations

from calendar import day_name
from collections.abc import Callable
from datetime import date

from darby.measure.faults import Fault, Unreadable

WEEK = len(day_name)


def working_days(week: int, holidays: tuple[date, ...]) -> Callable[[int], int]:
    """A function that gives the first working day on or after a day (both as ordinals).

    Raises
    ------
    Unreadable
        if ``week`` is not 1 to 7.
    """
    if not 1 <= week <= WEEK:
        raise Unreadable(Fault("days.bad-week", "", str(week), f"1 to {WEEK}"))
    closed = frozenset(day.toordinal() for day in holidays)

    def on_or_after(day: int) -> int:
        while day in closed or date.fromordinal(day).isoweekday() > week:
            day += 1
        return day

    return on_or_after
