"""How the plaster runs over a base that is not true, and what holds for every option of every base."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.buildup import BuildUpAsk, Override, build_up
from darby.buildup.model import FINISHES

from .asking import BOOK, INCH, codes, following, inch, option, run, said, sixteenths, up, weight_psf

# --- out of true ------------------------------------------------------------------------------------------


def test_a_base_nobody_measured_is_taken_to_be_within_tolerance_and_that_is_noted():
    answer = up()
    assert "assumed-plane" in codes(answer.notes)
    assert said(answer.notes, "assumed-plane")["plane"].written == "1/4 in"
    assert sixteenths(answer.chosen.least, answer.chosen.most) == ("3/8", "5/8")
    assert "assumed-plane" not in codes(up(out_of_plane=inch("1/8")).notes)
    assert "assumed-plane" not in codes(up(base="frame").notes)


def test_a_true_wall_has_one_thickness():
    o = option("two-coat", out_of_plane=0)
    assert sixteenths(o.least, o.nominal, o.most) == ("1/2", "1/2", "1/2")
    assert o.wander is None


def test_past_tolerance_but_within_the_limit_the_grounds_come_out_until_the_high_spot_keeps_enough():
    # concrete: 1/4 in. on the high spot (3/8 less half of the 1/4 in. tolerance) and 5/16 in. of hollow make 9/16
    o = option("two-coat", base="concrete", suction="usual", out_of_plane=inch("5/16"))
    assert sixteenths(o.least, o.nominal, o.most) == ("1/4", "13/32", "9/16")
    assert sixteenths(*said(o.reasons, "grounds-come-out").values()) == ("13/32", "3/8")
    assert o.wander is None


def test_no_more_is_taken_up_than_the_coat_that_levels_can_give():
    # a base coat of 1/16 (1/4 in all, on concrete) goes to nothing on the high spot and to 1/8 in the hollow
    for out in ("1/4", "3/4"):
        o = option("two-coat", base="concrete", out_of_plane=inch(out), override=Override(total=inch("1/4")))
        assert sixteenths(o.least, o.nominal, o.most) == ("3/16", "1/4", "5/16")
        assert sixteenths(o.wander) == ({"1/4": "1/8", "3/4": "5/8"}[out],)


def test_past_the_limit_the_face_follows_the_wall_for_what_is_left():
    answer = up(out_of_plane=inch("5/8"))
    o = answer.chosen
    assert o.id == "two-coat"
    assert sixteenths(o.least, o.nominal, o.most) == ("3/8", "1/2", "5/8")
    assert sixteenths(*said(o.cautions, "follow-the-wall").values()) == ("5/8", "1/4", "3/8")
    assert sixteenths(o.wander) == ("3/8",)
    assert "base-past-plane" in codes(answer.notes)
    assert "base-past-plane" not in codes(up(out_of_plane=inch("1/4")).notes)


def test_dubbing_out_is_offered_where_plaster_may_not_take_up_the_hollows():
    assert up(out_of_plane=inch("1/4")).option("dub-out") is None
    o = option("dub-out", out_of_plane=inch("5/8"))
    assert [c.name for c in o.coats] == ["scratch", "base", "finish"]
    assert sixteenths(o.coats[0].least, o.coats[0].nominal, o.coats[0].most) == ("0", "3/16", "3/8")
    assert sixteenths(o.least, o.nominal, o.most) == ("3/8", "11/16", "1")
    assert sixteenths(o.grounds, o.bead) == ("3/8", "1/2")  # as over the rest of the wall
    assert o.wander is None
    assert "past-no-lath" in codes(o.cautions)
    assert "hollows-only" in o.coats[0].notes
    dashed = option("dub-out", out_of_plane=inch("5/8"), suction="low")
    assert [c.name for c in dashed.coats] == ["dash-bond", "scratch", "base", "finish"]


def test_lath_over_a_bad_wall_is_furred_out_not_filled():
    o = option("lath-three-coat", base="lath over block", out_of_plane=inch("5/8"))
    assert sixteenths(o.least, o.nominal, o.most) == ("3/4", "7/8", "1")
    assert sixteenths(*said(o.cautions, "fur-out").values()) == ("5/8", "1/4", "3/8")


def test_a_frame_out_of_true_is_levelled_by_the_brown_coat():
    o = option("lath-three-coat", base="frame", out_of_plane=inch("1/8"))
    assert sixteenths(*(c.least for c in o.coats)) == ("3/8", "5/16", "1/8")
    assert sixteenths(*(c.most for c in o.coats)) == ("3/8", "7/16", "1/8")


def test_the_coat_that_levels_never_runs_below_nothing():
    o = option("two-coat", base="concrete", out_of_plane=inch("2"), book=following(thickness_finish="indian-river"))
    # 3/8 whole, 1/4 finish, 1/16 dash: 1/16 is left, and all of it is given at the high spot
    base = o.coat("base")
    assert float(base.least) >= -1e-12
    assert float(base.nominal) > 0


# --- nominal here, minimum in the code ----------------------------------------------------------------------


def test_the_codes_minimum_is_checked_apart_from_the_nominal():
    met = option("two-coat", out_of_plane=0)
    assert not {"under-code", "high-spot-under-code"} & (codes(met.cautions) | codes(met.reasons))
    spot = option("two-coat", out_of_plane=inch("1/8"))
    assert "under-code" not in codes(spot.cautions)
    assert sixteenths(said(spot.reasons, "high-spot-under-code")["spot"]) == ("7/16",)
    thin = up(override=Override(total=inch("7/16"))).chosen
    assert sixteenths(said(thin.cautions, "under-code")["total"]) == ("7/16",)


def test_under_half_an_inch_past_the_block_the_joints_may_show():
    # common practice, no source
    assert "joints-show" not in codes(option("two-coat", out_of_plane=0).cautions)
    thin = up(override=Override(total=inch("7/16"))).chosen
    (note,) = (n for n in thin.cautions if n.code == "buildup.joints-show")
    assert {BOOK.figures[i].standing for i in note.rules} == {"common practice"}
    assert "joints-show" not in codes(up(base="concrete").chosen.cautions)
    assert "joints-show-high-spot" in codes(option("two-coat", out_of_plane=inch("1/8")).reasons)


def test_past_five_eighths_without_lath_is_a_caution_with_its_source():
    for base, voice in (("block", "sma"), ("concrete", "merritt")):
        for total, past in (("5/8", False), ("11/16", True)):
            o = up(base=base, out_of_plane=0, override=Override(total=inch(total))).chosen
            assert ("past-no-lath" in codes(o.cautions)) == past
        (note,) = (n for n in o.cautions if n.code == "buildup.past-no-lath")
        assert voice in {BOOK.figures[i].voice for i in note.rules}
    assert "past-no-lath" not in codes(up(base="frame", override=Override(total=inch("2"))).chosen.cautions)


def test_a_coat_too_heavy_for_one_pass_goes_on_in_two():
    o = up(out_of_plane=0, override=Override(total=inch("3/4"))).chosen
    assert "two-passes" in o.coat("base").notes
    assert sixteenths(said(o.cautions, "two-passes")["most"]) == ("5/8",)
    assert "two-passes" not in option("two-coat", out_of_plane=0).coat("base").notes


# --- depths and weight -----------------------------------------------------------------------------------------


def test_grounds_are_the_base_coats_and_beads_the_whole():
    o = option("two-coat")
    assert sixteenths(o.grounds, o.bead) == ("3/8", "1/2")
    note = said(o.reasons, "beads")
    assert sixteenths(note["grounds"], note["bead"]) == ("3/8", "1/2")


def test_half_an_inch_weighs_six_pounds_a_square_foot():
    # 142 lb/cu ft x 1/2 in. / 12
    assert weight_psf(option("two-coat").weight) == pytest.approx(142 / 24)
    assert weight_psf(option("lath-three-coat", base="frame").weight) == pytest.approx(142 * 0.875 / 12)


# --- what holds for every option of every base -----------------------------------------------------------------

LENGTHS = st.integers(0, 32).map(lambda n: n * INCH / 16)
ASKS = st.fixed_dictionaries(
    {
        "base": st.sampled_from(["block", "concrete", "frame", "lath over block"]),
        "weight": st.sampled_from(["dense", "lightweight", None]),
        "joints": st.sampled_from(["flush", "struck", None]),
        "suction": st.sampled_from(["high", "usual", "low", "none", None]),
        "position": st.sampled_from(["vertical", "horizontal"]),
        "finish": st.sampled_from(FINISHES),
        "sheathing": st.sampled_from(["wood", "gypsum", "foam", "open studs", None]),
        "out_of_plane": st.none() | LENGTHS,
        "cure": st.none() | st.sampled_from(["ibc", "irc", "ufgs", "nwcb", "pca", "plasterer", "indian-river",
                                             "double-back"]),
        "book": st.sampled_from([BOOK, *(following(thickness=v) for v in
                                         ("c926", "sma", "ufgs", "merritt", "indian-river", "plasterer", "florida"))]),
    }
)  # fmt: skip


def close(a, b):
    return abs(float(a) - float(b)) < 1e-9


@settings(max_examples=150, deadline=None)
@given(ASKS)
def test_every_option_adds_up_and_lies_between_its_least_and_its_most(fields):
    answer, working = build_up(BuildUpAsk(at="w/z", **fields))
    assert answer.chosen is answer.options[0]
    for o in answer.options:
        for part in (*o.coats, o):
            assert float(part.least) <= float(part.nominal) + 1e-12 <= float(part.most) + 2e-12
            assert float(part.least) >= -1e-12
        for which in ("least", "nominal", "most"):
            assert close(sum(float(getattr(c, which)) for c in o.coats), getattr(o, which))
        assert sum(c.levels for c in o.coats) == (o.id != "heavy-skim")
        finish = o.coat("finish")
        if finish is not None and o.id != "heavy-skim":
            assert close(float(o.bead) - float(finish.nominal), o.grounds)
        for c in o.coats[:-1]:
            assert c.wait_least is not None
            assert c.moist is None or float(c.wait_least) >= float(c.moist)
            assert c.wait_most is None or float(c.wait_most) >= float(c.wait_least)
        assert o.coats[-1].wait_least is None
        for q in (o.nominal, o.weight, o.grounds, *(c.nominal for c in o.coats)):
            assert q.key in working.steps
        assert o.paper_layers == (2 if fields["base"] == "frame" else 0)
        assert (o.lath is not None) == (o.id in ("lath-three-coat", "double-back"))
        assert all(n.grade in ("fact", "assumed") for n in o.reasons)
        assert all(n.grade in ("caution", "stop") for n in o.cautions)


@settings(max_examples=80, deadline=None)
@given(ASKS)
def test_the_codes_minimum_is_met_or_cautioned(fields):
    for o in build_up(BuildUpAsk(at="w/z", **fields))[0].options:
        if fields["position"] == "horizontal":
            continue
        laid = [c.name for c in o.coats if c.name != "dash-bond" and not (o.id == "dub-out" and c.name == "scratch")]
        table = "lath" if o.lath else fields["base"]
        least = {("lath", 3): "7/8", ("block", 3): "5/8", ("concrete", 3): "5/8", ("block", 2): "1/2",
                 ("concrete", 2): "3/8"}.get((table, len(laid)))  # fmt: skip
        if least is None:
            assert "no-code-row" in codes(o.cautions)
        else:
            assert (float(o.nominal) < float(inch(least)) - 1e-9) == ("under-code" in codes(o.cautions))


@settings(max_examples=80, deadline=None)
@given(ASKS, LENGTHS, LENGTHS)
def test_a_worse_wall_never_takes_less_plaster(fields, one, other):
    better, worse = sorted((one, other))
    true, bad = (build_up(BuildUpAsk(at="w", **fields | {"out_of_plane": x}))[0] for x in (better, worse))
    for o in true.options:
        w = bad.option(o.id)
        if w is None or o.id == "dub-out":
            continue
        assert float(w.nominal) >= float(o.nominal) - 1e-12
        assert float(w.most) >= float(o.most) - 1e-12
        left = [float(x.wander) if x.wander else 0.0 for x in (o, w)]
        assert left[1] >= left[0] - 1e-12


@settings(max_examples=80, deadline=None)
@given(ASKS)
def test_what_is_taken_up_and_what_is_left_make_what_was_measured(fields):
    out = fields["out_of_plane"]
    for o in build_up(BuildUpAsk(at="w", **fields))[0].options:
        if out is not None and o.id != "dub-out":
            taken = float(o.most) - float(o.least)
            left = float(o.wander) if o.wander else 0.0
            assert close(taken + left, out)


def test_equal_asks_have_equal_answers_and_equal_hashes():
    one, other = (run(out_of_plane=inch("3/8"), suction="low") for _ in range(2))
    assert one[0] == other[0]
    fields = {"book": BOOK, "at": "w", "base": "block", "out_of_plane": inch("3/8")}
    assert hash(BuildUpAsk(**fields)) == hash(BuildUpAsk(**fields))
