"""Building Design and Construction Handbook, Merritt and Ricketts: stucco, and masonry bases for plaster."""

import pytest

from darby.buildup import Override
from tests.buildup.asking import HOUR, chosen, codes, following, inch, option, printed, sixteenths
from tests.published import checked

SOURCE = "Merritt and Ricketts, Building Design and Construction Handbook (restated)"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(
    ("figure", "values"),
    [("thickness.scratch.lath.merritt", (0.5,)), ("thickness.finish.lath.merritt", (0.375,)),
     ("thickness.finish.solid.merritt", (0.25,)), ("thickness.no-lath.merritt", (0.625,)),
     ("thickness.no-lath.ceiling.merritt", (0.375,)), ("cure.double-back.merritt", (4, 5))],
)  # fmt: skip
def test_the_figures_stand_in_the_book(figure, values):
    assert printed(figure) == values


@checked("our arithmetic", f"{SOURCE}: the coats added up, and the brown and the base left over")
@pytest.mark.parametrize(
    ("base", "choose", "coats", "total"),
    [("frame", "lath-three-coat", ("1/2", "3/8", "3/8"), "5/4"), ("block", "two-coat", ("3/8", "1/4"), "5/8")],
)
def test_the_handbooks_minimums_add_up(base, choose, coats, total):
    o = option(choose, base=base, book=following(thickness="merritt"))
    assert sixteenths(*(c.nominal for c in o.coats)) == coats
    assert sixteenths(o.nominal) == (total,)


@checked("our arithmetic", f"{SOURCE}: totals are the minimums added up")
@pytest.mark.parametrize(
    ("figure", "coats"),
    [("thickness.block.two-coat.merritt", (0.375, 0.25)), ("thickness.lath.three-coat.merritt", (0.5, 0.375, 0.375))],
)
def test_the_totals_are_sums_of_printed_coats(figure, coats):
    assert printed(figure) == (sum(coats),)


@checked("our arithmetic", f"{SOURCE}: a concrete wall at 5/8 in. and just over")
def test_concrete_past_five_eighths_wants_lath():
    def said(total):
        return codes(chosen(base="concrete", out_of_plane=0, override=Override(total=inch(total))).cautions)

    assert "past-no-lath" not in said("5/8")
    assert "past-no-lath" in said("11/16")


@checked("our arithmetic", f"{SOURCE}: a concrete ceiling at 3/8 in. and just over")
def test_a_concrete_ceiling_past_three_eighths_wants_lath():
    def said(total):
        own = Override(total=inch(total))
        return codes(chosen(base="concrete", position="horizontal", choose="two-coat", override=own).cautions)

    assert "past-no-lath" not in said("3/8")
    assert "past-no-lath" in said("7/16")


@checked("our arithmetic", f"{SOURCE}: scratch at seven in the morning")
def test_brown_on_a_green_scratch_goes_on_between_eleven_and_noon():
    scratch = option("double-back", base="frame").coats[0]
    assert 7 + float(scratch.wait_least) / HOUR == pytest.approx(11)
    assert 7 + float(scratch.wait_most) / HOUR == pytest.approx(12)
