"""Stucco Manufacturers Association, Stucco over Concrete Masonry Units, minimum technical practice, 2020."""

import pytest

from tests.buildup.asking import chosen, codes, following, inch, option, printed, sixteenths
from tests.published import checked

SOURCE = "SMA, Stucco over CMU, 2020"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(
    ("figure", "inches"),
    [("block.two-coat", (0.375, 0.5)), ("block.single-base", (0.375, 0.5)), ("lath.three-coat", (0.75, 0.875)),
     ("no-lath", (0.625,)), ("one-pass", (0.5,))],
)  # fmt: skip
def test_the_figures_stand_in_the_book(figure, inches):
    assert printed(f"thickness.{figure}.sma") == inches


@checked("our arithmetic", f"{SOURCE}: 3/8 in. on the high spot and 1/4 in. out of plane")
def test_a_quarter_out_of_plane_reaches_but_does_not_pass_the_limit():
    o = chosen(out_of_plane=inch("1/4"))
    assert sixteenths(o.least, o.most) == ("3/8", "5/8")
    assert not {"hollow-past-no-lath", "past-no-lath", "follow-the-wall"} & codes(o.cautions)


@checked("our arithmetic", f"{SOURCE}: a sixteenth worse passes it")
def test_five_sixteenths_out_of_plane_follows_the_wall():
    o = chosen(out_of_plane=inch("5/16"))
    assert sixteenths(o.least, o.most, o.wander) == ("3/8", "5/8", "1/16")
    assert "follow-the-wall" in codes(o.cautions)


@checked("our arithmetic", f"{SOURCE}: one base coat under a finish of 1/8 in.")
def test_the_base_coat_gets_its_finish_on_top():
    o = option("single-base", out_of_plane=inch("1/8"))
    assert sixteenths(o.least, o.nominal, o.most) == ("1/2", "5/8", "5/8")


@checked("our arithmetic", f"{SOURCE}: lath over block, 3/4 to 7/8 in.")
def test_lath_over_a_poor_block_wall():
    o = chosen(base="lath over block", book=following(thickness="sma"), out_of_plane=inch("1/2"))
    assert sixteenths(o.least, o.nominal, o.most) == ("3/4", "7/8", "7/8")
    # the block paper says nothing of frames: there the book's order rules
    assert chosen(base="frame", book=following(thickness="sma")).voices[0].voice == "c926"
