"""Engineer Fix, How to paint new stucco: how alkaline fresh plaster is."""

from tests.published import checked
from tests.published.asking import number, written


@checked("copied figure", "Engineer Fix, How to paint new stucco for a long-lasting finish")
def test_fresh_plaster():
    assert number("ask.fresh-ph.engineer-fix") == (12, 13)
    assert written("ask.fresh-ph.engineer-fix")[1] == "second-hand"
