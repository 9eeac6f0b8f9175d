"""Numbers as people write them, read exactly: ``10 1/2``, ``3/8``, ``½``, ``6.5``, ``1,25``, ``1,450.00``."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from decimal import Decimal
from numbers import Rational
from typing import NoReturn

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.faults import Fault, Unreadable

Written = str | int | float | Decimal | Fraction
"""What may stand in a document where a measure is asked for: text, or a bare number where the document says units."""

LONGEST = 120
"""Characters. Nothing that is one measure is longer, and a longer one is not worth a machine's time."""

_FRACTIONS = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
    "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅒": "1/10", "⅑": "1/9", "⅐": "1/7",
}  # fmt: skip
_SAME = str.maketrans(
    {
        **dict.fromkeys(
            "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\t", " "
        ),
        **dict.fromkeys("\u200b\u2060\ufeff", ""),
        **dict.fromkeys("‘’‛′`´ʹʼ＇", "'"),
        **dict.fromkeys("“”‟″ʺ〃＂", '"'),
        **dict.fromkeys("‐‑‒–—―−﹣－", "-"),
        **dict.fromkeys("⁄∕／", "/"),
        **dict.fromkeys("×✕✖⨯", "x"),
        **dict.fromkeys("º˚", "°"),
        "²": "2",
        "³": "3",
        "μ": "µ",
    }
)

_DECIMAL = r"[0-9.,]*[0-9]"
_PART = r"[0-9]+\s*/\s*[0-9]+"
NUMBER = rf"(?:[0-9]+(?:\s*-\s*|\s+){_PART}|{_PART}|{_DECIMAL})"
"""An unsigned number: mixed, a fraction, or with a decimal mark."""

_MIXED = re.compile(r"(?:([0-9]+)(?:\s*-\s*|\s+))?([0-9]+)\s*/\s*([0-9]+)")
_NUMBER = re.compile(NUMBER)


def refuse(code: str, found: str, allowed: str, nearest: str = "") -> NoReturn:
    """Raise the Unreadable of code ``measure.<code>``."""
    raise Unreadable(Fault(f"measure.{code}", "", found, allowed, nearest)) from None


def tidy(text: Written, allowed: str) -> str:
    """The text with one spelling for every mark, space, dash and fraction character.

    Raises
    ------
    Unreadable
        if it is no text, empty, or longer than any measure.
    """
    if not isinstance(text, str):
        refuse("not-text", str(text)[:LONGEST], allowed)
    if len(text) > LONGEST:
        refuse("too-long", text[:LONGEST] + "…", allowed)
    clean = text.translate(_SAME)
    for char, spelled in _FRACTIONS.items():
        if char in clean:
            clean = re.sub(rf"(?<=[0-9]){char}", f" {spelled}", clean).replace(char, spelled)
    clean = " ".join(clean.replace("''", '"').split())
    if not clean:
        refuse("empty", text, allowed)
    return clean


def bare(value: Written) -> str | None:
    """A number of a document (not text) as text; None if it is none."""
    if isinstance(value, bool) or not isinstance(value, (int, float, Decimal, Rational)):
        return None
    try:
        exact = fraction_of(repr(value)) if isinstance(value, float) else Fraction(value)
    except (ValueError, OverflowError):  # nan and the infinities
        return None
    if exact.denominator == 1 and abs(exact) < Fraction(10) ** LONGEST:
        return str(exact.numerator)
    return f"{exact.numerator}/{exact.denominator}"


def exactly(text: str, found: str, suffix: str = "", *, point: bool = False, whole: bool = False) -> Fraction:
    """An unsigned number, exact.

    Parameters
    ----------
    text
        what matched ``NUMBER``.
    found, suffix
        what the person wrote, and what stands after the number in the readings that a refusal offers.
    point
        in US units a point is always a decimal point: ``1.125 in`` cannot be eleven hundred.
    whole
        counts and dollars: a comma before exactly three digits parts thousands: ``$1,450``.

    Raises
    ------
    Unreadable
        ``measure.ambiguous`` for a comma or point that could mean two things, ``measure.number`` or
        ``measure.fraction`` for what is no number.
    """
    mixed = _MIXED.fullmatch(text)
    if mixed:
        ones, top, bottom = (int(part or 0) for part in mixed.groups())
        if not bottom or (mixed[1] and top >= bottom):
            refuse("fraction", found, "10 1/2, 1/2, 5/4")
        return ones + Fraction(top, bottom)
    marks = [char for char in text if char in ".,"]
    if not marks:
        return Fraction(int(text))
    return _decimal(text, found, suffix, marks, point=point, whole=whole)


def _decimal(text: str, found: str, suffix: str, marks: list[str], *, point: bool, whole: bool) -> Fraction:
    last = marks[-1]
    if len(marks) > 1 and len(set(marks)) == 1:
        if not _grouped(text, last):
            refuse("number", found, "1200, 1.25, 1/2")
        return Fraction(int(text.replace(last, "")))
    head, _, tail = text.rpartition(last)
    if len(marks) > 1:
        other = marks[0]
        if last in head or not _grouped(head, other):
            refuse("number", found, "1200, 1.25, 1/2")
        return fraction_of(f"{head.replace(other, '')}.{tail}")
    if len(tail) == 3 and 1 <= len(head) <= 3 and not head.startswith("0"):
        if last == "," and whole:
            return Fraction(int(head + tail))
        if last == "," or not point:
            space = f" {suffix}" if suffix[:1].isalnum() else suffix
            small = f"{head}.{tail}".rstrip("0").rstrip(".")
            refuse("ambiguous", found, f"{head}{tail}{space}, {small}{space}")
    return fraction_of(f"{head or '0'}.{tail}")


def _grouped(text: str, mark: str) -> bool:
    first, *rest = text.split(mark)
    return 1 <= len(first) <= 3 and first.isdecimal() and all(len(part) == 3 for part in rest)


def split_number(text: str) -> tuple[int, str, str] | None:
    """``"-10 1/2 in"`` -> (-1, "10 1/2", "in"); None where no number stands first."""
    sign = 1
    if text.startswith("-"):
        sign, text = -1, text[1:].lstrip()
    match = _NUMBER.match(text)
    if not match:
        return None
    return sign, match[0], text[match.end() :].strip()


def nearest(word: str, words: Iterable[str]) -> str:
    """The word of ``words`` that is most like ``word``; "" if none is."""
    close = difflib.get_close_matches(word.lower(), list(words), 1, 0.6)
    return close[0] if close else ""
