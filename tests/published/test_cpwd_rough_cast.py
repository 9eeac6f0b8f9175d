"""CPWD analysis of rates, item 13.19: rough cast of 6 to 10 mm stone, top layer 10 mm."""

import pytest

from tests.buildup.asking import chosen, codes, printed, said, up
from tests.published import checked

ITEM = "CPWD analysis of rates, item 13.19 rough cast plaster"


@checked("copied figure", ITEM)
@pytest.mark.parametrize(("figure", "values"), [("thickness.stone-finish.cpwd", (10,)), ("finish.stone.cpwd", (6, 10))])
def test_the_layer_and_its_stone(figure, values):
    assert printed(figure) == values


@checked("our arithmetic", f"{ITEM}: 10 mm of stone over the base coat that a plain 1/8 in. finish leaves of 1/2 in.")
def test_a_wet_dash_on_block():
    o = chosen(finish="wet dash", joints="flush")
    assert [c.name for c in o.coats] == ["base", "finish"]
    base, finish = (float(c.nominal) * 1000 for c in o.coats)
    assert (base, finish) == (pytest.approx(9.525), pytest.approx(10))  # 3/8 in., 10 mm
    assert float(o.nominal) * 1000 == pytest.approx(19.525)
    assert o.coats[-1].notes == ("throw-wet",)
    # past 5/8 in. it says so, but two coats still come first: the stone is no plaster that hangs there
    assert "past-no-lath" in codes(o.cautions)
    assert o.id == "two-coat"
    assert "thrown-on-top" in codes(o.reasons)
    assert said(up(finish="wet dash").notes, "stone.wet-dash")["stone"].id == "finish.stone.cpwd"
