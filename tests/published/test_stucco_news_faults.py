"""Stucco News, twelve points for reducing cracking: the two faults that its points 5 and 8 name."""

from tests.published import checked
from tests.published.asking import first_cause

SOURCE = "Stucco News, twelve points for reducing cracking"


@checked("copied figure", f"{SOURCE}, point 8")
def test_a_thin_base_cracks_at_every_joint():
    rule, english, spanish = first_cause("fault.cracks-at-joints")
    assert "too thin" in rule.written
    assert "too thin" in english
    assert "delgada" in spanish


@checked("copied figure", f"{SOURCE}, point 5")
def test_a_brown_that_still_shrinks_crazes_the_finish():
    rule, english, spanish = first_cause("fault.map-cracks")
    assert "still shrinking" in rule.written
    assert "still shrinking" in english
    assert "encogía" in spanish
