"""Materials and the order: rounded once on the job's total, the same in any order, more wall never less."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.measure.faults import Unreadable
from darby.measure.units import FT, IN, LB, YD, unit
from darby.quantities import (
    Allowances,
    BagLabel,
    Buy,
    Coat,
    Mortar,
    Order,
    OrderAsk,
    Ordered,
    Sand,
    Volumes,
    Zone,
    order,
)
from darby.working import Quantity, Working
from tests.quantities.asks import BAGGED, BUYS, CU_FT, FIRM, NOTHING, SITE, SQ_FT, block, frame, laid, shown

CU_YD = YD**3


def ordered(*surfaces: Volumes, allow: Allowances = FIRM, **more: object) -> tuple[Order, Working]:
    given = {"mortars": (SITE, BAGGED), "buys": BUYS, **more}
    return order(OrderAsk(surfaces, allow=allow, **given))  # type: ignore[arg-type]


def cubic_yard(sand: Sand | None = None) -> tuple[Volumes, Mortar]:
    """A wall that takes a cubic yard of mortar, and a mortar."""
    wall = Zone("main", "block", Fraction(972) * SQ_FT, (Coat("base", Fraction(1, 3) * IN, "base"),))
    return laid("w", wall, allow=NOTHING), replace(SITE, sand=sand) if sand else SITE


def test_materials_follow_the_mortar() -> None:
    """A cubic yard at 300 kg/m3 is 229.4 kg of cement: 5.38 bags of 94 lb."""
    wall, mortar = cubic_yard()
    lines = {x.item: x for x in ordered(wall, allow=NOTHING, mortars=(mortar,))[0].lines}
    assert float(lines["portland"].needed) == pytest.approx(300 * float(CU_YD))
    assert shown(lines["portland"].exact) == pytest.approx(300 * float(CU_YD) / (94 * float(LB)))
    assert shown(lines["portland"].packages) == 6
    assert float(lines["water"].needed) == pytest.approx(float(CU_YD) / 4)
    assert lines["water"].packages is None


def test_sand_gauged_damp_already_holds_its_bulking() -> None:
    wall, mortar = cubic_yard()
    sand = {
        x.item: x for x in ordered(wall, allow=replace(NOTHING, bulking=Fraction(1, 4)), mortars=(mortar,))[0].lines
    }["sand"]
    assert shown(sand.needed) == pytest.approx(1)
    assert [p.says for p in sand.made_of] == ["quantities.sand-damp-loose", "quantities.bulking-within"]
    assert shown(sand.made_of[1].amount) == pytest.approx(0.2)  # a yard damp is 0.8 dry and a quarter of that


def test_sand_gauged_dry_gets_its_bulking_on_the_sand_alone() -> None:
    wall, mortar = cubic_yard(Sand(Quantity(Fraction(1)), "dry loose"))
    sand = {
        x.item: x for x in ordered(wall, allow=replace(NOTHING, bulking=Fraction(1, 4)), mortars=(mortar,))[0].lines
    }["sand"]
    assert [shown(p.amount) for p in sand.made_of] == pytest.approx([1, 0.25])
    assert shown(sand.needed) == pytest.approx(1.25)
    assert sand.also == ()


def test_bulking_of_the_book_where_the_firm_is_silent() -> None:
    wall, mortar = cubic_yard(Sand(Quantity(Fraction(1)), "dry loose"))
    found, working = ordered(wall, allow=replace(NOTHING, bulking=None), mortars=(mortar,))
    assert shown(found.line("sand").needed) == pytest.approx(1.2)  # type: ignore[union-attr]
    assert any(n.code == "quantities.assumed.bulking" for n in working.notes)


def test_sand_by_the_ton_beside_the_yard_and_sold_by_either() -> None:
    wall, mortar = cubic_yard()
    dry_tons = 1281 * float(CU_YD) / float(2000 * LB)
    for buy, exact in (
        (Buy("sand", CU_YD, unit("cu yd")), 1),
        (Buy("sand", 2000 * LB, unit("ton")), dry_tons * 1.05),
    ):
        sand = ordered(wall, allow=replace(FIRM, spread=Fraction(0)), mortars=(mortar,), buys=(buy,))[0].line("sand")
        assert sand is not None
        assert shown(sand.also[0].amount) == pytest.approx(dry_tons * 1.05)
        assert shown(sand.exact) == pytest.approx(exact)


def test_dampness_of_the_book_is_the_upper_end() -> None:
    wall, mortar = cubic_yard()
    found, working = ordered(wall, allow=replace(NOTHING, moisture=None), mortars=(mortar,))
    dry = working.steps["job/order/sand/dry-mass"].value
    assert float(found.line("sand").also[0].amount) == pytest.approx(float(dry) * 1.06)  # type: ignore[union-attr, arg-type]


@pytest.mark.parametrize(("exact", "packages"), [("1", 1), ("1.01", 1.5), ("1.5", 1.5), ("1.51", 2)])
def test_loose_goods_by_half_yards(exact: str, packages: float) -> None:
    wall = Zone("main", "block", Fraction(exact) * 972 * SQ_FT, (Coat("base", Fraction(1, 3) * IN, "base"),))
    sand = ordered(laid("w", wall, allow=NOTHING), allow=NOTHING)[0].line("sand")
    assert shown(sand.packages) == packages  # type: ignore[union-attr]


def test_lime_goes_by_the_part_bag_and_the_yard_hands_out_whole_ones() -> None:
    wall, mortar = cubic_yard()
    lime = ordered(wall, allow=NOTHING, mortars=(mortar,))[0].line("lime")
    assert lime is not None
    exact = 96 * float(CU_YD) / (50 * float(LB))  # 3.24 bags
    assert shown(lime.exact) == pytest.approx(exact)
    assert shown(lime.packages) == 3.25
    assert shown(lime.whole) == 4


def test_bagged_mixes_by_the_yield_on_the_label() -> None:
    wall = Zone("main", "block", 288 * SQ_FT, (Coat("finish", Fraction(1, 8) * IN, "finish"),))
    found = ordered(laid("w", wall, allow=NOTHING))[0]
    bags, water = found.line("float-finish"), found.line("water")
    assert bags is not None
    assert water is not None
    assert shown(bags.exact) == pytest.approx(4)
    assert shown(bags.packages) == 4
    assert bags.says == "quantities.item.bagged"
    assert bags.name == "Float finish"
    assert shown(water.needed) == pytest.approx(6)


def test_a_mix_nobody_described_is_refused() -> None:
    with pytest.raises(Unreadable) as error:
        ordered(laid("w", block()), mortars=(SITE,))
    assert (error.value.fault.code, error.value.fault.found) == ("quantities.unknown-mix", "finish")


def test_cement_is_counted_in_sacks_even_for_a_firm_that_says_nothing() -> None:
    found = order(OrderAsk((laid("w", block()),), (SITE, BAGGED)))[0].line("portland")
    assert found is not None
    assert shown(found.exact) == pytest.approx(float(found.needed) / (94 * float(LB)))


# --- rounding ---------------------------------------------------------------------------------------


def test_bags_are_rounded_once_on_the_jobs_total() -> None:
    """Ten walls of 0.3 bag are three bags, not ten."""
    per = 94 * LB * Fraction(3, 10) / (Fraction(1, 24) * FT * SQ_FT)
    mortar = replace(SITE, materials=(replace(SITE.materials[0], per=Quantity(per, unit("kg/m3"))),), sand=None)
    wall = Zone("main", "block", SQ_FT, (Coat("base", Fraction(1, 2) * IN, "base"),))
    surfaces = [laid(f"w{n}", wall, allow=NOTHING) for n in range(10)]
    line = ordered(*surfaces, mortars=(mortar,))[0].line("portland")
    assert line is not None
    assert shown(line.exact) == pytest.approx(3)
    assert shown(line.packages) == 3
    assert shown(ordered(surfaces[0], mortars=(mortar,))[0].line("portland").packages) == 1  # type: ignore[union-attr]


@pytest.mark.parametrize("yards", range(1, 41))
def test_whole_square_yards_order_themselves(yards: int) -> None:
    """A material that takes one bag a square yard: n yards are n bags, never n + 1."""
    thick = Fraction(1, 2) * IN
    label = BagLabel("finish", "mud", Quantity(YD**2 * thick, unit("cu ft")))
    wall = Zone("main", "block", yards * YD**2, (Coat("finish", thick, "finish"),))
    found = ordered(laid("w", wall, allow=NOTHING), mortars=(label,))[0].line("mud")
    assert shown(found.packages) == yards  # type: ignore[union-attr]


walls = st.lists(
    st.builds(
        lambda feet, lathed, struck, sixteenths: (
            frame(feet, primer=1, paint=1)
            if lathed
            else block(feet, struck=struck, out_of_plane=Fraction(sixteenths, 16) * IN)
        ),
        st.fractions(min_value=1, max_value=400, max_denominator=16),
        st.booleans(),
        st.booleans(),
        st.integers(0, 12),
    ),
    min_size=1,
    max_size=6,
)


@settings(max_examples=40, deadline=None)
@given(zones=walls, seed=st.randoms())
def test_the_order_of_surfaces_does_not_matter(zones: list[Zone], seed: object) -> None:
    surfaces = [laid(f"w{n}", z) for n, z in enumerate(zones)]
    mixed = list(surfaces)
    seed.shuffle(mixed)  # type: ignore[attr-defined]
    assert ordered(*mixed)[0] == ordered(*surfaces)[0]


@settings(max_examples=40, deadline=None)
@given(zones=walls)
def test_another_surface_never_orders_less(zones: list[Zone]) -> None:
    surfaces = [laid(f"w{n}", z) for n, z in enumerate(zones)]
    fewer = {x.item: x for x in ordered(*surfaces[:-1])[0].lines}
    more = {x.item: x for x in ordered(*surfaces)[0].lines}
    assert set(fewer) <= set(more)
    for item, line in fewer.items():
        assert float(more[item].needed) >= float(line.needed) * (1 - 1e-12)
        if line.packages is not None:
            assert shown(more[item].packages) >= shown(line.packages)
            assert shown(more[item].packages) >= shown(more[item].exact) - 1e-6


@settings(max_examples=40, deadline=None)
@given(zones=walls)
def test_what_is_ordered_is_enough_and_less_than_one_package_more(zones: list[Zone]) -> None:
    for line in ordered(*(laid(f"w{n}", z) for n, z in enumerate(zones)))[0].lines:
        if line.packages is None:
            continue
        spare = shown(line.packages) - shown(line.exact)
        assert -1e-6 <= spare < 1


def test_a_thousand_surfaces() -> None:
    """Sums longer than a line are printed over sub-totals, and are still the sum."""
    one = laid("w", block(100, struck=True))
    surfaces = tuple(replace(one, surface=f"w{n:04}") for n in range(1000))
    found, working = ordered(*surfaces)
    assert float(found.mortar[0].volume) == pytest.approx(1000 * float(one.by_mix[0].volume))
    assert "job/order/mix/base/volume/sub-0-0" in working.steps
    assert max(len(s.given) for s in working.steps.values() if hasattr(s, "given")) <= 16


# --- against what was ordered ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("had", "standing", "more", "over"), [(20, "short", 7, 0), (27, "enough", 0, 0), (30, "over", 0, 3)]
)
def test_the_difference_against_what_was_ordered(had: int, standing: str, more: float, over: float) -> None:
    """The job takes 26.2 bags, so 27: against 20 order 7 more, against 30 there are 3 too many."""
    mortar, volumes_ = _takes(Fraction(262, 10))
    found, working = ordered(volumes_, mortars=(mortar,), ordered=(Ordered("portland", Fraction(had), unit("bags")),))
    line = found.line("portland")
    assert line is not None
    assert shown(line.packages) == 27
    assert line.standing == standing
    assert (shown(line.more), shown(line.over)) == (more, over)
    codes = ("quantities.short", "quantities.too-many", "quantities.ordered-not-needed")
    said = [n.code for n in working.notes if n.code in codes]
    assert said == {"short": ["quantities.short"], "enough": [], "over": ["quantities.too-many"]}[standing]


def test_orders_in_pounds_are_counted_in_bags_and_several_orders_add_up() -> None:
    mortar, volumes_ = _takes(Fraction(262, 10))
    orders = (
        Ordered("portland", 940 * LB, unit("lb")),
        Ordered("portland", Fraction(10), unit("bags")),
    )
    line = ordered(volumes_, mortars=(mortar,), ordered=orders)[0].line("portland")
    assert line is not None
    assert shown(line.ordered) == pytest.approx(20)
    assert shown(line.more) == pytest.approx(7)


def test_what_cannot_be_counted_or_is_not_needed_is_said() -> None:
    mortar, volumes_ = _takes(Fraction(2))
    _, working = ordered(
        volumes_,
        mortars=(mortar,),
        ordered=(Ordered("portland", Fraction(1), unit("gal")), Ordered("lath", Fraction(5), unit("sheets"))),
    )
    assert {"quantities.ordered-unlike", "quantities.ordered-not-needed"} <= {n.code for n in working.notes}


def test_what_is_needed_among_other_things_is_not_called_needless() -> None:
    had = (Ordered("portland", Fraction(1), unit("bags")), Ordered("lath", Fraction(5), unit("sheets")))
    found, working = ordered(laid("w", block(100)), ordered=had)
    assert found.line("portland") is not None
    assert found.line("sand") is not None
    needless = [dict(n.values) for n in working.notes if n.code == "quantities.ordered-not-needed"]
    assert [values["item"] for values in needless] == ["quantities.item.lath"]


def test_a_package_of_another_kind_is_said() -> None:
    mortar, volumes_ = _takes(Fraction(2))
    found, working = ordered(volumes_, mortars=(mortar,), buys=(Buy("portland", 10 * FT, unit("ft"), "piece"),))
    assert found.line("portland").packages is None  # type: ignore[union-attr]
    assert "quantities.package-unlike" in {n.code for n in working.notes}


def test_every_number_of_the_order_is_a_step() -> None:
    found, working = ordered(laid("a", block(struck=True)), laid("b", frame()))
    for line in found.lines:
        for q in (line.needed, line.exact, line.packages, line.whole, *(p.amount for p in line.made_of)):
            if q is not None and q.key.startswith("job/"):
                assert working.steps[q.key].value == q.value
            elif q is not None:
                assert q.key


def test_equal_asks_are_equal_and_answer_alike() -> None:
    one = OrderAsk((laid("a", block()),), (SITE, BAGGED), buys=BUYS)
    two = OrderAsk((laid("a", block()),), (SITE, BAGGED), buys=BUYS)
    assert one == two
    assert hash(one) == hash(two)
    assert order(one)[0] == order(two)[0]


def _takes(bags: Fraction) -> tuple[Mortar, Volumes]:
    """A mortar and a wall that takes so many 94 lb bags of it."""
    wall = Zone("main", "block", 24 * SQ_FT, (Coat("base", Fraction(1, 2) * IN, "base"),))
    per = Quantity(94 * LB * bags / CU_FT, unit("kg/m3"))
    return Mortar("base", (replace(SITE.materials[0], per=per),)), laid("w", wall, allow=NOTHING)
