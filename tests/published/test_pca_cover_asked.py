"""Portland Cement Association, weight and cover of plaster: asked as a customer asks it.

The association prints the cover at 7/8 in. (13.7 sq ft to a cubic foot); at 1/2 in. the same sum gives 24.
"""

import re

import pytest

from darby.answers.asked import ask
from tests.published import checked

SOURCE = "PCA stucco FAQ, installed weight of portland cement plaster: cover, at 1/2 in."


@checked("our arithmetic", SOURCE)
def test_a_cubic_foot_covers_twenty_four():
    said = ask("how many bags for 24 sq ft").reckoned
    assert re.search(r"24 sq ft at 1/2 in\.: 1 cu ft of mortar", said), said


@checked("our arithmetic", f"{SOURCE}: 240 and 400 sq ft")
@pytest.mark.parametrize(("typed", "mortar"), [("240 sqft", "10 cu ft"), ("20' x 20'", "16.67 cu ft")])
def test_ten_times_as_much_and_twenty_by_twenty(typed, mortar):
    assert f"at 1/2 in.: {mortar} of mortar" in ask(f"how many bags {typed}").reckoned
