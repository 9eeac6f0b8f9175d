"""The plan: nothing is lost, nothing comes too soon, and no bound is beaten."""

from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.days import plan as plan_module
from darby.days.plan import DAY, Chain, Planner, Task, _Day, over, whole_days, window
from darby.days.workdays import working_days

H = 3600
USABLE = 6 * H + H // 2
MONDAY = date(2026, 6, 1).toordinal()

waits = st.sampled_from([0, 0, 4 * H, 24 * H, 48 * H, 7 * DAY])
tasks = st.builds(lambda t, w: Task("coat", t, w), st.integers(1, 20 * H), waits)
chains = st.lists(st.lists(tasks, min_size=1, max_size=4), min_size=1, max_size=6).map(
    lambda rows: [Chain(f"wall-{n}", tuple(row)) for n, row in enumerate(rows)]
)


def planned(rows, *, week=5, holidays=(), extras=(), set_up=None, patience=0, usable=USABLE):
    return Planner(rows, extras, set_up or {}, usable, patience, working_days(week, holidays)).run(MONDAY)


def longest(rows, usable=USABLE):
    """The trips that a surface with most waits needs, counted the plain way."""
    return max(1 + sum(t.least >= usable for t in row.tasks[:-1]) for row in rows)


@given(chains)
@settings(max_examples=80, deadline=None)
def test_all_work_is_done_in_days_that_are_not_too_long(rows):
    plan = planned(rows)
    spent = {}
    for out in plan.days:
        assert out.end <= USABLE
        assert sum(s.time for s in out.spent) + out.idle >= out.end
        for s in out.spent:
            spent[s.at] = spent.get(s.at, 0) + s.time
    assert spent == {row.at: sum(t.time for t in row.tasks) for row in rows}


@given(chains)
@settings(max_examples=80, deadline=None)
def test_no_coat_comes_before_its_wait_is_over(rows):
    plan = planned(rows)
    for row in rows:
        for n, task in enumerate(row.tasks[:-1]):
            last, first = plan.done[row.at, n][1], plan.done[row.at, n + 1][0]
            assert first >= last + (whole_days(task.least) if task.least >= USABLE else 0)


@given(chains)
@settings(max_examples=80, deadline=None)
def test_never_fewer_trips_than_the_longest_chain_or_the_hours_need(rows):
    plan = planned(rows)
    hours = sum(t.time for row in rows for t in row.tasks)
    assert len(plan.days) >= plan.bound >= max(longest(rows), over(hours, USABLE))


@given(chains, st.randoms())
@settings(max_examples=80, deadline=None)
def test_the_order_in_which_walls_are_written_does_not_matter(rows, random):
    shuffled = list(rows)
    random.shuffle(shuffled)
    assert planned(rows).days == planned(shuffled).days


@given(st.lists(st.lists(st.integers(1, 20 * H), min_size=1, max_size=3), min_size=1, max_size=6))
@settings(max_examples=80, deadline=None)
def test_what_may_stop_anywhere_fills_the_days_to_the_brim(rows):
    plan = planned([Chain(f"w{n}", tuple(Task("c", t, may_stop=True) for t in row)) for n, row in enumerate(rows)])
    assert len(plan.days) == plan.bound == over(sum(map(sum, rows)), USABLE)


@given(chains)
@settings(max_examples=80, deadline=None)
def test_a_coat_that_fits_a_day_is_done_in_one_and_a_longer_one_in_days_that_follow(rows):
    plan = planned(rows)
    on_or_after = working_days(5, ())
    out = [d.day for d in plan.days]
    for row in rows:
        for n, task in enumerate(row.tasks):
            first, last = plan.done[row.at, n]
            if task.time <= USABLE:
                assert first == last
            between = out[out.index(first) : out.index(last) + 1]
            assert all(b == on_or_after(a + 1) for a, b in pairwise(between))


@given(st.lists(st.integers(1, USABLE), min_size=1, max_size=12))
@settings(max_examples=80, deadline=None)
def test_whole_coats_cost_less_than_twice_the_trips(times):
    """Two days that follow each other hold more than one day's work, or a coat of the second had gone in the first."""
    plan = planned([Chain(f"w{n:02d}", (Task("c", t),)) for n, t in enumerate(times)])
    assert plan.bound <= len(plan.days) <= 2 * plan.bound


def test_the_longest_coat_that_still_fits_fills_the_day():
    rows = [Chain("a", (Task("c", 5 * H, 48 * H), Task("d", H)))]
    rows += [Chain(name, (Task("c", time),)) for name, time in (("b", 2 * H), ("c", H + H // 2), ("d", H))]
    assert [s.at for s in planned(rows).days[0].spent] == ["a", "c"]


@given(st.lists(st.lists(waits, min_size=1, max_size=4), min_size=1, max_size=6))
@settings(max_examples=80, deadline=None)
def test_small_work_takes_just_the_trips_of_the_longest_chain(rows):
    chains = [Chain(f"w{n}", tuple(Task("c", 60, 0 if w == 4 * H else w) for w in row)) for n, row in enumerate(rows)]
    assert len(planned(chains).days) == longest(chains)


def test_each_day_out_is_a_working_day():
    friday_off = date(2026, 6, 5)
    plan = planned([Chain("w", (Task("a", 40 * H), Task("b", H)))], holidays=(friday_off,))
    days = [date.fromordinal(d.day) for d in plan.days]
    assert friday_off not in days and all(d.isoweekday() <= 5 for d in days) and days == sorted(set(days))


def test_a_fuller_week_has_fewer_days_between():
    rows = [Chain("w", (Task("a", 40 * H),))]
    assert planned(rows, week=7).days[-1].day < planned(rows, week=5).days[-1].day


# --- doubling back ------------------------------------------------------------------------------------


def pair(scratch, brown, least=4 * H, most=5 * H, at="w"):
    return Chain(at, (Task("scratch", scratch, least, most), Task("brown", brown)))


def test_doubling_back_is_counted_from_the_same_spot():
    assert window(Task("scratch", 2 * H, 4 * H, 5 * H), Task("brown", 2 * H)) == (4 * H, 5 * H)
    # A quicker brown coat must start later, or its last spot would not have waited long enough.
    assert window(Task("scratch", 2 * H, 4 * H, 5 * H), Task("brown", H)) == (5 * H, 5 * H)


def test_doubling_back_is_done_in_one_day():
    plan = planned([pair(H, H)])
    assert len(plan.days) == 1 and plan.lags == [] and plan.days[0].idle == 3 * H


def test_other_walls_fill_the_time_between():
    plan = planned([pair(H, H), Chain("x", (Task("base", 3 * H),))])
    assert len(plan.days) == 1 and plan.days[0].idle == 0


def test_doubling_back_waits_for_a_morning_that_has_room():
    busy = Chain("a", (Task("one", 5 * H, 48 * H), Task("two", H)))  # more trips before it: it goes first
    plan = planned([busy, pair(H, H, at="w")])
    assert plan.lags == [] and plan.done["w", 0] == plan.done["w", 1] and plan.done["w", 0][0] > MONDAY


def test_a_lag_that_no_day_can_keep_is_named():
    plan = planned([pair(4 * H, 4 * H)])
    assert [(lag.at, lag.number, lag.impossible) for lag in plan.lags] == [("w", 0, True)]
    assert plan.done["w", 1][0] > plan.done["w", 0][1]  # an answer still stands


def test_least_over_most_is_impossible():
    chain = Chain("w", (Task("a", H, 10 * DAY, 7 * DAY), Task("b", H)))
    assert planned([chain]).lags[0].impossible


def test_a_lag_of_days_that_the_weekend_breaks_is_named():
    thursday = Chain("w", (Task("a", H, 2 * DAY, 3 * DAY), Task("b", H)))
    planner = Planner([thursday], (), {}, USABLE, 0, working_days(5, ()))
    plan = planner.run(date(2026, 6, 4).toordinal())  # ready on Saturday, too late on Monday
    assert [(lag.number, lag.impossible) for lag in plan.lags] == [(0, False)]


def test_a_coat_that_may_not_wait_is_not_kept_for_the_others():
    rows = [
        Chain("a", (Task("one", H, 2 * DAY, 3 * DAY), Task("two", H))),
        Chain("b", (Task("one", H, 7 * DAY), Task("two", H))),
    ]
    plan = planned(rows)
    assert plan.lags == [] and plan.done["a", 1][0] == MONDAY + 2
    assert len(plan.days) == 3  # two, were it not for the lag


@given(st.lists(st.tuples(st.integers(60, 3 * H), st.integers(60, 3 * H)), min_size=1, max_size=4), chains)
@settings(max_examples=60, deadline=None)
def test_every_pair_is_kept_the_same_day_or_named(pairs, rows):
    doubled = [pair(a, b, at=f"pair-{n}") for n, (a, b) in enumerate(pairs)]
    plan = planned([*rows, *doubled])
    named = {lag.at for lag in plan.lags if lag.impossible}
    for chain in doubled:
        (_, last), (first, end) = plan.done[chain.at, 0], plan.done[chain.at, 1]
        assert (chain.at in named) != (plan.done[chain.at, 0][0] == last == first == end)


# --- standing by, extras, access ------------------------------------------------------------------------


@pytest.mark.parametrize(("patience", "trips"), [(0, 2), (2 * H, 1)])
def test_the_crew_stands_by_only_as_long_as_is_worth_it(patience, trips):
    rows = [Chain("w", (Task("a", H, 2 * H), Task("b", H)))]
    assert len(planned(rows, patience=patience).days) == trips


def test_what_is_begun_is_finished_first():
    rows = [
        Chain("a", (Task("one", 10 * H, 2 * DAY), Task("two", H))),
        Chain("b", (Task("one", 2 * H, 7 * DAY), Task("two", H), Task("three", H))),
    ]
    plan = planned(rows)
    first = [s.at for s in plan.days[1].spent]
    assert first[0] == "a"


def test_extras_come_first_and_access_before_the_wall_that_needs_it():
    chain = Chain("w", (Task("a", H),), access="scaffold")
    plan = planned([chain], extras=[Task("protect", H)], set_up={"scaffold": 2 * H})
    spent = [(s.at, s.coat, s.time // H) for s in plan.days[0].spent]
    assert spent == [("", "protect", 1), ("", "scaffold", 2), ("w", "a", 1)]
    assert plan.set_up == {"scaffold": MONDAY}


def test_nothing_to_do_is_no_trip():
    assert planned([]).days == []


def test_many_walls_take_work_near_the_number_of_walls(monkeypatch):
    """A thousand walls may take at most twelve times what a hundred take, counted in moves, not in seconds."""
    moves = 0
    act, push = _Day._act, plan_module.heappush

    def counted_act(self):
        nonlocal moves
        moves += 1
        return act(self)

    def counted_push(heap, item):
        nonlocal moves
        moves += 1
        push(heap, item)

    monkeypatch.setattr(_Day, "_act", counted_act)
    monkeypatch.setattr(plan_module, "heappush", counted_push)

    def count(n):
        nonlocal moves
        moves = 0
        tasks = (Task("a", 2 * H, 2 * DAY), Task("b", 2 * H, 7 * DAY), Task("c", H))
        planned([Chain(f"w{i:04d}", tasks) for i in range(n)])
        return moves

    assert count(1000) <= 12 * count(100)
