"""His own measures: what his bucket or shovel holds, from how many of them fill a box that he knows; his mixer."""

from __future__ import annotations

from collections.abc import Mapping
from math import prod
from typing import TYPE_CHECKING, Any

from quicktions import Fraction

from darby import measure
from darby.measure.amounts import lengths_by
from darby.measure.faults import Fault, Unreadable
from darby.mix.gauging import gauged

if TYPE_CHECKING:
    from darby.measure.units import System

CU_FT, LITRE = measure.unit("cu ft"), measure.unit("L")
BOX, COUNT = "1 cu ft / 16 in x 16 in x 12 in", "3 1/2"
SIDES = 3
EVEN = 100
"""A part of a cubic foot with a larger denominator is written in decimals."""
KINDS = ("bucket", "shovel")


def measured(tables: Mapping[str, Any], posted: Mapping[str, str], system: System) -> dict[str, Any]:
    """The firm file with what was measured put in; what was left empty stays as it was.

    Raises
    ------
    Unreadable
        for a box or a count that cannot be read.
    """
    own = dict(tables.get("measures", {}))
    kind = posted.get("gauge", "")
    if kind in KINDS:
        own["gauge"] = kind
        box, count = posted.get("box", "").strip(), posted.get("count", "").strip()
        holds = posted.get("holds", "").strip()
        if box or count:
            own[kind] = written(gauged(_box(box), _count(count)), system)
        elif holds:
            own[kind] = holds
    if mixer := posted.get("mixer", "").strip():
        own["mixer"] = mixer
    return {**tables, "measures": own}


def _box(text: str) -> Fraction:
    """A volume, or three sides."""
    try:
        sides = lengths_by(text, None) if "x" in text.lower() or "×" in text else ()
        if len(sides) == SIDES:
            return prod((Fraction(side) for side in sides), start=Fraction(1))
        return Fraction(measure.volume(text))
    except Unreadable:
        raise Unreadable(Fault("measure.unreadable", "", text, BOX)) from None


def _count(text: str) -> Fraction:
    """How many, read as every number of a file is."""
    one = Fraction(CU_FT.scale)
    try:
        count = Fraction(measure.volume(f"{text} cu ft")) / one
    except Unreadable:
        count = Fraction(0)
    if not count > 0:
        raise Unreadable(Fault("measure.unreadable", "", text, COUNT))
    return count


def written(volume: Fraction, system: System) -> str:
    """A volume as it stands in the file: exact where a plain fraction of a cubic foot is."""
    if system == "metric":
        return f"{float(volume / Fraction(LITRE.scale)):.4g} L"
    feet = volume / Fraction(CU_FT.scale)
    whole, part = divmod(feet, 1)
    if feet.denominator > EVEN:
        return f"{float(feet):.4g} cu ft"
    if not part:
        return f"{whole} cu ft"
    return f"{whole} {part} cu ft" if whole else f"{part} cu ft"
