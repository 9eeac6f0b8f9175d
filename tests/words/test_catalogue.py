"""Both catalogues are whole: the same codes, the same values, nothing left in English."""

import ast
import re
from pathlib import Path

import pytest

from darby.measure.units import FT, UNITS
from darby.words import catalogue, measured, say, written
from darby.working import Quantity

EN, ES = catalogue("en"), catalogue("es")
VALUE = re.compile(r"\{(\w+)[^}]*\}")
SOURCE = Path(__file__).parents[2] / "src" / "darby"

SAME_IN_BOTH = {
    "no": "the same word in both languages",
    "total": "the same word in both languages",
    "sq ft": "a unit",
}
"""Sentences that may read the same in both languages, and why."""


def test_both_languages_have_the_same_codes():
    assert sorted(EN) == sorted(ES)


@pytest.mark.parametrize("code", sorted(EN))
def test_both_languages_take_the_same_values(code):
    assert sorted(set(VALUE.findall(EN[code]))) == sorted(set(VALUE.findall(ES[code])))


def test_no_spanish_sentence_is_left_in_english():
    left = {c: s for c, s in EN.items() if ES[c] == s and s.strip().lower() not in SAME_IN_BOTH and len(s.split()) > 2}
    assert left == {}


def test_an_unknown_code_is_an_error():
    with pytest.raises(KeyError):
        say("nobody.says-this")


def test_every_code_that_the_rooms_speak_has_a_sentence():
    """Codes are string literals "room.something" handed to note(), step(), money() or found()."""
    spoken: set[str] = set()
    for path in SOURCE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name | ast.Attribute):
                name = node.func.id if isinstance(node.func, ast.Name) else node.func.attr
                position = {"note": 0, "step": 3, "money": 2, "found": 3, "say": 0}.get(name)
                if position is None or len(node.args) <= position:
                    continue
                argument = node.args[position]
                if isinstance(argument, ast.Constant) and isinstance(argument.value, str):
                    spoken.add(argument.value)
    assert spoken
    assert {code for code in spoken if "." in code and code not in EN} == set()


@pytest.mark.parametrize(
    ("english", "spanish"),
    [
        ("1 ft 4 in.", "1 pie 4 pulg."),
        ("11 ft", "11 pies"),
        ("2.1 ft", "2.1 pies"),
        ("1 1/2 ft", "1 1/2 pies"),
        ("6 × 18.1875 sq ft = 109.1 sq ft", "6 × 18.1875 pies² = 109.1 pies²"),
        ("2 bags: 8.87 cu ft ≤ 9 cu ft", "2 sacos: 8.87 pies³ ≤ 9 pies³"),
        ("1 cu ft", "1 pie³"),
        ("lb and ft of nothing", "lb and ft of nothing"),
    ],
)
def test_units_behind_numbers(english, spanish):
    assert measured(english, "es") == spanish
    assert measured(english) == english


@pytest.mark.parametrize(("feet", "said"), [(1, "1 pie"), (2, "2 pies"), (0.5, "0.5 pies"), (21, "21 pies")])
def test_one_foot_is_a_foot_in_spanish(feet, said):
    assert written(Quantity(feet * float(FT), UNITS["ft"]), "es") == said
