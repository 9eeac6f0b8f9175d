"""The old face of the fire hall: what the stage asks and answers, and the old side that is painted and priced."""

from fractions import Fraction

import pytest

import darby
from darby.answers.stage import NOTHING
from darby.measure.units import unit
from tests.answers.jobs import firehall as example

OLD_FACE = "paint_coats = 3 "
ALSO = 'also_paint = { length = "18\'", height = "9\'-4\\"", to = "the downspout" }\n'
AREA = 18 * (9 + 4 / 12)
FOOT = unit("sq ft").scale


def answered(*edits):
    return darby.answer(example(*edits))


@pytest.fixture(scope="module")
def painted_too():
    return answered((OLD_FACE, ALSO + OLD_FACE))


def hours(answers):
    return {at: float(h.value) / 3600 for at, h in answers.of("paint").hours}


def test_it_is_asked_where_it_was_read_and_nowhere_else(firehall):
    assert set(firehall.good("match")) == {"bay-south"}
    assert firehall.of("match", "bay-east") == NOTHING
    ask = firehall.kept[("match", "bay-south")].ask
    assert (ask.wanted, ask.looks, ask.paint_coats, len(ask.depths)) == ("float", "dash", 3, 10)
    assert float(ask.coat) == pytest.approx(0.003175)  # the finish coat that the build-up chose, 1/8 in.


def test_the_fire_halls_boards(firehall):
    found = firehall.of("match", "bay-south")
    # 1.1 g of 10 on No. 8 is 11 %: it counts; three coats of paint: the coarser before the finer
    assert [(b.fine.name, b.coarse.name) for b in found.boards] == [
        ("No. 16", "No. 8"), ("No. 8", "No. 4"), ("No. 4", "3/8 in."),
    ]  # fmt: skip
    assert (found.order, found.methods[0].method) == ((2, 3, 1), "dash")


def test_the_old_face_changes_no_number_of_the_job(firehall):
    assert hours(firehall) == {}
    assert not [line for line in firehall.of("order").lines if line.item == "paint"]


def test_the_old_side_is_painted_without_primer_over_old_paint(painted_too):
    pace = painted_too.job.firm.pace_of("paint")
    a_coat = AREA * float(FOOT) / float(pace.rate) / 3600
    assert hours(painted_too) == {"bay-south/old-side": pytest.approx(2 * a_coat)}
    items = {line.item: line for line in painted_too.of("order").lines}
    assert "primer" not in items
    # two coats over old paint: 300 and 350 sq ft/gal at the low end
    assert float(items["paint"].needed.value / unit("gal").scale) == pytest.approx(AREA / 300 + AREA / 350, rel=1e-6)


def test_a_bare_old_side_is_primed(painted_too):
    bare = answered((OLD_FACE, ALSO + "# "))
    items = {line.item: line for line in bare.of("order").lines}
    assert float(items["primer"].needed.value / unit("gal").scale) == pytest.approx(AREA / 150, rel=1e-6)
    assert hours(bare)["bay-south/old-side"] == pytest.approx(1.5 * hours(painted_too)["bay-south/old-side"])


def test_the_old_side_has_its_line_and_the_lines_add_up(firehall, painted_too):
    price = painted_too.of("price")
    (line,) = (q for q in price.quote if q.at == "bay-south/old-side")
    assert line.kind == "surface"
    assert line.amount.value > 0
    assert sum(q.amount.value for q in price.quote) == price.total.value
    assert price.total.value > firehall.of("price").total.value + line.amount.value / 2


def test_the_area_by_itself_is_the_same(painted_too):
    area = answered((OLD_FACE, 'also_paint = { area = "168 sq ft", to = "the downspout" }\n' + OLD_FACE))
    assert area.of("price").total == painted_too.of("price").total
    assert Fraction(168) == Fraction(AREA).limit_denominator(1000)


@pytest.mark.parametrize(("paint", "code"), [("false", "new-side-bare"), ("true", "both-painted")])
def test_new_and_old_are_painted_alike_or_it_is_said(paint, code):
    answers = answered((OLD_FACE, ALSO + OLD_FACE), ("paint = false", f"paint = {paint}"))
    assert f"finish.{code}" in {n.code for n in answers.notes}


def test_only_what_changed_is_asked_again(firehall):
    again = darby.answer(example(('"0.106 in"', '"0.107 in"')), since=firehall)
    assert again.asked == 1
    assert again.of("match", "bay-south").relief != firehall.of("match", "bay-south").relief
