"""Strips of lath: round corners, and from the face into the reveals of openings."""

from __future__ import annotations

from quicktions import Fraction

from darby.lath.courses import Rules
from darby.lath.face import NOUGHT, Face
from darby.lath.model import Corner, LathAsk, Opening, Strip
from darby.lath.paper import exact
from darby.lath.sheets import Stack
from darby.measure.limits import whole
from darby.measure.surface import Length
from darby.rulebook import Figure
from darby.working import Working


def turn_of(working: Working, ask: LathAsk, corner: Corner) -> Figure:
    """How far lath goes round a corner, by the voice that is followed."""
    figure = ask.book.number("lath.corner.return", corner=corner.kind)
    working.note(f"lath.corner-{corner.how}", "fact", ask.at, rules=(figure.id,), edge=corner.id, leg=figure)
    return figure


def turns(working: Working, ask: LathAsk) -> tuple[Length, Length]:
    """What the sheets are carried round the left and the right end [m]."""
    carried = {"left": NOUGHT, "right": NOUGHT}
    for corner in ask.corners:
        if corner.how == "round":
            carried[corner.side] = exact(turn_of(working, ask, corner))
    return carried["left"], carried["right"]


def corner_strips(working: Working, ask: LathAsk, face: Face, rules: Rules) -> list[Strip]:
    """Corner lath over the corners that want it: as long as the wall there, a leg on either side."""
    found: list[Strip] = []
    for corner in ask.corners:
        if corner.how != "strip":
            continue
        leg = exact(turn_of(working, ask, corner))
        u = face.box[0] if corner.side == "left" else face.box[1]
        for low, high in face.spans_at(u):
            for length in _lengths(high - low, rules):
                name = f"{corner.id}-{len(found) + 1}"
                found.append(Strip(name, corner.id, corner.side, length, 2 * leg, leg))
    return found


def reveal_strips(working: Working, ask: LathAsk, rules: Rules, stack: Stack) -> list[Strip]:
    """Strips that go from the face round into the reveals, cut from the sheets and what is left of them."""
    found: list[Strip] = []
    lathed = [(opening, reveal) for opening in ask.openings for reveal in opening.reveals]
    if not lathed:
        return found
    figure = ask.book.number("lath.corner.return", corner="outside")
    leg = exact(figure)
    working.note("lath.reveal-strips", "fact", ask.at, rules=(figure.id,), leg=figure)
    for opening, reveal in lathed:
        side = _side(opening, reveal.side)
        for width, on_face in _widths(reveal.depth, leg, rules):
            for length in _lengths(side, rules):
                taken = stack.cut(length, width)
                name = f"{opening.id}-{reveal.side}-{len(found) + 1}"
                found.append(Strip(name, opening.id, reveal.side, length, width, on_face, taken.sheet, taken.reused))
    return found


def _side(opening: Opening, side: str) -> Length:
    """How long a side of an opening is: its height or its width, over all."""
    along = [v if side in ("left", "right") else u for u, v in opening.outline]
    return max(along) - min(along)


def _lengths(length: Length, rules: Rules) -> list[Length]:
    """A run of strip in lengths of the sheet, lapped end to end."""
    if length <= 0:
        return []
    count = max(1, whole((length - rules.end_lap) / rules.reach))
    rest = length - (count - 1) * rules.reach
    return [rules.length] * (count - 1) + [rest]


def _widths(depth: Length, leg: Length, rules: Rules) -> list[tuple[Length, Length]]:
    """(width, how much of it is on the face) of strips side by side, the one round the corner first."""
    whole_width = depth + leg
    if whole_width <= rules.width:
        return [(whole_width, leg)]
    count = whole(Fraction(whole_width - rules.side_lap) / rules.step)
    rest = whole_width - (count - 1) * rules.step
    return [(rules.width, leg), *[(rules.width, NOUGHT)] * (count - 2), (rest, NOUGHT)]
