"""Profiles: how long a coat is kept moist and the next one waits, by whom."""

import pytest

from darby.buildup import Override, OwnCoat, profiles
from darby.measure.faults import Unreadable
from darby.rulebook import Book
from darby.rulebook.load import figure_of

from .asking import BOOK, HOUR, chosen, codes, days, following, option, said


def waits(o):
    return [days(c.wait_least) for c in o.coats]


def moist(o):
    return [days(c.moist) for c in o.coats]


@pytest.mark.parametrize(
    ("cure", "kept", "waited"),
    [("ibc", [2, 2, 2], [2, 7, None]), ("irc", [2, 2, 2], [2, 7, None]), ("ufgs", [3, 3, 2], [3, 7, None]),
     ("nwcb", [2, 2, 2], [2, 10, None]), ("pca", [3, 3, 2], [3, 7, None]), ("plasterer", [2, 2, 2], [2, 7, None]),
     ("indian-river", [2, 2, 2], [2, 7, None]), (None, [2, 2, 2], [2, 7, None])],
)  # fmt: skip
def test_each_profile_on_lath(cure, kept, waited):
    o = chosen(base="frame", cure=cure)
    assert (moist(o), waits(o)) == (kept, waited)


def test_two_coat_work_waits_seven_days_and_the_bureau_ten():
    assert waits(chosen()) == [7, None]
    assert waits(chosen(cure="nwcb")) == [10, None]
    assert waits(chosen(suction="low")) == [1, 7, None]
    assert moist(chosen(suction="low")) == [1, 2, 2]


def test_a_firm_that_follows_a_profile_needs_no_name_on_the_job():
    assert waits(chosen(base="frame", book=following(cure="nwcb"))) == [2, 10, None]
    assert waits(chosen(base="frame", book=following(cure="nwcb"), cure="ibc")) == [2, 7, None]


def test_a_local_rule_lies_on_top_of_every_profile():
    row = {
        "id": "local.wait", "subject": "cure.wait", "value": "12 day", "says": "valley rule", "source": "bu-practice",
        "where": "here", "standing": "common practice", "applies": {"coat": ["brown", "base"]}, "why": "dry wind",
    }  # fmt: skip
    book = Book(BOOK.figures.values(), BOOK.sources, local=[figure_of(row, BOOK.sources)])
    assert waits(chosen(book=book, cure="nwcb")) == [12, None]


def test_what_a_profile_leaves_open_is_filled_and_said():
    o = chosen(base="frame", cure="nwcb")
    note = said(o.reasons, "cure-filled")
    assert (note["coat"], note["by"]) == ("buildup.coat.scratch", "ibc")
    assert "cure-filled" not in codes(chosen(base="frame", cure="ibc").reasons)


def test_a_span_is_kept_to_its_least_and_the_whole_span_is_said():
    (one, other) = (n for n in chosen(base="frame", cure="pca").reasons if n.code == "buildup.moist-span")
    assert (days(dict(one.values)["low"]), days(dict(other.values)["high"])) == (3, 7)
    better = said(chosen(cure="nwcb").reasons, "wait-better")
    assert (days(better["low"]), days(better["high"])) == (14, 21)
    assert "wait-better" not in codes(chosen(cure="ibc").reasons)


def test_doubling_back_has_a_most_as_well_as_a_least():
    scratch, brown, finish = option("double-back", base="frame").coats
    assert (float(scratch.wait_least) / HOUR, float(scratch.wait_most) / HOUR) == pytest.approx((4, 5))
    assert scratch.moist is None
    assert (days(brown.wait_least), brown.wait_most, finish.wait_most) == (7, None, None)
    assert "double-back-window" in codes(option("double-back", base="frame").cautions)
    assert all(c.wait_most is None for c in option("lath-three-coat", base="frame").coats)


def test_doubling_back_as_a_profile_doubles_three_coats_on_block_too():
    scratch, brown, _ = option("three-coat", cure="double-back").coats
    assert float(scratch.wait_most) / HOUR == pytest.approx(5)
    assert days(brown.wait_least) == 7
    assert waits(option("two-coat", cure="double-back")) == [7, None]


def test_his_own_time_when_doubling_back():
    def doubled(hours):
        own = Override(coats=(OwnCoat("scratch", wait=hours * HOUR, moist=HOUR),))
        return chosen(base="frame", choose="double-back", override=own)

    late = doubled(20)
    assert "double-back-late" in codes(late.cautions)
    assert float(late.coats[0].wait_most) == float(late.coats[0].wait_least) == 20 * HOUR
    fair = doubled(4.5)
    assert "double-back-late" not in codes(fair.cautions)
    assert float(fair.coats[0].wait_most) / HOUR == pytest.approx(5)
    assert float(fair.coats[0].moist) == HOUR
    assert "departure.wait-shorter" in codes(doubled(2).cautions)


def test_the_profiles_are_those_that_speak_on_laid_coats():
    assert set(profiles(BOOK)) == {
        "ibc", "irc", "ufgs", "nwcb", "pca", "plasterer", "indian-river", "double-back",
    }  # fmt: skip
    with pytest.raises(Unreadable) as refused:
        chosen(cure="nyc")
    assert refused.value.fault.code == "buildup.no-such-profile"
    assert "double-back" in refused.value.fault.allowed
