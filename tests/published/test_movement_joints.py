"""Widths and spacings of sealed joints, and figures of movement: Allen and Rand, Iano, Ochshorn, BIA as restated."""

from __future__ import annotations

import pytest

from darby.joints import joint_spacing, sealant_width
from darby.measure.units import FT, IN
from tests.joints.asking import BOOK
from tests.published import checked

BRICK = 3.6e-6 * 1.8
"""Brickwork, for a degree Celsius."""


def wide(inches: float, degrees_f: float, movement: float, tolerance: float = 0, **more: float) -> float:
    """Width [in.]; ``moisture`` is a strain, ``other`` a movement [in.]."""
    width = sealant_width(
        inches * float(IN), degrees_f / 1.8, BRICK, movement, tolerance * float(IN),
        moisture=more.get("moisture", 0), other=more.get("other", 0) * float(IN),
    )  # fmt: skip
    return width / float(IN)


@checked(
    "worked elsewhere", "Exercises in Building Construction (Allen, Iano), ch. 10: 24 ft of brick, 120 F, class 25"
)
def test_iano() -> None:
    # printed: movement 0.124 in., taken as 1/8 in.; joint 1/2 in.
    assert wide(24 * 12, 120, 0.25) * 0.25 == pytest.approx(0.124, abs=0.0005)
    assert wide(24 * 12, 120, 0.25) == pytest.approx(0.5, abs=0.005)


@checked(
    "worked elsewhere", "conspectusinc.com (2011) after BIA Technical Note 18A: 3/8 in., 50 %, 0.0009: 17 ft 4 in."
)
def test_brick_joint_of_three_eighths() -> None:
    assert joint_spacing(0.375 * float(IN), 0.0009, 0.5) / float(IN) == pytest.approx(208, abs=0.5)
    assert joint_spacing(0.375 * float(IN), 0.0005 + 4.0e-6 * 100, 0.5) / float(FT) == pytest.approx(
        17 + 4 / 12, abs=0.04
    )


@checked(
    "our arithmetic", "Allen and Rand, Architectural Detailing: brick 24 ft, 180 F, 0.06 in. besides, 1/8 in. tolerance"
)
def test_allen() -> None:
    # the excerpt prints the givens and the formula, not the width
    assert wide(288, 180, 0.25, 0.125, other=0.06) == pytest.approx(1.11, abs=0.01)


@checked(
    "our arithmetic", "Ochshorn, Cornell ARCH 262 (2002): brick 20 ft, 95 F, 0.0002 moisture, 1/8 in. drift, class 50"
)
def test_cornell_2002() -> None:
    assert wide(240, 95, 0.5, 0.125, moisture=0.0002, other=0.125) == pytest.approx(0.635, abs=0.005)


@checked("our arithmetic", "Ochshorn, Cornell ARCH 262 (2001): brick 25 ft, 100 F, 0.0002 moisture, class 25")
def test_cornell_2001() -> None:
    assert wide(300, 100, 0.25, 0.125, moisture=0.0002) == pytest.approx(0.797, abs=0.005)


@checked(
    "copied figure", "Masonry Magazine 2003; Forensic Structural Engineering Handbook; Dooley 110; C90; Allen; Ochshorn"
)
@pytest.mark.parametrize(
    ("name", "printed"),
    [("joint.expansion.block.masonry-2003", 4.0e-6), ("joint.expansion.concrete.forensic", 5.5e-6),
     ("joint.expansion.mortar.dooley", 6.56e-6), ("joint.shrinkage.block.c90", 0.00065), ("joint.hot.allen", 140),
     ("joint.swing.ochshorn", 130), ("joint.expansion.brick.allen", 3.6e-6), ("joint.expansion.brick.bia", 4.0e-6),
     ("joint.width.step", 0.125)],
)  # fmt: skip
def test_movement_as_printed(name: str, printed: float) -> None:
    figure = BOOK[name]
    assert float(figure.unit.from_si(figure.number)) == pytest.approx(printed, rel=1e-9)


@checked("copied figure", "ASTM C920 classes as summed up; joint sealant pattern: at least 1/4 in. wide")
@pytest.mark.parametrize(
    ("name", "printed"),
    [("joint.sealant.12-5.c920", 12.5), ("joint.sealant.25.c920", 25), ("joint.sealant.50.c920", 50),
     ("joint.width.least", 0.25)],
)  # fmt: skip
def test_sealant_as_printed(name: str, printed: float) -> None:
    figure = BOOK[name]
    assert float(figure.unit.from_si(figure.number)) == pytest.approx(printed)
