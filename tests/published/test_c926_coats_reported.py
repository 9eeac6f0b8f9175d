"""ASTM C926 as others report it: how a total is shared among coats, how true a base must be."""

import pytest

from tests.buildup.asking import codes, inch, option, printed, sixteenths, up
from tests.published import checked

ARTICLE = "Stucco thickness: ASTM C926 standards explained (a contractor's article)"
AWCI = "AWCI, question on nominal thickness, quoting C926 5.2"


@checked("copied figure", ARTICLE)
@pytest.mark.parametrize(
    ("figure", "inches"),
    [("scratch.lath", 0.375), ("scratch.solid", 0.25), ("finish", 0.125)],
)
def test_the_coats_stand_in_the_book(figure, inches):
    assert printed(f"thickness.{figure}.c926") == (inches,)


@checked("our arithmetic", f"{ARTICLE}: the coat left over is the one printed")
@pytest.mark.parametrize(
    ("base", "choose", "coats"),
    [("frame", "lath-three-coat", ("3/8", "3/8", "1/8")), ("block", "three-coat", ("1/4", "1/4", "1/8")),
     ("block", "two-coat", ("3/8", "1/8")), ("concrete", "two-coat", ("1/4", "1/8"))],
)  # fmt: skip
def test_what_is_left_for_the_coat_that_levels(base, choose, coats):
    o = option(choose, base=base, suction=None if base == "frame" else "usual")
    assert sixteenths(*(c.nominal for c in o.coats)) == coats


@checked("copied figure", AWCI)
@pytest.mark.parametrize(
    ("figure", "value"), [("thickness.base-plane.c926", 0.25), ("thickness.base-plane-length.c926", 10)]
)
def test_how_true_a_base_must_be(figure, value):
    assert printed(figure) == (value,)


@checked("our arithmetic", f"{AWCI}: a quarter passes, five sixteenths do not")
def test_a_base_a_quarter_out_of_true_passes():
    assert "base-past-plane" not in codes(up(out_of_plane=inch("1/4")).notes)
    assert "base-past-plane" in codes(up(out_of_plane=inch("5/16")).notes)
