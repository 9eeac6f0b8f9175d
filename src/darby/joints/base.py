"""Plaster straight on its base: joints only where the base has them. And the lines where one base meets another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from quicktions import Fraction

from darby.joints.model import Ground, JointsAsk, Kind
from darby.joints.plane import Number, Piece, Plane, Point
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.working.model import Quantity, Working

FT = unit("ft-in")


# --- one base against another -------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Border:
    """A straight line with one ground on each side."""

    start: Point
    end: Point
    grounds: tuple[int, int]


def borders(plane: Plane) -> list[Border]:
    """Where two grounds meet, each straight line once, from left to right or bottom to top."""
    found: list[Border] = []
    for slab in plane.slabs:
        for low, high in pairwise(slab.pieces):
            if (low.top, low.top_right) == (high.low, high.low_right) and _apart(low, high):
                line = Border((slab.left, low.top), (slab.right, low.top_right), (low.ground, high.ground))
                _joined(found, line)
    for left, right in pairwise(plane.slabs):
        if left.right == right.left:
            found += _upright(left.right, left.pieces, right.pieces)
    return found


def _apart(one: Piece, other: Piece) -> bool:
    return one.ground != other.ground and min(one.ground, other.ground) >= 0


def _joined(found: list[Border], line: Border) -> None:
    """Put a line behind the one it goes on from, if there is one."""
    for n, last in enumerate(found):
        if last.end == line.start and last.grounds == line.grounds and _straight(last, line):
            found[n] = Border(last.start, line.end, line.grounds)
            return
    found.append(line)


def _straight(one: Border, other: Border) -> bool:
    (a, b), (c, d) = (one.start, one.end), (other.start, other.end)
    return (b[0] - a[0]) * (d[1] - c[1]) == (d[0] - c[0]) * (b[1] - a[1])


def _upright(u: Number, left: Sequence[Piece], right: Sequence[Piece]) -> list[Border]:
    found: list[Border] = []
    for one in left:
        for other in right:
            low, high = max(one.low_right, other.low), min(one.top_right, other.top)
            if low < high and _apart(one, other):
                _joined(found, Border((u, low), (u, high), (one.ground, other.ground)))
    return found


def kind_between(one: Ground, other: Ground) -> Kind:
    """What goes between two grounds: two pieces where a stud wall meets masonry, else casing beads back to back."""
    return "expansion" if (one.base == "frame") != (other.base == "frame") else "casing"


# --- joints the block should have -----------------------------------------------------------------------


def block_spacing(w: Working, ask: JointsAsk, key: str, length: Fraction, height: Fraction) -> None:
    """What the block's own rules would ask of a wall so long and high [m], as a caution where it falls short."""
    at = ask.surface.id
    ratio, most = ask.book.number("joint.block.ratio"), ask.book.number("joint.block.most")
    part, usual = ask.book.number("joint.block.corner"), ask.book.number("joint.block.usual")
    if ask.block_joints is None:
        w.note("joints.look-for-block-joints", "assumed", at)
    long, high = Quantity(length, FT), Quantity(height, FT)
    spacing = w.step(f"{key}/spacing", "min(ratio * height, most)", FT, "joints.step.block-spacing",
                     ratio=ratio, height=high, most=most)  # fmt: skip
    if not ask.block_joints:
        if at_most(float(length), spacing.value):
            return
        count = w.step(f"{key}/joints", "ceil(length / spacing) - 1", "", "joints.step.block-joints",
                       length=long, spacing=spacing)  # fmt: skip
        near = w.step(f"{key}/corner", "spacing * part", FT, "joints.step.block-corner", spacing=spacing, part=part)
        w.note("joints.block-without-joints", "caution", at, rules=(ratio.id, most.id, part.id, usual.id),
               length=long, spacing=spacing, joints=count, near=near, usual=usual)  # fmt: skip
        return
    left = min(c.u for c in ask.surface.outline)
    right = max(c.u for c in ask.surface.outline)
    marks = sorted({left, *ask.block_joints, right})
    widest = max(b - a for a, b in pairwise(marks))
    if not at_most(float(widest), spacing.value):
        w.note("joints.block-far-apart", "caution", at, rules=(ratio.id, most.id, usual.id),
               widest=Quantity(widest, FT), spacing=spacing, usual=usual)  # fmt: skip
