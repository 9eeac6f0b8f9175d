"""A length that is only known to within a ±: rounded no finer than that, and the ± that then holds, written out."""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.units import IN, System
from darby.measure.writing import write

MM = Fraction(1, 1000)
HAIR = MM / 1000
"""What a float may have lost; a ± is not rounded up for it."""
STEPS: dict[System, tuple[Fraction, ...]] = {
    "us": tuple(IN * fraction_of(part) for part in ("1/16", "1/8", "1/4", "1/2", "1", "2", "3", "6", "12")),
    "metric": tuple(MM * count for count in (1, 2, 5, 10, 20, 50, 100, 200, 500)),
}
"""What a tape is read to, and what a man says who is less sure."""


@dataclass(frozen=True, slots=True)
class Told:
    """``value`` [m] is rounded, and the true length lies within it ± ``give`` [m]; both as people write them."""

    value: Fraction
    give: Fraction
    text: str
    give_text: str


def told(metres: float, give: float, system: System = "us") -> Told:
    """A length [m] with its ± [m], rounded to the largest step that is at most half of the ±.

    The ± grows by what rounding moved, and is itself rounded up to the finest step.
    """
    finest, exact, sure = STEPS[system][0], Fraction(metres), Fraction(give)
    step = max((s for s in STEPS[system] if 2 * s <= sure), default=finest)
    value = round(exact / step) * step
    widened = -(-(sure + abs(value - exact) - HAIR) // finest) * finest
    return Told(value, widened, _written(value, system), _written(widened, system))


def _written(value: Fraction, system: System) -> str:
    return write(value, "mm") if system == "metric" else write(value, "ft-in")
