"""Something per something, read exactly: wages, paces, prices and the firm's usual spans."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.amounts import ALIASES, dollars, unit_of
from darby.measure.numerals import NUMBER, Written, bare, exactly, nearest, refuse, split_number, tidy
from darby.measure.packages import one_of
from darby.measure.units import NONE, UNITS, Dim, Unit

ALLOWED = "$34.00/h, 75 sq ft/h, $8 to $34/sq ft, 6 to 26 bags/100 sq ft"


@dataclass(frozen=True, slots=True)
class Rate:
    """``low`` to ``high`` in SI of ``unit`` (equal where one value was written); ``word``: bags per something.

    ``$16.80/bag`` is plain money with the word "bag"; ``6 bags/100 sq ft`` is 6/100 "/sq ft" with the word "bag".
    """

    low: Fraction
    high: Fraction
    unit: Unit
    word: str = ""

    @property
    def value(self) -> Fraction:
        """The one value.

        Raises
        ------
        ValueError
            if a range was written.
        """
        if self.low != self.high:
            raise ValueError("a range has no one value")
        return self.low


_TO = re.compile(r"\s+to\s+(?=[$0-9-])", re.IGNORECASE)
_PER = re.compile(r"\s+per\s+", re.IGNORECASE)
_HUNDRED = re.compile(rf"(?:({NUMBER})\s*)?([a-z].*)", re.IGNORECASE)


def rate(text: Written) -> Rate:
    """``$34.00/h``, ``75 sq ft/h``, ``$8 to $34/sq ft``, ``150 to 900 sq ft/day``, ``6 to 26 bags/100 sq ft``.

    Raises
    ------
    Unreadable
        with the Fault; codes in ``darby.measure.reading``. ``unit`` may be of any dimension: the caller judges.
    """
    number = bare(text)
    clean = tidy(text if number is None else number, ALLOWED)
    top, bottom = _parted(clean)
    lows, unit, word = _top(top, clean)
    per, size, per_word = _bottom(bottom, clean)
    low, high = (value / size for value in lows)
    if low > high:
        refuse("range", clean, ALLOWED)
    a, b, c, d, e = (x - y for x, y in zip(unit.dim, per.dim, strict=True))
    return Rate(low, high, _named(unit, per, (a, b, c, d, e), clean), word or per_word)


def _parted(clean: str) -> tuple[str, str]:
    per = _PER.split(clean)
    if len(per) == 2:
        return per[0], per[1]
    cuts = [m.start() for m in re.finditer("/", clean)]
    if "$" not in clean:
        cuts = [at for at in cuts if not (clean[at - 1 : at].isdigit() and clean[at + 1 : at + 2].isdigit())]
    if len(per) > 2 or not cuts:
        refuse("unreadable", clean, ALLOWED)
    return clean[: cuts[-1]].strip(), clean[cuts[-1] + 1 :].strip()


def _top(top: str, clean: str) -> tuple[tuple[Fraction, Fraction], Unit, str]:
    ends = _TO.split(top)
    if len(ends) > 2:
        refuse("unreadable", clean, ALLOWED)
    if "$" in top:
        ends = [end if "$" in end else f"${end}" for end in ends]
        values = [dollars(end.strip(), clean, plain=False) for end in ends]
        return (values[0], values[-1]), UNITS["$"], ""
    parts = [split_number(end) for end in ends]
    first, last = parts[0], parts[-1]
    if first is None or last is None:
        refuse("unreadable", clean, ALLOWED)
    if first[2] not in ("", last[2]):
        refuse("unreadable", clean, ALLOWED)
    unit, word = _thing(last[2], clean)
    ends_si = [sign * exactly(digits, clean, last[2], point=True) * unit.scale for sign, digits, _ in (first, last)]
    return (ends_si[0], ends_si[1]), unit, word


def _bottom(bottom: str, clean: str) -> tuple[Unit, Fraction, str]:
    match = _HUNDRED.fullmatch(bottom)
    if not match:
        refuse("unreadable", clean, ALLOWED)
    unit, word = _thing(match[2], clean)
    count = exactly(match[1], clean, match[2], whole=True) if match[1] else Fraction(1)
    if count <= 0:
        refuse("not-positive", clean, ALLOWED)
    return unit, count * unit.scale, word


def _thing(word: str, clean: str) -> tuple[Unit, str]:
    unit = unit_of(word)
    if unit is not None:
        return unit, ""
    counted = one_of(word)
    if counted:
        return UNITS[""], counted
    return refuse("unknown-unit", clean, ALLOWED, nearest(word, ALIASES))


def _named(top: Unit, bottom: Unit, dim: Dim, clean: str) -> Unit:
    named = UNITS.get(f"{top.name}/{bottom.name}")
    if named is not None and named.dim == dim:
        return named
    if dim == NONE:
        return UNITS[""]
    for unit in UNITS.values():
        if unit.dim == dim and not unit.offset:
            return unit
    return refuse("unknown-unit", clean, ALLOWED)
