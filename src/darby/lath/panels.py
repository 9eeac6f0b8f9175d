"""Joints cut the lath into panels: what hangs together without crossing a joint."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from darby.lath.face import Face, Rect
from darby.lath.model import Joint
from darby.measure.faults import Fault, Unreadable
from darby.measure.surface import Length


@dataclass(frozen=True, slots=True)
class Panel:
    """Rectangles that hang together, and the upright joints that end within them: (u, low, high) [m].

    ``seam``: its foot is no joint all along, but the lath below is parted from it for a joint that ends there.
    """

    parts: tuple[Rect, ...]
    upright: tuple[tuple[Length, Length, Length], ...]
    seam: bool = False

    @property
    def box(self) -> Rect:
        """The rectangle around all parts."""
        lefts, rights, lows, highs = zip(*self.parts, strict=True)
        return Rect(min(lefts), max(rights), min(lows), max(highs))


def panels(face: Face, joints: Sequence[Joint], at: str) -> list[Panel]:
    """The panels of a face, from the foot up and from left to right.

    A level joint that ends within what hangs together (at a window, say) parts it from end to end.

    Raises
    ------
    Unreadable
        ``lath.joint-slanted`` for a joint that is neither level nor plumb.
    """
    upright, level = [], []
    for joint in joints:
        (u, v), (far, top) = sorted((joint.start, joint.end))
        if u == far and v != top:
            upright.append((u, min(v, top), max(v, top)))
        elif v == top and u != far:
            level.append((v, u, far))
        else:
            raise Unreadable(Fault("lath.joint-slanted", at, joint.id, "0, 90"))
    left, right, low, high = face.box
    us = _lines(left, right, [u for u, *_ in upright], [x for _, *ends in level for x in ends])
    vs = _lines(low, high, [v for v, *_ in level], [x for _, *ends in upright for x in ends])
    cells = {
        (i, j): Rect(a, b, c, d)
        for i, (a, b) in enumerate(pairwise(us))
        for j, (c, d) in enumerate(pairwise(vs))
        if face.slabs(Rect(a, b, c, d))
    }
    found = _together(cells, face, upright, level)
    return [_panel(parts, upright, n > 0) for group in found for n, parts in enumerate(_parted(group, level))]


def _lines(first: Length, last: Length, joints: Sequence[Length], ends: Sequence[Length]) -> list[Length]:
    return sorted({first, last, *(x for x in (*joints, *ends) if first < x < last)})


Cell = tuple[int, int]


def _together(
    cells: dict[Cell, Rect],
    face: Face,
    upright: Sequence[tuple[Length, Length, Length]],
    level: Sequence[tuple[Length, Length, Length]],
) -> list[list[Rect]]:
    """Cells joined over every side that has wall on it and no joint."""
    root = {cell: cell for cell in cells}

    def find(cell: Cell) -> Cell:
        while root[cell] != cell:
            cell = root[cell]
        return cell

    for (i, j), (_, right, low, high) in cells.items():
        beside = cells.get((i + 1, j))
        cut = any(u == right and bottom <= low and high <= top for u, bottom, top in upright)
        if beside is not None and not cut and _touch(face, cells[i, j], beside):
            root[find((i + 1, j))] = find((i, j))
    for (i, j), (left, right, _, high) in cells.items():
        above = cells.get((i, j + 1))
        cut = any(v == high and start <= left and right <= end for v, start, end in level)
        if above is not None and not cut:
            root[find((i, j + 1))] = find((i, j))
    groups: dict[Cell, list[Rect]] = {}
    for cell in sorted(cells, key=lambda c: (c[1], c[0])):
        groups.setdefault(find(cell), []).append(cells[cell])
    return list(groups.values())


def _touch(face: Face, one: Rect, other: Rect) -> bool:
    """Whether wall runs on over the upright side between two cells."""
    here, there = face.slabs(one)[-1], face.slabs(other)[0]
    over = (max(low, bottom) < min(high, top) for low, high in here.spans for bottom, top in there.spans)
    return here.right == there.left and any(over)


def _parted(group: Sequence[Rect], level: Sequence[tuple[Length, Length, Length]]) -> list[list[Rect]]:
    """A group parted at the level joints that lie within it."""
    lows = {rect.low for rect in group}
    inner = [
        v
        for v, start, end in sorted(level)
        if v in lows and any(r.high == v and start <= r.left and r.right <= end for r in group)
    ]
    bounds = [min(lows), *inner, max(rect.high for rect in group)]
    bands = [[r for r in group if low <= r.low and r.high <= high] for low, high in pairwise(sorted(set(bounds)))]
    return [band for band in bands if band]


def _panel(parts: Sequence[Rect], upright: Sequence[tuple[Length, Length, Length]], seam: bool) -> Panel:
    edges = {rect.right for rect in parts} & {rect.left for rect in parts}
    return Panel(tuple(parts), tuple(joint for joint in upright if joint[0] in edges), seam)
