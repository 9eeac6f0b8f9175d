"""Rows that are not whole are named, with what they lack."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from darby.measure.units import UNITS
from darby.rulebook import BookError, figure_of
from darby.rulebook.load import book_of
from tests.rulebook.invented import SOURCE, SOURCES, book, row


@pytest.mark.parametrize(
    ("text", "low", "value", "high", "unit"),
    [
        ("1/2 in", None, Fraction(1, 2), None, "in"), ("3/8 to 1/2 in", Fraction(3, 8), None, Fraction(1, 2), "in"),
        ("3/4 to 1-1/2 parts", Fraction(3, 4), None, Fraction(3, 2), "parts"),
        ("0.668 cu ft", None, 0.668, None, "cu ft"),
        ("10 %", None, 10, None, "%"), ("3.15", None, 3.15, None, ""), ("2 to 3", 2, None, 3, ""),
        ("40 deg F", None, 40, None, "deg F"), ("-10 to -5 deg C", -10, None, -5, "deg C"),
        ("62.4 lb/cu ft", None, 62.4, None, "lb/cu ft"), ("0 to 3/4 parts", 0, None, Fraction(3, 4), "parts"),
    ],
)  # fmt: skip
def test_values(text: str, low: float | None, value: float | None, high: float | None, unit: str) -> None:
    figure = figure_of(row("a.b", text), SOURCES)
    for got, want in ((figure.low, low), (figure.value, value), (figure.high, high)):
        assert got == (None if want is None else pytest.approx(float(UNITS[unit].to_si(want))))
    assert figure.unit is UNITS[unit] and figure.written == text
    assert figure.kind == ("range" if value is None else "number")


def test_a_rule_in_words_has_no_number() -> None:
    figure = figure_of(row("a.b", "never on frost", kind="rule"), SOURCES)
    assert figure.kind == "rule"
    with pytest.raises(TypeError, match=r"a\.b is a rule, not a number"):
        _ = figure.number
    with pytest.raises(TypeError, match=r"a\.b is a range, not a number"):
        _ = figure_of(row("a.b", "1 to 2 in"), SOURCES).number


@pytest.mark.parametrize(
    ("change", "said"),
    [
        *(({key: None}, f"lacks '{key}'") for key in ("subject", "value", "says", "source", "where", "standing")),
        *(({key: "  "}, f"lacks '{key}'") for key in ("says", "where", "value")),
        ({"value": 5}, "lacks 'value'"), ({"standing": "sure"}, "standing 'sure' is not one of read, second-hand"),
        ({"source": "nowhere"}, "no source 'nowhere'"), ({"value": "1/2 furlong"}, "unit 'furlong'"),
        ({"value": "half in"}, "'half in' is no number"), ({"value": "1/0 in"}, "is no number"),
        ({"value": "2 to 1 in"}, "ends before it begins"), ({"value": "1 to 1 in"}, "ends before it begins"),
        ({"kind": "table"}, "kind 'table'"), ({"colour": "grey"}, "colour is no part"),
        ({"applies": {"base": []}}, "applies to no base"),
    ],
)  # fmt: skip
def test_what_is_not_whole(change: dict[str, Any], said: str) -> None:
    with pytest.raises(BookError, match=f"a.b: .*{said}"):
        figure_of({k: v for k, v in (row("a.b") | change).items() if v is not None}, SOURCES)


def test_a_row_without_id_is_said() -> None:
    with pytest.raises(BookError, match="a figure without id: lacks 'id'"):
        figure_of({}, SOURCES)


def test_nothing_stands_twice_and_only_local_rules_say_why() -> None:
    with pytest.raises(BookError, match=r"a\.b stands twice"):
        book(row("a.b"), row("a.b"))
    with pytest.raises(BookError, match="source 'hand' stands twice"):
        book_of([{"sources": {"hand": SOURCE}}] * 2)
    with pytest.raises(BookError, match="only a local rule says why"):
        book(row("a.b", why="mine"))


@pytest.mark.parametrize("bad", [{"title": ""}, {"publisher": " "}, {"year": ""}, {"year": 2020}, {"page": "3"}])
def test_a_source_is_whole(bad: dict[str, Any]) -> None:
    with pytest.raises(BookError, match="source 'hand'"):
        book_of([{"sources": {"hand": SOURCE | bad}}])
