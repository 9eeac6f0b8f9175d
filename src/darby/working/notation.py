"""How a formula is written as arithmetic that is true as printed: strike out the words, key in the rest.

A line is a chain of numbers with their units as labels, ``+``, ``−``, ``×``, ``/`` and parentheses. Where a unit does
not fit the others its exact factor is printed with it (``fitting``): ``189 sq ft × 1/2 in. / 12 = 7.88 cu ft``.
``docs/working.md`` gives the grammar.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.limits import SLACK, whole
from darby.measure.writing import short
from darby.working.formula import FormulaError, parsed


@dataclass(frozen=True, slots=True)
class Name:
    """The given at this place of the step."""

    at: int


@dataclass(frozen=True, slots=True)
class Number:
    """A number that stands in the formula, or a factor between units."""

    value: Fraction
    text: str
    fits: bool = False
    """A factor between units, not the formula's own."""


@dataclass(frozen=True, slots=True)
class Sum:
    """Terms, each added (1) or taken off (−1)."""

    terms: tuple[tuple[int, Node], ...]


@dataclass(frozen=True, slots=True)
class Chain:
    """Factors, each multiplied (False) or divided by (True)."""

    factors: tuple[tuple[bool, Node], ...]


@dataclass(frozen=True, slots=True)
class Power:
    """A whole power."""

    of: Node
    n: int


@dataclass(frozen=True, slots=True)
class Pick:
    """The greater or the lesser of several."""

    greater: bool
    of: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Up:
    """Rounded up to a whole number."""

    of: Node


Node = Name | Number | Sum | Chain | Power | Pick | Up


# --- from the formula's text -------------------------------------------------------------------------


def tree(formula: str, names: Sequence[str]) -> Node:
    """The formula as nodes, chains and sums flattened so that few parentheses are left."""
    return _node(parsed(formula), {name: at for at, name in enumerate(names)}, formula)


def _node(expr: ast.expr, names: Mapping[str, int], formula: str) -> Node:
    match expr:
        case ast.Name(id=name):
            return Name(names[name])
        case ast.Constant(value=int() | float() as value):
            return constant(fraction_of(str(value)))
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            node = _node(inner, names, formula)
            return constant(-node.value) if isinstance(node, Number) else Sum(((1, constant(0)), (-1, node)))
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=int(n))):
            base = _node(left, names, formula)
            return Chain(((False, base),) * n) if isinstance(base, Name) and n in (2, 3) else Power(base, n)
        case ast.BinOp(left=left, op=ast.Add() | ast.Sub() as op, right=right):
            sign = 1 if isinstance(op, ast.Add) else -1
            more = ((sign * s, n) for s, n in terms_of(_node(right, names, formula)))
            return Sum((*terms_of(_node(left, names, formula)), *more))
        case ast.BinOp(left=left, op=ast.Mult() | ast.Div() as op, right=right):
            over = isinstance(op, ast.Div)
            rest = ((o != over, n) for o, n in factors_of(_node(right, names, formula)))
            return Chain((*factors_of(_node(left, names, formula)), *rest))
        case ast.Call(func=ast.Name(id="min" | "max" as which), args=args):
            return Pick(which == "max", tuple(_node(a, names, formula) for a in args))
        case ast.Call(func=ast.Name(id="ceil"), args=[inner]):
            return Up(_node(inner, names, formula))
    raise FormulaError(f"{formula!r} holds something that a formula may not")


def constant(value: Fraction | int) -> Number:
    """A number of the formula as it is printed."""
    exact = Fraction(value)
    return Number(exact, short(exact, _CONSTANT_PLACES))


_CONSTANT_PLACES = 18


def terms_of(node: Node) -> tuple[tuple[int, Node], ...]:
    """The terms of a sum; any other node is its own one term."""
    return node.terms if isinstance(node, Sum) else ((1, node),)


def factors_of(node: Node) -> tuple[tuple[bool, Node], ...]:
    """The factors of a chain; any other node is its own one factor."""
    return node.factors if isinstance(node, Chain) else ((False, node),)


def value(node: Node, values: Sequence[Fraction]) -> Fraction:
    """The tree evaluated exactly on shown values; rounding up forgives the billionth that ``limits.whole`` does."""
    match node:
        case Name(at=at):
            return values[at]
        case Number(value=its):
            return its
        case Sum(terms=terms):
            return sum((sign * value(n, values) for sign, n in terms), Fraction(0))
        case Chain(factors=factors):
            result = Fraction(1)
            for over, factor in factors:
                x = value(factor, values)
                result = result / x if over else result * x
            return result
        case Power(of=of, n=n):
            return value(of, values) ** n
        case Pick(greater=greater, of=several):
            return (max if greater else min)(value(n, values) for n in several)
        case Up(of=of):
            x = value(of, values)
            return Fraction(whole(x - max(abs(x), Fraction(1)) * SLACK))


# --- text --------------------------------------------------------------------------------------------

WORDS = ("the greater of", "the lesser of", "and", "rounded up")
"""The words of the notation; a catalogue may translate them (``names``)."""

_GROUP, _SUM, _TERM, _ATOM = range(4)


def text(node: Node, shown: Sequence[str], names: Mapping[str, str] | None = None) -> str:
    """The tree as a line, with the given values as ``shown``; parentheses only where they are needed."""
    return _text(node, shown, names or {})[0]


def _text(node: Node, shown: Sequence[str], names: Mapping[str, str]) -> tuple[str, int]:
    match node:
        case Name(at=at):
            return shown[at], _ATOM
        case Number(text=its):
            return its, _ATOM
        case Sum(terms=terms):
            line = ""
            for sign, term in terms:
                part = _at_least(term, _TERM, shown, names, first=not line)
                line = f"{line} {'+' if sign > 0 else '−'} {part}" if line else part
            return line, _SUM
        case Chain(factors=factors):
            line = ""
            for over, factor in factors:
                part = _at_least(factor, _ATOM, shown, names, first=not line, under=over)
                line = f"{line} {'/' if over else '×'} {part}" if line else part
            return line, _TERM
        case Power(of=of, n=n):
            return f"{_at_least(of, _ATOM, shown, names, first=False, under=True)} ^ {n}", _TERM
        case Pick(greater=greater, of=several):
            *most, last = (_at_least(n, _SUM, shown, names) for n in several)
            which = WORDS[0] if greater else WORDS[1]
            return f"{names.get(which, which)} {', '.join(most)} {names.get('and', 'and')} {last}", _GROUP
        case Up(of=of):
            return f"{_at_least(of, _SUM, shown, names)} {names.get('rounded up', 'rounded up')}", _GROUP


_FRACTION = re.compile(r"(\d+ )?\d+/\d")


def _at_least(
    node: Node, level: int, shown: Sequence[str], names: Mapping[str, str], *, first: bool = True, under: bool = False
) -> str:
    """``node`` in parentheses if it binds less than ``level``, is below nought inside, or a fraction under a stroke."""
    line, its = _text(node, shown, names)
    broken = under and its == _ATOM and _FRACTION.match(line) is not None
    if its < level or (line.startswith("-") and not first) or broken:
        return f"({line})"
    return line
