"""What is refused, and what stops: which limit fails where, by how much, and what mends it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from darby.joints import Forbidden, Ground, JointsAsk, Limits, Pin, lay_out, lay_out_joints
from darby.measure import zone
from darby.measure.faults import Fault, Unreadable
from darby.measure.surface import Corner, Surface
from darby.measure.units import FT
from tests.joints.asking import BOOK, SQ_FT, codes, feet, ft, hole, lines, own, plain, run

F = Fraction


def fault(surface: Surface, base: str = "frame", **more: object) -> Fault:
    with pytest.raises(Unreadable) as refused:
        run(surface, base, **more)
    return refused.value.fault


# --- refused ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("at", [0, 30, -1, 31])
def test_a_pin_off_the_wall(at: int) -> None:
    found = fault(plain(30, 9), pinned=(Pin("vertical", ft(at)),))
    assert (found.code, found.allowed) == ("joints.pin-off-wall", "0\" … 30'")
    assert fault(plain(30, 9), pinned=(Pin("horizontal", ft(9)),)).code == "joints.pin-off-wall"


def test_a_pin_where_it_is_forbidden() -> None:
    found = fault(plain(30, 9), pinned=(Pin("vertical", ft(15)),), forbidden=(Forbidden("vertical", ft(14), ft(16)),))
    assert (found.code, found.found) == ("joints.pin-forbidden", "15'")


@pytest.mark.parametrize("pins", [(15, 16), (1,), (29,)])
def test_pins_that_leave_a_strip_too_narrow(pins: tuple[int, ...]) -> None:
    found = fault(plain(30, 9), pinned=tuple(Pin("vertical", ft(x)) for x in pins))
    assert (found.code, found.found) == ("joints.pins-too-close", "1' x 9'")
    assert found.allowed == "3' 7 3/16\" …"  # 9 / 2.5 = 3.6 ft
    assert all(f"{x}'" in found.place for x in pins)


def test_a_band_between_level_pins_is_only_cut_up() -> None:
    answer, _ = run(plain(30, 9), pinned=(Pin("horizontal", ft(3)),))
    assert answer.chosen.holds and ("h", 3) in lines(answer.chosen)


def test_a_high_strip_has_to_be_wide_enough_for_each_storey_only() -> None:
    # 24 ft high has to be cut in two anyway: 12 / 2.5 = 4.8 ft
    assert run(plain(30, 24), pinned=(Pin("vertical", ft(5)),))[0].chosen.holds
    assert fault(plain(30, 24), pinned=(Pin("vertical", ft("4.7")),)).found.endswith("x 12'")


def test_pins_that_no_layout_goes_with() -> None:
    # a joint may be at 11 or at 14 ft; at 14 it holds 126 sq ft, at 11 alone it does not, and both leave 3 x 9 ft
    spans = ((0, "10.9"), ("11.1", "13.9"), ("14.1", 28))
    forbidden = (*(Forbidden("vertical", ft(a), ft(b)) for a, b in spans), Forbidden("horizontal", ft(0), ft(9)))
    assert run(plain(28, 9), forbidden=forbidden, limits=own(area=126))[0].chosen.holds
    found = fault(plain(28, 9), forbidden=forbidden, pinned=(Pin("vertical", ft(11)),), limits=own(area=126))
    assert found.code == "joints.pins-break-limits"
    assert found.found.startswith("11'") and found.allowed == "126 sq ft, 18', 2.5 : 1"


def test_what_lies_off_the_wall() -> None:
    assert fault(plain(30, 9), "block", block_joints=(ft(31),)).code == "joints.block-joint-off-wall"
    assert fault(plain(30, 9), floor_lines=(ft(9),)).code == "joints.floor-off-wall"
    assert fault(plain(30, 9), forbidden=(Forbidden("vertical", ft(5), ft(4)),)).code == "joints.forbidden-backwards"


def test_nothing_to_part() -> None:
    whole = plain(10, 9, hole("all", 0, 0, 10, 9))
    assert fault(whole).code == "joints.nothing"
    none = replace(plain(10, 9), outline=())
    assert fault(none).code == "joints.nothing"
    flat = replace(
        plain(10, 9), outline=(Corner("a", ft(0), ft(0)), Corner("b", ft(9), ft(0)), Corner("c", ft(4), ft(0)))
    )
    assert fault(flat).code == "joints.nothing"


def test_a_zone_whose_base_nobody_said() -> None:
    part = zone("a", "frame", [(ft(0), ft(0)), (ft(5), ft(0)), (ft(5), ft(9))])
    s = plain(10, 9, zones=(part,))
    for grounds, place in (((Ground("", "frame", True),), 'w, zone "a"'), ((Ground("a", "frame", True),), "w")):
        with pytest.raises(Unreadable) as refused:
            lay_out_joints(JointsAsk(BOOK, s, grounds))
        assert (refused.value.fault.code, refused.value.fault.place) == ("joints.no-ground", place)


@pytest.mark.parametrize("limits", [Limits(area=F(0)), Limits(side=ft(-1)), Limits(ratio=F(1, 2)), Limits(ratio=F(0))])
def test_limits_that_cannot_be_kept(limits: Limits) -> None:
    assert fault(plain(10, 9), limits=limits).code == "joints.limit-not-positive"


def test_a_layout_that_is_not_there() -> None:
    found = fault(plain(30, 9), choose="through")
    assert (found.code, found.allowed) == ("joints.no-such-layout", "best, smaller")
    assert fault(plain(30, 9), "block", choose="best").allowed == "base"


def test_a_surface_measured_wrongly_is_refused_by_the_public_verb() -> None:
    with pytest.raises(Unreadable) as refused:
        lay_out(plain(10, 9, hole("o", 8, 3, 4, 4)))
    assert refused.value.fault.code == "measure.opening-outside"
    assert refused.value.fault.place.startswith('surface "w", opening "o"')


# --- stops --------------------------------------------------------------------------------------------


def test_forbidden_all_along_says_where_a_joint_is_needed() -> None:
    answer, _ = run(plain(30, 9), forbidden=(Forbidden("vertical", ft(0), ft(30)),))
    layout = answer.chosen
    assert not layout.holds and [x.name for x in answer.layouts] == ["best"]
    stops = [n for n in answer.notes if n.grade == "stop"]
    assert {"joints.stop-forbidden"} < {n.code for n in stops}
    lacking = next(dict(n.values) for n in stops if n.code == "joints.stop-forbidden")
    assert lacking["place"].value == ft(15) and lacking["axis"] == "joints.axis.vertical"  # type: ignore[attr-defined]
    assert "joints.laid-out" not in codes(answer) and "joints.none-needed" not in codes(answer)


def test_a_panel_past_its_area_tells_by_how_much() -> None:
    everywhere = (Forbidden("vertical", ft(0), ft(30)), Forbidden("horizontal", ft(0), ft(9)))
    answer, w = run(plain(17, 9), forbidden=everywhere)
    (panel,) = answer.chosen.panels
    assert panel.breaks == ("area",) and float(panel.area_slack) == pytest.approx(-9 * float(SQ_FT))  # type: ignore[arg-type]
    values = next(dict(n.values) for n in answer.notes if n.code == "joints.stop-area")
    assert values["area"].value == 153 * SQ_FT and feet(values["reach"].value) == 16  # type: ignore[attr-defined]
    assert w.steps["w/joints/best/laid"].proof[0].startswith("p1: 17' × 9'; 153 sq ft > 144 sq ft; 17' ≤ 18'")  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("wide", "high", "code", "what"),
    [(19, 7, "joints.stop-side", {"long": 19}), (16, 6, "joints.stop-ratio", {"most": 15, "least": F("6.4")})],
)
def test_other_limits(wide: int, high: int, code: str, what: dict[str, Fraction]) -> None:
    everywhere = (Forbidden("vertical", ft(0), ft(30)), Forbidden("horizontal", ft(0), ft(9)))
    answer, _ = run(plain(wide, high), forbidden=everywhere)
    values = next(dict(n.values) for n in answer.notes if n.code == code)
    assert {k: feet(F(values[k].value)) for k in what} == what  # type: ignore[attr-defined]


def test_no_joint_at_the_floor_line_is_his_word_and_a_caution() -> None:
    answer, _ = run(plain(12, 18), floor_lines=(ft(9),), forbidden=(Forbidden("horizontal", ft(9)),))
    assert "joints.floor-forbidden" in codes(answer, "caution")
    assert ("h", 9) not in lines(answer.chosen) and answer.chosen.holds


def test_more_lines_are_looked_for_before_it_is_given_up() -> None:
    # all even parts are forbidden; what is left over is still parted
    taken = tuple(Forbidden("vertical", ft(30) * F(k, n)) for n in range(2, 6) for k in range(1, n))
    answer, _ = run(plain(30, 9), forbidden=taken)
    assert answer.chosen.holds
    assert not {("v", F(30 * k, n)) for n in range(2, 6) for k in range(1, n)} & set(lines(answer.chosen))


def test_a_very_long_and_a_very_small_wall() -> None:
    answer, _ = run(plain(240, 9))
    assert answer.chosen.holds and answer.chosen.laid == 14
    tiny, _ = run(plain(F(1, 12), F(1, 12)))
    assert tiny.chosen.laid == 0 and tiny.chosen.holds
    assert FT > 0
