"""Indian River County, Florida: project specification, stucco."""

import pytest

from tests.buildup.asking import days, following, option, printed, sixteenths
from tests.published import checked

SOURCE = "Indian River County project specification, stucco section"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(
    ("figure", "value"),
    [("thickness.block.two-coat.indian-river", 0.625), ("thickness.concrete.two-coat.indian-river", 0.625),
     ("thickness.finish.indian-river", 0.25), ("cure.moist.indian-river", 48), ("cure.wait.indian-river", 7)],
)  # fmt: skip
def test_the_figures_stand_in_the_book(figure, value):
    assert printed(figure) == (value,)


@checked("our arithmetic", f"{SOURCE}: what a quarter of finish leaves for the base")
@pytest.mark.parametrize("base", ["block", "concrete"])
def test_three_eighths_are_left_for_the_base(base):
    o = option("two-coat", base=base, suction="usual", cure="indian-river", book=following(thickness="indian-river"))
    assert sixteenths(*(c.nominal for c in o.coats)) == ("3/8", "1/4")
    assert (days(o.coats[0].moist), days(o.coats[0].wait_least)) == (2, 7)
