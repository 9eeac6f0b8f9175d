"""Bases that are not new block, concrete or a frame: what is done to them, in what coats, and when not at all."""

import pytest

from darby.buildup.model import DOUBTFUL, OLD, Tried
from darby.measure.faults import Unreadable

from .asking import HOUR, chosen, codes, inch, option, run, said, sixteenths, up

GOOD = Tried("holds", "soaks in", "sound", "held")
BEADS = Tried("holds", "beads", "sound", "held")


def order(**fields):
    return [o.id for o in up(**fields).options]


# --- masonry -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("base", ["brick", "stone"])
def test_brick_and_stone_stand_in_the_tables_as_unit_masonry(base):
    o = chosen(base=base)
    assert o.id == "two-coat"
    assert sixteenths(o.nominal) == ("1/2",)
    assert "joints-show" not in codes(o.cautions)  # that is said of block
    assert "no-weep-on-masonry" in codes(up(base=base).notes)


def test_soft_brick_drinks_fast_and_sound_brick_as_usual():
    assert up(base="brick", brick="soft").suction == "high"
    assert "damp-again" in chosen(base="brick", brick="soft").preparation
    assert up(base="brick", brick="sound").suction == "usual"
    assert "assumed-brick" in codes(up(base="brick").notes)
    assert chosen(base="brick", joints="struck", brick="sound").preparation == ("clean", "fill-joints", "damp")


def test_stone_is_taken_to_drink_little_and_gets_a_dash():
    answer = up(base="stone")
    assert answer.suction == "low"
    assert answer.chosen.preparation == ("clean", "dash-bond")
    assert "test-patch" in codes(answer.notes)
    assert up(base="stone", suction="high").chosen.preparation == ("clean", "damp", "damp-again")


def test_a_concrete_soffit_takes_three_eighths_and_no_more():
    o = chosen(base="concrete", position="horizontal")
    assert (o.id, *sixteenths(o.nominal)) == ("two-coat", "3/8")
    heavy = chosen(base="brick", position="horizontal", choose="two-coat")
    assert sixteenths(heavy.nominal) == ("3/8",)


def test_a_soffit_on_lath():
    o = chosen(base="frame", position="horizontal", sheathing="open studs")
    assert (o.lath, *sixteenths(o.nominal)) == ("rib", "5/8")


# --- what tests say ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("tests", "painted", "bare"),
    [
        (None, "test first", "test first"),
        (Tried(scrape="holds", water="beads", tap="sound"), "test first", "test first"),  # nobody pulled
        (Tried(pull="held"), "test first", "test first"),  # nobody tapped
        (Tried(tap="hollow", pull="held"), "do not", "do not"),
        (Tried(tap="sound", pull="let go"), "lath over", "lath over"),
        (Tried(scrape="comes off"), "lath over", "lath over"),
        (GOOD, "clean and bond", "clean and bond"),
        (BEADS, "roughen and bond", "roughen and bond"),
        (Tried(tap="sound", pull="held"), "roughen and bond", "clean and bond"),  # paint lets nothing in till tried
    ],
)
def test_the_verdict_on_old_plaster(tests, painted, bare):
    assert up(base="painted plaster", tests=tests).verdict == painted
    assert up(base="old plaster", tests=tests).verdict == bare


def test_painted_block_needs_no_tap():
    assert up(base="painted block", tests=Tried(pull="held")).verdict == "roughen and bond"
    assert up(base="painted block").verdict == "test first"
    assert up(base="block").verdict is None


@pytest.mark.parametrize("base", DOUBTFUL)
def test_not_tried_means_test_first_with_lath_reckoned_and_hours_to_price(base):
    answer, working = run(base=base)
    assert answer.verdict == "test first"
    assert answer.chosen.id == "lath-three-coat"
    assert answer.chosen.preparation[0] == "test-first"
    assert float(answer.test_time) == 3 * HOUR  # common practice, no source
    assert answer.test_time.key in working.steps
    (stop,) = (n for n in answer.notes if n.code == "buildup.verdict.test-first")
    assert stop.grade == "stop"
    tap, scrape = base in OLD, base != "old plaster"
    wanted = {f"untried.{name}" for name, said in (("tap", tap), ("scrape", scrape)) if said}
    assert codes(answer.notes) >= wanted | {"untried.water", "untried.pull"}
    assert ("untried.scrape" in codes(answer.notes)) == scrape
    straight = option("two-coat", base=base)
    assert "bond-in-doubt" in codes(straight.cautions)


@pytest.mark.parametrize("base", DOUBTFUL)
def test_tests_that_came_out_well_let_two_coats_go_straight_on(base):
    answer = up(base=base, tests=GOOD)
    assert (answer.verdict, answer.chosen.id, answer.test_time) == ("clean and bond", "two-coat", None)
    assert answer.suction == "usual"
    assert "test-patch" not in codes(answer.notes)
    assert "bond-in-doubt" not in codes(answer.chosen.cautions)
    assert chosen(base=base, tests=GOOD).preparation[-1] == "damp"


def test_old_plaster_is_cut_back_and_paint_scraped_before_anything_bonds():
    assert chosen(base="old plaster", tests=GOOD).preparation == ("cut-hollow", "clean", "damp")
    assert chosen(base="painted plaster", tests=BEADS).preparation == (
        "cut-hollow", "paint-off", "clean", "roughen", "dash-bond",
    )  # fmt: skip


def test_lath_over_old_plaster_on_a_frame_finds_the_studs_and_hangs_paper():
    o = chosen(base="painted plaster", behind="frame", tests=Tried(pull="let go"))
    assert o.preparation == ("loose-off", "find-studs", "paper", "weep-screed", "lath")
    assert (o.paper_layers, o.id) == (2, "lath-three-coat")
    masonry = chosen(base="painted plaster", behind="block", tests=Tried(pull="let go"))
    assert masonry.preparation == ("loose-off", "lath-on-masonry")
    assert masonry.paper_layers == 0
    assert "lath-for-bond" in {c.removeprefix("reason.") for c in codes(o.reasons)}


def test_hollow_plaster_comes_off_and_nothing_else_is_offered():
    answer = up(base="painted plaster", behind="frame", tests=Tried(tap="hollow"))
    assert [o.id for o in answer.options] == ["lath-three-coat"]
    assert answer.chosen.preparation == ("take-off", "check-framing", "paper", "weep-screed", "lath")
    (stop,) = (n for n in answer.notes if n.code == "buildup.verdict.do-not")
    assert stop.grade == "stop"
    with pytest.raises(Unreadable, match="no-such-option"):
        up(base="painted plaster", tests=Tried(tap="hollow"), choose="two-coat")


def test_he_may_go_straight_on_against_his_own_tests_and_is_told():
    o = chosen(base="painted block", tests=Tried(pull="let go"), choose="two-coat")
    assert o.id == "two-coat"
    assert "bond-in-doubt" in codes(o.cautions)


def test_the_codes_least_is_not_asked_of_a_coat_on_old_plaster():
    assert "no-code-row" not in codes(option("heavy-skim", base="old plaster", tests=GOOD).cautions)
    assert "no-table-for-old" in codes(up(base="old plaster", tests=GOOD).notes)


# --- one heavy coat, and finishes ------------------------------------------------------------------------


def test_one_heavy_coat_floated_is_half_an_inch_and_too_few_for_the_code():
    o = option("one-coat", joints="flush")
    assert [c.name for c in o.coats] == ["base"]
    assert sixteenths(o.nominal, o.least) == ("1/2", "3/8")
    assert o.coats[0].notes == ("rod-to-grounds", "float-it")
    assert codes(o.cautions) >= {"fewer-coats", "no-code-row"}
    assert "joints-show" not in codes(o.cautions)
    assert chosen(choose="one-coat").id == "one-coat"
    assert "one-coat" not in order(finish="smooth")


@pytest.mark.parametrize("base", ["block", "frame", "concrete"])
def test_a_scraped_finish_is_laid_fuller(base):
    # common practice, no source: 3/16 in., scraped back
    o = chosen(base=base, finish="scraped")
    assert sixteenths(o.coats[-1].nominal) == ("3/16",)
    assert o.coats[-1].notes == ("scrape-back",)


def test_stone_on_lath_stands_on_top_of_the_seven_eighths():
    o = chosen(base="frame", finish="pebble")
    assert [round(float(c.nominal) * 1000, 3) for c in o.coats] == [9.525, 9.525, 10]
    assert float(o.nominal) * 1000 == pytest.approx(29.05)
    assert said(o.reasons, "thrown-on-top")["more"].value == pytest.approx(0.01 - 0.003175)


def test_a_finish_of_stone_is_no_skim():
    assert "heavy-skim" not in order(finish="wet dash")
    assert "heavy-skim" in order(finish="dash")


def test_a_coat_that_carries_the_color_says_how():
    assert "colored" in codes(up(colored=True).notes)
    assert "colored" not in codes(up(colored=True, finish="none").notes)


# --- places ------------------------------------------------------------------------------------------------


def test_where_it_is_brings_its_caution():
    assert said(up(retains=inch("36")).notes, "earth-behind")["earth"].value == inch("36")
    for place in ("parapet", "top", "garden wall", "foundation", "chimney", "planter", "soffit"):
        (note,) = (n for n in up(place=place).notes if n.code == f"buildup.place.{place.replace(' ', '-')}")
        assert note.grade == "caution"
    assert not any(c.startswith("place.") for c in codes(up(place="band").notes))
    assert "prep.top.practice" in next(n.rules for n in up(place="parapet").notes if "parapet" in n.code)
