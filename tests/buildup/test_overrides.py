"""He knows better: darby puts his figure in place, says which figure he leaves, and what follows."""

import pytest

from darby.buildup import Override, OwnCoat
from darby.measure.faults import Unreadable

from .asking import DAY, HOUR, chosen, codes, days, following, inch, option, run, said, sixteenths, up, weight_psf


def own(total=None, why="", **coats):
    return Override(
        total=None if total is None else inch(total),
        coats=tuple(OwnCoat(name.replace("_", "-"), thickness=inch(t)) for name, t in coats.items()),
        why=why,
    )


def test_his_whole_goes_to_the_coat_that_levels():
    o = chosen(out_of_plane=0, override=own("5/8", "a cap flashing is already on"))
    assert sixteenths(*(c.nominal for c in o.coats)) == ("1/2", "1/8")
    assert sixteenths(o.nominal, o.grounds, o.bead) == ("5/8", "1/2", "5/8")
    assert sixteenths(*said(o.reasons, "departure.total").values()) == ("5/8", "1/2")
    assert said(o.reasons, "departure.why") == {"why": "a cap flashing is already on"}
    assert weight_psf(said(o.reasons, "departure.heavier")["by"]) == pytest.approx(142 / 8 / 12)


def test_the_figure_he_leaves_is_the_ruling_voices():
    note = said(chosen(override=own("5/8"), book=following(thickness="plasterer")).reasons, "departure.total")
    assert sixteenths(note["figure"]) == ("3/4",)
    (leaves,) = (n for n in chosen(override=own("5/8")).reasons if n.code == "buildup.departure.total")
    assert leaves.rules == ("thickness.block.two-coat.c926",)


def test_thinner_is_lighter_and_what_follows_is_said():
    o = chosen(out_of_plane=0, override=own("3/8"))
    assert {"departure.lighter"} <= codes(o.reasons)
    assert {"joints-show", "under-code"} <= codes(o.cautions)


def test_his_whole_is_not_raised_for_a_bad_wall():
    o = chosen(base="concrete", suction="usual", out_of_plane=inch("5/16"), override=own("3/8"))
    assert sixteenths(o.nominal) == ("3/8",)
    assert "grounds-come-out" not in codes(o.reasons)


def test_one_coat_his_own_leaves_the_others_and_the_whole_follows():
    o = chosen(out_of_plane=0, override=own(finish="1/4"))
    assert sixteenths(*(c.nominal for c in o.coats)) == ("3/8", "1/4")
    assert sixteenths(o.nominal) == ("5/8",)
    note = said(o.reasons, "departure.coat")
    assert note["coat"] == "buildup.coat.finish"
    assert sixteenths(note["his"], note["figure"]) == ("1/4", "1/8")
    base = chosen(out_of_plane=0, override=own(base="1/2"))
    assert sixteenths(*(c.nominal for c in base.coats), base.nominal) == ("1/2", "1/8", "5/8")


def test_a_whole_and_a_coat_together():
    o = chosen(out_of_plane=0, override=own("3/4", finish="1/4"))
    assert sixteenths(*(c.nominal for c in o.coats)) == ("1/2", "1/4")
    o = chosen(out_of_plane=0, override=own("3/4", base="5/8", finish="1/8"))
    assert sixteenths(*(c.nominal for c in o.coats)) == ("5/8", "1/8")


def test_three_coats_on_lath_may_all_be_his():
    o = chosen(base="frame", override=own(scratch="1/2", brown="3/8", finish="1/8"))
    assert sixteenths(*(c.nominal for c in o.coats), o.nominal) == ("1/2", "3/8", "1/8", "1")


def test_a_skim_is_called_a_skim():
    o = chosen(choose="skim", override=own(skim="3/8"))
    assert sixteenths(o.nominal) == ("3/8",)
    assert o.coats[0].mix == "skim"


def test_a_dash_bond_can_be_asked_for_on_a_base_that_drinks():
    o = chosen(suction="usual", out_of_plane=0, override=own(dash_bond="1/8"))
    assert [c.name for c in o.coats] == ["dash-bond", "base", "finish"]
    # the others stay as the book shares them (1/2 less 1/16 less 1/8), and the whole follows
    assert sixteenths(*(c.nominal for c in o.coats), o.nominal) == ("1/8", "5/16", "1/8", "9/16")


@pytest.mark.parametrize(
    ("override", "code"),
    [(own("1/8"), "no-room"), (own("1/16"), "no-room"), (own("3/4", base="1/2", finish="1/8"), "coats-not-total"),
     (own(scratch="1/4"), "no-such-coat"), (own(brown="3/8"), "no-such-coat"), (own(skim="1/4"), "no-such-coat")],
)  # fmt: skip
def test_figures_that_cannot_stand_together_are_refused(override, code):
    with pytest.raises(Unreadable) as refused:
        up(override=override)
    assert refused.value.fault.code == f"buildup.{code}"
    assert refused.value.fault.place == "bay-south/rest"


def test_a_shorter_wait_is_a_caution_with_what_follows_and_a_longer_one_a_fact():
    short = chosen(override=Override(coats=(OwnCoat("base", wait=3 * DAY),)))
    assert days(short.coat("base").wait_least) == 3
    note = said(short.cautions, "departure.wait-shorter")
    assert (days(note["his"]), days(note["figure"])) == (3, 7)
    longer = chosen(override=Override(coats=(OwnCoat("base", wait=10 * DAY, moist=96 * HOUR),)))
    assert days(longer.coat("base").wait_least) == 10
    assert {"departure.wait-longer", "departure.moist-longer"} <= codes(longer.reasons)
    assert days(longer.coat("base").moist) == 4
    dry = chosen(override=Override(coats=(OwnCoat("base", moist=12 * HOUR),)))
    assert days(dry.coat("base").moist) == 0.5
    assert "departure.moist-shorter" in codes(dry.cautions)
    # a time alone changes no thickness and no weight
    assert not {"departure.total", "departure.heavier", "departure.lighter"} & codes(dry.reasons)
    assert dry.nominal == chosen().nominal


def test_only_the_chosen_option_is_his():
    answer = up(choose="three-coat", out_of_plane=0, override=own("3/4"))
    assert sixteenths(answer.chosen.nominal) == ("3/4",)
    assert answer.option("three-coat") == answer.chosen
    assert sixteenths(answer.option("two-coat").nominal) == ("1/2",)


def test_his_figure_and_the_books_both_stand_in_the_working():
    answer, working = run(out_of_plane=0, override=own("5/8"))
    key = "bay-south/rest/build-up/two-coat"
    assert working.steps[f"{key}/total"].value == pytest.approx(float(inch("5/8")))
    assert working.steps[f"{key}/total/book"].value == pytest.approx(float(inch("1/2")))
    assert answer.chosen.coat("base").nominal.key == f"{key}/base/thickness"


def test_the_book_by_which_he_departs_may_be_a_range():
    o = option("two-coat", book=following(thickness="sma"), out_of_plane=0, override=own("1/2"))
    assert sixteenths(o.nominal, o.coats[0].nominal) == ("1/2", "3/8")
