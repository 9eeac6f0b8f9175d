"""A package as the firm wrote it, in the reader's language: "94 lb bag", "saco de 94 lb"."""

from __future__ import annotations

from darby.measure.units import COUNTS, UNITS
from darby.measure.writing import PRINTED
from darby.words.catalogue import Language, Verbatim, say, unit_names

MEASURES = frozenset({*UNITS, *PRINTED.values()}) - frozenset(COUNTS)


def package_said(written: str, each: str, language: Language = "en") -> str:
    """``written`` names packages of ``each`` ("bag"); "" where goods are loose, and only units are said."""
    names = unit_names(language)
    if not names or not each:
        return units_said(written, language)
    holds = units_said(written.removeprefix(f"{each} of ").removesuffix(f" {each}"), language)
    return say("paper.order.package", {"each": Verbatim(names.get(each, each)), "holds": Verbatim(holds)}, language)


def units_said(written: str, language: Language = "en") -> str:
    """Units in a written package as they are printed: a point after inches, a real times sign."""
    text = f" {written} ".replace(" x ", " × ").replace(" in ", " in. ")
    names = unit_names(language)
    for name in sorted((n for n in names if n in MEASURES), key=len, reverse=True):
        text = text.replace(f" {name} ", f" {names[name]} ")
    return text.strip()
