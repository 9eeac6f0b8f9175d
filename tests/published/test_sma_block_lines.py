"""Stucco Manufacturers Association, Stucco over CMU: a skim on flush block reads through."""

from tests.published import checked
from tests.published.asking import first_cause

SOURCE = "Stucco Manufacturers Association, Stucco over Concrete Masonry Units, 2020, skim coats"


@checked("copied figure", SOURCE)
def test_joints_read_through_a_skim():
    rule, english, spanish = first_cause("fault.block-lines")
    assert "most when wet" in rule.written
    assert "skim" in english
    assert "capita" in spanish
