from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.drawing import CUT_LAPTOP, CUT_PAPER, CUT_PHONE, Coat, cut_title, lay_out, section
from darby.drawing.geometry import box
from darby.drawing.placed import Words, meet
from darby.measure.units import IN
from tests.drawing.walls import ft

TWO = (Coat("base coat", ft(0, Fraction(3, 8))), Coat("finish", ft(0, Fraction(1, 8)), "finish"))
THREE = (Coat("scratch", ft(0, Fraction(3, 8))), Coat("brown", ft(0, Fraction(3, 8))), TWO[1])
BASES = ("block", "concrete", "frame", "lath over block")


def test_a_cut_on_paper_is_full_size() -> None:
    assert CUT_PAPER.scale * float(IN) == pytest.approx(72)
    marks = section(TWO, "block")
    base, finish = (m for m in marks if m.kind == "hatch" and m.role in ("base coat", "finish coat"))
    assert [x / float(IN) for x in box(base.points)[::2]] == pytest.approx([0, 3 / 8])
    assert [x / float(IN) for x in box(finish.points)[::2]] == pytest.approx([3 / 8, 1 / 2])
    (face,) = (m for m in marks if m.role == "face")
    assert face.points[0][0] == pytest.approx(float(IN) / 2)


def test_struck_joints_are_hollow_and_filled() -> None:
    def mortar(joints: str) -> float:
        (bed,) = (m for m in section(TWO, "block", joints=joints) if m.role == "mortar")  # type: ignore[arg-type]
        return box(bed.points)[2]

    assert mortar("flush") == 0
    assert mortar("struck") < 0
    assert [m.ref for m in section(TWO, "block", joints="struck") if m.role == "base coat"] == [
        "cut/base coat", "cut/joint"]  # fmt: skip


@pytest.mark.parametrize("base", BASES)
def test_every_layer_is_named_outside_first(base: str) -> None:
    named = [m.text for m in section(THREE, base) if m.kind == "text"]
    assert named[:3] == ["finish, 1/8 in.", "brown, 3/8 in.", "scratch, 3/8 in."]
    behind = {"block": ["mortar joint", "block"], "concrete": ["concrete"],
              "frame": ["lath", "paper, two layers", "sheathing"],
              "lath over block": ["lath", "mortar joint", "block"]}[base]  # fmt: skip
    assert named[3:] == behind


def test_the_whole_thickness_is_dimensioned_when_asked() -> None:
    assert [m.text for m in section(TWO, "block", total=True) if m.kind == "dimension"] == ["1/2″"]
    assert not [m for m in section(TWO, "block") if m.kind == "dimension"]


def test_a_coat_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="thickness"):
        section([Coat("none", 0.0)], "block")


def test_titles_in_both_languages() -> None:
    assert cut_title(TWO, "block").endswith("block, base coat, 3/8 in., finish, 1/8 in.")
    assert "bloque" in cut_title(TWO, "block", "es")


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(1, 20), min_size=1, max_size=4),
    st.sampled_from(BASES),
    st.sampled_from(("flush", "struck")),
    st.sampled_from((CUT_PAPER, CUT_PHONE, CUT_LAPTOP)),
)
def test_no_name_stands_on_another(sixteenths: list[int], base: str, joints: str, sheet: object) -> None:
    coats = [Coat(f"coat number {i}", ft(0, Fraction(n, 16))) for i, n in enumerate(sixteenths)]
    marks = section(coats, base, joints=joints, total=True)  # type: ignore[arg-type]
    boxes = [p.box(sheet) for p in lay_out(marks, sheet).placed if isinstance(p, Words)]  # type: ignore[arg-type]
    assert not [(a, b) for i, a in enumerate(boxes) for b in boxes[:i] if meet(a, b)]
