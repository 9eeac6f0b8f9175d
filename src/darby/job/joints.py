"""What is said about joints on one surface: lines that must be or must not, what moves, and what the base has."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from quicktions import Fraction

LayoutName = Literal["best", "fewest", "through", "smaller"]
SealantClass = Literal["12.5", "25", "50"]

Span = tuple[Fraction, Fraction | None]
"""From the first place to the second [m]; None = at the first alone."""


@dataclass(frozen=True, slots=True)
class GapWanted:
    """What decides how wide sealed joints are: temperatures of the wall's face [deg C], None = not said.

    ``swing`` from coldest to hottest [deg C, a difference]; ``tolerance`` [m]; ``moisture`` a strain; ``shrinkage``:
    what the base shrinks is added.
    """

    hot: Fraction | None = None
    cold: Fraction | None = None
    installed: Fraction | None = None
    swing: Fraction | None = None
    sealant: SealantClass | None = None
    tolerance: Fraction | None = None
    moisture: Fraction | None = None
    shrinkage: bool = False


@dataclass(frozen=True, slots=True)
class JointsWanted:
    """One surface, or every wall of a house. Upright lines [m] from the left end, level lines [m] up from the base.

    ``surface`` "" = every surface, of its gaps alone. ``framing`` and ``through`` are joints in the framing or through
    the wall, which the plaster has to carry. ``block`` the block's own joints, from the left end: () = it has none,
    None = nobody looked. ``floors``: heights of the floors above the base. ``curved``: curved or angled work. ``area``
    [m2], ``side`` [m], ``ratio``: his own limits of a panel. ``choose``: a layout by its name.
    """

    surface: str
    upright: tuple[Fraction, ...] = ()
    level: tuple[Fraction, ...] = ()
    not_upright: tuple[Span, ...] = ()
    not_level: tuple[Span, ...] = ()
    block: tuple[Fraction, ...] | None = None
    floors: tuple[Fraction, ...] = ()
    choose: LayoutName | None = None
    framing: tuple[Fraction, ...] = ()
    framing_level: tuple[Fraction, ...] = ()
    through: tuple[Fraction, ...] = ()
    through_level: tuple[Fraction, ...] = ()
    curved: bool = False
    area: Fraction | None = None
    side: Fraction | None = None
    ratio: Fraction | None = None
    gap: GapWanted | None = field(default=None)
