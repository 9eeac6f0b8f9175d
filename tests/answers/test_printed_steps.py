"""Every step of the example as printed, in both systems, reckoned again from the printed text alone.

The calculator (tests/working/evaluator.py) imports nothing of darby: own tokens, own grammar, exact arithmetic. What it
cannot know is whether the printed result is the number that the room went on with: that is held against the step's SI
value here, with conversion factors written down in this file.
"""

import re
from fractions import Fraction

import pytest

from darby.working import Found, Step
from darby.working.printing import line
from tests.working.evaluator import evaluate, number, says, true

FOOT, POUND = Fraction("0.3048"), Fraction("0.45359237")
"""Exact by the agreement of 1959."""
GALLON = 231 * (FOOT / 12) ** 3

SI = {
    "in.": FOOT / 12, "ft": FOOT, "sq ft": FOOT**2, "cu in": (FOOT / 12) ** 3, "cu ft": FOOT**3,
    "cu yd": 27 * FOOT**3, "gal": GALLON, "gals": GALLON, "lb": POUND, "ton": 2000 * POUND, "tons": 2000 * POUND,
    "lb/sq ft": POUND / FOOT**2, "lb/cu ft": POUND / FOOT**3, "/h": Fraction(1, 3600), "/sq ft": 1 / FOOT**2,
    "sq ft/day": FOOT**2 / 86400, "%": Fraction(1, 100), "h": Fraction(3600), "day": Fraction(86400),
    "days": Fraction(86400), "mm": Fraction(1, 1000), "m": Fraction(1), "m²": Fraction(1), "m³": Fraction(1),
    "L": Fraction(1, 1000), "mL": Fraction(1, 10**6), "kg": Fraction(1), "t": Fraction(1000), "kg/m²": Fraction(1),
    "mil": FOOT / 12000, "µm": Fraction(1, 10**6), "g": Fraction(1, 1000), "sq in": (FOOT / 12) ** 2,
    "kg/m³": Fraction(1), "/m²": Fraction(1), "m²/day": Fraction(1, 86400),
}  # fmt: skip
"""Printed unit to SI. Whatever else is counted (bags, sheets, people, trips) is its own unit."""

FEWEST = 1000
"""The example's working is that long, so that a stage that lost its steps shows."""

PRINTED = re.compile(r"-?\$?(?P<number>\d+ \d+/\d+|\d+/\d+|[\d,]*\.?\d+) ?(?P<unit>.*)")


def steps(answers, kind=Step):
    return [step for step in answers.steps() if isinstance(step, kind)]


@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_printed_step_is_true_to_its_last_digit(firehall, system):
    found = steps(firehall)
    assert len(found) >= FEWEST
    untrue = [f"{step.key}: {text}" for step in found for text in [line(step, system)] if not true(text)]
    assert untrue == []


@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_printed_result_is_the_number_that_was_computed(firehall, system):
    wrong = []
    for step in steps(firehall):
        result = line(step, system).split(" = ")[1]
        read = PRINTED.fullmatch(result)
        assert read is not None, result
        scale = SI.get(read["unit"], Fraction(1))
        printed = (-1 if result.startswith("-") else 1) * number(read["number"]) * scale
        decimals = len(read["number"].partition(".")[2])
        room = Fraction(1, 64) if "/" in read["number"] else Fraction(1, 2 * 10**decimals)
        if abs(printed - Fraction(step.value)) > room * scale * Fraction(1000001, 1000000):
            wrong.append(f"{step.key}: {result} is not {float(step.value)}")
    assert wrong == []


def test_every_line_of_a_proof_is_true(firehall):
    """A plan or a batch is found by trying; its proof is a list of comparisons and sums that anybody can do."""
    found = steps(firehall, Found)
    assert found
    untrue = [f"{f.key}: {text}" for f in found for text in f.proof if not _holds(text)]
    assert untrue == []
    assert all(any(sign in text for text in f.proof for sign in ("=", "≤", ">")) for f in found)


def _holds(text):
    """``1.5 bags: 8.02 cu ft ≤ 9 cu ft``: what stands before the last colon says what of; the rest must hold."""
    return all(_is_true(_in_inches(said)) for said in text.rpartition(": ")[2].split("; "))


def _in_inches(text):
    """Feet and inches as plain numbers of inches: ``8' 6" / 4' 4"`` is ``102 / 52``; ``⌈x⌉`` is x rounded up."""

    def inches(found):
        feet, whole, top, bottom = (int(x or 0) for x in found.groups())
        return str(Fraction(12 * feet + whole) + (Fraction(top, bottom) if bottom else 0))

    text = re.sub(r"⌈([^⌉]*)⌉", r"(\1 rounded up)", text)
    return re.sub(r"(\d+)'(?: (\d+)(?: (\d+)/(\d+))?\")?", inches, text)


def _is_true(text):
    said = text.replace("<=", "≤").replace(" - ", " − ")
    parts = re.split(r" (=|≤|>|<|≥) ", said)
    for left, sign, right in zip(parts[::2], parts[1::2], parts[2::2], strict=False):
        one, other = evaluate(left), evaluate(right)
        if not {"=": says(one, right), "≤": one <= other, "≥": one >= other, ">": one > other, "<": one < other}[sign]:
            return False
    return True


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        ("2 bags: 10.53 cu ft > 9 cu ft", True),
        ("2 bags: 10.53 cu ft <= 9 cu ft", False),
        ("a .. b: 739909 - 739891 + 1 = 19", True),
        ("a .. b: 739909 - 739891 + 1 = 18", False),
        ("50.06 h / 6.5 h = 7.7 <= 8", True),
        ("50.06 h / 6.5 h = 7.7 <= 7", False),
    ],
)
def test_a_proof_that_does_not_hold_is_caught(text, holds):
    assert _holds(text) is holds


def test_what_a_step_was_given_by_another_is_what_that_one_found(firehall):
    """A chain of true lines would still deceive if a number changed between two of them."""
    by_key = {step.key: step for step in firehall.steps()}
    broken = []
    for step in steps(firehall):
        values = [value for _, value, _ in step.given]
        broken += [f"{step.key} < {k}" for k in step.after if not any(by_key[k].value == value for value in values)]
    assert broken == []


def test_every_step_is_worked_from_steps_before_it(firehall):
    seen = set()
    for step in firehall.steps():
        assert set(step.after) <= seen, step.key
        seen.add(step.key)


def test_every_figure_that_a_step_names_stands_in_the_book(firehall):
    ids = {name for step in firehall.steps() for name in step.rules}
    known = set(firehall.book.figures) | {f.id for f in firehall.book.local}
    assert ids
    assert ids <= known
