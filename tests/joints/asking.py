"""Walls in feet, asks, and what is read out of answers."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from darby.joints import Ground, Joints, JointsAsk, Layout, Limits, lay_out_joints
from darby.measure import opening, wall
from darby.measure.surface import Opening, Surface
from darby.measure.units import FT
from darby.rulebook import default
from darby.working import Working

BOOK = default()
SQ_FT = FT**2


def ft(x: Fraction | int | str) -> Fraction:
    return Fraction(x) * FT


def feet(x: Fraction) -> Fraction:
    return x / FT


def hole(name: str, at: Any, up: Any, width: Any, height: Any, rise: Any = 0) -> Opening:
    return opening(name, name, ft(width), ft(height), ft(at), ft(up), rise=ft(rise))


def plain(length: Any, height: Any, *openings: Opening, **more: Any) -> Surface:
    return wall("w", "wall", ft(length), ft(height), openings=openings, **more)


def run(surface: Surface, base: Any = "frame", lathed: bool | None = None, **more: Any) -> tuple[Joints, Working]:
    """The answer for a surface of one base (its zones have their own)."""
    every = (*((z.id, z.base) for z in surface.zones), ("", base))
    grounds = tuple(
        Ground(zone, kind, kind in ("frame", "lath over block") if lathed is None else lathed) for zone, kind in every
    )
    return lay_out_joints(JointsAsk(BOOK, surface, grounds, **more))


def best(surface: Surface, base: Any = "frame", **more: Any) -> Layout:
    return run(surface, base, **more)[0].layouts[0]


def lines(layout: Layout, axis: str | None = None) -> list[tuple[str, Fraction]]:
    """(axis, place [ft]) of every joint that is not where bases meet."""
    return [
        (j.axis[0], feet(j.start[0] if j.axis == "vertical" else j.start[1]))
        for j in layout.joints
        if axis in (None, j.axis) and j.origin != "change of base"
    ]


def sizes(layout: Layout) -> list[tuple[Fraction, Fraction]]:
    """Width and height of every panel [ft]."""
    return [(feet(p.width), feet(p.height)) for p in layout.panels]


def codes(answer: Joints, grade: str | None = None) -> list[str]:
    return [n.code for n in answer.notes if grade in (None, n.grade)]


def own(area: Any = 144, side: Any = 18, ratio: Any = "5/2") -> Limits:
    """Limits in sq ft, ft and length to width."""
    return Limits(Fraction(area) * SQ_FT, ft(side), Fraction(ratio))
