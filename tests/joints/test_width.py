"""Widths by movement: the public formula, and what a surface's joints are set out to."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.joints import Ground, JointsAsk, Sealing, joint_spacing, lay_out_joints, sealant_width
from darby.measure import wall
from darby.measure.faults import Unreadable
from darby.measure.shapes import WallSide
from darby.measure.surface import Meets
from darby.measure.units import IN
from darby.working import line
from tests.joints.asking import BOOK, codes, ft, plain, run

F = Fraction


def celsius(f: float) -> float:
    return (f - 32) / 1.8


def inches(q: object) -> float:
    return float(q) / float(IN)  # type: ignore[arg-type]


def test_width_and_spacing_undo_each_other() -> None:
    strain = 50 * 1e-5 + 0.0002
    width = sealant_width(6, 50, 1e-5, 0.25, 0.003, moisture=0.0002)
    assert joint_spacing(width, strain, 0.25, 0.003) == pytest.approx(6)


def test_nothing_moves_nothing_but_the_tolerance_is_left() -> None:
    assert sealant_width(6, 0, 1e-5, 0.5, F(1, 100)) == pytest.approx(0.01)


@pytest.mark.parametrize(
    ("given", "code"),
    [((6, 50, 1e-5, 25), "joints.movement-share"), ((6, 50, 1e-5, 0), "joints.movement-share"),
     ((-6, 50, 1e-5, 0.25), "joints.below-nought"), ((6, -50, 1e-5, 0.25), "joints.below-nought"),
     ((6, 50, 1e-5, 0.25, -1), "joints.below-nought"), ((float("nan"), 50, 1e-5, 0.25), "joints.below-nought")],
)  # fmt: skip
def test_what_cannot_be_is_refused(given: tuple[float, ...], code: str) -> None:
    with pytest.raises(Unreadable) as refused:
        sealant_width(*given)
    assert refused.value.fault.code == code


def test_no_strain_has_no_spacing() -> None:
    with pytest.raises(Unreadable) as refused:
        joint_spacing(0.01, 0, 0.25)
    assert refused.value.fault.code == "joints.no-strain"


# --- of a surface -------------------------------------------------------------------------------------


def widths(sealing: Sealing = Sealing(), base: str = "block", lathed: bool = False, joints: tuple[int, ...] = (20, 40)):  # type: ignore[no-untyped-def]  # noqa: B008
    s = plain(60, 9)
    ask = JointsAsk(BOOK, s, (Ground("", base, lathed),), block_joints=tuple(ft(x) for x in joints), sealing=sealing)  # type: ignore[arg-type]
    return lay_out_joints(ask)


def test_block_joints_every_twenty_feet() -> None:
    # 240 in. x 4.0e-6 x 130 = 0.1248 in.; / 25 % = 0.4992; up to 1/2 in.; seal 1/4 deep; rod 1/2 x 1.25 -> 5/8 in.
    answer, w = widths()
    (found,) = answer.widths
    assert found.joints == ("v1", "v2")
    assert [inches(q) for q in (found.span, found.movement, found.least)] == pytest.approx([240, 0.1248, 0.4992])
    assert [inches(q) for q in (found.width, found.depth, found.rod)] == pytest.approx([0.5, 0.25, 0.625])
    assert found.installed is None
    assert "joints.swing-unknown" in codes(answer, "assumed")
    assert line(w.steps["w/joints/width/1/movement"]).startswith("20 ft × 0.000004 × 130")


def test_known_temperatures() -> None:
    # 100 degrees: 240 x 4.0e-6 x 100 / 25 % = 0.384 -> 1/2 in.; set at 40, ten under the middle of 0 and 100
    answer, _ = widths(Sealing(hot=celsius(100), cold=celsius(0), installed=celsius(40)))
    (found,) = answer.widths
    assert inches(found.least) == pytest.approx(0.384)
    assert inches(found.installed) == pytest.approx(0.5 + 240 * 4e-6 * 10)
    assert not any(c in ("joints.swing-unknown", "joints.hot-unknown") for c in codes(answer))
    assert "joints.gap-installed" in codes(answer)
    hot, _ = widths(Sealing(hot=celsius(100), cold=celsius(0), installed=celsius(90)))
    assert inches(hot.widths[0].installed) == pytest.approx(0.5 - 240 * 4e-6 * 40)


def test_a_hot_face_that_nobody_measured() -> None:
    answer, _ = widths(Sealing(cold=celsius(20)))
    # 140 - 20 = 120 degrees
    assert inches(answer.widths[0].movement) == pytest.approx(240 * 4e-6 * 120)
    assert "joints.hot-unknown" in codes(answer, "assumed")


@pytest.mark.parametrize(("sealant", "least"), [("12.5", 0.9984), ("25", 0.4992), ("50", 0.2496)])
def test_the_class_of_the_sealant(sealant: str, least: float) -> None:
    answer, _ = widths(Sealing(sealant=sealant))  # type: ignore[arg-type]
    assert inches(answer.widths[0].least) == pytest.approx(least)


def test_tolerance_moisture_and_shrinkage_come_on_top() -> None:
    def least(sealing: Sealing) -> float:
        return inches(widths(sealing)[0].widths[0].least)

    assert least(Sealing(tolerance=IN / 8)) == pytest.approx(0.4992 + 0.125)
    assert least(Sealing(moisture=F(1, 5000))) == pytest.approx(0.4992 + 240 * 0.0002 / 0.25)
    assert least(Sealing(shrinkage=True)) == pytest.approx(0.4992 + 240 * 0.00065 / 0.25)


@pytest.mark.parametrize(("width", "depth"), [(0.0625, 0.25), (0.5, 0.25), (0.75, 0.375), (2, 0.5)])
def test_depth_is_half_the_width_within_bounds(width: float, depth: float) -> None:
    tolerance = F(width) * IN - F(1, 10**6)
    answer, _ = widths(Sealing(cold=celsius(139.99), sealant="50", tolerance=tolerance))
    found = answer.widths[0]
    assert inches(found.width) == pytest.approx(max(width, 0.25))
    assert inches(found.depth) == pytest.approx(depth)


@pytest.mark.parametrize(
    ("base", "lathed", "expansion"),
    [("block", False, 4e-6), ("concrete", False, 5.5e-6)],
)
def test_expansion_by_base(base: str, lathed: bool, expansion: float) -> None:
    answer, _ = widths(base=base, lathed=lathed)
    assert inches(answer.widths[0].movement) == pytest.approx(240 * expansion * 130)


def test_plaster_on_lath_moves_panel_by_panel() -> None:
    # a floor line on a framed wall 30 x 18 ft: panels 10 ft wide and 9 ft high; 108 in. x 6.56e-6 x 130
    answer, _ = run(plain(30, 18), floor_lines=(ft(9),))
    (found,) = answer.widths
    assert found.joints == ("h1",)
    assert inches(found.movement) == pytest.approx(108 * 6.56e-6 * 130)


def test_shrinkage_of_mortar_is_from_memory_and_not_taken_unasked() -> None:
    framed = plain(30, 18)
    plainly, _ = run(framed, floor_lines=(ft(9),))
    asked, _ = run(framed, floor_lines=(ft(9),), sealing=Sealing(shrinkage=True))
    more = inches(asked.widths[0].movement) - inches(plainly.widths[0].movement)
    assert more == pytest.approx(108 * 0.00085)


def test_edges_against_old_work_are_sealed_too() -> None:
    s = wall("w", "w", ft(14), ft(9), left=WallSide("meets old work", meets=Meets("old plaster")))
    answer, _ = run(s)
    (found,) = answer.widths
    assert found.joints == ("left",) and inches(found.span) == 14 * 12


def test_one_piece_joints_have_no_width_of_ours() -> None:
    answer, _ = run(plain(30, 9))
    assert answer.widths == () and "joints.swing-unknown" not in codes(answer)


@pytest.mark.parametrize(
    ("sealing", "code"),
    [(Sealing(sealant="30"), "joints.no-such-sealant"), (Sealing(hot=0, cold=10), "joints.hot-below-cold"),  # type: ignore[arg-type]
     (Sealing(cold=80), "joints.hot-below-cold"), (Sealing(tolerance=F(-1)), "joints.below-nought"),
     (Sealing(moisture=-0.1), "joints.below-nought")],
)  # fmt: skip
def test_bad_sealing_is_refused(sealing: Sealing, code: str) -> None:
    with pytest.raises(Unreadable) as refused:
        widths(sealing)
    assert refused.value.fault.code == code
