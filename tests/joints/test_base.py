"""The base switch: straight on the base joints follow the base; lath, also over block, has limits of its own."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.joints import Ground, JointsAsk, Pin, lay_out, lay_out_joints
from darby.measure import edge_runs, wall, zone
from darby.measure.shapes import WallSide
from darby.measure.surface import Meets, Surface
from darby.measure.units import FT
from tests.joints.asking import BOOK, codes, feet, ft, hole, lines, plain, run

F = Fraction


def patched() -> Surface:
    """A block wall 24 x 12 ft with two doors and a patch of lath between them."""
    patch = zone("hollow", "lath over block", [(ft("14/3"), ft(0)), (ft(9), ft(0)), (ft(9), ft("17/2")),
                                               (ft("14/3"), ft("17/2"))])  # fmt: skip
    doors = hole("small", "5/3", 0, 3, "20/3"), hole("engine", 9, 0, 12, 10)
    return plain(24, 12, *doors, gable=ft(3), zones=(patch, zone("rest", "block")))


@pytest.mark.parametrize("base", ["block", "concrete"])
def test_limits_of_lath_do_not_hold_straight_on_the_base(base: str) -> None:
    answer, w = run(plain(60, 9), base, block_joints=())
    assert answer.chosen.name == "base" and answer.chosen.joints == ()
    (panel,) = answer.chosen.panels
    assert feet(panel.width) == 60 and panel.area_slack is None and not panel.lathed
    assert "joints.follow-base" in codes(answer, "fact") and not any(c.startswith("joints.stop") for c in codes(answer))
    assert not any(key.endswith("/laid") for key in w.steps)


def test_joints_of_the_block_are_the_joints() -> None:
    answer, _ = run(plain(60, 9, hole("window", 18, 3, 4, 4)), "block", block_joints=(ft(20), ft(40)))
    assert lines(answer.chosen) == [("v", 20), ("v", 40)]
    first, second = answer.chosen.joints
    assert (first.kind, first.origin) == ("expansion", "block joint")
    assert (first.length, second.length) == (ft(5), ft(9))  # the window interrupts the first
    assert [(r.kind, r.length) for r in answer.runs] == [("expansion", ft(5)), ("expansion", ft(9))]
    assert [p.area / FT**2 for p in answer.chosen.panels] == [172, 172, 180]


def test_lath_over_block_need_not_line_up_with_the_block() -> None:
    answer, _ = run(plain(60, 9), "lath over block", block_joints=(ft(20), ft(40)))
    assert lines(answer.chosen) == [("v", 15), ("v", 30), ("v", 45)]
    note = next(n for n in answer.notes if n.code == "joints.lath-over-block")
    assert note.rules == ("joint.lath-over-block.maf",)
    assert "joints.follow-base" not in codes(answer)


def test_who_says_so_stands_in_the_note() -> None:
    answer, _ = run(plain(20, 9), "block", block_joints=())
    note = next(n for n in answer.notes if n.code == "joints.follow-base")
    assert note.rules == ("joint.direct.pca", "joint.direct.sma", "parting.direct.maf")


# --- what the block's own rules ask -------------------------------------------------------------------


def block_note(answer: object) -> dict[str, object]:
    return {k: v for n in answer.notes if n.code.startswith("joints.block-") for k, v in n.values}  # type: ignore[attr-defined]


def test_block_without_joints_is_a_caution_with_numbers() -> None:
    answer, _ = run(plain(38, 12), "block", block_joints=())
    assert "joints.block-without-joints" in codes(answer, "caution")
    values = block_note(answer)
    assert [float(values[k]) for k in ("spacing", "near")] == pytest.approx([18 * 0.3048, 9 * 0.3048])  # type: ignore[arg-type]
    assert values["joints"].value == 2  # type: ignore[attr-defined]
    assert "joints.look-for-block-joints" not in codes(answer)


def test_nobody_looked_is_said() -> None:
    answer, _ = run(plain(10, 9), "block")
    assert codes(answer, "assumed") == ["joints.look-for-block-joints"]
    assert "joints.block-without-joints" not in codes(answer)


def test_a_high_wall_is_held_to_the_longest_spacing() -> None:
    answer, _ = run(plain(50, 20), "block", block_joints=())
    values = block_note(answer)
    assert float(values["spacing"]) == pytest.approx(25 * 0.3048) and values["joints"].value == 1  # type: ignore[arg-type, attr-defined]


def test_a_gable_counts_with_its_mean_height() -> None:
    # 24 ft long, 12 ft high with a peak of 3 ft: 13.5 ft on the average, 20.25 ft apart
    answer, _ = run(plain(24, 12, gable=ft(3)), "block", block_joints=())
    assert float(block_note(answer)["spacing"]) == pytest.approx(20.25 * 0.3048)  # type: ignore[arg-type]


@pytest.mark.parametrize(("joints", "told"), [((13, 26), False), ((20,), True), ((18,), True), ((18, 20), False)])
def test_joints_too_far_apart_are_a_caution(joints: tuple[int, ...], told: bool) -> None:
    # 38 ft of a wall 12 ft high: 18 ft at most
    answer, _ = run(plain(38, 12), "block", block_joints=tuple(ft(x) for x in joints))
    assert ("joints.block-far-apart" in codes(answer, "caution")) is told
    if told:
        assert feet(F(block_note(answer)["widest"].value)) == 38 - min(joints) if joints == (18,) else 20  # type: ignore[attr-defined]


def test_concrete_has_no_rule_of_block() -> None:
    answer, _ = run(plain(90, 9), "concrete")
    assert not any("block" in c for c in codes(answer))


# --- one base against another -------------------------------------------------------------------------


def test_a_patch_of_lath_in_a_block_wall() -> None:
    s = patched()
    answer, _ = run(s)
    between = [j for j in answer.chosen.joints if j.origin == "change of base"]
    assert {j.kind for j in between} == {"casing"} and all(j.on_edge and j.id.startswith("b") for j in between)
    assert sum(j.length for j in between) == sum(r.length for r in edge_runs(s) if r.kind == "change of base")
    hollow = next(p for p in answer.chosen.panels if p.zones == ("hollow",))
    assert hollow.lathed and not hollow.breaks and hollow.area / FT**2 == F(13, 3) * F(17, 2)
    rest = next(p for p in answer.chosen.panels if "rest" in p.zones)
    assert not rest.lathed and rest.area_slack is None
    assert {"joints.kind.casing", "joints.none-needed", "joints.follow-base"} <= set(codes(answer))
    assert {(r.beads, r.on_edge) for r in answer.runs} == {(2, True)}


def test_stud_wall_against_block_moves() -> None:
    left = zone("a", "block", [(ft(0), ft(0)), (ft(12), ft(0)), (ft(12), ft(9)), (ft(0), ft(9))])
    answer, _ = run(plain(24, 9, zones=(left, zone("b", "frame"))), block_joints=())
    (joint,) = answer.chosen.joints
    assert (joint.axis, joint.kind, joint.length) == ("vertical", "expansion", ft(9))


def test_block_in_a_concrete_frame() -> None:
    beam = zone("beam", "concrete", [(ft(0), ft(8)), (ft(24), ft(8)), (ft(24), ft(9)), (ft(0), ft(9))])
    answer, _ = run(plain(24, 9, zones=(beam, zone("b", "block"))), block_joints=())
    (joint,) = answer.chosen.joints
    assert (joint.axis, joint.kind, joint.length) == ("horizontal", "casing", ft(24))
    note = next(n for n in answer.notes if n.code == "joints.infill")
    assert note.rules == ("joint.infill.pca",)


def test_a_slanting_change_of_base_is_a_joint_along_it() -> None:
    slant = zone("slant", "block", [(ft(0), ft(0)), (ft(12), ft(0)), (ft(0), ft(9))])
    answer, _ = run(plain(12, 9, zones=(slant, zone("rest", "frame"))), block_joints=())
    (joint,) = [j for j in answer.chosen.joints if j.origin == "change of base"]
    assert (joint.axis, joint.length) == ("along", ft(15))


def test_edges_that_are_joints_by_what_they_meet() -> None:
    left = WallSide("meets old work", meets=Meets("old plaster"))
    s = wall("w", "w", ft(14), ft(9), left=left, right=WallSide("change of base"), top="floor line")
    answer, _ = run(s)
    assert {(e.edge, e.kind) for e in answer.edges} == {("left", "casing"), ("right", "casing"), ("top", "expansion")}
    answer, _ = run(s, "block", block_joints=())
    assert {e.edge for e in answer.edges} == {"left", "right"}
    roof = wall("w", "w", ft(14), ft(9), left=WallSide("roof line", meets=Meets("roof")))
    assert run(roof)[0].edges == ()


def test_a_pin_on_a_bare_base_is_drawn_and_told_what_it_is() -> None:
    answer, _ = run(plain(30, 9), "block", block_joints=(), pinned=(Pin("vertical", ft(15)),))
    assert lines(answer.chosen) == [("v", 15)] and answer.chosen.joints[0].kind == "control"
    assert "joints.pin-on-base" in codes(answer, "caution")
    answer, _ = run(plain(30, 9), "block", block_joints=(), pinned=(Pin("vertical", ft(15), "through-wall"),))
    assert answer.chosen.joints[0].kind == "expansion" and "joints.pin-on-base" not in codes(answer)


# --- what goes into the lines -------------------------------------------------------------------------


def test_lath_behind_a_joint_by_whoever_is_followed() -> None:
    answer, _ = run(plain(30, 9))
    note = next(n for n in answer.notes if n.code == "joints.lath-cut")
    assert note.rules == ("joint.lath.c1063", "joint.lath.sma")
    one = next(n for n in answer.notes if n.code == "joints.kind.control")
    assert one.rules == ("joint.one-piece.wc",)
    sma = BOOK.following({"joint.lath": "sma"})
    answer, _ = lay_out_joints(JointsAsk(sma, plain(30, 9), (Ground("", "frame", True),)))
    assert "joints.lath-on" in codes(answer) and "joints.lath-cut" not in codes(answer)


def test_zones_say_their_own_base_to_the_public_verb() -> None:
    assert {p.lathed for p in lay_out(patched(), base="block").chosen.panels} == {True, False}
