"""Sealant and rod: width x depth x length, tubes rounded once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.measure.units import FT, IN, unit
from darby.quantities import EdgeRun, OrderAsk, SealedJoint, order
from darby.quantities.sealing import sealant_depth
from darby.rulebook import default
from darby.working import Quantity, Working
from tests.quantities.asks import BUYS, FIRM, NOTHING, shown


@pytest.mark.parametrize(
    ("width", "depth"), [("1/4", 1 / 4), ("3/8", 1 / 4), ("3/4", 3 / 8), ("1", 1 / 2), ("2", 1 / 2)]
)
def test_depth_is_half_the_width_within_its_limits(width: str, depth: float) -> None:
    found = sealant_depth(Working(), default(), "k", Quantity(Fraction(width) * IN, unit("in")))
    assert shown(found) == pytest.approx(depth)


def test_joints_of_one_size_are_one_line_and_depth_may_be_said() -> None:
    joints = (
        SealedJoint("a", 10 * FT, Fraction(1, 2) * IN),
        SealedJoint("b", 20 * FT, Fraction(1, 2) * IN),
        SealedJoint("c", 10 * FT, Fraction(1) * IN, Fraction(3, 8) * IN),
    )
    found, working = order(OrderAsk((), (), joints=joints, buys=BUYS, allow=NOTHING))
    sealant, rod = found.line("sealant"), found.line("backer rod")
    assert sealant is not None
    assert rod is not None
    assert shown(sealant.needed) == pytest.approx(360 / 8 + 120 * 3 / 8)
    assert shown(rod.needed) == pytest.approx(40)
    assert len([k for k in working.steps if k.startswith("job/order/sealant/") and k.endswith("/volume")]) == 2


def test_tubes_and_rolls_are_rounded_once() -> None:
    """106' 8" of 3/8 x 1/4 in. is 120 cu in., with 7 % 128.4: a tube of 10.1 fl oz holds 18.2."""
    runs = tuple(EdgeRun(f"j{n}", "w", "jamb", "jamb", Fraction(20, 3) * FT, "frame", lathed=True) for n in range(16))
    found = order(OrderAsk((), (), runs, buys=BUYS, allow=FIRM))[0]
    tubes, rod = found.line("sealant"), found.line("backer rod")
    assert shown(tubes.needed) == pytest.approx(128.4)  # type: ignore[union-attr]
    assert shown(tubes.exact) == pytest.approx(128.4 * 128 / 231 / 10.1)  # type: ignore[union-attr]
    assert shown(tubes.packages) == 8  # type: ignore[union-attr]
    assert shown(rod.packages) == 2  # type: ignore[union-attr]


def test_a_width_nobody_gave_is_taken_and_noted_but_a_given_one_is_not() -> None:
    def noted(width: Fraction | None) -> bool:
        runs = (EdgeRun("j", "w", "jamb", "jamb", 8 * FT, "frame", lathed=True, joint_width=width),)
        return any(n.code == "quantities.assumed.joint-width" for n in order(OrderAsk((), (), runs))[1].notes)

    assert noted(None)
    assert not noted(Fraction(1, 2) * IN)
