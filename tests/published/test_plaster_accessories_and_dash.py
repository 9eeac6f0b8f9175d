"""Single figures of several papers: dash bond, paper, joints round openings, panels on lath, soffits, Florida block."""

import pytest

from tests.buildup.asking import chosen, following, option, printed, sixteenths
from tests.published import checked


@checked("copied figure", "New York City Building Code 2510.7: dash bond coat")
@pytest.mark.parametrize("figure", ["cure.moist.dash-bond.nyc", "cure.wait.dash-bond.nyc"])
def test_a_dash_bond_is_left_a_day(figure):
    assert printed(figure) == (24,)


@checked("copied figure", "Uniform Building Code 2506 (hosted text): two layers over wood sheathing")
def test_two_papers_over_wood():
    assert printed("prep.paper.wood.ubc") == (2,)


@checked("copied figure", "Pennsylvania municipal checklist: joint round doors and windows")
def test_three_eighths_round_openings():
    assert printed("parting.width.penn") == (0.375,)


@checked("copied figure", "ASTM C1063 control-joint clauses as quoted from Walls & Ceilings")
@pytest.mark.parametrize(
    ("figure", "value"),
    [("panel-area", 144), ("panel-area.ceiling", 100), ("panel-side", 18), ("panel-ratio", 2.5), ("separation", 0.125)],
)
def test_panels_on_lath(figure, value):
    assert printed(f"parting.{figure}.c1063") == (value,)


@checked("copied figure", "Walls & Ceilings, Ceilings with stucco, EIFS and DAS")
def test_soffits_are_spoken_of_as_five_eighths():
    assert printed("thickness.lath.three-coat.wconline") == (0.625,)
    assert sixteenths(chosen(base="frame", position="horizontal").nominal) == ("5/8",)


@checked("copied figure", "Daily Commercial, 2 April 2016: Florida work straight on block")
def test_florida_block():
    assert printed("thickness.block.two-coat.florida") == (0.375, 0.5)
    o = option("two-coat", book=following(thickness="florida"))
    assert sixteenths(o.least, o.nominal, o.most) == ("3/8", "1/2", "1/2")


@checked("copied figure", "A plasterer's answer on colour-coat thickness (lemongrovestucco.com)")
def test_a_colour_coat_is_an_eighth():
    assert printed("thickness.finish.lemongrove") == (0.125,)
