"""The price as a whole: what adds up, what sets it, what it asks about."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.measure.faults import Unreadable
from darby.measure.units import unit
from darby.price import price
from darby.price.model import Also, Crew, Damp, Item, Place, Profit, Share, Span, TripTerms, TripTime, Usual, Work
from darby.words import say
from darby.working import Amount, Quantity
from tests.price.build import H, ask_of, hours, sq_ft, trips


def amount(lines, code, what=None):
    return sum(line.amount.value for line in lines if line.code == code and what in (None, line.what))


def test_worked_by_hand():
    """Crew hour: (3 x 34 + 2 x 24) x 1.42 = 213.00. Every line below was worked with pencil and paper."""
    answer, working = price(ask_of())
    assert answer.crew_hour.value * 3600 == pytest.approx(Decimal("213"))
    lines = answer.lines
    assert amount(lines, "price.coat") == Decimal("852.00") + Decimal("681.60") + Decimal("234.30")
    assert amount(lines, "price.also-labor") == Decimal("127.80")  # 3 h x 213 / 5
    assert amount(lines, "price.access-labor") == Decimal("1704.00")
    assert amount(lines, "price.access-hire") == Decimal("475.00")
    assert amount(lines, "price.material") == Decimal("184.80") + Decimal("115.00")
    assert amount(lines, "price.travel") == Decimal("170.00")
    assert amount(lines, "price.set-up") == Decimal("639.00")  # 2 x 1.5 h
    assert amount(lines, "price.short-days") == Decimal("149.10")  # 4 - 1.5 - 1.8 = 0.7 h
    assert answer.loaded.cost.value == Decimal("5512.60")
    assert answer.loaded.overhead.value == Decimal("1212.77")
    assert answer.loaded.profit.value == Decimal("807.04")
    assert answer.total.value == Decimal("7532.41")
    assert working.steps["job/price/total"].value == answer.total.value


def test_every_line_is_one_of_three_groups_and_they_add_up():
    answer, _ = price(ask_of())
    for group in ("labor", "material", "rest"):
        whole = getattr(answer.loaded, group).value
        assert sum(line.amount.value for line in answer.lines if line.group == group) == whole
    assert sum(line.amount.value for line in answer.lines) == answer.loaded.cost.value


def test_the_least_charge_sets_a_small_price():
    tiny = ask_of(
        work=(Work("a", "patch", hours("0.5")),), order=(), also=(), hires=(), trips=trips("0.5"), alone=Quantity(1)
    )
    answer, working = price(tiny)
    assert answer.set_by == "least charge" and answer.total.value == Decimal("1450.00")
    assert answer.lift.value == answer.total.value - answer.loaded.built.value > 0
    assert "price.set-by-least-charge" in [n.code for n in working.notes]
    # What lifts it is profit too, and is said in both ways.
    gain = float(answer.loaded.profit.value + answer.lift.value)
    assert float(answer.margin.value) == pytest.approx(gain / 1450)


def test_trips_set_the_price_of_a_patch():
    """Three coats of half an hour each: one trip by the hours, three by the waits."""
    patch = ask_of(work=(Work("a", "coats", hours("1.5")),), order=(), also=(), hires=(), least_charge=None,
                   trips=trips("0.5", "0.5", "0.5"), alone=Quantity(1))  # fmt: skip
    answer, _ = price(patch)
    assert answer.set_by == "trips"
    # By area: work 1.5 h, set-up 1.5 h, paid up to 4 h = 4 h x 213 + 85 = 937.00; forced: 8 h x 213 + 170 = 1874.00.
    factor = Decimal("1.22") * Decimal("1.12")
    assert answer.by_area.value == pytest.approx(Decimal("937.00") * factor, abs=Decimal("0.02"))
    assert answer.forced.value == pytest.approx(Decimal("1874.00") * factor, abs=Decimal("0.03"))
    assert answer.by_area.value + answer.forced.value == answer.total.value


def test_area_sets_the_price_where_the_hours_fill_the_trips():
    answer, _ = price(ask_of())
    assert answer.set_by == "area"
    assert answer.forced.value == 0  # the last day is short, but not because anything had to wait


def test_idle_time_is_paid_and_belongs_to_the_waits():
    standing = (TripTime(hours(4), hours(2)), TripTime(hours("1.8")))
    answer, _ = price(
        ask_of(trips=standing, alone=Quantity(2, unit("trips")), terms=TripTerms(Decimal(85), 5400, 4 * H))
    )
    assert amount(answer.lines, "price.idle") == Decimal("426.00")
    # 2 h idle and 0.7 h of a short day, which two evenly filled days of 2.9 h would not have.
    added = Decimal("575.10") * Decimal("1.22") * Decimal("1.12")
    assert answer.forced.value == pytest.approx(added, abs=Decimal("0.02"))


def test_a_day_that_stood_is_short_only_by_what_standing_left():
    """Of 4 h least: 1-1/2 h set up, 1 h of work, 1 h stood and paid as such: half an hour more, 213 / 2."""
    answer, _ = price(ask_of(trips=(TripTime(hours(1), hours(1)),), terms=TripTerms(Decimal(85), 5400, 4 * H)))
    assert amount(answer.lines, "price.idle") == Decimal("213.00")
    assert amount(answer.lines, "price.short-days") == Decimal("106.50")


def test_the_crew_s_visits_to_keep_it_damp_are_priced_and_forced():
    plain, damp = price(ask_of())[0], price(ask_of(damp=Damp(3, H)))[0]
    assert amount(damp.lines, "price.damp-travel") == Decimal("255.00")
    assert amount(damp.lines, "price.damp-labor") == Decimal("127.80")
    assert damp.total.value > plain.total.value and damp.forced.value > plain.forced.value


def test_a_price_nobody_gave_is_named_and_not_guessed():
    lime = Item("lime", Quantity(3), None)
    bead = Item("corner bead", None, Decimal("8.60"))
    answer, working = price(ask_of(order=(lime, bead, Item("sand", Quantity(2), Decimal("46.00")))))
    assert answer.lacks == ("lime", "corner bead") and not answer.complete
    stops = [n for n in working.notes if n.grade == "stop"]
    assert [say(n.code, n.values).split(" has")[0] for n in stops] == ["lime", "corner bead"]
    assert answer.loaded.material.value == Decimal("92.00")


def test_a_named_role_costs_its_own_hour():
    by_tender = ask_of(also=(Also("protect", hours=3 * H, role="tender"),))
    assert amount(price(by_tender)[0].lines, "price.also-labor") == Decimal("102.24")  # 3 x 34.08
    with pytest.raises(Unreadable) as error:
        price(ask_of(also=(Also("protect", hours=H, role="mason"),)))
    assert error.value.fault.code == "price.no-role"


def test_no_crew_no_price():
    with pytest.raises(Unreadable) as error:
        price(ask_of(crew=()))
    assert error.value.fault.code == "price.no-crew"


def test_a_job_without_trips_or_walls_is_still_a_price():
    answer, _ = price(ask_of(trips=(), alone=None, places=(), work=(), terms=TripTerms(), hires=(), least_charge=None))
    assert answer.per_area is None and answer.forced.value == 0 and answer.set_by == "area"
    assert sum(q.amount.value for q in answer.quote) == answer.total.value


def test_nothing_costs_nothing():
    answer, _ = price(ask_of(trips=(), alone=None, places=(), work=(), order=(), also=(), hires=(), least_charge=None))
    assert answer.total.value == 0 and answer.quote == () and answer.markup.value == answer.margin.value == 0


# --- what looks odd --------------------------------------------------------------------------------------


def span(low, high, name):
    u = unit(name)
    return Span(Quantity(u.to_si(Fraction(str(low))), u), Quantity(u.to_si(Fraction(str(high))), u))


def asked(**more):
    _, working = price(ask_of(**more))
    return {n.code: dict(n.values) for n in working.notes if n.code.startswith("price.asked")}


def test_outside_the_usual_it_asks_and_does_not_refuse():
    odd = asked(
        usual=Usual(span(8, 10, "$/sq ft"), span("0.06", "0.26", "/sq ft"), span(300, 900, "sq ft/day")),
        bags=Quantity(11, unit("bags")),
    )
    assert set(odd) == {"price.asked-price", "price.asked-bags", "price.asked-pace"}
    # 11 bags on 484.5 sq ft are 2.27 on a hundred; 484.5 sq ft on two days are 242.
    assert "2.27 bags on 100 sq ft" in say("price.asked-bags", odd["price.asked-bags"])
    assert "6 bags to 26 bags" in say("price.asked-bags", odd["price.asked-bags"])
    assert "242 sq ft/day" in say("price.asked-pace", odd["price.asked-pace"])


def test_inside_the_usual_it_says_so_and_asks_nothing():
    fine = Usual(span(8, 34, "$/sq ft"), span("0.02", "0.26", "/sq ft"), span(150, 900, "sq ft/day"))
    ask = ask_of(usual=fine, bags=Quantity(11, unit("bags")))
    notes = {n.code: dict(n.values) for n in price(ask)[1].notes}
    assert not [code for code in notes if code.startswith("price.asked")]
    # 7532.41 on 484.5 sq ft are 15.55 a square foot; bags and pace as above
    assert float(notes["price.usual-price"]["found"].value) * 0.09290304 == pytest.approx(15.55, abs=0.005)
    assert "2.27 bags on 100 sq ft: inside" in say("price.usual-bags", notes["price.usual-bags"])
    assert "242 sq ft/day: inside" in say("price.usual-pace", notes["price.usual-pace"])


# --- whatever the job ------------------------------------------------------------------------------------

wages = st.decimals(1, 200, places=2)
times = st.integers(0, 200_000)
works = st.lists(st.tuples(st.sampled_from("abcd"), times), min_size=0, max_size=6)
parts = st.fractions(0, 1, max_denominator=400)
profits = (
    st.none()
    | st.builds(Profit, st.just("markup"), parts, st.sampled_from(["cost", "cost and overhead"]))
    | st.builds(Profit, st.just("margin"), st.fractions(0, Fraction(1, 2), max_denominator=400), st.just("price"))
)
overheads = st.lists(
    st.builds(
        Share,
        st.just("overhead"),
        st.fractions(0, Fraction(1, 10), max_denominator=300),
        st.sampled_from(["labor", "material", "labor and material", "cost", "running total", "price"]),
    ),
    max_size=3,
).map(tuple)


def any_ask(wage, rows, profit, shares, prices):
    return ask_of(
        crew=(Crew("plasterer", 2, wage), Crew("tender", 1, wage / 2)),
        work=tuple(Work(at, f"coat-{n}", Quantity(t, unit("h"))) for n, (at, t) in enumerate(rows)),
        places=tuple(Place(at, sq_ft(n + 1)) for n, at in enumerate(sorted({at for at, _ in rows}))),
        order=tuple(Item(f"item-{n}", Quantity(n), p) for n, p in enumerate(prices)),
        trips=tuple(TripTime(Quantity(t, unit("h"))) for _, t in rows),
        alone=Quantity(1),
        profit=profit,
        overheads=shares,
    )


@given(wages, works, profits, overheads, st.lists(st.decimals(0, 500, places=2), max_size=5))
@settings(max_examples=60, deadline=None)
def test_every_column_adds_up_to_the_cent(wage, rows, profit, shares, prices):
    answer, working = price(any_ask(wage, rows, profit, shares, prices))
    loaded = answer.loaded
    assert sum(x.amount.value for x in answer.lines) == loaded.cost.value
    assert loaded.labor.value + loaded.material.value + loaded.rest.value == loaded.cost.value
    assert sum((r.amount.value for r in loaded.loadings), Decimal(0)) == loaded.overhead.value
    assert loaded.cost.value + loaded.overhead.value + loaded.profit.value == loaded.built.value
    assert loaded.built.value + answer.lift.value == answer.total.value
    assert sum(q.amount.value for q in answer.quote) == answer.total.value
    assert answer.by_area.value + answer.forced.value == loaded.built.value
    assert answer.total.value >= Decimal("1450.00")
    for step in working.steps.values():
        assert say(step.says) and say(step.says, language="es")
        if step.unit.name == "$":
            assert step.value == round(step.value, 2)
    for note in working.notes:
        assert say(note.code, note.values) and say(note.code, note.values, "es", "metric")


@given(wages, works, profits, overheads, st.decimals("0.01", 50, places=2), st.integers(1, 50_000))
@settings(max_examples=40, deadline=None)
def test_dearer_hands_and_more_wall_never_make_it_cheaper(wage, rows, profit, shares, rise, longer):
    ask = any_ask(wage, rows, profit, shares, [])
    base = price(ask)[0].total.value
    paid = replace(ask, crew=tuple(replace(c, wage=c.wage + rise) for c in ask.crew))
    assert price(paid)[0].total.value >= base
    more = replace(ask, work=(*ask.work, Work("e", "more", Quantity(longer, unit("h")))))
    assert price(more)[0].total.value >= base


def test_an_equal_ask_is_equal_and_hashes():
    assert ask_of() == ask_of() and hash(ask_of()) == hash(ask_of())
    assert ask_of() != ask_of(least_charge=Decimal("1400.00"))
    assert isinstance(price(ask_of())[0].total, Amount)
