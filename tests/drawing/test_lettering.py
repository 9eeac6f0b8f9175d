from __future__ import annotations

import json
from fractions import Fraction

import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st

from darby.drawing.lettering import LINE, broken, fitted, inches, size, thickness, width
from tests.drawing.walls import ft


@pytest.mark.parametrize(
    ("length", "text"),
    [
        (ft(24), "24′-0″"),
        (ft(3, Fraction(9, 2)), "3′-4 1/2″"),
        (ft(0, 8), "8″"),
        (ft(1, Fraction(1, 16)), "1′-0 1/16″"),
        (ft(9, 4), "9′-4″"),
    ],
)
def test_a_size_is_feet_hyphen_inches(length: Fraction, text: str) -> None:
    assert size(length) == text


def test_metric_sizes_are_millimetres_without_the_unit() -> None:
    assert size(Fraction(24, 10), "metric") == "2400"
    assert thickness(Fraction(12, 1000), "metric") == "12 mm"


def test_a_drawing_writes_fractions_full_size() -> None:
    assert inches(ft(0, Fraction(15, 16))) == "15/16"
    assert thickness(ft(0, Fraction(3, 8))) == "3/8 in."


def test_no_line_of_lettering_is_wider_than_thought() -> None:
    """The table against the face itself, as typst sets it."""
    words = ["24′-0″", "engine door", "the hollow by the small door", "old office, dash finish", "MAMPOSTERÍA", "15/16",
             "base coat, 3/8 in.", "W. W.",
             "finish, 1/8 in.", "ventana", "12′-0″ × 10′-0″", "mortar joint"]  # fmt: skip
    source = (
        '#set text(font: "Libertinus Serif", size: 100pt)\n#context [#metadata('
        + f"({json.dumps(words, ensure_ascii=False)[1:-1]})"
        + ".map(w => measure(w).width / 100pt))<w>]"
    )
    for word, wide in zip(words, json.loads(typst.query(source.encode(), "<w>", field="value", one=True)), strict=True):
        assert wide <= width(word) * 1.01, word
        assert width(word) <= wide * 1.35, word


@given(st.lists(st.text("abcdefg m", min_size=1, max_size=8), max_size=6), st.floats(0.5, 30), st.floats(0.5, 30))
def test_what_fits_fits_and_loses_no_word(words: list[str], across: float, down: float) -> None:
    text = " ".join(words)
    lines = broken(text, across)
    if lines is not None:
        assert " ".join(lines).split() == text.split()
        assert all(width(line) <= across for line in lines)
    found = fitted(text, (across, down))
    if found is not None:
        some, turn = found
        room = (across, down) if turn == 0 else (down, across)
        assert all(width(line) <= room[0] for line in some)
        assert LINE * len(some) <= room[1]


def test_lettering_goes_upright_before_it_is_cut_short() -> None:
    assert fitted("window", (3.0, 9.0)) == (["window"], 90.0)
    assert fitted("engine door\n12′-0″ × 10′-0″", (6.0, 1.5)) == (["engine door"], 0.0)
    assert fitted("old office, dash finish", (1.5, 6.0)) == (["old office"], 90.0)
    assert fitted("window", (1.0, 1.0)) is None
