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
from darby.words import say
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
    assert line(w.steps["w/joints/width/1/movement"]).startswith("20 ft × 0.000004/°F × 130 °F")


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


# --- what a base moves like ------------------------------------------------------------------------------


def beside_old(base: str, lathed: bool = False, **sealing: object):  # type: ignore[no-untyped-def]
    """A wall of 20 ft that meets old plaster at its left end."""
    old = WallSide("meets old work", meets=Meets("old plaster", None, None))
    s = wall("w", "wall", ft(20), ft(9), left=old)
    return run(s, base, lathed, sealing=Sealing(**sealing))  # type: ignore[arg-type]


def test_brick_moves_as_the_reference_says() -> None:
    # 240 in. x 3.6e-6 x 100 = 0.0864 in.
    answer, _ = beside_old("brick", swing=100 / 1.8)
    assert inches(answer.widths[0].movement) == pytest.approx(0.0864)


def test_paint_does_not_keep_block_from_moving() -> None:
    assert beside_old("painted block")[0].widths[0].movement == beside_old("block")[0].widths[0].movement


@pytest.mark.parametrize("base", ["stone", "old plaster", "painted plaster"])
def test_where_no_figure_was_found_no_width_is_made_up(base: str) -> None:
    answer, w = beside_old(base)
    assert answer.widths == ()
    (said,) = [n for n in answer.notes if n.code == "joints.gap-unknown"]
    values = dict(said.values)
    assert said.grade == "caution"
    assert (values["joints"], values["base"]) == (("left",), f"joints.moves.{base}")
    assert inches(values["least"].number) == 0.25
    assert not any("/width/" in key for key in w.steps)
    assert "joints.swing-unknown" not in codes(answer)


def test_on_lath_old_plaster_moves_as_mortar() -> None:
    assert beside_old("old plaster", lathed=True)[0].widths == beside_old("frame", lathed=True)[0].widths


def test_brick_asked_for_shrinkage_says_that_none_is_known() -> None:
    answer, _ = beside_old("brick", swing=50, shrinkage=True)
    assert answer.widths[0].movement == beside_old("brick", swing=50)[0].widths[0].movement
    assert "joints.shrinkage-unknown" in codes(answer, "caution")


# --- the swing -------------------------------------------------------------------------------------------


def test_swing_and_one_end_are_both_ends() -> None:
    ends, _ = beside_old("brick", hot=50.0, cold=-10.0, installed=5.0)
    for given in ({"hot": 50.0, "swing": 60.0}, {"cold": -10.0, "swing": 60.0}):
        assert beside_old("brick", installed=5.0, **given)[0].widths == ends.widths


def test_swing_alone_needs_no_assumption() -> None:
    answer, _ = beside_old("brick", swing=60.0)
    ends, _ = beside_old("brick", hot=50.0, cold=-10.0)
    assert inches(answer.widths[0].least) == pytest.approx(inches(ends.widths[0].least))
    assert answer.widths[0].width == ends.widths[0].width
    assert "joints.swing-unknown" not in codes(answer)


@pytest.mark.parametrize(
    ("sealing", "code"),
    [({"hot": 50.0, "cold": 0.0, "swing": 50.0}, "joints.swing-or-both"),
     ({"installed": 5.0}, "joints.installed-alone"), ({"installed": 5.0, "swing": 60.0}, "joints.installed-alone"),
     ({"swing": -1.0}, "joints.below-nought"),
     ({"cold": 70.0}, "joints.hot-below-cold")],
)  # fmt: skip
def test_temperatures_that_do_not_go_together(sealing: dict[str, float], code: str) -> None:
    with pytest.raises(Unreadable) as refused:
        beside_old("brick", **sealing)
    assert refused.value.fault.code == code


def test_a_difference_of_temperatures_is_turned_by_its_ratio() -> None:
    # 108 F degrees are 60 C degrees, not 42.2: no offset
    _, w = beside_old("brick", hot=50.0, cold=-10.0, installed=5.0)
    printed = {key.rpartition("/")[2]: (line(s), line(s, system="metric")) for key, s in w.steps.items()}
    assert printed["swing"] == ("122 °F − 14 °F = 108 °F", "50 °C − (-10 °C) = 60 °C")
    assert printed["to-middle"][1] == "(50 °C + (-10 °C)) / 2 − 5 °C = 15 °C"
    assert "0.00000648/°C × 60 °C" in printed["movement"][1]
    assert say("joints.swing-unknown", {"swing": BOOK.number("joint.swing")}, "en", "metric").count("72.2 °C") == 1
