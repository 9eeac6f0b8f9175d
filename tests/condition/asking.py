"""Patches and surveys as small edits of one good ask."""

from datetime import date
from fractions import Fraction

from darby.condition import Crack, GaugeReading, PatchAsk, SurveyAsk, patch, survey
from darby.measure import length, opening, wall
from darby.measure.units import unit
from darby.rulebook import default
from darby.working import Quantity, Working

BOOK = default()
ROUND = ("head", "sill", "left", "right")
WALL = wall(
    "east", "East wall", length("22'"), length("9'"),
    openings=[opening("window-1", "window", length("3'"), length("4'"), length("8'"), length("3'"))],
)  # fmt: skip


def inch(text):
    return length(f"{text} in")


def patched(**said):
    """(Patch, Working) round a 3 by 4 ft window."""
    ask = {"book": BOOK, "surface": "p", "width": inch(12), "wide": length("3'"), "high": length("4'"), "sides": ROUND}
    return patch(PatchAsk(**(ask | said)))


def surveyed(**said):
    return survey(SurveyAsk(**({"book": BOOK, "surface": WALL, "built": 1960} | said)))


def crack(*readings, gauge="0.1 mm", **more):
    """A 5 ft crack (3, 4, 5) with readings (day of 2026, mm, degrees Celsius)."""
    line = ((length("1'"), length("1'")), (length("4'"), length("5'")))
    made = tuple(
        GaugeReading(date(2026, 1, 1).fromordinal(date(2026, 1, 1).toordinal() + day), Fraction(str(mm)) / 1000, air)
        for day, mm, air in readings
    )
    return Crack("c", line, readings=made, gauge=length(gauge) if gauge else None, **more)


def found(one, **more):
    """The finding and the working of one crack."""
    got, working = surveyed(cracks=(one,), **more)
    return got.findings[0], working


def box(u, v, wide, high):
    """Corners of a box [ft]."""
    u, v, wide, high = (length(f"{x} ft") for x in (u, v, wide, high))
    return (u, v), (u + wide, v), (u + wide, v + high), (u, v + high)


def codes(working: Working):
    return [note.code for note in working.notes]


def feet(value):
    return Quantity(length(f"{value} ft"), unit("ft"))
