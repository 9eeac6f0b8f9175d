"""Two inspectors: a consultant on smooth finishes, and Florida notes on fine cracks over block."""

from tests.published import checked
from tests.published.asking import first_cause


@checked("copied figure", "stuccoexpert.com, Stucco investigation notes")
def test_hair_cracks_belong_to_a_smooth_finish():
    rule, english, spanish = first_cause("fault.smooth-crazing")
    assert "steel-trowelled" in rule.written
    assert "nature of a smooth finish" in english
    assert "liso" in spanish


@checked("copied figure", "Florida Inspection, Micro cracking on stucco type surfaces, 20 November 2013")
def test_drying_shrinkage_held_by_bond():
    rule, english, spanish = first_cause("fault.fine-cracks")
    assert "bond holds it" in rule.written
    assert "bond" in english
    assert "adherencia" in spanish
