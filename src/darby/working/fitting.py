"""Units that do not fit one another get their exact factors, and the line gets as few of them as it can.

A coherent base per system (feet, pounds, hours, dollars; metres, kilograms, hours, dollars) makes every formula true in
shown numbers once each other unit is multiplied by its size in that base. The base is moved to inches, yards, gallons,
tons or days where that leaves fewer factors: ``1/2 in. + 3/8 in. = 7/8 in.``
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import product

from quicktions import Fraction

from darby.measure.units import FT, GAL, IN, LB, NONE, YD, F, System, Unit
from darby.measure.writing import number
from darby.working.notation import Chain, Name, Node, Number, Pick, Power, Sum, Up, constant, factors_of, terms_of, tree

# --- factors between units ---------------------------------------------------------------------------

HOUR = Fraction(3600)
DAY = 24 * HOUR
TON = 2000 * LB


@dataclass(frozen=True, slots=True)
class Base:
    """SI sizes of the coherent length (or its cube, for gallons), mass and time."""

    length: Fraction
    mass: Fraction
    time: Fraction
    cubed: bool = False

    def size(self, unit: Unit, fahrenheit: bool) -> Fraction | None:
        """SI size of the coherent unit of the same dimension; None if this base has no rational one."""
        a, b, c, d, _ = unit.dim
        if self.cubed and a % 3:
            return None
        heat = F if fahrenheit else Fraction(1)
        return self.length ** (a // 3 if self.cubed else a) * self.mass**b * self.time**c * heat**d


DEFAULT: dict[System, Base] = {"us": Base(FT, LB, HOUR), "metric": Base(Fraction(1), Fraction(1), HOUR)}

_LENGTHS = {
    "in": (IN, False), "sq in": (IN, False), "cu in": (IN, False),
    "mil": (IN / 1000, False), "um": (Fraction(1, 1_000_000), False),
    "yd": (YD, False), "sq yd": (YD, False), "cu yd": (YD, False), "gal": (GAL, True), "qt": (GAL, True),
    "fl oz": (GAL, True),
    "mm": (Fraction(1, 1000), False), "cm": (Fraction(1, 100), False), "mL": (Fraction(1, 100), False),
    "L": (Fraction(1, 10), False),
}  # fmt: skip
_MASSES = {"ton": TON, "oz": LB / 16, "t": Fraction(1000), "g": Fraction(1, 1000)}
_TIMES = {"day": DAY, "min": Fraction(60), "s": Fraction(1)}


def bases(units: Sequence[Unit], system: System) -> Iterator[Base]:
    """The system's base first, then those that the units at hand suggest."""
    words = {word for u in units for word in u.name.split("/")}
    usual = DEFAULT[system]
    lengths = [(usual.length, False), *(size for word, size in _LENGTHS.items() if word in words)]
    masses = [usual.mass, *(size for word, size in _MASSES.items() if word in words)]
    times = [usual.time, *(size for word, size in _TIMES.items() if word in words)]
    for (length, cubed), mass, time in product(lengths, masses, times):
        yield Base(length, mass, time, cubed)


Pieces = tuple[tuple[int, ...], tuple[int, ...]]
"""Numbers to multiply by and to divide by; 231 and 1728 stay what they are (cubic inches of a gallon and a foot)."""

_GALLON = Fraction(231, 1728)


@cache
def pieces(factor: Fraction) -> Pieces:
    """The factor as numbers that a reader knows."""
    if factor.numerator % 77 == 0:
        ups, downs = pieces(factor / _GALLON)
        return (231, *ups), (1728, *downs)
    if factor.denominator % 77 == 0:
        ups, downs = pieces(factor * _GALLON)
        return (1728, *ups), (231, *downs)
    up, down = factor.numerator, factor.denominator
    return (() if up == 1 else (up,)), (() if down == 1 else (down,))


def _merged(found: Sequence[Pieces]) -> tuple[tuple[bool, Node], ...]:
    """One run of factors: equal ones become one (12 and 12: 144); what goes into another without rest cancels."""
    ups = [n**often for n, often in Counter(n for up, _ in found for n in up).items()]
    downs = [n**often for n, often in Counter(n for _, down in found for n in down).items()]
    for at, below in product(range(len(ups)), range(len(downs))):
        small, great = sorted((ups[at], downs[below]))
        if great % small == 0:
            ups[at], downs[below] = ups[at] // small, downs[below] // small
    return tuple((over, _factor(n)) for over, numbers in ((False, ups), (True, downs)) for n in numbers if n != 1)


def _factor(n: int) -> Number:
    return Number(Fraction(n), number(n), fits=True)


@dataclass(frozen=True, slots=True)
class Fit:
    """How one unit is fitted into the line: its factor, and whether it is a Fahrenheit reading to be turned."""

    by: Pieces = ((), ())
    turned: bool = False


def fitted(node: Node, fits: Sequence[Fit], result: Fit) -> Node:
    """The tree with every unit's factor in it, and the result's at its end."""
    done = _fitted(node, fits)
    if result.turned:
        return Sum((*terms_of(_with_factors(done, [((9,), (5,))])), (1, constant(32))))
    ups, downs = result.by
    return _with_factors(done, [(downs, ups)])


def _fitted(node: Node, fits: Sequence[Fit]) -> Node:
    match node:
        case Name(at=at) if fits[at].turned:
            celsius = Sum(((1, node), (-1, constant(32))))
            return Chain(((False, celsius), (False, _factor(5)), (True, _factor(9))))
        case Name(at=at):
            return _with_factors(node, [fits[at].by])
        case Sum(terms=terms):
            return Sum(tuple((sign, _fitted(n, fits)) for sign, n in terms))
        case Chain(factors=factors):
            return _fitted_chain(factors, fits)
        case Power(of=of, n=n):
            return Power(_fitted(of, fits), n)
        case Pick(greater=greater, of=several):
            return Pick(greater, tuple(_fitted(n, fits) for n in several))
        case Up(of=of):
            return Up(_fitted(of, fits))
        case _:
            return node


def _fitted_chain(factors: tuple[tuple[bool, Node], ...], fits: Sequence[Fit]) -> Node:
    run = [(over != inner, part) for over, factor in factors for inner, part in factors_of(_fitted(factor, fits))]
    found = [_piece(over, part) for over, part in run if isinstance(part, Number) and part.fits]
    return _with_factors(Chain(tuple((o, n) for o, n in run if not (isinstance(n, Number) and n.fits))), found)


def _piece(over: bool, number: Number) -> Pieces:
    n = (int(number.value),)
    return ((), n) if over else (n, ())


def _with_factors(node: Node, found: Sequence[Pieces]) -> Node:
    """``node`` times the factors, which join those that are at its end already."""
    inner = list(factors_of(node))
    known: list[Pieces] = []
    while inner and isinstance(last := inner[-1][1], Number) and last.fits:
        known.append(_piece(inner.pop()[0], last))
    run = (*inner, *_merged([*reversed(known), *found]))
    return run[0][1] if len(run) == 1 and not run[0][0] else Chain(run)


# --- the whole line ----------------------------------------------------------------------------------


@lru_cache(maxsize=4096)
def laid_out(formula: str, names: tuple[str, ...], units: tuple[Unit, ...], unit: Unit, system: System) -> Node:
    """The tree that is printed: evaluated on the shown values it gives the shown result.

    ``units`` and ``unit`` are those of the sheet. Percentages lose their hundred and Fahrenheit readings their
    thirty-two where the line is true without.
    """
    plain = tree(formula, names)
    base = min(bases((*units, unit), system), key=lambda b: _cost(b, plain, units, unit, system))
    percents = frozenset(at for at, u in enumerate(units) if u.name == "%")
    readings = frozenset(at for at, u in enumerate(units) if u.name == "deg F")
    percent = _degree(plain, percents) != (1 if unit.name == "%" else 0)
    weight = _weight(plain, readings)
    turned = not ((unit.name == "deg F" and weight == 1) or (unit.name == "F deg" and weight == 0))
    return _layout(plain, base, units, unit, system, percent=percent, turned=turned)


def _degree(node: Node, percents: frozenset[int]) -> int | None:
    """The power of a hundred that the tree gains when percentages are keyed in as they stand; None = no one power."""
    match node:
        case Name(at=at):
            return int(at in percents)
        case Number():
            return 0
        case Sum(terms=parts):
            several = {_degree(part, percents) for _, part in parts}
        case Pick(of=parts):
            several = {_degree(part, percents) for part in parts}
        case Chain(factors=factors):
            degrees = [(-1 if over else 1, _degree(part, percents)) for over, part in factors]
            known = [sign * d for sign, d in degrees if d is not None]
            return sum(known) if len(known) == len(degrees) else None
        case Power(of=of, n=n):
            degree = _degree(of, percents)
            return None if degree is None else degree * n
        case Up(of=of):
            return 0 if _degree(of, percents) == 0 else None
    return several.pop() if len(several) == 1 else None


def _weight(node: Node, readings: frozenset[int]) -> Fraction | None:
    """How often a temperature stands in the tree: a mean or a greatest of readings weighs 1 and holds in Fahrenheit."""
    match node:
        case Name(at=at):
            return Fraction(1) if at in readings else None
        case Sum(terms=terms):
            several = [(sign, _weight(part, readings)) for sign, part in terms]
            known = [sign * w for sign, w in several if w is not None]
            return sum(known, Fraction(0)) if len(known) == len(several) else None
        case Chain(factors=((False, first), *rest)):
            weight = _weight(first, readings)
            for over, part in rest:
                if weight is None or not isinstance(part, Number):
                    return None
                weight = weight / part.value if over else weight * part.value
            return weight
        case Pick(of=parts):
            weights = {_weight(part, readings) for part in parts}
            return weights.pop() if len(weights) == 1 else None
        case _:
            return None


def _layout(
    node: Node, base: Base, units: Sequence[Unit], unit: Unit, system: System, *, percent: bool, turned: bool
) -> Node:
    # a reading that is turned into degrees Celsius wants every other degree in Celsius too
    celsius = turned and any(u.name == "deg F" for u in (*units, unit))

    def fit(u: Unit) -> Fit:
        if u.name == "deg F":
            return Fit(turned=turned)
        if u.name == "%" and not percent:
            return Fit()
        size = base.size(u, system == "us" and not celsius)
        return Fit(pieces(u.scale / size)) if size else Fit()

    return fitted(node, [fit(u) for u in units], fit(unit))


def _cost(base: Base, node: Node, units: Sequence[Unit], unit: Unit, system: System) -> float:
    """How many numbers the factors take; infinite where the base does not reach a unit."""
    cost = 0.0
    times = Counter(_names(node))
    for u, often in (*((u, times[at]) for at, u in enumerate(units)), (unit, 1)):
        if u.dim == NONE or u.offset:
            continue
        size = base.size(u, system == "us")
        if size is None:
            return float("inf")
        ups, downs = pieces(u.scale / size)
        cost += often * (len(ups) + len(downs))
    return cost


def _names(node: Node) -> Iterator[int]:
    match node:
        case Name(at=at):
            yield at
        case Sum(terms=parts) | Chain(factors=parts):
            for _, part in parts:
                yield from _names(part)
        case Power(of=of) | Up(of=of):
            yield from _names(of)
        case Pick(of=several):
            for part in several:
                yield from _names(part)
