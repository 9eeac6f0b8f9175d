"""Painting: three coats over the area at the crew's pace; trips by whole days."""

from dataclasses import replace

import pytest

from darby.days.paint import PaintAsk, paint
from darby.measure.units import unit
from darby.rulebook import default
from darby.working import Quantity

SQ_FT, HOUR = unit("sq ft"), unit("h")


def asked(*areas):
    places = tuple((f"w{n}/rest", Quantity(SQ_FT.to_si(a), SQ_FT)) for n, a in enumerate(areas))
    return PaintAsk(default(), places, Quantity(unit("sq ft/h").to_si(260), unit("sq ft/h")), HOUR.to_si(8))


def test_one_primer_and_two_coats_of_paint():
    # 520 sq ft x 3 coats / 260 sq ft an hour = 6 h: one day of 8
    found, working = paint(asked(520))
    assert float(found.total) == pytest.approx(6 * 3600)
    assert found.trips.value == 1
    assert {"coating.coats.prime.practice", "coating.coats.paint.practice"} <= set(
        working.steps["w0/rest/paint/hours"].rules
    )


def test_trips_are_whole_days():
    # (520 + 260) x 3 / 260 = 9 h
    assert paint(asked(520, 260))[0].trips.value == 2


def test_what_was_painted_before_takes_no_primer():
    # 520 sq ft x 2 coats / 260 sq ft an hour = 4 h, beside the 6 h of a wall that is primed
    old = (("old/rest", Quantity(SQ_FT.to_si(520), SQ_FT)),)
    found, _ = paint(replace(asked(520), again=old))
    assert {at: float(h) / 3600 for at, h in found.hours} == pytest.approx({"w0/rest": 6, "old/rest": 4})
    assert float(found.total) == pytest.approx(10 * 3600)
    assert float(paint(replace(asked(), again=old))[0].total) == pytest.approx(4 * 3600)


def test_nothing_to_paint_takes_nothing():
    found, working = paint(asked())
    assert (found.hours, found.total, found.trips, working.steps) == ((), None, None, {})
