"""Sieve analyses of exams and course sheets: what each sieve kept, and the shares they print."""

from itertools import accumulate

import pytest

from tests.finish.asking import kept_of, matched
from tests.published import checked

SHEET = "course sheet on fineness modulus, example 01: 1000 g, 250 g of it in the pan"
EXAM = "solved exam question: 1000 g of sand over the six sand sieves, modulus 2.60"
ROWS = ("4", "8", "16", "30", "50", "100")


def cumulative(kept):
    rows = {"3/8 in.": 0} | dict(zip((*ROWS, "pan"), kept, strict=True))
    return list(accumulate(float(g.share) * 100 for g in matched(sand=kept_of(rows, "g")).sand.grades))


@checked("worked elsewhere", SHEET)
@pytest.mark.parametrize(("n", "printed"), list(enumerate((9, 19, 31, 47, 61, 75))))
def test_a_pan_of_a_quarter(n, printed):
    assert cumulative((90, 100, 120, 160, 140, 140, 250))[n] == pytest.approx(printed)


@checked("worked elsewhere", EXAM)
def test_cumulative_shares_come_to_what_the_exam_adds_up():
    # the six sieves; what came through the last one is not in its sum
    assert sum(cumulative((0, 100, 150, 200, 350, 200, 0))[:6]) == pytest.approx(260)
