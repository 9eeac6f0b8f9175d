"""A wall with its grounds: a cross at each with the plaster beside it, ringed past what may hang without lath."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import hypot

from darby.drawing.elevation import Joint, elevation
from darby.drawing.lettering import inches
from darby.drawing.model import Mark
from darby.measure.surface import Surface
from darby.measure.units import IN, System
from darby.measure.writing import number
from darby.words import Language

NEAR = 6 * float(IN)
"""A corner so near to a ground is set with it: one cross is drawn."""
UNREAD = "?"
MM = 1000


@dataclass(frozen=True, slots=True)
class Set:
    """A ground or a corner at (``u``, ``v``) [m] with the plaster on it [m]; ``known``: a reading is near."""

    u: float
    v: float
    depth: float
    past: bool = False
    known: bool = True


def grounds_on(surface: Surface, sets: Sequence[Set], *, joints: Iterable[Joint] = (), language: Language = "en",
               system: System = "us") -> tuple[Mark, ...]:  # fmt: skip
    """The wall with a cross at each of ``sets``; where no reading is near a question mark stands behind the depth."""
    marks = list(elevation(surface, joints=joints, language=language, system=system))
    drawn: list[Set] = []
    for one in sets:
        if any(hypot(one.u - other.u, one.v - other.v) < NEAR for other in drawn):
            continue
        drawn.append(one)
        thick = inches(one.depth) if system == "us" else number(one.depth * MM)
        text = thick + ("" if one.known else UNREAD)
        marks.append(Mark("symbol", ((one.u, one.v),), "ground past" if one.past else "ground", surface.id, text))
    return tuple(marks)
