"""A surface as it was measured: outline, edges that know what they are, openings, zones.

Seen from outside: u to the right, v up, metres, origin at the lower left. Nothing is addressed by index.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from quicktions import Fraction

Length = Fraction
"""Exact metres."""

EdgeKind = Literal[
    "outside corner", "inside corner", "base", "grade", "sill", "head", "jamb", "top", "roof line",
    "drip", "flashing", "soffit", "floor line", "change of base", "meets old work",
]  # fmt: skip
EDGE_KINDS: tuple[str, ...] = get_args(EdgeKind)

Side = Literal["head", "sill", "left", "right"]

BaseKind = Literal[
    "block", "concrete", "frame", "lath over block", "painted block", "brick", "stone", "old plaster",
    "painted plaster",
]  # fmt: skip
BASE_KINDS: tuple[str, ...] = get_args(BaseKind)


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of an outline.

    ``bulge`` = tan(quarter of the arc's angle) of the side that starts here, as in open DXF: positive bends
    counter-clockwise, to the right of the way from this corner to the next.
    """

    id: str
    u: Length
    v: Length
    bulge: float = 0.0


@dataclass(frozen=True, slots=True)
class Meets:
    """What the edge meets: old work ``thickness`` thick [m] whose face stands ``proud`` [m] of our bare base.

    ``proud`` is None where nobody measured it: then the old plaster's own thickness is taken, and noted.
    """

    what: Literal["old plaster", "trim", "roof", "other base"]
    thickness: Length | None = None
    proud: Length | None = None


@dataclass(frozen=True, slots=True)
class Edge:
    """The side of an outline that starts at corner ``start``.

    ``shared`` names the corner line two surfaces have in common: it is one corner, and counted once.
    """

    id: str
    kind: EdgeKind
    start: str
    shared: str | None = None
    meets: Meets | None = None


@dataclass(frozen=True, slots=True)
class Opening:
    """A hole: its outline, depth of reveal [m], depth of frame [m], and which reveals are plastered."""

    id: str
    name: str
    outline: tuple[Corner, ...]
    reveal: Length = Fraction(0)
    frame_depth: Length | None = None
    plastered: frozenset[Side] = frozenset()


@dataclass(frozen=True, slots=True)
class Zone:
    """A part of a surface with one base. ``outline`` None = the rest of the surface.

    ``traits`` are facts of the base in the trade's words: "lightweight", "dense", "joints flush", "joints struck" ...
    """

    id: str
    base: str
    outline: tuple[Corner, ...] | None = None
    traits: frozenset[str] = frozenset()
    out_of_plane: Length | None = None


@dataclass(frozen=True, slots=True)
class Projection:
    """A part of a surface that stands ``out`` of its face [m]: a pilaster. Its front is the surface's own area."""

    id: str
    outline: tuple[Corner, ...]
    out: Length


@dataclass(frozen=True, slots=True)
class Surface:
    """One surface, or ``count`` equal ones. ``shape`` names what wrote it, if a shape did.

    ``projections`` stand out of it; they change no area, for their sides are a surface of their own.
    ``says``: which part of a shape it is, and what the person called the shape, so that a reader in another language
    is told the part in his own (``words.surface_called``); None where the whole ``name`` is the person's.
    ``facing`` degrees from north; ``tilt`` 90 wall, 180 soffit, 0 top; ``foot`` above standing ground [m].
    """

    id: str
    name: str
    outline: tuple[Corner, ...]
    edges: tuple[Edge, ...]
    openings: tuple[Opening, ...] = ()
    zones: tuple[Zone, ...] = ()
    facing: float | None = None
    tilt: float = 90.0
    foot: Length = Fraction(0)
    count: int = 1
    shape: str | None = None
    projections: tuple[Projection, ...] = ()
    says: tuple[str, str] | None = None
