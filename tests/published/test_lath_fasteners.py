"""Fasteners of lath: UFGS 09225 on masonry, IRC 2018 on studs."""

from __future__ import annotations

import pytest

from darby.measure import whole
from darby.measure.units import IN, unit
from darby.quantities.lath import fasteners_on_masonry, fasteners_on_studs
from darby.rulebook import Book, default
from darby.working import Quantity, Working
from tests.published import checked
from tests.published.plaster_sums import shown

AREA = Quantity(100 * unit("sq ft").scale, unit("sq ft"))


@checked("our arithmetic", "UFGS 09225: every 8 in. up and 16 in. across, 100 sq ft")
def test_on_masonry() -> None:
    found = fasteners_on_masonry(Working(), default(), "k", AREA)
    assert shown(found) == pytest.approx(112.5)
    assert whole(float(found)) == 113


@checked("our arithmetic", "IRC 2018 R703.7.1: 6 in. along studs 16 in. apart, 100 sq ft")
def test_on_studs() -> None:
    book = default()
    code = Book(book.figures.values(), book.sources, follows={"lath.fastener": "irc-2018"})
    assert shown(fasteners_on_studs(Working(), code, "k", AREA, 16 * IN)) == pytest.approx(150)


@checked("our arithmetic", "SMA, Stucco over CMU 2020: no wider than one a square foot, 100 sq ft")
def test_on_block_by_the_makers() -> None:
    book = default()
    makers = Book(book.figures.values(), book.sources, follows={"lath.fastener": "sma"})
    assert shown(fasteners_on_masonry(Working(), makers, "k", AREA)) == pytest.approx(100)
