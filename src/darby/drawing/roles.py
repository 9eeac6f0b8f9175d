"""The one table of what a line means: its weight and dash, its CSS class, its DXF layer.

Weights, dashes and sizes are those of the look's line table, in pixels; paper draws them at 0.6 pt to the pixel.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

Ink = Literal["ground", "ink", "ink2", "hair", "faint", "brick", "slate"]
Fill = Literal["", "ground", "plaster", "hair", "ink"]
Layer = Literal["", "sizes", "block", "joints", "grounds", "lath"]

DAY: Mapping[str, str] = MappingProxyType({
    "ground": "#FBF9F2", "ink": "#2A2E31", "ink2": "#565B5E", "hair": "#B4B2A6", "faint": "#D9D6CA",
    "brick": "#98391F", "slate": "#2F5578", "plaster": "#E6E1D3",
})  # fmt: skip
"""The colours by day; on paper the ground is white."""
PAPER_GROUND = "#FFFFFF"

HALO = 4.0
"""Width of the ground-coloured halo round lettering [px]."""


@dataclass(frozen=True, slots=True)
class Hatch:
    """What fills a hatched area.

    ``family``: lines (parallel, ``angle`` degrees, ``pitch`` px), diamonds (``pitch`` px wide), courses (real block
    coursing), strokes and dots (scattered, one to ``pitch`` px square, ``size`` px long or wide), solid.
    """

    family: Literal["lines", "diamonds", "courses", "strokes", "dots", "solid"]
    pitch: float = 0.0
    angle: float = 45.0
    size: float = 0.0


@dataclass(frozen=True, slots=True)
class Role:
    """One row of the table. ``css`` is the class, ``dxf`` the layer ("" = not in a DXF), ``aci`` its colour."""

    weight: float
    ink: Ink
    css: str
    dxf: str
    aci: int
    dash: tuple[float, ...] = ()
    fill: Fill = ""
    layer: Layer = ""
    hatch: Hatch | None = None
    symbol: Literal["", "tag", "ground", "ringed ground", "dot"] = ""
    size: float = 0.0
    halo: bool = False
    round: bool = False

    @property
    def pen(self) -> float:
        """Width of the pen: a dot is as wide as it is large."""
        return self.hatch.size if self.hatch is not None and self.hatch.family == "dots" else self.weight


ROLES: Mapping[str, Role] = MappingProxyType({
    # the wall
    "outline": Role(3, "ink", "d-outline", "WALL", 7),
    "arris": Role(1.75, "ink", "d-arris", "WALL", 7),
    "apron": Role(3.5, "ink", "d-apron", "GRADE", 7),
    "earth": Role(1, "ink2", "d-earth", "GRADE", 8, hatch=Hatch("lines", 9, 45)),
    "opening": Role(1.75, "ink", "d-opening", "OPENINGS", 7, fill="ground"),
    "swing": Role(0.9, "ink2", "d-swing", "OPENINGS", 8, dash=(6, 4)),
    "fine": Role(1, "faint", "d-fine", "OPENINGS", 9),
    "roof": Role(1.2, "ink", "d-roof", "ROOF", 7, fill="ground"),
    "zone edge": Role(1.1, "ink2", "d-zone-edge", "ZONES", 8, dash=(3, 3)),
    # its base
    "block": Role(1, "faint", "d-block", "BLOCK", 9, layer="block", hatch=Hatch("courses")),
    "concrete": Role(1, "hair", "d-concrete", "CONCRETE", 9, layer="block",
                     hatch=Hatch("dots", 11, size=0.9), round=True),
    "brick": Role(1, "faint", "d-brick", "BRICK", 9, layer="block", hatch=Hatch("lines", 6, 0)),
    "stone": Role(1, "hair", "d-stone", "STONE", 9, layer="block", hatch=Hatch("strokes", 16, size=9), round=True),
    "old base": Role(1, "hair", "d-old-base", "OLD_BASE", 9, layer="block",
                     hatch=Hatch("strokes", 9, size=3), round=True),
    "lath": Role(1, "ink2", "d-lath", "LATH", 9, layer="block", hatch=Hatch("diamonds", 13, 60)),
    # what stands next to it
    "old work": Role(1.75, "ink", "d-old", "OLD", 7, fill="ground"),
    "old dash": Role(1.1, "ink2", "d-old-dash", "OLD", 8,
                     hatch=Hatch("strokes", 7.5, size=3), round=True),
    "break": Role(1, "ink2", "d-break", "BREAK", 8),
    "gap": Role(5, "ground", "d-gap", "", 0, layer="joints"),
    "parting": Role(2, "ink", "d-parting", "JOINTS", 7, layer="joints"),
    "joint": Role(2, "ink", "d-joint", "JOINTS", 7, dash=(14, 4, 2.5, 4), layer="joints"),
    "joint line": Role(0.9, "ink2", "d-joint-line", "JOINTS", 8, layer="joints"),
    "tag": Role(1.6, "ink", "d-tag", "JOINTS", 7, fill="ground", layer="joints", symbol="tag", size=9.5),
    "pin": Role(0, "ink", "d-pin", "JOINTS", 7, fill="ink", layer="joints", symbol="dot", size=4.4),
    "no joint": Role(1.1, "ink2", "d-no-joint", "JOINTS", 8, dash=(2, 4), layer="joints"),
    # lath as it is put up
    "stud": Role(1, "hair", "d-stud", "STUDS", 9, dash=(2, 4), layer="lath"),
    "paper course": Role(1.1, "slate", "d-paper-course", "PAPER", 5, dash=(7, 3), layer="lath"),
    "sheet": Role(1.2, "ink", "d-sheet", "SHEETS", 7, layer="lath"),
    "end lap": Role(3, "ink", "d-end-lap", "SHEETS", 7, layer="lath"),
    "lath strip": Role(1, "ink2", "d-lath-strip", "SHEETS", 8, layer="lath", hatch=Hatch("lines", 5, 45)),
    "sheet number": Role(0, "ink", "d-sheet-number", "SHEETS", 7, layer="lath", halo=True),
    # grounds
    "ground": Role(1.9, "ink", "d-ground", "GROUNDS", 7, layer="grounds", symbol="ground", size=4.2, halo=True),
    "ground ring": Role(1.5, "brick", "d-ground-ring", "GROUNDS", 1, layer="grounds"),
    "ground past": Role(2.6, "brick", "d-ground-past", "GROUNDS", 1, layer="grounds", symbol="ringed ground",
                        size=4.2, halo=True),
    "contour": Role(0.9, "ink2", "d-contour", "GROUNDS", 8, layer="grounds"),
    "unread": Role(1.1, "ink2", "d-unread", "GROUNDS", 8, dash=(2, 5), layer="grounds"),
    "past": Role(1.1, "brick", "d-past", "GROUNDS", 1, layer="grounds", hatch=Hatch("lines", 6, 45)),
    # what was found on an old wall, and a patch in it
    "hollow": Role(1.1, "ink", "d-hollow", "FOUND", 7, hatch=Hatch("lines", 6, 120)),
    "loose": Role(1, "ink2", "d-loose", "FOUND", 8, hatch=Hatch("dots", 7, size=1.8), round=True),
    "found edge": Role(1.1, "ink", "d-found-edge", "FOUND", 7, dash=(6, 3)),
    "crack": Role(1.9, "ink", "d-crack", "FOUND", 7),
    "crack moving": Role(2.6, "brick", "d-crack-moving", "FOUND", 1, dash=(9, 3)),
    "tap": Role(0, "ink2", "d-tap", "TAPS", 8, fill="ink", symbol="dot", size=1.1),
    "tap hollow": Role(1.5, "ink", "d-tap-hollow", "TAPS", 7, fill="ground", symbol="dot", size=3),
    "new paper": Role(1.6, "slate", "d-new-paper", "PATCH", 5, dash=(6, 2.5)),
    "lath tie": Role(1.6, "ink", "d-lath-tie", "PATCH", 7, dash=(2, 3)),
    # sizes and lettering
    "dimension": Role(0.9, "ink2", "d-dim", "SIZES", 8, layer="sizes", halo=True),
    "tick": Role(1.7, "ink", "d-tick", "SIZES", 7, layer="sizes", size=8),
    "figure": Role(0, "ink", "d-figure", "SIZES", 7, layer="sizes", halo=True),
    "letter": Role(0, "ink", "d-letter", "LETTERING", 7, halo=True),
    "note": Role(0, "ink2", "d-note", "LETTERING", 8, halo=True),
    # the cut
    "cut edge": Role(1.75, "ink", "d-cut-edge", "CUT", 7),
    "face": Role(2.6, "ink", "d-face", "CUT", 7),
    "coat line": Role(1, "ink", "d-coat", "CUT", 7, dash=(5, 3)),
    "cut block": Role(0.9, "ink2", "d-cut-block", "CUT", 8, hatch=Hatch("lines", 8, 45)),
    "cut concrete": Role(0.9, "ink2", "d-cut-concrete", "CUT", 8,
                         hatch=Hatch("dots", 7, size=1.8), round=True),
    "cut wood": Role(0.9, "ink2", "d-cut-wood", "CUT", 8, hatch=Hatch("lines", 5, 0)),
    "paper": Role(1.4, "slate", "d-paper", "CUT", 5, dash=(6, 2.5)),
    "cut lath": Role(1.8, "ink", "d-cut-lath", "CUT", 7),
    "plaster": Role(0, "ink", "d-plaster", "CUT", 9, fill="plaster", hatch=Hatch("solid")),
    "mortar": Role(1, "ink", "d-mortar", "CUT", 9, fill="hair", hatch=Hatch("solid")),
    "base coat": Role(1, "ink2", "d-base-coat", "CUT", 8,
                      hatch=Hatch("dots", 5.2, size=1.8), round=True),
    "finish coat": Role(1, "ink2", "d-finish-coat", "CUT", 8,
                        hatch=Hatch("dots", 4, size=1), round=True),
    "leader": Role(0.9, "ink2", "d-leader", "LETTERING", 8),
    "dot": Role(0, "ink", "d-dot", "LETTERING", 7, fill="ink", symbol="dot", size=2.3),
})  # fmt: skip


def stylesheet() -> str:
    """CSS for a page: every class of the table, in the page's own colours (``var(--ink)`` ...), so evening works."""
    rules = []
    for role in ROLES.values():
        if role.symbol == "dot":
            rules.append(f".{role.css}{{fill:{_on_page(role.ink)}}}")
            continue
        stroke = f"stroke:{_on_page(role.ink)};stroke-width:{role.pen:g}" if role.pen else "stroke:none"
        dash = f";stroke-dasharray:{' '.join(f'{d:g}' for d in role.dash)}" if role.dash else ""
        rules.append(f".{role.css}{{fill:{_on_page(role.fill) if role.fill else 'none'};{stroke}{dash}}}")
        halo = f"stroke:{_on_page('ground')};stroke-width:{HALO:g}" if role.halo else "stroke:none"
        rules.append(f"text.{role.css}{{fill:{_on_page(role.ink)};{halo}}}")
    return "\n".join(rules) + "\n"


def _on_page(colour: str) -> str:
    return f"var(--{'lime' if colour == 'ground' else colour})"
