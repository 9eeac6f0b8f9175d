"""How rough the old face is, and how rough it may have been before it was painted."""

from __future__ import annotations

from math import cos, pi, sin, sqrt, tan

from quicktions import Fraction

from darby.finish.model import MatchAsk, Paint, Relief
from darby.measure.limits import at_most
from darby.measure.units import IN, unit
from darby.measure.writing import HAIR, number
from darby.rulebook.model import Figure
from darby.working.model import Given, Quantity, Working

MIL = unit("mil")
SQUARE = unit("sq in")
PLACES = len(str(IN / HAIR))
"""Decimals that a proof is printed with."""
COATS = ("prime", "second", "third")
"""Rows of the published spreading rates: the first coat on it, the next, and every one after."""


def relief_of(ask: MatchAsk, working: Working) -> Relief | None:
    """Mean, spread and span of the depth readings; None if there are none.

    The span: mean ± t × spread / √n, t by Student for n - 1.
    """
    if not ask.depths:
        return None
    key, count = f"{ask.at}/match/relief", len(ask.depths)
    named: dict[str, Given] = {f"d{n}": Quantity(d, MIL) for n, d in enumerate(ask.depths, 1)}
    sure = ask.book.number("match.confidence")
    mean = working.step(f"{key}/mean", f"({' + '.join(named)}) / n", MIL, "finish.mean", rules=(), **named, n=count)
    if count == 1:
        return Relief(count, mean, None, mean, mean, Quantity(0, MIL), sure)
    each = " + ".join(f"({name} - mean) ** 2" for name in named)
    scatter = working.step(f"{key}/scatter", f"({each}) / (n - 1)", SQUARE, "finish.scatter", rules=(), **named,
                           mean=mean, n=count)  # fmt: skip
    root = float(scatter.value) ** (1 / 2)
    spread = working.found(f"{key}/spread", root, MIL, "finish.spread", method="finish.method.root",
                           proof=(_squared(root),), after=[scatter.key])  # fmt: skip
    t, side = student(sure, count), Quantity(count ** (1 / 2))
    half = working.step(f"{key}/half", "t * spread / root_n", MIL, "finish.half", rules=(sure.id,), t=t, spread=spread,
                        root_n=side)  # fmt: skip
    low = working.step(f"{key}/low", "max(mean - half, nothing)", MIL, "finish.low", mean=mean, half=half,
                       nothing=Quantity(0, MIL))  # fmt: skip
    high = working.step(f"{key}/high", "mean + half", MIL, "finish.high", mean=mean, half=half)
    names = ", ".join(named)
    valley = working.step(f"{key}/valley", f"max({names}) - min({names})", MIL, "finish.valley", rules=(), **named)
    return Relief(count, mean, spread, low, high, valley, sure)


def _squared(root: float) -> str:
    """The spread times itself is the mean squared departure, in mils."""
    side = float(MIL.from_si(root))
    return f"mil: {number(side, PLACES)} × {number(side, PLACES)} = {number(side * side, 1)}"


def student(sure: Figure, count: int) -> float:
    """Student's t, two-sided, for a mean of ``count`` readings, to the last bit that halving the angle can tell."""
    low, high = 0.0, pi / 2
    while low < (middle := (low + high) / 2) < high:
        if within(middle, count - 1) < sure.number:
            low = middle
        else:
            high = middle
    return sqrt(count - 1) * tan(low)


def within(angle: float, freedom: int) -> float:
    """The share of Student's distribution within ± t, where t = tan(angle) × √freedom.

    The finite sums for whole degrees of freedom (Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and
    26.7.4): nothing is cut off.
    """
    odd = freedom % 2
    term = cos(angle) if odd else 1.0
    total = term if freedom > 1 else 0.0
    for k in range(2 + odd, freedom - 1, 2):
        term *= (k - 1) / k * cos(angle) ** 2
        total += term
    return 2 / pi * (angle + sin(angle) * total) if odd else sin(angle) * total


def paint_of(ask: MatchAsk, working: Working) -> Paint | None:
    """The film on the old face; None if there is none."""
    if not ask.painted:
        return None
    if ask.film is not None:
        film = Quantity(ask.film, MIL)
        return Paint(ask.paint_coats, ask.paint_kind, True, film, film)
    key = f"{ask.at}/match/paint"
    films = [_film(ask, key, n, working) for n in range(1, ask.paint_coats + 1)]
    least, most = (
        working.step(f"{key}/{name}", " + ".join(given), MIL, f"finish.film-{name}", rules=(), **given)
        for name, given in (
            ("least", {f"coat_{n}": film[0] for n, film in enumerate(films, 1)}),
            ("most", {f"coat_{n}": film[1] for n, film in enumerate(films, 1)}),
        )
    )
    return Paint(ask.paint_coats, ask.paint_kind, False, least, most)


def _film(ask: MatchAsk, key: str, n: int, working: Working) -> tuple[Quantity, Quantity]:
    """Dry film of one coat: what stays of the paint, over what a volume of it covers."""
    book = ask.book
    if ask.paint_kind == "textured":
        figure = book.number("coating.film.textured")
        return (
            working.step(f"{key}/coat-{n}/least", "film", MIL, "finish.film-coat", rules=(figure.id,),
                         film=_end(figure, figure.low)),
            working.step(f"{key}/coat-{n}/most", "film", MIL, "finish.film-coat", rules=(figure.id,),
                         film=_end(figure, figure.high)),
        )  # fmt: skip
    if ask.paint_kind == "elastomeric":
        film, coats = book.number("match.film-elastomeric"), book.number("match.film-elastomeric-coats")
        one = working.step(f"{key}/coat-{n}", "film / coats", MIL, "finish.film-coat", film=film, coats=coats)
        return one, one
    solids, rate = book.number("match.paint-solids"), book.number(f"coating.spread.{COATS[min(n, len(COATS)) - 1]}")
    rules = (solids.id, rate.id)
    least = working.step(f"{key}/coat-{n}/least", "solids / rate", MIL, "finish.film-coat", rules=rules,
                         solids=_end(solids, solids.low), rate=_end(rate, rate.high))  # fmt: skip
    most = working.step(f"{key}/coat-{n}/most", "solids / rate", MIL, "finish.film-coat", rules=rules,
                        solids=_end(solids, solids.high), rate=_end(rate, rate.low))  # fmt: skip
    return least, most


def _end(figure: Figure, end: float | None) -> Quantity:
    return Quantity(figure.number if end is None else end, figure.unit)


def before_paint(
    ask: MatchAsk, relief: Relief | None, paint: Paint | None, working: Working
) -> tuple[Quantity | None, Quantity | None]:
    """Relief before it was painted, from so much to so much.

    Least: the film follows the face and hides nothing. Most: the tops are bare, and every hollow is filled by all of
    the film. What was put on thicker in hollows than anywhere, by a loaded roller, lies past it.
    """
    if relief is None:
        return None, None
    if paint is None:
        return relief.low, relief.high
    most = working.step(f"{ask.at}/match/relief/before", "high + film", MIL, "finish.before", high=relief.high,
                        film=paint.most)  # fmt: skip
    return relief.low, most


def within_grain(ask: MatchAsk, least: Quantity, grain: Fraction | float) -> tuple[bool, Figure]:
    """Whether a float may have left that relief with grains of that size, and the figure that says so."""
    figure = ask.book.number("match.float-relief")
    return at_most(least.value, float(grain) * figure.number), figure
