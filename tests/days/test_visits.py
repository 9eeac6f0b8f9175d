"""The whole plan of a job, with its working and its notes."""

import re
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.days import visits
from darby.days.model import AccessRow, CoatTime, Extra, SurfaceTime, VisitsAsk
from darby.measure.faults import Unreadable
from darby.measure.units import unit
from darby.rulebook import default
from darby.words import say
from darby.working import Quantity

H, DAY = 3600, 86_400
SQFT, PER_HOUR = unit("sq ft"), unit("sq ft/h")
WEDNESDAY = date(2026, 9, 30)
ACCESS = (
    AccessRow("ground", Fraction("1.8288")),
    AccessRow("planks and trestles", Fraction("3.048"), H),
    AccessRow("scaffold", Fraction("9.144"), 8 * H),
)


def coat(name, area, pace, **more):
    return CoatTime(
        name, Quantity(SQFT.to_si(Fraction(area)), SQFT), Quantity(PER_HOUR.to_si(Fraction(pace)), PER_HOUR), **more
    )


def wall(at, area, reach="2"):
    scratch = coat("scratch", area, 110, wait_least=48 * H, moist=48 * H, rules=("cure.wait.scratch.ibc",))
    brown = coat("brown", area, 95, wait_least=7 * DAY, moist=48 * H, rules=("cure.wait.brown.ibc",))
    return SurfaceTime(at, (scratch, brown, coat("finish", area, 120)), Fraction(reach))


def ask_of(*surfaces, **more):
    base = {"book": default(), "as_of": WEDNESDAY, "people": 5, "day": 8 * H, "set_up": 5400, "surfaces": surfaces}
    return VisitsAsk(**{**base, **more})


def codes(working):
    return [n.code for n in working.notes]


def test_the_day_that_is_printed_is_the_day_that_is_planned():
    """8 h less 1-1/2 h of setting up; 20 h of dash, 100 sq ft at 5, fill it three times and leave half an hour."""
    slow = SurfaceTime("w", (coat("scratch", 100, 5, may_stop=True),), Fraction(2))
    answer, working = visits(ask_of(slow))
    assert working.steps["job/day"].value == 6.5 * H
    assert [float(t.hours.value) / H for t in answer.trips] == pytest.approx([6.5, 6.5, 6.5, 0.5])


def test_a_small_wall_is_three_trips_two_of_them_forced_by_named_waits():
    answer, working = visits(ask_of(wall("w", 100)))
    assert (answer.count.value, answer.alone.value, answer.forced.value) == (3, 1, 2)
    assert answer.proved and "days.fewest" in codes(working)
    assert [t.why for t in answer.trips] == ["start", "wait", "wait"]
    assert [(t.waited_coat, t.rules) for t in answer.trips[1:]] == [
        ("scratch", ("cure.wait.scratch.ibc",)),
        ("brown", ("cure.wait.brown.ibc",)),
    ]
    forced = [dict(n.values) for n in working.notes if n.code == "days.trip-forced"]
    assert [f["coat"] for f in forced] == ["scratch", "brown"]
    assert "48 h" in say("days.trip-forced", forced[0]) and "7 days" in say("days.trip-forced", forced[1])


def test_whole_coats_that_pack_badly_are_not_the_fault_of_the_waits():
    """Three coats of 4 h in days of 6.5 h are three trips, waits or not, though 12 h would go into two."""
    surfaces = tuple(SurfaceTime(f"w{n}", (coat("base", 400, 100),)) for n in range(3))
    answer, _ = visits(ask_of(*surfaces))
    assert (answer.count.value, answer.alone.value, answer.forced.value, answer.bound.value) == (3, 3, 0, 2)
    assert not answer.proved


def test_dates_are_exact():
    answer, _ = visits(ask_of(wall("w", 100)))
    scratch, brown, finish = answer.coats
    assert (scratch.first, scratch.next_from) == (WEDNESDAY, date(2026, 10, 2))
    assert (brown.first, brown.next_from) == (date(2026, 10, 2), date(2026, 10, 9))
    assert (finish.first, finish.next_from) == (date(2026, 10, 9), None)
    assert (answer.first, answer.last, answer.span.value) == (WEDNESDAY, date(2026, 10, 9), 10 * DAY)


def test_walls_side_by_side_share_their_trips():
    answer, _ = visits(ask_of(wall("a", 100), wall("b", 80), wall("c", 60)))
    assert len(answer.trips) == 3


def test_hours_are_area_over_pace_and_add_up():
    answer, working = visits(ask_of(wall("a", 110)))
    assert working.steps["a/scratch/hours"].value == pytest.approx(H)
    assert float(answer.hours.value) == pytest.approx(sum(float(c.hours.value) for c in answer.coats))
    assert sum(p.time for t in answer.trips for p in t.pieces) == pytest.approx(float(answer.hours.value), abs=3)


def test_dampening_is_asked_of_the_owner_on_the_days_between():
    answer, working = visits(ask_of(wall("w", 100)))
    assert answer.damp_days == (date(2026, 10, 1), date(2026, 10, 3), date(2026, 10, 4))
    assert "days.damp-owner" in codes(working)
    crew, crew_working = visits(ask_of(wall("w", 100), damp_by="crew"))
    assert crew.damp_by == "crew" and "days.damp-crew" in codes(crew_working)


def test_access_goes_by_reach_and_stands_from_first_to_last_use():
    answer, working = visits(ask_of(wall("low", 100), wall("high", 100, "4"), access=ACCESS))
    hires = {h.kind: h for h in answer.hires}
    assert hires["planks and trestles"].at == ("low",) and hires["scaffold"].at == ("high",)
    assert "ground" not in hires
    days = [d for c in answer.coats if c.at == "high" for d in (c.first, c.last)]
    assert hires["scaffold"].last == max(days) and hires["scaffold"].first <= min(days)
    assert hires["scaffold"].days.value == ((hires["scaffold"].last - hires["scaffold"].first).days + 1) * DAY
    assert any(p.coat == "scaffold" and p.time for t in answer.trips for p in t.pieces)
    assert "days.hire-span" in codes(working)


def test_the_days_of_the_whole_job_are_counted_with_the_first_and_the_last():
    answer, working = visits(ask_of(wall("w", 100)))
    first, last = answer.trips[0].day, answer.trips[-1].day
    step = working.steps["job/span"]
    assert step.value == ((last - first).days + 1) * DAY
    (proof,) = step.proof
    assert proof.startswith(f"{first.isoformat()} .. {last.isoformat()}: ")
    end, start, days = map(int, re.search(r": (\d+) - (\d+) \+ 1 = (\d+)$", proof).groups())
    assert end - start + 1 == days == (last - first).days + 1
    assert end == last.toordinal()


def test_a_wall_that_nothing_reaches_is_a_stop():
    _, working = visits(ask_of(wall("tower", 100, "20"), access=ACCESS))
    stop = next(n for n in working.notes if n.code == "days.no-access")
    assert stop.grade == "stop" and stop.at == "tower"


def test_a_pace_nobody_gave_is_a_stop_and_not_a_guess():
    surface = SurfaceTime("w", (CoatTime("lace", Quantity(SQFT.to_si(Fraction(9)), SQFT)),))
    answer, working = visits(ask_of(surface))
    assert answer.hours.value == 0
    assert [(n.code, n.grade) for n in working.notes if n.grade == "stop"] == [("days.no-pace", "stop")]


def test_a_lag_that_cannot_be_kept_is_a_stop_that_names_it():
    scratch = coat("scratch", 400, 100, wait_least=4 * H, wait_most=5 * H, rules=("cure.double-back.merritt",))
    surface = SurfaceTime("w", (scratch, coat("brown", 400, 100)))
    _, working = visits(ask_of(surface))
    stop = next(n for n in working.notes if n.grade == "stop")
    assert (stop.code, stop.at, stop.rules) == ("days.lag-impossible", "w", ("cure.double-back.merritt",))
    assert "within 5 h" in say(stop.code, stop.values)


def test_a_lag_that_this_plan_misses_is_a_stop_too():
    scratch = coat("scratch", 100, 100, wait_least=48 * H, wait_most=72 * H)
    surface = SurfaceTime("w", (scratch, coat("brown", 100, 100)))
    _, working = visits(ask_of(surface, as_of=date(2026, 10, 1)))
    stop = next(n for n in working.notes if n.grade == "stop")
    assert stop.code == "days.lag-missed" and dict(stop.values)["on"] == date(2026, 10, 5)


def test_a_coat_that_runs_over_days_is_a_caution():
    _, working = visits(ask_of(SurfaceTime("w", (coat("brown", 1000, 95),))))
    assert "days.coat-over-days" in codes(working)
    _, lath = visits(ask_of(SurfaceTime("w", (coat("paper-and-lath", 1000, 75, may_stop=True),))))
    assert "days.coat-over-days" not in codes(lath)


def test_what_one_person_does_takes_a_part_of_the_crew_s_day():
    answer, working = visits(ask_of(wall("w", 100), extras=(Extra("mask", Quantity(5 * H, unit("h"))),)))
    assert working.steps["job/mask/crew-hours"].value == pytest.approx(H)
    assert answer.trips[0].pieces[0].coat == "mask"


def test_the_week_is_the_book_s_or_his_own():
    book = default().number("days.week").number
    saturday = date(2026, 10, 3)
    assert visits(ask_of(wall("w", 10), as_of=saturday))[0].first == saturday + timedelta(7 - book)
    assert visits(ask_of(wall("w", 10), as_of=saturday, week=6))[0].first == saturday


def test_the_frost_and_heat_limits_bind_every_plan():
    _, working = visits(ask_of(wall("w", 10)))
    assert {"safety.cold", "safety.frozen-base", "safety.hot"} <= set(codes(working))


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"set_up": 8 * H}, "days.no-time"),
        ({"people": 0}, "days.no-time"),
        ({"week": 0}, "days.bad-week"),
        ({"week": 8}, "days.bad-week"),
        ({"surfaces": (wall("w", 10), wall("w", 20))}, "days.surface-twice"),
    ],
)
def test_what_cannot_be_planned_is_refused(change, code):
    with pytest.raises(Unreadable) as error:
        visits(replace(ask_of(wall("w", 10)), **change))
    assert error.value.fault.code == code
    assert say(code, {"found": "x", "allowed": "y"})


def test_no_surface_is_no_trip_and_no_error():
    answer, _ = visits(ask_of())
    assert answer.trips == () and answer.count.value == 0 and answer.first == WEDNESDAY


def test_two_coats_of_one_name_are_two_lines():
    surface = SurfaceTime("w", (coat("paint", 100, 260), coat("paint", 100, 260)))
    _, working = visits(ask_of(surface))
    assert {"w/paint/hours", "w/paint-2/hours"} <= set(working.steps)


def test_many_coats_add_up_in_several_lines():
    surfaces = tuple(SurfaceTime(f"w{n}", (coat("base", 10, 100),)) for n in range(60))
    answer, working = visits(ask_of(*surfaces))
    assert float(answer.hours.value) == pytest.approx(60 * 360)
    assert "job/hours-part-0-1" in working.steps


@given(st.lists(st.integers(20, 2000), min_size=1, max_size=5), st.randoms())
@settings(max_examples=40, deadline=None)
def test_whatever_the_walls_the_answer_hangs_together(areas, random):
    walls = [wall(f"w{n}", area) for n, area in enumerate(areas)]
    answer, working = visits(ask_of(*walls))
    random.shuffle(walls)
    again, _ = visits(ask_of(*walls))
    assert answer.trips == again.trips
    assert len(answer.trips) >= 3 and answer.count.value >= answer.alone.value
    assert answer.bound.value <= len(answer.trips)
    for first, second in zip(answer.coats, answer.coats[1:], strict=False):
        if first.at == second.at:
            assert second.first >= first.next_from
    for n in working.notes:
        for language in ("en", "es"):
            assert say(n.code, n.values, language)
    for step in working.steps.values():
        assert say(step.says)


@given(st.lists(st.integers(20, 2000), min_size=2, max_size=5), st.randoms())
@settings(max_examples=40, deadline=None)
def test_what_a_wall_is_called_moves_no_day_and_no_hour(areas, random):
    names = [f"w{n}" for n in range(len(areas))]
    one, _ = visits(ask_of(*(wall(name, area) for name, area in zip(names, areas, strict=True))))
    random.shuffle(names)
    other, _ = visits(ask_of(*(wall(name, area) for name, area in zip(names, areas, strict=True))))
    assert [(t.day, t.hours.value, t.idle.value) for t in one.trips] == [
        (t.day, t.hours.value, t.idle.value) for t in other.trips
    ]


def two_coats(*areas):
    """Base at 100 sq ft an hour and finish at 150, a week between; a day has 6.5 h."""
    return [
        SurfaceTime(f"w{n}", (coat("base", a, 100, wait_least=7 * DAY), coat("finish", a, 150)), Fraction(1))
        for n, a in enumerate(areas)
    ]


def test_of_plans_with_as_many_trips_the_one_without_a_short_day_stands():
    """By hand: 3 h, 4.2 h and 0.4 h of base take two days; 3.4 and 4.2 are better than 4.6 and 3. Finish: 5.07 h."""
    answer, _ = visits(ask_of(*two_coats(300, 420, 40)))
    assert [t.hours.value / H for t in answer.trips] == pytest.approx([3.4, 4.2, 760 / 150])


def test_the_order_with_fewer_trips_is_taken():
    """By hand: 3.6 + 1.2 + 1.2 and 3.6 + 0.8 h of base are two days, so three trips do; small ones first, four."""
    answer, _ = visits(ask_of(*two_coats(360, 360, 80, 120, 120)))
    assert len(answer.trips) == answer.bound.value == 3
