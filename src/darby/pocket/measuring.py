"""How the page reads and writes measures: with the tables and patterns of ``measure`` itself, so that both agree.

Several of them are no part of measure's public face; they are taken all the same, because a copy would drift.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from darby.job.part import LONGEST_LENGTH, LONGEST_TEXT
from darby.job.sections.openings import ROUND
from darby.measure import amounts, numerals, openings, writing
from darby.measure.limits import SLACK
from darby.measure.units import UNITS, L
from darby.pocket.packing import number
from darby.working.formula import SURE

MOST_COUNT = 1000
"""Equal walls, or openings, that one field may ask for."""


def exact() -> dict[str, Any]:
    """What exact numbers are reckoned with: how floats are made of them, and what floats lose."""
    return {
        "ten": 10,
        "bits": 64,
        "slack": number(SLACK),
        "sure": SURE,
    }


def units(names: Iterable[str]) -> dict[str, Any]:
    """Each unit with its twins: exact scale and offset, the units that stand for it, whether it is money."""
    wanted = set(names)
    wanted |= {twin for name in wanted for twin in (UNITS[name].us, UNITS[name].metric)}
    return {
        name: [number(u.scale), number(u.offset), u.us, u.metric, bool(u.dim[-1])]
        for name, u in sorted(UNITS.items())
        if name in wanted
    }


def written() -> dict[str, Any]:
    """How numbers are rounded and what is printed beside them."""
    return {
        "printed": {name: word or "ft" for name, word in writing.PRINTED.items()},
        "one": writing.ONE,
        "places": writing._PLACES,
        "otherwise": 2,
        "plain": ["%", "deg F", "deg C"],
        "feet": 3,
        "cents": 2,
        "figures": writing._FIGURES,
        "sixteenths": 16,
        "hair": number(writing.HAIR),
        "lost": number(writing._LOST_BY_FLOAT),
    }


def read() -> dict[str, Any]:
    """How measures are read: spellings, patterns, examples that a refusal offers."""
    same = {chr(code): str(to or "") for code, to in numerals._SAME.items()}
    return {
        "longest": numerals.LONGEST,
        "longestLength": number(LONGEST_LENGTH),
        "longestText": LONGEST_TEXT,
        "mostCount": str(MOST_COUNT),
        "same": same,
        "fractions": numerals._FRACTIONS,
        "number": numerals.NUMBER,
        "mixed": numerals._MIXED.pattern,
        "feet": amounts._FEET.pattern,
        "inches": amounts._INCHES.pattern,
        "both": amounts._BOTH.pattern,
        "dashed": amounts._DASHED.pattern,
        "dashedPart": amounts._DASHED_PART.pattern,
        "lengths": {alias: unit.name for alias, unit in amounts.ALIASES.items() if unit.dim == L},
        "pointed": sorted(amounts._US_POINT & {unit.name for unit in UNITS.values() if unit.dim == L}),
        "plastered": ROUND,
        "aLength": amounts.LENGTH,
        "twoLengths": "24' x 12', 7.2 x 3.6 m",
        "aWall": "24' x 12', 7.2 x 3.6 m",
        "anOpening": openings.SIZE,
        "aCount": f"1 … {MOST_COUNT}",
        "aShare": "8, 7 1/2, 12.5",
        "aFraction": "10 1/2, 1/2, 5/4",
        "aNumber": "1200, 1.25, 1/2",
        "wholeFeet": "7' 6\", 7.5 ft",
        "mostInches": "7' 11 15/16\"",
    }
