"""ACI 524R-16, Guide to Portland Cement-Based Plaster, 4.6.2 (an extract): chloride, and rust."""

from darby.rulebook import default
from tests.published import checked
from tests.published.asking import first_cause

SOURCE = "American Concrete Institute, ACI 524R-16, 4.6.2, extract"


@checked("copied figure", SOURCE)
def test_no_chloride_with_metal():
    rule = default().rule("ask.chloride").figure
    assert rule.written.startswith("no calcium chloride")
    assert rule.standing == "second-hand"  # an extract, not the guide


@checked("copied figure", SOURCE)
def test_metal_near_the_face_rusts():
    rule, english, spanish = first_cause("fault.rust")
    assert "too near the face" in rule.written
    assert "too near the face" in english
    assert "cerca de la cara" in spanish
