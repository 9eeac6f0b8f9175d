"""IBC 2021 2513.4 in Virginia's edition: least overall thickness of plaster with stone in its face."""

import pytest

from darby.buildup import Override, OwnCoat
from tests.buildup.asking import chosen, codes, inch, printed
from tests.published import checked

CODE = "IBC 2021, 2513.3 and 2513.4 (hosted text)"


@checked("copied figure", CODE)
@pytest.mark.parametrize(("figure", "inches"), [("pebble.solid", 0.5), ("pebble.lath", 0.875)])
def test_least_overall(figure, inches):
    assert printed(f"thickness.{figure}.ibc") == (inches,)


@checked("our arithmetic", f"{CODE}: 1/2 in. passes on block, 7/16 does not")
def test_a_pebble_finish_under_half_an_inch_on_block_is_cautioned():
    for total, cautioned in (("1/2", False), ("7/16", True)):
        his = Override(inch(total), (OwnCoat("finish", inch("5/16")),))
        assert ("under-pebble" in codes(chosen(finish="pebble", override=his).cautions)) == cautioned
    assert "under-pebble" not in codes(chosen(finish="pebble", base="frame").cautions)
