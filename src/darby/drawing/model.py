"""A mark on a drawing, and the sheet it is drawn on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from quicktions import Fraction

from darby.measure.units import FT, IN, System

Kind = Literal["line", "polyline", "polygon", "arc", "text", "dimension", "hatch", "symbol"]
KINDS: tuple[str, ...] = get_args(Kind)

Point = tuple[float, float]
"""(u right, v up) in metres, seen from outside."""

Side = Literal["below", "right", "left", "above"]


@dataclass(frozen=True, slots=True)
class Mark:
    """One thing drawn. ``points`` are metres; what depends on the size of the lettering is left to the sheet.

    Parameters
    ----------
    kind
        line (two points), polyline, polygon, arc (start, end; its ``bulges`` has one number), text and symbol (one
        point), dimension (two points), hatch (the outline of what is hatched).
    role
        key of ``roles.ROLES``: line weight, dash, CSS class and DXF layer.
    ref
        what is drawn: "bay-south/engine-door". Becomes the id in the SVG.
    text
        lettering; of a dimension what it measures, of a symbol what stands in or beside it. A line break is
        a good place to break, and the part behind it may be left out where there is no room.
    bulges
        polyline, polygon, arc: tan(quarter of the angle) of the side that starts at each point; empty = straight.
    holes
        hatch: outlines that are left out.
    origin
        hatch: where coursing starts; the first point if None.
    turn
        text: 0 reads from below, 90 from the right.
    room
        text: width and height [m] it must fit into; it is broken, turned or at last left out. None: no limit.
    upright
        text: never turned to fit its room, but left out: a 6 that is turned reads as a 9.
    anchor, shift
        text: which end stands at the point; moved right and up in heights of the lettering.
    side, row
        dimension: which side of the drawing its string stands on, and the how-manieth string out.
    aside
        polyline: drawn this many line-table pixels to the left of its run.
    """

    kind: Kind
    points: tuple[Point, ...]
    role: str
    ref: str = ""
    text: str = ""
    bulges: tuple[float, ...] = ()
    holes: tuple[tuple[Point, ...], ...] = ()
    origin: Point | None = None
    turn: float = 0.0
    room: tuple[float, float] | None = None
    anchor: Literal["start", "middle", "end"] = "middle"
    shift: tuple[float, float] = (0.0, 0.0)
    side: Side = "below"
    row: int = 0
    aside: float = 0.0
    upright: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a drawing is drawn on. The same marks on another sheet are another drawing, not one shrunk.

    Parameters
    ----------
    name
        "phone", "laptop", "paper" ...; begins every id of the SVG.
    scale
        sheet units a metre.
    lettering
        height of lettering in sheet units.
    unit
        px on a screen, pt on paper.
    weight
        a line of the line table is this many sheet units for one pixel.
    font
        CSS font family; "" leaves it to the page.
    wide
        width of this lettering against the table in ``lettering.py``.
    words
        the scale as it is printed, without the sentence round it ("3/16", "1:50"); "" on a screen.
    """

    name: str
    scale: float
    lettering: float
    unit: Literal["px", "pt"] = "px"
    weight: float = 1.0
    font: str = ""
    wide: float = 1.0
    words: str = ""

    def metres(self, length: float) -> float:
        """A length on the sheet [sheet units] as metres on the wall."""
        return length / self.scale


PAPER_FONT = "Libertinus Serif"


def _paper(inches: Fraction, words: str) -> Sheet:
    """A paper sheet on which one foot of wall is ``inches`` long."""
    return Sheet(f"paper-{inches.numerator}-{inches.denominator}", float(inches * 72 / FT), 9.0, "pt", 0.6,
                 PAPER_FONT, 1.0, words)  # fmt: skip


def _ratio(to: int) -> Sheet:
    """A paper sheet on which the wall is one in ``to``."""
    return Sheet(f"paper-1-in-{to}", float(72 / IN / to), 9.0, "pt", 0.6, PAPER_FONT, 1.0, f"1:{to}")


PHONE = Sheet("phone", 12.3 / float(FT), 13.5, wide=1.08)
LAPTOP = Sheet("laptop", 21 / float(FT), 15.5, wide=1.08)
PAPER = _paper(Fraction(3, 16), "3/16")
PAPERS: tuple[Sheet, ...] = (
    _paper(Fraction(1, 4), "1/4"), PAPER, _paper(Fraction(1, 8), "1/8"),
    _paper(Fraction(3, 32), "3/32"), _paper(Fraction(1, 16), "1/16"), _paper(Fraction(1, 32), "1/32"),
    _paper(Fraction(1, 64), "1/64"),
)  # fmt: skip
"""Usual scales, largest first: inches of paper to the foot of wall."""

METRIC_PAPERS: tuple[Sheet, ...] = tuple(_ratio(to) for to in (20, 25, 50, 75, 100, 150, 200, 250, 500, 1000))
"""Usual scales of metric sheets, largest first."""

CUT_PHONE = Sheet("cut-phone", 80 / float(IN), 13.5, wide=1.08)
CUT_LAPTOP = Sheet("cut-laptop", 96 / float(IN), 15.5, wide=1.08)
CUT_PAPER = Sheet("cut-paper", 72 / float(IN), 10.0, "pt", 0.6, PAPER_FONT, 1.0, "full size")
"""Cuts: on paper full size."""

__all__ = [
    "CUT_LAPTOP", "CUT_PAPER", "CUT_PHONE", "KINDS", "LAPTOP", "METRIC_PAPERS", "PAPER", "PAPERS", "PHONE",
    "Kind", "Mark", "Point", "Sheet", "Side", "System",
]  # fmt: skip
