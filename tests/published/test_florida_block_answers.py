"""Masonry Association of Florida: how far apart joints in block are, and from where block is looked at."""

from tests.published import checked
from tests.published.asking import number, written


@checked("copied figure", "Masonry Association of Florida, Control joint spacing in stucco on block, 12 August 2020")
def test_joints_in_block_walls():
    assert number("ask.block-joints.maf") == (20, 25)


@checked("copied figure", "Masonry Association of Florida, 30 April 2021, citing ASTM C90-14 7.2")
def test_block_is_judged_from_twenty_feet():
    assert number("ask.block.seen-from.maf") == (20,)
    assert written("ask.block.seen-from.maf")[1] == "second-hand"  # the answer cites C90; C90 was not seen
