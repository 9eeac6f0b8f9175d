"""What cannot be answered waits or fails by itself; the rest stands."""

import darby
from darby.answers import Waiting
from darby.measure import Fault
from tests.answers.jobs import firehall as example
from tests.answers.jobs import without_firm

BAD = ('total = "5/8 in"', 'total = "1/16 in"')
"""The finish alone takes 1/8 in.: nothing is left for the base coat of the parapet."""


def test_one_bad_surface_takes_no_other_with_it(firehall):
    answers = darby.answer(example(BAD))
    failed = answers.unanswered()
    assert isinstance(failed[("coats", "parapet")], Fault)
    assert failed[("coats", "parapet")].place == "parapet/rest"
    assert isinstance(failed[("volumes", "parapet")], Waiting)
    assert failed[("volumes", "parapet")].behind == (("coats", "parapet"),)
    others = [s.id for s in answers.job.surfaces if s.id != "parapet"]
    assert {at for _, at in failed} <= {"parapet", "job"}
    for name in others:
        for stage in ("wall", "coats", "volumes"):
            assert answers.of(stage, name) == firehall.of(stage, name)
    assert answers.of("wall", "parapet") == firehall.of("wall", "parapet")


def test_a_price_without_a_wall_says_so(firehall):
    """What is left out stands as a stop beside the price: nobody quotes a job less one wall without having read it."""
    answers = darby.answer(example(BAD))
    assert answers.of("price").total.value < firehall.of("price").total.value
    assert answers.left_out == ("parapet",)
    assert [(n.grade, n.at) for n in answers.notes if n.code == "answers.left-out"] == [("stop", "parapet")]
    assert firehall.left_out == ()


def test_a_bad_surface_mended_is_a_good_one(firehall):
    mended = darby.answer(example(), since=darby.answer(example(BAD)))
    assert mended.unanswered() == {}
    assert mended.to_json() == firehall.to_json()


def test_without_a_firm_the_walls_are_answered_and_the_price_waits():
    answers = darby.answer(without_firm())
    for stage in ("wall", "coats", "volumes"):
        assert set(answers.good(stage)) == {"wall-0"}
    assert set(answers.good("order")) == {"job"}
    waiting = answers.unanswered()
    assert waiting[("days", "job")].lacks == ("answers.lacks.crew", "answers.lacks.day")
    assert waiting[("price", "job")].behind == (("days", "job"),)


def test_a_pace_that_nobody_said_is_asked_for():
    answers = darby.answer(example(firm=[('finish = "120 sq ft/h"\n', "")]))
    assert answers.of("days").lacks == ("answers.lacks.pace-finish",)


def test_an_item_without_a_price_is_named_and_the_total_is_no_price():
    rod = (
        '[[buys]]\nitem = "backer rod"\npackage = "100 ft roll"\nprice = "$16.00"\n'
        'supplier = "Alder Flat Building Supply"\n'
    )
    answers = darby.answer(example(firm=[(rod, "")]))
    price = answers.of("price")
    assert not price.complete
    assert price.lacks == ("backer rod",)
