"""How far a patch is cut back, and why; how deep; how hard; how many trips."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.condition import CoatOn, MixOn
from darby.measure import length
from darby.measure.units import unit
from darby.working import Quantity

from .asking import ROUND, codes, inch, patched

SQ_FT, IN, DAY = unit("sq ft"), unit("in"), unit("day")


def sq_ft(quantity):
    return float(SQ_FT.from_si(quantity.value))


def ins(quantity):
    return round(float(IN.from_si(float(quantity))), 9)


def hours(count):
    return Quantity(length("1 ft") * 0 + 3600 * count, unit("h"))


# --- how far -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("width", "area"), [(6, 8.0), (12, 18.0), (14, 21.7778)])
def test_the_ring_round_a_3_by_4_window(width, area):
    """By hand: (3 + 2 w)(4 + 2 w) - 12."""
    got, _ = patched(width=inch(width), lines=tuple((side, inch(width)) for side in ROUND))
    assert sq_ft(got.drawn) == pytest.approx(area, abs=1e-4)
    assert sq_ft(got.area) == pytest.approx(area, abs=1e-4)
    assert got.short is None


def test_every_reason_is_shown_and_the_greatest_decides():
    got, _ = patched(lathed=True, papers=2, flange=inch("1-3/8"), hollow=(("right", inch(10)), ("head", inch(1))))
    shown = {c.side: (ins(c.hollow), ins(c.paper), ins(c.lath), ins(c.least), c.by) for c in got.sides}
    assert shown == {
        "head": (3.0, 3.375, 5.375, 5.375, "lath"),  # 1 + 2; 1-3/8 + 2; 1-3/8 + 4
        "sill": (2.0, 3.375, 5.375, 5.375, "lath"),
        "left": (2.0, 7.375, 5.375, 7.375, "paper"),  # beside it paper laps 6 in.
        "right": (12.0, 7.375, 5.375, 12.0, "hollow"),
    }
    assert all(c.line is None and float(c.back) == float(c.least) for c in got.sides)


def test_it_goes_out_to_the_line_that_hides_and_not_in_to_one_that_is_too_near():
    got, working = patched(
        hollow=(("left", inch(8)), ("right", inch(8))), lines=(("left", inch(14)), ("right", inch(9)))
    )
    assert (ins(got.side("left").back), got.side("left").by) == (14.0, "line")
    right = got.side("right")
    assert (ins(right.back), right.by, right.line) == (10.0, "hollow", None)
    assert "condition.patch.line-too-near" in codes(working)


def test_a_line_just_where_the_rest_ends_is_taken():
    got, working = patched(hollow=(("left", inch(10)),), lines=(("left", inch(12)),))
    assert got.side("left").by == "line"
    assert "condition.patch.line-too-near" not in codes(working)


def test_where_the_wall_ends_the_patch_ends():
    got, working = patched(hollow=(("left", inch(10)),), room=(("left", inch(11)), ("right", inch(2))))
    assert (ins(got.side("left").back), got.side("left").by) == (11.0, "edge")
    assert (ins(got.side("right").back), got.side("right").by) == (2.0, "hollow")  # just fits
    assert codes(working).count("condition.patch.past-the-wall") == 1


def test_a_patch_drawn_too_narrow_says_by_how_much():
    got, working = patched(width=inch(6), hollow=(("left", inch(10)),))
    assert ins(got.short) == pytest.approx(6)
    assert "condition.patch.short" in codes(working)


def test_round_a_door_nothing_runs_under_it():
    got, _ = patched(sides=("head", "left", "right"), lines=tuple((s, inch(12)) for s in ("head", "left", "right")))
    assert sq_ft(got.area) == pytest.approx(5 * 5 - 12)
    assert got.side("sill") is None
    lathed, _ = patched(sides=("head", "left", "right"), lathed=True, papers=1)
    assert [n.code.rpartition(".")[2] for n in lathed.order] == [
        "score",
        "bare",
        "set",
        "jambs",
        "head",
        "lath",
        "edge",
    ]


@given(
    st.fixed_dictionaries({side: st.integers(0, 40) for side in ROUND}),
    st.fixed_dictionaries({side: st.integers(1, 60) for side in ROUND}),
    st.integers(1, 6),
)
def test_no_side_is_cut_back_less_than_any_reason_asks(hollow, lines, flange):
    got, _ = patched(
        lathed=True, papers=1, flange=inch(flange), lines=tuple((s, inch(x)) for s, x in lines.items()),
        hollow=tuple((s, inch(x)) for s, x in hollow.items()),
    )  # fmt: skip
    for cut in got.sides:
        assert all(float(cut.back) >= float(x) - 1e-12 for x in (cut.hollow, cut.paper, cut.lath, cut.least))
        assert cut.line is None or ins(cut.back) == pytest.approx(lines[cut.side])


# --- in what order -----------------------------------------------------------------------------------


def test_paper_goes_on_like_shingles_sill_jambs_head():
    got, _ = patched(lathed=True, papers=2, flange=inch(1))
    assert [n.code.removeprefix("condition.order.") for n in got.order] == [
        "score", "bare", "sill", "set", "jambs", "head", "again", "lath", "edge",
    ]  # fmt: skip
    laps = {n.code.rpartition(".")[2]: dict(n.values).get("lap") for n in got.order}
    assert [ins(laps[at]) for at in ("sill", "jambs", "head", "lath")] == [2, 6, 2, 1]
    wire = next(dict(n.values)["wire"] for n in got.order if n.code.endswith(".lath"))
    assert ins(wire) == 9
    (bare,) = (n for n in got.order if n.code.endswith(".bare"))
    assert ins(dict(bare.values)["tie"]) == 4


def test_on_masonry_there_is_nothing_to_shingle():
    got, _ = patched()
    assert [n.code.rpartition(".")[2] for n in got.order] == ["score", "masonry"]
    assert {(c.paper, c.lath) for c in got.sides} == {(None, None)}


# --- how deep, how hard, when -------------------------------------------------------------------------


def test_as_deep_as_the_old_work_and_what_that_weighs():
    """By hand: 18 sq ft of 1 in. are 1.5 cu ft, at 142 lb 213 lb; two patches twice that."""
    lines = tuple((s, inch(12)) for s in ROUND)
    got, _ = patched(old_depth=inch(1), lines=lines, total=Quantity(inch("7/8"), IN))
    assert ins(got.depth) == 1
    assert float(unit("lb").from_si(got.weight.value)) == pytest.approx(213)
    two, _ = patched(old_depth=inch(1), lines=lines, count=2)
    assert float(two.weight.value) == pytest.approx(2 * float(got.weight.value))


def test_rubble_that_nobody_hauls_is_in_no_price():
    assert "condition.patch.not-hauled" in codes(patched(old_depth=inch(1))[1])
    assert "condition.patch.not-hauled" not in codes(patched(old_depth=inch(1), hauled=True)[1])


def test_nobody_measured_the_old_plaster():
    got, working = patched(total=Quantity(inch("7/8"), IN))
    assert ins(got.depth) == 0.875
    assert "condition.patch.depth-unmeasured" in codes(working)
    assert patched()[0].depth is None


def parts(**said):
    return tuple((name, Quantity(part, unit(""))) for name, part in said.items())


@pytest.mark.parametrize(
    ("mix", "code"),
    [
        (parts(portland=1, lime=1, sand=6), "soft-enough"),
        (parts(portland=1, lime=2, sand=9), "soft-enough"),
        (parts(lime=1, sand=3), "soft-enough"),
        (parts(portland=4, lime=3, sand=20), "too-hard"),
        ((*parts(portland=1, lime=1, sand=6), ("plastic cement", Quantity(1, unit("")))), "too-hard"),
        ((), "bagged"),
    ],
)
def test_no_harder_than_soft_old_work(mix, code):
    _, working = patched(old="soft", mixes=(MixOn("scratch", mix),))
    assert f"condition.patch.{code}" in codes(working)
    _, hard = patched(old="hard", mixes=(MixOn("scratch", mix),))
    assert not {c for c in codes(hard) if c.endswith(("soft-enough", "too-hard", "bagged", "not-scratched"))}


def test_the_least_trips_and_days_come_from_the_waits():
    """Scratch waits 48 h, brown 7 days: three trips, day 1, day 3, day 10."""
    thick = Quantity(inch("3/8"), IN)
    coats = (
        CoatOn("scratch", thick, hours(48)),
        CoatOn("brown", thick, hours(168)),
        CoatOn("finish", thick, hours(48)),
    )
    got, _ = patched(coats=coats)
    assert (float(got.trips), float(DAY.from_si(float(got.days)))) == (3, 10)
    same_day = (CoatOn("scratch", thick, hours(4)), CoatOn("brown", thick, hours(30)), CoatOn("finish", thick))
    got, _ = patched(coats=same_day)
    assert (float(got.trips), float(DAY.from_si(float(got.days)))) == (2, 3)  # 30 h are begun as two days


def test_cutting_back_takes_hours_where_he_says_how_fast():
    pace = Quantity(length("1 ft") ** 2 * 6 / 3600, unit("sq ft/h"))
    lines = tuple((s, inch(12)) for s in ROUND)
    assert float(patched(cut=pace, lines=lines)[0].hours) == pytest.approx(3 * 3600)
    assert float(patched(cut=pace, lines=lines, count=2)[0].hours) == pytest.approx(6 * 3600)
    got, working = patched(lines=lines)
    assert got.hours is None and "condition.patch.no-pace" in codes(working)
