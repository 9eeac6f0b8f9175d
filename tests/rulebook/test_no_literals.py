"""No trade figure in code: by AST, trade rooms hold no number except 0, 1, 2 and −1, and a few with their reason.

Numbers hide in text too: in formulas ("area * 9"), in ``Fraction("1/2")`` and ``length("5/8 in")``. Those count.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import darby
from darby.measure.units import UNITS

ROOMS = (
    "buildup", "mix", "quantities", "days", "price",
    "grounds", "joints", "lath", "sand", "finish", "condition", "showthrough", "record",
)  # fmt: skip
"""Trade rooms, those to come as well."""

SOURCE = Path(next(iter(darby.__path__)))
FILES = sorted(path for room in ROOMS for path in (SOURCE / room).rglob("*.py"))

PLAIN = {0, 1, 2}
"""And −1, which Python reads as − before 1."""

REASONS: dict[tuple[str, str], str] = {}
"""(file, literal): why it is no figure of the trade."""

FORMULAS = {"step": 1, "money": 1}
"""Method and the place of its formula among the arguments."""

NUMBERS = {
    "Fraction",
    "Decimal",
    "float",
    "int",
    "length",
    "area",
    "volume",
    "mass",
    "money",
    "duration",
    "temperature",
}


def literals(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """(line, literal) of every number, however it is written."""
    docstrings = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and id(node) not in docstrings:
            value = node.value
            number = isinstance(value, (int, float, complex)) and not isinstance(value, bool) and value not in PLAIN
            if number or (isinstance(value, str) and measured(value)):
                yield node.lineno, repr(value)
        if isinstance(node, ast.Call):
            yield from in_call(node)


def measured(text: str) -> bool:
    """Whether the text is a number with a unit ("1/2 in"): a figure in a coat."""
    number, _, unit = text.partition(" ")
    return bool(re.fullmatch(r"-?\d[\d./,-]*", number)) and unit in UNITS and bool(unit)


def in_call(node: ast.Call) -> Iterator[tuple[int, str]]:
    name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    texts = [a.value for a in node.args if isinstance(a, ast.Constant) and isinstance(a.value, str)]
    if name in NUMBERS and len(node.args) == len(texts) == 1 and re.search(r"\d", texts[0]) and not plain(texts[0]):
        yield node.lineno, repr(texts[0])
    at = FORMULAS.get(name)
    if at is not None and len(node.args) > at:
        formula = node.args[at]
        # pieces of f-strings are looked at as they stand: "{a} * 9" holds a 9
        for part in ast.walk(formula):
            if isinstance(part, ast.Constant) and isinstance(part.value, str):
                for number in re.findall(r"(?<![\w.{}])\d+(?:\.\d+)?", part.value):
                    if not plain(number):
                        yield node.lineno, f"{number} in {part.value!r}"


def plain(number: str) -> bool:
    try:
        return float(number) in PLAIN
    except ValueError:
        return False


@pytest.mark.parametrize("path", FILES, ids=lambda p: f"{p.parent.name}/{p.name}")
def test_no_number_in_a_trade_room(path: Path) -> None:
    file = f"{path.parent.name}/{path.name}"
    found = [(line, text) for line, text in literals(ast.parse(path.read_text(encoding="utf-8")))]
    assert [f"{file}:{line}: {text}" for line, text in found if (file, text) not in REASONS] == []


def test_every_reason_is_still_needed() -> None:
    held = {
        (f"{path.parent.name}/{path.name}", text)
        for path in FILES
        for _, text in literals(ast.parse(path.read_text(encoding="utf-8")))
    }
    assert set(REASONS) <= held


@pytest.mark.parametrize(
    ("code", "count"),
    [
        ("x = 3", 1), ("x = 0.5", 1), ("x = -1 + 2 * 0", 0), ("x = True", 0), ("x = -3", 1), ("x = 1.0", 0),
        ('w.step(k, "a * 9 / 5", u, "x")', 2), ('w.step(k, "a2 * x3 + 1", u, "x")', 0),
        ('w.step(f"{k}/9", "a", u, "x")', 0),
        ('w.money(k, f"{n} * 0.5", "x")', 1), ('Fraction("1/2")', 1), ('Decimal("0.01")', 1), ('Decimal("0")', 0),
        ('length("5/8 in")', 2), ('x = "5/8 in"', 1), ('x = "three-coat"', 0), ('"""Docstring: 24 in."""', 0),
        ('unit("sq ft")', 0), ('x = "2512.6"', 0),
    ],
)  # fmt: skip
def test_the_test_finds_them(code: str, count: int) -> None:
    assert len(list(literals(ast.parse(code)))) == count
