"""Units: what a number is measured in, how it is written in each system, and its exact size in SI.

Every scale is exact: the international foot and pound (1959) are defined as decimals of SI units.
Source of all scales: NIST Special Publication 811 (2008), appendix B; checked in tests against Pint.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from quicktions import Fraction

System = Literal["us", "metric"]
Dim = tuple[int, int, int, int, int]
"""Powers of length, mass, time, temperature, money."""

NONE: Dim = (0, 0, 0, 0, 0)


@dataclass(frozen=True, slots=True, eq=False)
class Unit:
    """A unit: ``scale`` is the exact SI size of one; ``offset`` is added in SI after scaling (temperatures only).

    ``us`` and ``metric`` name the unit that stands for this one on a sheet of that system.
    """

    name: str
    scale: Fraction
    dim: Dim
    us: str
    metric: str
    offset: Fraction = Fraction(0)

    def __reduce__(self) -> tuple[Callable[[str], Unit], tuple[str]]:
        """There is one object per unit, also after a copy or a pickle."""
        return unit, (self.name,)

    def to_si(self, value: Fraction | float) -> Fraction | float:
        """Value in this unit to SI; exact when ``value`` is a Fraction or int."""
        if isinstance(value, float):
            return value * float(self.scale) + float(self.offset)
        return value * self.scale + self.offset

    def from_si(self, value: Fraction | float) -> Fraction | float:
        """SI value to this unit; exact when ``value`` is a Fraction or int."""
        if isinstance(value, float):
            return (value - float(self.offset)) / float(self.scale)
        return (value - self.offset) / self.scale

    def on(self, system: System) -> Unit:
        """The unit that stands for this one on a sheet of ``system``."""
        return UNITS[self.us if system == "us" else self.metric]


IN = Fraction(254, 10_000)
FT = 12 * IN
YD = 3 * FT
LB = Fraction(45_359_237, 100_000_000)
GAL = 231 * IN**3
F = Fraction(5, 9)  # temperatures are kept in degrees Celsius

L: Dim = (1, 0, 0, 0, 0)
A: Dim = (2, 0, 0, 0, 0)
V: Dim = (3, 0, 0, 0, 0)
M: Dim = (0, 1, 0, 0, 0)
T: Dim = (0, 0, 1, 0, 0)
TEMP: Dim = (0, 0, 0, 1, 0)
CASH: Dim = (0, 0, 0, 0, 1)


def _over(top: Dim, bottom: Dim) -> Dim:
    a, b, c, d, e = (x - y for x, y in zip(top, bottom, strict=True))
    return (a, b, c, d, e)


_MINUTE, _HOUR, _DAY = Fraction(60), Fraction(3600), Fraction(86_400)
_ONE = Fraction(1)

UNITS: dict[str, Unit] = {
    u.name: u
    for u in (
        Unit("", _ONE, NONE, "", ""),
        Unit("%", Fraction(1, 100), NONE, "%", "%"),
        Unit("in", IN, L, "in", "mm"),
        Unit("ft", FT, L, "ft", "m"),
        Unit("ft-in", FT, L, "ft-in", "m"),
        Unit("yd", YD, L, "yd", "m"),
        Unit("mil", IN / 1000, L, "mil", "um"),
        Unit("um", Fraction(1, 1_000_000), L, "mil", "um"),
        Unit("mm", Fraction(1, 1000), L, "in", "mm"),
        Unit("cm", Fraction(1, 100), L, "in", "cm"),
        Unit("m", _ONE, L, "ft", "m"),
        Unit("sq in", IN**2, A, "sq in", "m2"),
        Unit("sq ft", FT**2, A, "sq ft", "m2"),
        Unit("sq yd", YD**2, A, "sq yd", "m2"),
        Unit("m2", _ONE, A, "sq ft", "m2"),
        Unit("cu in", IN**3, V, "cu in", "L"),
        Unit("cu ft", FT**3, V, "cu ft", "m3"),
        Unit("cu yd", YD**3, V, "cu yd", "m3"),
        Unit("gal", GAL, V, "gal", "L"),
        Unit("qt", GAL / 4, V, "qt", "L"),
        Unit("fl oz", GAL / 128, V, "fl oz", "mL"),
        Unit("L", Fraction(1, 1000), V, "gal", "L"),
        Unit("mL", Fraction(1, 1_000_000), V, "cu in", "mL"),
        Unit("m3", _ONE, V, "cu ft", "m3"),
        Unit("lb", LB, M, "lb", "kg"),
        Unit("oz", LB / 16, M, "oz", "g"),
        Unit("ton", 2000 * LB, M, "ton", "t"),
        Unit("g", Fraction(1, 1000), M, "lb", "g"),
        Unit("kg", _ONE, M, "lb", "kg"),
        Unit("t", Fraction(1000), M, "ton", "t"),
        Unit("s", _ONE, T, "s", "s"),
        Unit("min", _MINUTE, T, "min", "min"),
        Unit("h", _HOUR, T, "h", "h"),
        Unit("day", _DAY, T, "day", "day"),
        Unit("deg C", _ONE, TEMP, "deg F", "deg C"),
        Unit("deg F", F, TEMP, "deg F", "deg C", offset=-32 * F),
        # differences of temperature, and what goes with each degree: no offset
        Unit("F deg", F, TEMP, "F deg", "C deg"),
        Unit("C deg", _ONE, TEMP, "F deg", "C deg"),
        Unit("/F deg", 1 / F, _over(NONE, TEMP), "/F deg", "/C deg"),
        Unit("/C deg", _ONE, _over(NONE, TEMP), "/F deg", "/C deg"),
        Unit("mph", 5280 * FT / _HOUR, _over(L, T), "mph", "m/s"),
        Unit("km/h", 1000 / _HOUR, _over(L, T), "mph", "km/h"),
        Unit("m/s", _ONE, _over(L, T), "mph", "m/s"),
        Unit("lb/sq yd", LB / YD**2, _over(M, A), "lb/sq yd", "kg/m2"),
        Unit("lb/sq ft", LB / FT**2, _over(M, A), "lb/sq ft", "kg/m2"),
        Unit("kg/m2", _ONE, _over(M, A), "lb/sq ft", "kg/m2"),
        Unit("lb/cu ft", LB / FT**3, _over(M, V), "lb/cu ft", "kg/m3"),
        Unit("lb/gal", LB / GAL, _over(M, V), "lb/gal", "kg/m3"),
        Unit("kg/m3", _ONE, _over(M, V), "lb/cu ft", "kg/m3"),
        Unit("sq ft/gal", FT**2 / GAL, _over(A, V), "sq ft/gal", "m2/L"),
        Unit("m2/L", Fraction(1000), _over(A, V), "sq ft/gal", "m2/L"),
        Unit("sq ft/cu ft", FT**2 / FT**3, _over(A, V), "sq ft/cu ft", "m2/m3"),
        Unit("m2/m3", _ONE, _over(A, V), "sq ft/cu ft", "m2/m3"),
        Unit("h/sq ft", _HOUR / FT**2, _over(T, A), "h/sq ft", "h/m2"),
        Unit("h/m2", _HOUR, _over(T, A), "h/sq ft", "h/m2"),
        Unit("sq ft/h", FT**2 / _HOUR, _over(A, T), "sq ft/h", "m2/h"),
        Unit("m2/h", _ONE / _HOUR, _over(A, T), "sq ft/h", "m2/h"),
        Unit("sq ft/day", FT**2 / _DAY, _over(A, T), "sq ft/day", "m2/day"),
        Unit("m2/day", _ONE / _DAY, _over(A, T), "sq ft/day", "m2/day"),
        Unit("ft/h", FT / _HOUR, _over(L, T), "ft/h", "m/h"),
        Unit("m/h", _ONE / _HOUR, _over(L, T), "ft/h", "m/h"),
        Unit("/sq ft", _ONE / FT**2, _over(NONE, A), "/sq ft", "/m2"),
        Unit("/m2", _ONE, _over(NONE, A), "/sq ft", "/m2"),
        Unit("/ft", _ONE / FT, _over(NONE, L), "/ft", "/m"),
        Unit("/m", _ONE, _over(NONE, L), "/ft", "/m"),
        Unit("$", _ONE, CASH, "$", "$"),
        Unit("$/h", _ONE / _HOUR, _over(CASH, T), "$/h", "$/h"),
        Unit("$/day", _ONE / _DAY, _over(CASH, T), "$/day", "$/day"),
        Unit("$/sq ft", _ONE / FT**2, _over(CASH, A), "$/sq ft", "$/m2"),
        Unit("$/m2", _ONE, _over(CASH, A), "$/sq ft", "$/m2"),
        Unit("$/ft", _ONE / FT, _over(CASH, L), "$/ft", "$/m"),
        Unit("$/m", _ONE, _over(CASH, L), "$/ft", "$/m"),
        Unit("$/cu yd", _ONE / YD**3, _over(CASH, V), "$/cu yd", "$/m3"),
        Unit("$/m3", _ONE, _over(CASH, V), "$/cu yd", "$/m3"),
        Unit("$/gal", _ONE / GAL, _over(CASH, V), "$/gal", "$/L"),
        Unit("$/L", Fraction(1000), _over(CASH, V), "$/gal", "$/L"),
        Unit("$/ton", _ONE / (2000 * LB), _over(CASH, M), "$/ton", "$/t"),
        Unit("$/t", Fraction(1, 1000), _over(CASH, M), "$/ton", "$/t"),
        Unit("$/lb", _ONE / LB, _over(CASH, M), "$/lb", "$/kg"),
        Unit("$/kg", _ONE, _over(CASH, M), "$/lb", "$/kg"),
    )
}

COUNTS = (
    "bags", "batches", "buckets", "shovels", "pieces", "sheets", "rolls", "coats", "trips", "days' work",
    "people", "parts", "tubes", "pails", "boxes", "nails", "screws", "openings", "walls", "cans", "bundles", "jugs",
    "drums", "sacks", "sticks", "loads", "pallets", "cartridges",
)  # fmt: skip
"""Things that are counted: dimensionless, but the word is printed. Money per bag is plain money."""

UNITS.update({name: Unit(name, _ONE, NONE, name, name) for name in COUNTS})


def unit(name: str) -> Unit:
    """The unit called ``name``.

    Raises
    ------
    KeyError
        for a name that is not in the table.
    """
    return UNITS[name]
