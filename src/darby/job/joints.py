"""What is said about joints on one surface: lines that must be or must not, and what the base has of its own."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

LayoutName = Literal["best", "fewest", "through", "smaller"]


@dataclass(frozen=True, slots=True)
class JointsWanted:
    """One surface, or every wall of a house. Upright lines [m] from the left end, level lines [m] up from the base.

    ``block`` the block's own joints, from the left end: () = it has none, None = nobody looked. ``floors``: heights of
    the floors above the base. ``choose``: a layout by its name.
    """

    surface: str
    upright: tuple[Fraction, ...] = ()
    level: tuple[Fraction, ...] = ()
    not_upright: tuple[Fraction, ...] = ()
    not_level: tuple[Fraction, ...] = ()
    block: tuple[Fraction, ...] | None = None
    floors: tuple[Fraction, ...] = ()
    choose: LayoutName | None = None
