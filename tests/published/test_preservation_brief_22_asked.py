"""US National Park Service, Preservation Brief 22: what old stucco was made of."""

from darby.rulebook import default
from tests.published import checked


@checked("copied figure", "National Park Service, Preservation Brief 22, history of stucco")
def test_lime_until_the_late_nineteenth_century():
    rule = default().rule("ask.old-lime").figure
    assert "lime until the late nineteenth century" in rule.written
