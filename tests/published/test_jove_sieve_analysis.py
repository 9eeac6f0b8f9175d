"""JoVE Science Education, fineness modulus: a 500 g sand, what each sieve kept, and the cumulative column it prints."""

from itertools import accumulate

import pytest

from tests.finish.asking import kept_of, matched
from tests.published import checked

JOVE = "JoVE, fineness modulus, table 1: 500 g of sand over seven sieves"
KEPT = {"3/8 in.": 0, "4": 5, "8": 55, "16": 65, "30": 90, "50": 160, "100": 90, "pan": 35}
CUMULATIVE = (1, 12, 25, 43, 75, 93)


@checked("worked elsewhere", JOVE)
@pytest.mark.parametrize(("n", "printed"), list(enumerate(CUMULATIVE)))
def test_cumulative_shares(n, printed):
    shares = [float(g.share) * 100 for g in matched(sand=kept_of(KEPT, "g")).sand.grades]
    assert list(accumulate(shares))[n] == pytest.approx(printed)


@checked("our arithmetic", f"{JOVE}; the most is on the 0.30 mm sieve, half lies finer than there by 7/32 of the step")
def test_most_common_and_median():
    sand = matched(sand=kept_of(KEPT, "g")).sand
    assert (sand.common.fine.name, sand.common.coarse.name) == ("No. 50", "No. 30")
    assert float(sand.median) * 1000 == pytest.approx(0.3 + 0.3 * (50 - 25) / 32)


@checked("our arithmetic", f"{JOVE}; 1 % on No. 4 is a stray, 11 % on No. 8 counts")
def test_largest_that_counts():
    assert matched(sand=kept_of(KEPT, "g")).sand.largest.fine.name == "No. 8"
