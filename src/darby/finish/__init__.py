"""Matching a finish: what the old face is made of, and the sample boards that lead to it.

``MatchAsk`` is what is asked; ``Match`` is what is answered. No camera: sieves or comparison grains, a depth
micrometer, coats of paint.
"""

from __future__ import annotations

from darby.finish.boards import method_word, named
from darby.finish.matching import match
from darby.finish.model import (
    Board,
    Candidate,
    Grade,
    Match,
    MatchAsk,
    Method,
    OnSieve,
    OwnBoard,
    Paint,
    PaintKind,
    Relief,
    Sand,
    Sieve,
    Signed,
)
from darby.finish.sieves import sieves

__all__ = [
    "Board", "Candidate", "Grade", "Match", "MatchAsk", "Method", "OnSieve", "OwnBoard", "Paint", "PaintKind",
    "Relief", "Sand", "Sieve", "Signed", "match", "method_word", "named", "sieves",
]  # fmt: skip
