"""The one place where numbers are rounded and written as people read them. No other module formats a number.

Rounding is half up (half away from zero below it), done on exact values. A float or Decimal has already lost a
little in computing, so what lies that little under a half counts as the half: 7.875 cu ft prints 7.88 whichever way
it came.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Literal, get_args

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.limits import SLACK
from darby.measure.units import FT, IN, UNITS, YD, System, Unit

Real = Fraction | Decimal | float | int
Style = Literal["ft-in", "drawing", "sentence", "in", "ft", "yd", "m", "mm", "cm"]
STYLES: tuple[str, ...] = get_args(Style)

HAIR = IN / 1000
"""A thickness this near to a sixteenth of an inch is that sixteenth."""

_LOST_BY_FLOAT = Fraction(1, 10**12)
_LOST_BY_DECIMAL = Fraction(1, 10**22)
"""Parts of the value that a dozen operations can lose: a float carries 16 digits, a Decimal 28."""

_MINUS = "-"
_FINEST = 64
"""Parts of one that a mixed number is written in; finer ones are decimals."""


def rounded(value: Real, places: int = 0) -> Fraction:
    """``value`` rounded half up to ``places`` decimals (below nought: to tens, hundreds), exact.

    >>> rounded(Fraction(5, 2))
    Fraction(3, 1)
    """
    if places >= 0:
        scale = 10**places
        return Fraction(_nearest(value, scale), scale)
    return Fraction(_nearest(value, Fraction(1, 10**-places)) * 10**-places)


def number(value: Real, places: int = 0) -> str:
    """``value`` with exactly ``places`` decimals and a comma between thousands.

    >>> number(1449.995, 2)
    '1,450.00'
    """
    count = _nearest(value, 10**places if places >= 0 else Fraction(1, 10**-places)) * 10 ** max(-places, 0)
    whole, part = divmod(abs(count), 10 ** max(places, 0))
    sign = _MINUS if count < 0 else ""
    return f"{sign}{whole:,}" + (f".{part:0{places}d}" if places > 0 else "")


def short(value: Real, places: int) -> str:
    """Like ``number``, without the noughts that say nothing: ``189``, ``7.5``."""
    text = number(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def write(value: Real, style: Style = "ft-in", to: int = 16) -> str:
    """A length [m] as people write it. ``measure.length`` reads every style back to within half of what is shown.

    Parameters
    ----------
    value
        metres.
    style
        ``ft-in``    ``7' 10 1/2"``, ``24'``, ``1/2"``
        ``drawing``  ``7'-10 1/2"``, ``24'-0"``, ``8"``
        ``sentence`` ``7 ft 10 1/2 in.``, ``24 ft``, ``1/2 in.``
        ``in``       ``94 1/2"``
        ``ft``, ``yd``, ``m``  decimals, to a thousandth
        ``mm``       whole millimetres, tenths below 100
        ``cm``       tenths
    to
        the part of an inch to round to: 16 for sixteenths. Not used by the decimal styles.

    Raises
    ------
    ValueError
        for a style that is not known or a ``to`` below 1.
    """
    if style in _FEET_AND_INCHES or style == "in":
        if to < 1:
            raise ValueError(f"an inch cannot be parted in {to}")
        count = _nearest(value, to / IN)
        sign, count = (_MINUS if count < 0 else ""), abs(count)
        if style == "in":
            return f'{sign}{_mixed(count, to)}"'
        return sign + _feet_and_inches(style, *divmod(count, 12 * to), to)
    if style == "mm":
        places = 0 if abs(_nearest(value, 10_000)) >= 1000 else 1
        return _decimal(value, Fraction(1, 1000), places) + " mm"
    if style not in _DECIMAL:
        raise ValueError(f"no such style of writing a length: {style!r}; there are {', '.join(STYLES)}")
    size, places = _DECIMAL[style]
    text = _decimal(value, size, places)
    head, _, tail = text.lstrip(_MINUS).partition(".")
    if style == "m" and len(tail) == 3 and 1 <= len(head) <= 3 and head != "0":
        text += "0"  # "2.401 m" could be two thousand four hundred and one; "2.4010 m" cannot
    return f"{text} {style}"


_FEET_AND_INCHES = ("ft-in", "drawing", "sentence")
_DECIMAL = {"ft": (FT, 3), "yd": (YD, 3), "m": (Fraction(1), 3), "cm": (Fraction(1, 100), 1)}


def _nearest(value: Real, scale: Fraction | int) -> int:
    """The whole number nearest to ``value * scale``, halves away from zero; whole numbers are quickest."""
    top, bottom = value.as_integer_ratio()
    size, parts = abs(top) * scale.numerator, bottom * scale.denominator
    if isinstance(value, (float, Decimal)):
        lost = _LOST_BY_FLOAT if isinstance(value, float) else _LOST_BY_DECIMAL
        size, parts = size * (lost.denominator + lost.numerator), parts * lost.denominator
    count = (2 * size + parts) // (2 * parts)
    return count if top >= 0 else -count


def _decimal(value: Real, size: Fraction, places: int) -> str:
    size = Fraction(value) / size
    return short(float(size) if isinstance(value, (float, Decimal)) else size, places).replace(",", "")


def mixed(value: Real) -> str:
    """A bare count or part as a mixed number: ``7 1/2``, ``3/4``, ``5``; what no sixty-fourths write, in decimals."""
    exact = fraction_of(str(value)) if isinstance(value, float) else Fraction(value)
    if exact.denominator > _FINEST:
        return short(exact, 3)
    sign = _MINUS if exact < 0 else ""
    return sign + _mixed(abs(exact.numerator), exact.denominator)


def _mixed(count: int, to: int) -> str:
    """``count`` parts of which ``to`` make one: ``10 1/2``, ``1/2``, ``10``, ``0``."""
    whole, rest = divmod(count, to)
    part = Fraction(rest, to)
    if not part:
        return str(whole)
    fraction = f"{part.numerator}/{part.denominator}"
    return f"{whole} {fraction}" if whole else fraction


def _feet_and_inches(style: str, feet: int, count: int, to: int) -> str:
    inches = _mixed(count, to)
    if style == "sentence":
        parts = ([f"{feet} ft"] if feet else []) + ([f"{inches} in."] if count or not feet else [])
        return " ".join(parts)
    if not feet:
        return f'{inches}"'
    if style == "drawing":
        return f"{feet}'-{'0 ' if 0 < count < to else ''}{inches}\""
    return f"{feet}' {inches}\"" if count else f"{feet}'"


# --- a value with its unit ---------------------------------------------------------------------------

PRINTED: dict[str, str] = {
    "in": "in.", "ft-in": "", "um": "µm", "m2": "m²", "m3": "m³", "day": "days", "ton": "tons",
    "deg C": "°C", "deg F": "°F", "C deg": "°C", "F deg": "°F", "/C deg": "/°C", "/F deg": "/°F",
    "kg/m2": "kg/m²", "kg/m3": "kg/m³", "m2/L": "m²/L", "m2/m3": "m²/m³", "h/m2": "h/m²",
    "m2/h": "m²/h", "m2/day": "m²/day", "/m2": "/m²", "$/m2": "$/m²", "$/m3": "$/m³",
}  # fmt: skip
"""How a unit is printed where that differs from its name."""

ONE: dict[str, str] = {
    "days": "day", "tons": "ton", "bags": "bag", "batches": "batch", "buckets": "bucket", "shovels": "shovel",
    "pieces": "piece", "sheets": "sheet", "rolls": "roll", "coats": "coat", "trips": "trip", "days' work": "day's work",
    "people": "person", "parts": "part", "tubes": "tube", "pails": "pail", "boxes": "box", "nails": "nail",
    "screws": "screw", "openings": "opening", "walls": "wall", "cans": "can", "bundles": "bundle",
    "jugs": "jug", "drums": "drum", "sacks": "sack", "sticks": "stick", "loads": "load", "pallets": "pallet",
    "cartridges": "cartridge",
}  # fmt: skip
"""The word for one of them."""

_PLACES: dict[str, int] = {
    "in": 3, "ft": 2, "yd": 2, "mil": 1, "um": 0, "mm": 1, "cm": 1, "m": 3,
    "sq in": 1, "sq ft": 1, "sq yd": 2, "m2": 2,
    "cu in": 1, "cu ft": 2, "cu yd": 2, "gal": 2, "L": 1, "mL": 0, "m3": 3,
    "lb": 1, "ton": 2, "g": 0, "kg": 1, "t": 2,
    "s": 0, "min": 0, "h": 2, "day": 1, "deg C": 1, "deg F": 1, "C deg": 1, "F deg": 1, "mph": 1, "m/s": 1, "%": 1,
    "lb/cu ft": 1, "kg/m3": 0, "sq ft/h": 1, "sq ft/day": 0, "m2/h": 1, "m2/day": 1, "sq ft/gal": 1,
}  # fmt: skip
"""Decimals that mean something on a building site. Two where nothing is said."""

_FIGURES = 3
"""Significant figures kept of a value below one, so that little does not print as nothing."""


def shown(
    value_si: Real,
    unit: Unit | None,
    system: System = "us",
    places: int | None = None,
    names: Mapping[str, str] | None = None,
) -> str:
    """A value with its unit, as people read it on a sheet of ``system``.

    Parameters
    ----------
    value_si
        the value in SI (money in dollars).
    unit
        what it is measured in; the twin of the system is taken (``unit.on``). None: a bare count.
    places
        exactly so many decimals; None: what the unit deserves, without noughts that say nothing.
    names
        printed words in another language, by the English printed word: ``{"bags": "bultos", "sq ft": "pies²"}``;
        for one of them by ``"1 sq ft"``, where English says the same for one and for many.

    Thin US lengths are fractions where they are fractions (``1/2 in.``), else decimals (``0.472 in.``).
    Also ``189 sq ft``, ``7.88 cu ft``, ``$1,450.00``, ``$34.00/h``, ``10 %``, ``1 day``, ``20 bags``, ``40 °F``.
    """
    unit = (unit or UNITS[""]).on(system)
    value: Real = value_si
    if unit.scale != 1 or unit.offset:
        value = unit.from_si(float(value_si) if isinstance(value_si, Decimal) else value_si)
    if unit.name == "ft-in" and places is None:
        return write(value_si, "ft-in")
    if unit.dim[-1]:
        return _money(value, unit, places, names)
    text = _amount(value, unit, places)
    word = PRINTED.get(unit.name, unit.name) or "ft" * (unit.name == "ft-in")
    if text == "1" and word in ONE:
        word = ONE[word]
    word = named(word, names, one=text == "1")
    return text + word if word.startswith("/") else f"{text} {word}".rstrip()


def between(
    low_si: Real, high_si: Real, unit: Unit | None, system: System = "us", names: Mapping[str, str] | None = None
) -> str:
    """Two values with one unit: ``3/8 to 1/2 in.``, ``$8.00 to $34.00/sq ft``. ``names["to"]`` translates the word."""
    low, high = (shown(v, unit, system, names=names) for v in (low_si, high_si))
    if unit is None or unit.on(system).name != "ft-in":
        low = low.rstrip("".join(set(low) - set("0123456789")))  # the unit is printed once, after the high one
    return f"{low} {named('to', names)} {high}"


def _amount(value: Real, unit: Unit, places: int | None) -> str:
    if places is not None:
        return number(value, places)
    if unit.name == "in":
        sixteenths = _nearest(value, 16)
        if sixteenths and abs(Fraction(value) - Fraction(sixteenths, 16)) * IN <= HAIR:
            return (_MINUS if sixteenths < 0 else "") + _mixed(abs(sixteenths), 16)
    if unit.name == "ft" and abs(rounded(value, 3) - Fraction(value)) < SLACK:
        return short(value, 3)
    return short(value, _places(value, unit))


def _places(value: Real, unit: Unit) -> int:
    places = _PLACES.get(unit.name, 2)
    size = abs(Fraction(value))
    if unit.name in ("%", "deg F", "deg C") or size >= 1 or size <= SLACK:
        return places
    first = 1
    while size * 10**first < 1:
        first += 1
    return max(places, first + _FIGURES - 1)


def _money(value: Real, unit: Unit, places: int | None, names: Mapping[str, str] | None) -> str:
    """``$1,450.00``; a price per something keeps four decimals where two would not be the price."""
    if places is None:
        cents = abs(rounded(value, 2) - Fraction(value)) < SLACK
        places = 2 if cents or unit.name == "$" else 4
    text = number(value, places)
    sign, text = (_MINUS, text[1:]) if text.startswith(_MINUS) else ("", text)
    _, slash, per = PRINTED.get(unit.name, unit.name).partition("/")
    return f"{sign}${text}{slash}{named(per, names, one=True)}"


def named(word: str, names: Mapping[str, str] | None, *, one: bool = False) -> str:
    """The word in another language; ``names["1 ft"]`` where that has a word for one that English has not."""
    if not names:
        return word
    return names.get(f"1 {word}" if one else word) or names.get(word, word)
