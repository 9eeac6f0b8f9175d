"""Formulas: one text that is checked, compiled, computed and printed.

Names, numbers, + - * / **, min, max, ceil; nothing else.
"""

from __future__ import annotations

import ast
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache
from numbers import Rational
from typing import Any

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.limits import whole
from darby.measure.units import NONE, Dim, Unit


class FormulaError(ValueError):
    """A formula holds something it may not, or its dimensions do not agree."""


_CALLS: dict[str, Callable[..., Any]] = {"min": min, "max": max, "ceil": whole}


def parsed(formula: str) -> ast.expr:
    """The formula's syntax tree.

    Raises
    ------
    FormulaError
        if the text is not one expression.
    """
    try:
        return ast.parse(formula, mode="eval").body
    except SyntaxError as error:
        raise FormulaError(f"{formula!r} is no formula: {error.msg}") from None


@lru_cache(maxsize=4096)
def compiled(formula: str, names: tuple[str, ...], units: tuple[Unit, ...], unit: Unit) -> Callable[..., Any]:
    """The formula as a function of ``names``, checked once for content and dimensions.

    Raises
    ------
    FormulaError
        naming the formula and what is wrong.
    """
    tree = parsed(formula)
    dims = {name: u.dim for name, u in zip(names, units, strict=True)}
    used = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)} - set(_CALLS)
    if used != set(names):
        raise FormulaError(f"{formula!r}: given {sorted(names)}, used {sorted(used)}")
    found = _dim(tree, dims, formula)
    if found != unit.dim:
        raise FormulaError(f"{formula!r} has dimension {found}, {unit.name!r} has {unit.dim}")
    code = compile(ast.Expression(_lambda(names, tree)), f"<{formula}>", "eval")
    return eval(code, {"__builtins__": {}, **_CALLS})  # type: ignore[no-any-return]


def _lambda(names: tuple[str, ...], body: ast.expr) -> ast.expr:
    arguments = ast.arguments(
        posonlyargs=[], args=[ast.arg(arg=n) for n in names], kwonlyargs=[], kw_defaults=[], defaults=[]
    )
    return ast.fix_missing_locations(ast.copy_location(ast.Lambda(args=arguments, body=body), body))


def _dim(node: ast.expr, dims: dict[str, Dim], formula: str) -> Dim:
    match node:
        case ast.Name(id=name) if name in dims:
            return dims[name]
        case ast.Constant(value=int() | float() as value) if not isinstance(value, bool):
            return NONE
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return _dim(inner, dims, formula)
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=int(power))):
            a, b, c, d, e = (x * power for x in _dim(left, dims, formula))
            return (a, b, c, d, e)
        case ast.BinOp(left=left, op=op, right=right):
            return _dim_of_pair(op, _dim(left, dims, formula), _dim(right, dims, formula), formula)
        case ast.Call(func=ast.Name(id="min" | "max"), args=[_, _, *_] as args, keywords=[]):
            kinds = {_dim(a, dims, formula) for a in args}
            if len(kinds) != 1:
                raise FormulaError(f"{formula!r} compares unlike dimensions")
            return kinds.pop()
        case ast.Call(func=ast.Name(id="ceil"), args=[inner], keywords=[]):
            if _dim(inner, dims, formula) != NONE:
                raise FormulaError(f"{formula!r} rounds up something that is not a count")
            return NONE
    raise FormulaError(f"{formula!r} holds something that a formula may not")


def _dim_of_pair(op: ast.operator, left: Dim, right: Dim, formula: str) -> Dim:
    if isinstance(op, (ast.Add, ast.Sub)):
        if left != right:
            raise FormulaError(f"{formula!r} adds unlike dimensions")
        return left
    sign = 1 if isinstance(op, ast.Mult) else -1
    if not isinstance(op, (ast.Mult, ast.Div)):
        raise FormulaError(f"{formula!r} holds an operation that a formula may not")
    a, b, c, d, e = (x + sign * y for x, y in zip(left, right, strict=True))
    return (a, b, c, d, e)


SURE = 12
"""Significant figures of a float that its unit is sure of: noise of computing lies below, the trade far above."""


def exact(value: Fraction | Decimal | float | int, unit: Unit) -> Fraction:
    """``value`` (SI of ``unit``) as a Fraction. What was rounded in computing is read in its own unit.

    A float that came out as 2.4999999999999996 h is 2.5 h, and $34 an hour kept as dollars a second is $34 an
    hour again, so that half a cent falls the way the printed line says.
    """
    if isinstance(value, (int, Rational)):
        return Fraction(value)
    if isinstance(value, Decimal) and unit.scale == 1:
        return Fraction(value)
    shown = (Fraction(value) - unit.offset) / unit.scale
    digits = Decimal(shown.numerator) / Decimal(shown.denominator)
    return fraction_of(f"{digits:.{SURE}g}") * unit.scale + unit.offset


def to_cents(exact: Fraction | int, unit: Unit) -> Decimal:
    """Money rounded half up: to the cent for "$", to a hundredth of a cent in its unit for a price per something."""
    shown = Fraction(exact) / unit.scale
    places = Decimal("0.01") if unit.name == "$" else Decimal("0.0001")
    rounded = (Decimal(shown.numerator) / Decimal(shown.denominator)).quantize(places, rounding=ROUND_HALF_UP)
    if unit.name == "$":
        return rounded
    back = Fraction(rounded) * unit.scale
    return Decimal(back.numerator) / Decimal(back.denominator)
