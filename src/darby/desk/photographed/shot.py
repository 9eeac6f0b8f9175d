"""What was marked, drawn over the photograph: known points, openings, lengths, and the wall as the marks see it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from darby.desk.photographed.worked import sides_seen

if TYPE_CHECKING:
    from darby.desk.photographed.worked import Point, Worked
    from darby.measure.surface import Surface

WIDE = {"narrow": 358.0, "wide": 720.0}
"""How wide the picture stands on a phone and a laptop [px]; marks are drawn for either, none shrunk."""
ARM, LETTER, GRAB, AWAY = 9.0, 15.0, 22.0, 6.0
"""Half a cross, height of lettering, half of what a finger takes hold of, and lettering from its cross [px as seen]."""
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class _Pen:
    scale: float

    def text(self, x: float, y: float, words: str) -> str:
        size, off = LETTER * self.scale, AWAY * self.scale
        return f'<text x="{x + off:.1f}" y="{y - off:.1f}" font-size="{size:.1f}">{words}</text>'

    def point(self, place: str, x: float, y: float, words: str) -> str:
        arm = ARM * self.scale
        cross = f'<path class="pt" d="M{x - arm:.1f} {y:.1f}h{2 * arm:.1f}M{x:.1f} {y - arm:.1f}v{2 * arm:.1f}"/>'
        grab = f'<circle class="grab" data-at="{place}" cx="{x:.1f}" cy="{y:.1f}" r="{GRAB * self.scale:.1f}"/>'
        return f"<g>{cross}{self.text(x, y, words) if words else ''}{grab}</g>"

    def tick(self, x: float, y: float) -> str:
        half = ARM / 2 * self.scale
        return f'<path class="tick" d="M{x - half:.1f} {y + half:.1f}L{x + half:.1f} {y - half:.1f}"/>'


def letter(n: int) -> str:
    """A, B … Z, A1, B1 …: an opening's letter, by its row."""
    round_, at = divmod(n, len(LETTERS))
    return LETTERS[at] + (str(round_) if round_ else "")


def drawn(worked: Worked, size: tuple[int, int], surface: Surface | None) -> str:
    """SVG groups in the picture's own pixels: one for a phone, one for a laptop."""
    return "".join(
        f'<g class="{name}">{_layer(worked, _Pen(size[0] / wide), surface)}</g>' for name, wide in WIDE.items()
    )


def _layer(worked: Worked, pen: _Pen, surface: Surface | None) -> str:
    parts: list[str] = []
    if worked.straight is not None and surface is not None:
        outline = [(float(c.u), float(c.v)) for c in surface.outline]
        parts += [_side("wall-line", *side) for side in sides_seen(worked.straight, outline)]
    for n, sides in worked.corners.items():
        parts += [_side("frame-line", *side) for side in sides]
        x, y = min(p[0] for p in sides), max(p[1] for p in sides)
        parts.append(pen.text(x, y, letter(n)))
    by_row: dict[str, list[tuple[str, Point]]] = {}
    for place, point in worked.points.items():
        kind, row, *_ = place.split()
        by_row.setdefault(f"{kind} {row}", []).append((place, point))
    for row, points in by_row.items():
        parts.append(_row(worked, pen, row, points))
    return "".join(parts)


def _row(worked: Worked, pen: _Pen, row: str, points: list[tuple[str, Point]]) -> str:
    kind, _, number = row.partition(" ")
    n = int(number)
    if kind == "mark":
        return "".join(pen.point(place, x, y, str(n + 1)) for place, (x, y) in points)
    if kind == "frame":
        return "".join(pen.point(place, x, y, "") for place, (x, y) in points)
    made = [pen.point(place, x, y, "") + pen.tick(x, y) for place, (x, y) in points]
    if len(points) > 1:
        (_, (x1, y1)), (_, (x2, y2)) = points
        told = worked.lines.get(n)
        made.append(_side("length-line", x1, y1, x2, y2))
        made.append(
            pen.text((x1 + x2) / 2, (y1 + y2) / 2, _escaped(f"{told.text} ± {told.give_text}") if told else str(n + 1))
        )
    return "".join(made)


def _side(css: str, x1: float, y1: float, x2: float, y2: float) -> str:
    return f'<path class="{css}" d="M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}"/>'


ESCAPED: Mapping[str, str] = {"&": "&amp;", "<": "&lt;", '"': "&quot;"}


def _escaped(text: str) -> str:
    return "".join(ESCAPED.get(sign, sign) for sign in text)
