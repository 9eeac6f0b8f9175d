"""Island Plasters, Cure times for stucco: cracks at the corners of openings."""

from tests.published import checked
from tests.published.asking import first_cause, number

SOURCE = "Island Plasters, Cure times for stucco, cracks at openings"


@checked("copied figure", SOURCE)
def test_shrinkage_at_an_inside_corner():
    rule, english, spanish = first_cause("fault.corner-cracks")
    assert "shrinkage" in rule.written
    assert "shrinkage" in english
    assert "contracción" in spanish


@checked("copied figure", SOURCE)
def test_when_they_mostly_show():
    assert number("fault.corner-cracks.days.cure-times") == (12, 14)
