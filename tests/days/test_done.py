"""The plan counted from what is on the wall."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.days import visits
from tests.days.test_visits import ACCESS, DAY, WEDNESDAY, H, ask_of, coat, codes, wall

MONDAY, FRIDAY = date(2026, 9, 28), date(2026, 9, 25)


def test_the_wait_runs_from_the_day_it_was_done():
    """Scratch on Monday the 28th: 48 h are Wednesday the 30th; brown waits 7 days, to October 7."""
    answer, working = visits(ask_of(replace(wall("w", 100), done=(MONDAY,))))
    assert [(t.why, t.day) for t in answer.trips] == [
        ("done", MONDAY), ("wait", WEDNESDAY), ("wait", date(2026, 10, 7)),
    ]  # fmt: skip
    assert [(c.coat, c.first, c.last) for c in answer.coats] == [
        ("scratch", MONDAY, MONDAY), ("brown", WEDNESDAY, WEDNESDAY), ("finish", date(2026, 10, 7), date(2026, 10, 7)),
    ]  # fmt: skip
    assert answer.count.value == answer.bound.value == 3 and answer.proved
    assert "days.counted-from" in codes(working)


def test_hours_and_price_are_those_of_the_whole_job():
    untouched, _ = visits(ask_of(wall("w", 100)))
    begun, _ = visits(ask_of(replace(wall("w", 100), done=(MONDAY, WEDNESDAY))))
    assert begun.hours.value == untouched.hours.value
    assert [c.hours.value for c in begun.coats] == [c.hours.value for c in untouched.coats]
    assert sum(t.hours.value for t in begun.trips) == pytest.approx(float(begun.hours.value), abs=3)


def test_the_plan_goes_on_the_day_after_what_was_done_last():
    later = date(2026, 10, 5)
    answer, _ = visits(ask_of(replace(wall("a", 100), done=(later,)), wall("b", 100)))
    assert all(t.day > later for t in answer.trips if t.why != "done")


def test_a_job_that_is_done_has_no_trips_to_come():
    days = (MONDAY, WEDNESDAY, date(2026, 10, 7))
    answer, _ = visits(ask_of(replace(wall("w", 100), done=days)))
    assert [t.day for t in answer.trips] == list(days)
    assert (answer.first, answer.last, answer.count.value) == (days[0], days[-1], 3)
    assert not [c for c in answer.coats if c.next_from is not None and c.coat == "finish"]


def test_what_has_no_date_is_done_with_what_came_next_and_is_no_fault():
    answer, working = visits(ask_of(replace(wall("w", 100), done=(None, WEDNESDAY))))
    assert next((t.day, [p.coat for p in t.pieces]) for t in answer.trips) == (WEDNESDAY, ["scratch", "brown"])
    assert "days.done-early" not in codes(working)


@pytest.mark.parametrize(("brown", "early"), [(MONDAY + timedelta(1), True), (MONDAY + timedelta(2), False)])
def test_a_coat_that_went_on_too_soon_is_said(brown, early):
    _, working = visits(ask_of(replace(wall("w", 100), done=(MONDAY, brown))))
    found = [dict(n.values) for n in working.notes if n.code == "days.done-early"]
    assert [(f["after"], f["coat"], f["on"]) for f in found] == ([("scratch", "brown", brown)] if early else [])


def test_scaffold_that_stands_is_not_set_up_again_and_is_hired_from_its_first_day():
    high = replace(wall("w", 100, reach="9"), done=(FRIDAY,))
    answer, _ = visits(ask_of(high, access=ACCESS))
    assert [p.coat for p in answer.trips[0].pieces] == ["scaffold", "scratch"]
    assert [p.coat for t in answer.trips[1:] for p in t.pieces] == ["brown", "finish"]
    assert [(h.kind, h.first) for h in answer.hires] == [("scaffold", FRIDAY)]


def test_a_double_back_that_did_not_come_is_named():
    scratch = coat("scratch", 100, 110, wait_least=2 * H, wait_most=6 * H)
    ask = ask_of(replace(wall("w", 100), coats=(scratch, coat("brown", 100, 95)), done=(MONDAY,)))
    _, working = visits(ask)
    assert "days.lag-missed" in codes(working)


def test_what_was_done_nowhere_is_said():
    _, working = visits(ask_of(wall("w", 100), nowhere=(("w", "dash-bond"),)))
    assert [dict(n.values)["coat"] for n in working.notes if n.code == "days.done-nowhere"] == ["dash-bond"]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(20, 400), st.integers(0, 3), st.integers(0, 20)), min_size=1, max_size=6))
def test_nothing_is_lost_or_too_soon_from_wherever_it_is_counted(rows):
    surfaces = []
    for n, (area, count, ago) in enumerate(rows):
        start = WEDNESDAY - timedelta(ago + 12)
        dates = (start, start + timedelta(2), start + timedelta(9))[:count]
        surfaces.append(replace(wall(f"w{n}", area), done=dates))
    ask = ask_of(*surfaces)
    answer, _ = visits(ask)
    by = {(c.at, c.coat): c for c in answer.coats}
    assert len(by) == 3 * len(rows)
    for surface in surfaces:
        scratch, brown, finish = (by[surface.at, name] for name in ("scratch", "brown", "finish"))
        assert (brown.first - scratch.last).days * DAY >= 48 * H
        assert (finish.first - brown.last).days >= 7
        done = [c.first for c in (scratch, brown, finish)][: len(surface.done)]
        assert done == list(surface.done)
    assert len({t.day for t in answer.trips}) == len(answer.trips) >= answer.bound.value
