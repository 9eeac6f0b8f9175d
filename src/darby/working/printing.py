"""A step as a line of arithmetic that is true as printed, and the tree of steps behind a number.

Inputs are written with as few digits as ``measure.writing`` gives them; where the printed line would not give the
printed result to its last digit, they get more, until it does. So the property holds by construction, and
``tests/working/evaluator.py``, which knows nothing of formulas, checks it from the text alone.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.units import CASH, UNITS, System, Unit
from darby.measure.writing import HAIR, ONE, PRINTED, named, number, rounded, short, shown
from darby.working import fitting, notation
from darby.working.formula import exact
from darby.working.model import Found, Real, Step, Working
from darby.working.notation import Node

MOST_DIGITS = 18
"""Places that are tried after those of the unit; a float holds no more."""

_CLOSE = Fraction(1, 1000)
"""A line is true to its last digit, and never further than this part from the number behind it."""

_TINY = Fraction(1, 10**9)
"""A difference this small beside the numbers it came from may be what floats lost, and nothing else."""

_NOISE = Fraction(1, 10**12)
"""What floats lose of a single number, with room to spare."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A number as it is printed: text without unit, the value a reader takes from it, and its decimals."""

    text: str
    value: Fraction
    places: int
    fraction: bool = False


def line(step: Step | Found, system: System = "us", names: Mapping[str, str] | None = None) -> str:
    """The step as printed: ``189 sq ft × 1/2 in. / 12 = 7.88 cu ft``.

    Parameters
    ----------
    system
        the sheet's system; a coherent base is taken and every other unit printed with its factor.
    names
        printed words in another language by the English word (``"sq ft"``, ``"the greater of"``, ``"rounded up"``);
        a solver's method by its code.

    A solver's result prints as ``value: method`` and its proof, one line below another.
    """
    if isinstance(step, Found):
        value = shown(step.value, step.unit, system, names=names)
        return "\n".join((f"{value}: {(names or {}).get(step.method, step.method)}", *step.proof))
    units = tuple(_decimal(u.on(system)) for _, _, u in step.given)
    unit = step.unit.on(system)
    node = fitting.laid_out(step.formula, tuple(name for name, _, _ in step.given), units, _decimal(unit), system)
    inputs, result = _agreed(node, step, _as_computed(step, units), units, _decimal(unit), system)
    texts = [_labelled(r.text, u, names) for r, u in zip(inputs, units, strict=True)]
    printed = f"{notation.text(node, texts, names)} = {_labelled(result.text, _decimal(unit), names)}"
    return f"{printed} = {shown(step.value, unit, system, names=names)}" if unit.name == "ft-in" else printed


def _decimal(unit: Unit) -> Unit:
    """Feet and inches are reckoned in feet."""
    return UNITS["ft"] if unit.name == "ft-in" else unit


def _in(value_si: Real | Decimal, unit: Unit) -> Fraction:
    """The SI value in ``unit``; a float as the fifteen digits it is sure of."""
    shown_si = (Fraction(value_si) - unit.offset) / unit.scale
    return fraction_of(f"{float(shown_si):.15g}") if isinstance(value_si, (float, Decimal)) else shown_si


def _as_computed(step: Step, units: Sequence[Unit]) -> list[Fraction]:
    """What the step was given, in the units of the sheet; for money as exact as money is reckoned."""
    if _is_money(step.unit):
        exactly = [exact(value, unit) for _, value, unit in step.given]
        return [(value - u.offset) / u.scale for value, u in zip(exactly, units, strict=True)]
    return [_in(value, u) for (_, value, _), u in zip(step.given, units, strict=True)]


# --- as few digits as read well, as many as make the line true ----------------------------------------


def _agreed(
    node: Node, step: Step, values: Sequence[Fraction], units: Sequence[Unit], unit: Unit, system: System
) -> tuple[list[Reading], Reading]:
    target = _in(step.value, unit)
    ladders = [_Ladder(v, u, system) for v, u in zip(values, units, strict=True)]
    goal = Fraction(0) if _is_noise(node, values, target) else target
    result = _read(_number_of(shown(step.value if goal else 0, unit, system)))
    while True:
        inputs = _true(node, ladders, goal, result, _is_money(unit))
        if inputs is not None:
            return inputs, result
        if result.places <= 0:  # on the very edge of what a float holds: say all that is known
            return [ladder.at(MOST_DIGITS) for ladder in ladders], result
        result = _rounded(goal, unit, result.places - 1)


def _is_noise(node: Node, values: Sequence[Fraction], target: Fraction) -> bool:
    """Whether the result is only what floats lost: tiny beside what was given, and not what exact numbers give."""
    if abs(target) > max((abs(v) for v in values), default=Fraction(0)) * _TINY:
        return False
    try:
        return abs(notation.value(node, values) - target) > abs(target) * _CLOSE
    except ZeroDivisionError:
        return False


def _true(node: Node, ladders: Sequence[_Ladder], goal: Fraction, result: Reading, money: bool) -> list[Reading] | None:
    """The shortest readings on which the line gives ``result``; None if there are none. Money is rounded already."""

    def holds(readings: Sequence[Reading]) -> bool:
        try:
            got = notation.value(node, [reading.value for reading in readings])
        except ZeroDivisionError:
            return False
        if result.value and not money and abs(got - goal) > abs(goal) * _CLOSE:
            return False
        if result.fraction:
            return abs(got - result.value) * UNITS["in"].scale <= HAIR
        return rounded(got, result.places) == result.value

    for rung in range(MOST_DIGITS + 1):
        readings = [ladder.at(rung) for ladder in ladders]
        if holds(readings):
            return _shortened(readings, ladders, rung, holds)
        if rung >= _PATIENCE:
            for other in _on_an_edge(readings, ladders, rung):
                if holds(other):
                    return other
        if all(rung >= ladder.top for ladder in ladders):
            return None
    return None


def _shortened(
    readings: list[Reading], ladders: Sequence[_Ladder], rung: int, holds: Callable[[Sequence[Reading]], bool]
) -> list[Reading]:
    """Digits that turn out not to be needed go again, one given after the other."""
    for at, ladder in enumerate(ladders):
        for lower in range(min(rung, ladder.top) - 1, -1, -1):
            shorter = [*readings[:at], ladder.at(lower), *readings[at + 1 :]]
            if not holds(shorter):
                break
            readings = shorter
    return readings


def _on_an_edge(readings: list[Reading], ladders: Sequence[_Ladder], rung: int) -> Iterator[list[Reading]]:
    """Where rounding every given to the nearest falls on the wrong side (half a cent, a whole bag).

    Plain fractions first (6 2/3), then one given at a time rounded the other way in its last digit.
    """
    if rung == _PATIENCE:
        yield [ladder.fraction() or reading for ladder, reading in zip(ladders, readings, strict=True)]
    for at, ladder in enumerate(ladders):
        if rung < ladder.top:
            yield [*readings[:at], ladder.other_way(rung), *readings[at + 1 :]]


_PATIENCE = 4
"""So many more digits are tried before anything else is."""

_DENOMINATORS = 64


class _Ladder:
    """The readings of one given value: rung 0 as it is always shown, each rung above with one more decimal."""

    __slots__ = ("_rungs", "_unit", "_value", "top")

    def __init__(self, value: Fraction, unit: Unit, system: System) -> None:
        self._value, self._unit = value, unit
        self._rungs: dict[int, Reading] = {0: _read(_number_of(shown(unit.to_si(value), unit, system)))}
        self.top = 0 if self._rungs[0].value == value else MOST_DIGITS
        """The rung from which on nothing is gained."""

    def at(self, rung: int) -> Reading:
        """The reading on this rung, or on the highest there is."""
        rung = min(rung, self.top)
        reading = self._rungs.get(rung)
        if reading is None:
            reading = self._rungs[rung] = _rounded(self._value, self._unit, self._rungs[0].places + rung)
            if reading.value == self._value:
                self.top = rung
        return reading

    def other_way(self, rung: int) -> Reading:
        """The reading on this rung rounded away from where it is nearest."""
        places = self._rungs[0].places + rung
        nearest, least = rounded(self._value, places), Fraction(1, 10**places)
        return _rounded(nearest - least if nearest > self._value else nearest + least, self._unit, places)

    def fraction(self) -> Reading | None:
        """The value as a plain fraction (6 2/3), if it is one and no decimal."""
        near = self._value.limit_denominator(_DENOMINATORS)
        if self.top < MOST_DIGITS or abs(near - self._value) > abs(self._value) * _NOISE:
            return None
        return Reading(_mixed(near), near, 0, fraction=True)


def _mixed(value: Fraction) -> str:
    sign, (wholes, rest) = ("-" if value < 0 else ""), divmod(abs(value), 1)
    part = f"{rest.numerator}/{rest.denominator}" if rest else ""
    return sign + (f"{wholes} {part}".strip() if wholes or not part else part)


_NUMBER = re.compile(r"-?\$?(\d+ \d+/\d+|\d+/\d+|[\d,]*\.?\d+)")


def _number_of(printed: str) -> str:
    text = _NUMBER.match(printed)
    if text is None:  # pragma: no cover (writing always begins with a number)
        raise ValueError(f"{printed!r} begins with no number")
    return text[0].replace("$", "")


def _rounded(value: Fraction, unit: Unit, places: int) -> Reading:
    return _read(number(value, places) if _is_money(unit) else short(value, places), places)


def _read(text: str, places: int | None = None) -> Reading:
    sign, digits = (-1, text[1:]) if text.startswith("-") else (1, text)
    digits = digits.replace(",", "")
    if "/" in digits:
        value = sign * sum((fraction_of(part) for part in digits.split()), Fraction(0))
        return Reading(text, value, _FRACTION_PLACES, fraction=True)
    decimals = len(digits.partition(".")[2])
    return Reading(text, sign * fraction_of(digits), decimals if places is None else places)


_FRACTION_PLACES = 3
"""Decimals of an inch that follow where a fraction of it will not do."""


# --- words -------------------------------------------------------------------------------------------


def _is_money(unit: Unit) -> bool:
    return unit.dim[-1] == CASH[-1]


def _labelled(text: str, unit: Unit, names: Mapping[str, str] | None) -> str:
    """``189 sq ft``, ``$34.00/h``, ``0.25/sq ft``: the number with its unit as ``writing.shown`` writes it."""
    word = PRINTED.get(unit.name, unit.name)
    if _is_money(unit):
        sign, digits = ("-", text[1:]) if text.startswith("-") else ("", text)
        _, slash, per = word.partition("/")
        return f"{sign}${digits}{slash}{named(per, names, one=True)}"
    one = text == "1"
    word = named(ONE.get(word, word) if one else word, names, one=one)
    return text + word if word.startswith("/") else f"{text} {word}".rstrip()


# --- why ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Explained:
    """A step with the steps it came from.

    ``line`` is its printed line, ``value`` its result as shown. Of a solver's result, ``line`` holds method and proof
    below one another; ``method`` and ``proof`` give them singly.
    ``again`` marks a step that stands with its own working further up in the same tree: it is not repeated.
    """

    key: str
    says: str
    value: str
    line: str
    rules: tuple[str, ...]
    method: str = ""
    proof: tuple[str, ...] = ()
    after: tuple[Explained, ...] = ()
    again: bool = False


def explain(working: Working, key: str, system: System = "us", names: Mapping[str, str] | None = None) -> Explained:
    """The step ``key`` of ``working`` as a tree down to what was given.

    Raises
    ------
    KeyError
        if there is no such step.
    """
    return _explained(working.steps, key, system, names, set())


def _explained(
    steps: Mapping[str, Step | Found], key: str, system: System, names: Mapping[str, str] | None, seen: set[str]
) -> Explained:
    step = steps[key]
    again = key in seen
    seen.add(key)
    behind = (
        ()
        if again
        else tuple(_explained(steps, earlier, system, names, seen) for earlier in step.after if earlier in steps)
    )
    found = isinstance(step, Found)
    return Explained(
        key=key,
        says=step.says,
        value=shown(step.value, step.unit, system, names=names),
        line=line(step, system, names),
        rules=step.rules,
        method=step.method if isinstance(step, Found) else "",
        proof=step.proof if isinstance(step, Found) else (),
        after=behind,
        again=again and bool(step.after or found),
    )
