"""The cut list of the example: every bead of the order is on it, and it is no dearer than the order's own bars."""

from collections import Counter
from fractions import Fraction

import pytest

from darby.answers import with_later

FT = Fraction(3048, 10_000)


@pytest.fixture(scope="module")
def sawn(firehall):
    return with_later(firehall)


def test_it_waits_until_it_is_asked_for(firehall, sawn):
    assert ("cuts", "job") not in firehall.unanswered()
    assert sawn.asked == 2  # this, and the grounds of the one wall that was read; everything else was kept


def test_every_foot_of_bead_is_sawn_from_some_bar(firehall, sawn):
    """The order's lengths, before what is added for cutting, are the cut list's lengths."""
    ordered = Counter()
    for line in firehall.of("order").edges:
        if line.item is not None:
            ordered[line.item] += line.beads
    assert {x.item: x.cuts.length for x in sawn.of("cuts").lists} == dict(ordered)


def test_weep_screed_by_hand(sawn):
    # 14, 12 and 14 - 3 = 11 ft of foot: 37 ft in 10 ft bars is four bars at $11.90, and three hold only 30
    found = sawn.of("cuts").of("weep screed").cuts
    assert (found.proved_best, len(found.bars), found.cost) == (True, 4, 4 * Fraction("11.90"))
    assert sum(b.left for b in found.bars) == 3 * FT


def test_all_are_proved(sawn):
    assert all(x.cuts.proved_best for x in sawn.of("cuts").lists)
