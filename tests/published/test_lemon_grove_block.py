"""A plasterer's answer on stucco straight on block or brick."""

from tests.published import checked
from tests.published.asking import first_cause, number

SOURCE = "Lemon Grove Stucco, answer on stucco over block or brick without a base coat"


@checked("copied figure", SOURCE)
def test_block_lines_stay_without_a_leveling_coat():
    rule, english, spanish = first_cause("fault.block-ridges")
    assert "no levelling coat" in rule.written
    assert "leveling coat" in english
    assert "empareje" in spanish


@checked("copied figure", SOURCE)
def test_so_thin_it_shows():
    assert [float(n) for n in number("fault.block-ridges.thin.lemongrove")] == [0.375]
