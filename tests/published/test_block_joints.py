"""Joints of block walls and of plaster on them: Masonry Association of Florida, NCMA, PCA, SMA."""

from __future__ import annotations

import pytest

from darby.measure.units import FT
from tests.joints.asking import BOOK, codes, ft, lines, plain, run
from tests.published import checked

MAF = "Masonry Association of Florida, Control joint spacing in stucco on block (2020)"
NCMA = "NCMA TEK 10-2B (2005); Masonry Association of Florida citing TEK 10-02D"


@checked("our arithmetic", f"{MAF}: 60 x 9 ft straight on block with joints at 20 and 40 ft: those, though 180 sq ft")
def test_plaster_follows_the_block_only() -> None:
    answer, _ = run(plain(60, 9), "block", block_joints=(ft(20), ft(40)))
    assert lines(answer.chosen) == [("v", 20), ("v", 40)]
    assert {p.area / FT**2 for p in answer.chosen.panels} == {180}


@checked("our arithmetic", f"{NCMA}: 12 ft high: 1.5 x 12 = 18 ft; 38 ft of it needs two joints")
def test_twelve_high() -> None:
    answer, w = run(plain(38, 12), "block", block_joints=())
    assert w.steps["w/joints/block/spacing"].value == pytest.approx(18 * 0.3048)
    assert w.steps["w/joints/block/joints"].value == 2
    assert "joints.block-without-joints" in codes(answer, "caution")


@checked("copied figure", f"{NCMA}: 1-1/2 times the height, 25 ft, half of it from a corner; {MAF}: 20 to 25 ft")
@pytest.mark.parametrize(
    ("name", "printed"),
    [("joint.block.ratio.ncma", (1.5,)), ("joint.block.most.ncma", (25,)), ("joint.block.corner.ncma", (50,)),
     ("joint.block.usual.maf", (20, 25))],
)  # fmt: skip
def test_as_printed(name: str, printed: tuple[float, ...]) -> None:
    figure = BOOK[name]
    values = [float(figure.unit.from_si(x)) for x in (figure.low, figure.value, figure.high) if x is not None]
    assert values == pytest.approx(printed)


@checked("copied figure", f"PCA stucco FAQ; SMA, Stucco over CMU (2020); {MAF}: joints only where the base has them")
def test_three_voices_on_plaster_straight_on_block() -> None:
    ruled = BOOK.rule("joint.direct")
    assert [ruled.figure.id, *(f.id for f in ruled.others)] == ["joint.direct.pca", "joint.direct.sma"]
    assert BOOK.rule("joint.lath-over-block").figure.id == "joint.lath-over-block.maf"
    assert BOOK.rule("joint.infill").figure.id == "joint.infill.pca"
