"""A bar drawn as it is sawn: where each piece starts and ends, and what is left, by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.drawing import to_svg
from darby.drawing.bars import HIGH, bar_marks, bar_sheet
from darby.measure.units import FT, IN

SHEET = bar_sheet(10 * FT, 300.0)


def spans(marks: tuple, role: str) -> list[tuple[float, float]]:
    """From and to of every outline of a role, in feet."""
    return [(min(u for u, _ in m.points) / float(FT), max(u for u, _ in m.points) / float(FT))
            for m in marks if m.role == role]  # fmt: skip


def test_pieces_stand_one_after_the_other_with_the_blade_between() -> None:
    marks = bar_marks(10 * FT, [("a", 6 * FT), ("b", 2 * FT)], IN, SHEET, "rest")
    first, second = spans(marks, "cut edge")
    assert first == pytest.approx((0, 6))
    assert second == pytest.approx((6 + 1 / 12, 8 + 1 / 12))
    (left,) = spans(marks, "zone edge")
    assert left == pytest.approx((8 + 2 / 12, 10))
    assert [m.text for m in marks if m.kind == "text"] == ["a, 6′-0″", "b, 2′-0″", "rest"]


def test_a_bar_that_is_used_up_has_nothing_left() -> None:
    """Where less than a blade is left the blade takes just that."""
    for kerf in (Fraction(0), IN):
        marks = bar_marks(
            10 * FT,
            [
                ("a", 10 * FT - IN / 2),
            ]
            if kerf
            else [("a", 10 * FT)],
            kerf,
            SHEET,
            "rest",
        )
        assert spans(marks, "zone edge") == []


def test_the_longest_bar_is_as_wide_as_it_is_asked_and_lettering_stands_in_it() -> None:
    assert SHEET.scale * float(10 * FT) == pytest.approx(300)
    marks = bar_marks(10 * FT, [("a", 9 * FT), ("b", 2 * IN)], Fraction(0), SHEET)
    assert max(v for m in marks for _, v in m.points) == pytest.approx(SHEET.metres(HIGH))
    svg = to_svg(marks, SHEET, title="bar")
    assert "a, 9′-0″" in svg
    assert "b, 2″" not in svg  # too short for its lettering: the list beside it says it
