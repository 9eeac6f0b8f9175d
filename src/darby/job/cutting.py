"""How beads are cut: what the blade takes, how long pieces are spliced, what lies on the truck already."""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

BARS: tuple[str, ...] = (
    "corner bead", "casing bead", "weep screed", "drip screed", "control joint", "expansion joint", "corner lath",
)  # fmt: skip
"""What is sawn from bars, by darby's words for it."""


@dataclass(frozen=True, slots=True)
class OnTruck:
    """``count`` bars or offcuts of an item, each ``length`` [m] long; ``name`` is what is written on them."""

    item: str
    length: Fraction
    count: int = 1
    name: str = ""


@dataclass(frozen=True, slots=True)
class Cutting:
    """``blade`` takes that much with every cut [m]; ``splice`` is the least part of a piece that is made up of several
    [m]; None = not said. ``one_piece`` items are never spliced."""

    blade: Fraction | None = None
    splice: Fraction | None = None
    one_piece: tuple[str, ...] = ()
    on_truck: tuple[OnTruck, ...] = ()
