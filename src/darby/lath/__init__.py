"""Lath and paper, sheet by sheet: courses, laps, ends over framing, cut at joints and openings, offcuts used up.

``lay_lath(ask)`` lays one zone of one surface.
"""

from darby.lath.laying import lay_lath
from darby.lath.model import (
    Corner,
    EndJoint,
    Joint,
    Lath,
    LathAsk,
    Offcut,
    Opening,
    Paper,
    PaperStrip,
    Piece,
    Reveal,
    Roll,
    Strip,
)

__all__ = [
    "Corner",
    "EndJoint",
    "Joint",
    "Lath",
    "LathAsk",
    "Offcut",
    "Opening",
    "Paper",
    "PaperStrip",
    "Piece",
    "Reveal",
    "Roll",
    "Strip",
    "lay_lath",
]
