"""Waits as whole days, as ``days`` counts them with this firm's working day; which days are worked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cached_property
from typing import Any

from darby.days import visits
from darby.days.model import CoatTime, SurfaceTime, VisitsAsk
from darby.measure.limits import whole
from darby.measure.units import unit
from darby.pocket.asking import A_DAY, Asker
from darby.working import Quantity

MOMENT = Quantity(1, unit("s"))
"""How long a coat takes that is only to say when the next one may follow."""


@dataclass(frozen=True)
class Calendar:
    """Counts for the firm of ``ask``."""

    ask: Asker

    @cached_property
    def _visit(self) -> VisitsAsk:
        firm = self.ask.firm
        day = firm.labor.day if firm.labor.day is not None else unit("day").scale
        set_up = firm.trip.set_up if firm.trip is not None else 0
        every_day = len(self._week(A_DAY))
        return VisitsAsk(self.ask.ruled, A_DAY, 1, day, (), set_up, week=every_day)

    def after(self, moist: float, wait: float) -> list[int]:
        """Days from a coat to the first on which the next may go on, and to the last on which it is kept damp."""
        coat = CoatTime("a", hours=MOMENT, wait_least=wait, moist=moist)
        pair = SurfaceTime("w", (replace(coat, moist=0), CoatTime("b", hours=MOMENT)))
        alone = SurfaceTime("w", (coat,))
        first, last = (visits(replace(self._visit, surfaces=(s,)))[0].coats[0] for s in (pair, alone))
        assert first.next_from is not None
        damp = last.damp_until or last.last
        return [(first.next_from - first.last).days, (damp - last.last).days]

    def table(self) -> dict[str, Any]:
        """Which days are worked, from Sunday."""
        worked = whole(self.ask.ruled.number("days.week").number)
        sunday = A_DAY - timedelta(days=A_DAY.isoweekday())
        return {"worked": [day.isoweekday() <= worked for day in self._week(sunday)]}

    @staticmethod
    def _week(first: date) -> list[date]:
        days = [first]
        while len({day.isoweekday() for day in days}) == len(days):
            days.append(days[-1] + timedelta(days=1))
        return days[:-1]
