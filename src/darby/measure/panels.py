"""A wall whose foot or top is not level: the end of a garden wall under a wash, the side of a chimney on a roof.

Ids as ``shapes.wall`` writes them; beside a ridge the lower edge is ``base-left`` and ``base-right``, from the corner
``base-peak``.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.shapes import FREE_END, UPRIGHT, WallSide
from darby.measure.surface import Corner, Edge, EdgeKind, Length, Opening, Surface, Zone

NOUGHT = Fraction(0)


@dataclass(frozen=True, slots=True)
class Line:
    """The lower or the upper edge of a panel: its height at the left and at the right, and where it peaks (u, v) [m].

    ``shared`` names the corner line that it has in common with another surface; left of a peak ``shared_left`` does.
    """

    kind: EdgeKind
    left: Length = NOUGHT
    right: Length = NOUGHT
    peak: tuple[Length, Length] | None = None
    shared: str | None = None
    shared_left: str | None = None

    @property
    def lowest(self) -> Length:
        """Its lowest point [m]."""
        return min(self.left, self.right)


def panel(
    id: str,
    name: str,
    width: Length,
    low: Line,
    high: Line,
    *,
    left: WallSide = FREE_END,
    right: WallSide = FREE_END,
    openings: Iterable[Opening] = (),
    zones: Iterable[Zone] = (),
    facing: float | None = None,
    tilt: float = UPRIGHT,
    foot: Length = NOUGHT,
    count: int = 1,
    shape: str | None = None,
) -> Surface:
    """A panel ``width`` [m] wide between two lines; its lowest point is put at 0, and ``foot`` raised by as much.

    Both lines are given over one level, and the upper one lies above the lower one at every corner.
    """
    down = low.lowest
    corners = [Corner("base-left", NOUGHT, low.left - down)]
    edges = []
    if low.peak is not None:
        corners.append(Corner("base-peak", low.peak[0], low.peak[1] - down))
        edges.append(Edge("base-left", low.kind, "base-left", low.shared_left))
        edges.append(Edge("base-right", low.kind, "base-peak", low.shared))
    else:
        edges.append(Edge("base", low.kind, "base-left", low.shared))
    corners.append(Corner("base-right", width, low.right - down))
    edges.append(Edge("right", right.kind, "base-right", right.shared, right.meets))
    corners.append(Corner("top-right", width, high.right - down))
    if high.peak is not None:
        corners.append(Corner("peak", high.peak[0], high.peak[1] - down))
        edges.append(Edge("top-right", high.kind, "top-right", high.shared))
        edges.append(Edge("top-left", high.kind, "peak", high.shared_left))
    else:
        edges.append(Edge("top", high.kind, "top-right", high.shared))
    corners.append(Corner("top-left", NOUGHT, high.left - down))
    edges.append(Edge("left", left.kind, "top-left", left.shared, left.meets))
    return Surface(
        id=id,
        name=name,
        outline=tuple(corners),
        edges=tuple(edges),
        openings=tuple(openings),
        zones=tuple(zones),
        facing=facing,
        tilt=tilt,
        foot=foot + down,
        count=count,
        shape=shape,
    )
