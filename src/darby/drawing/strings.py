"""Dimension strings on a sheet: outside everything else, one further out than the last, no figure over another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from darby.drawing.lettering import CAP, LINE, width
from darby.drawing.model import Mark, Point, Sheet, Side
from darby.drawing.placed import Box, Path, Words
from darby.drawing.roles import ROLES

TURNS: dict[Side, float] = {"below": 0.0, "above": 0.0, "left": 90.0, "right": 90.0}


@dataclass(frozen=True, slots=True)
class _Span:
    """One size: from ``a`` to ``b`` along the string, its features ``away`` from the sheet's origin, outwards."""

    a: float
    b: float
    away: tuple[float, float]
    mark: Mark


def dimensions(
    marks: Sequence[Mark], core: Box, sheet: Sheet
) -> tuple[list[Path], list[Words], dict[tuple[Side, int], float]]:
    """Lines and figures of all strings round ``core``, and where each string stands [sheet units from the origin]."""
    lines: dict[tuple[tuple[Point, ...], str], Path] = {}
    figures: list[Words] = []
    stands: dict[tuple[Side, int], float] = {}
    order = sorted(marks, key=lambda m: (m.side, m.row))
    for side, group in groupby(order, key=lambda m: m.side):
        rows = {row: [_span(m, sheet) for m in some] for row, some in groupby(group, key=lambda m: m.row)}
        out = {"left": -core[0], "above": -core[1], "right": core[2], "below": core[3]}[side]
        for row, spans in rows.items():
            further = {t for other, some in rows.items() if other > row for s in some for t in (s.a, s.b)}
            string = _String(side, spans, out, sheet)
            stands[side, row] = string.line if side in ("below", "right") else -string.line
            lines |= {(path.points, path.role): path for path in string.lines()}
            words, out = string.figures(further)
            figures += words
    return list(lines.values()), figures, stands


def _span(mark: Mark, sheet: Sheet) -> _Span:
    level = mark.side in ("below", "above")
    sign = 1.0 if mark.side in ("below", "right") else -1.0
    ends = [(u * sheet.scale, -v * sheet.scale) for u, v in mark.points]
    runs = sorted((x, sign * y) if level else (y, sign * x) for x, y in ends)
    return _Span(runs[0][0], runs[1][0], (runs[0][1], runs[1][1]), mark)


class _String:
    """One string whose room begins ``inner`` out."""

    def __init__(self, side: Side, spans: list[_Span], inner: float, sheet: Sheet) -> None:
        self.side, self.spans, self.inner, self.sheet = side, spans, inner, sheet
        self.level = side in ("below", "above")
        # lettering stands over its line as it is read: below and at the right that is towards the wall
        self.inwards = side in ("below", "right")
        self.line = inner + 9 * sheet.weight + (CAP * sheet.lettering if self.inwards else 0.0)

    def at(self, along: float, away: float) -> Point:
        """Sheet coordinates of a place ``along`` the string and ``away`` from the origin, outwards."""
        out = away if self.side in ("below", "right") else -away
        return (along, out) if self.level else (out, along)

    def lines(self) -> list[Path]:
        """The string, the lines out to it, and a 45 degree tick at each end."""
        w, paths = self.sheet.weight, []
        half = ROLES["tick"].size * w / 2 / 2**0.5
        for span in self.spans:
            ref = span.mark.ref
            paths.append(Path((self.at(span.a, self.line), self.at(span.b, self.line)), "dimension", ref))
            for along, feature in zip((span.a, span.b), span.away, strict=True):
                start = self.inner + 2 * w if self.level else feature + 5 * w
                paths.append(Path((self.at(along, start), self.at(along, self.line + 4 * w)), "dimension", ref))
                x, y = self.at(along, self.line)
                paths.append(Path(((x - half, y + half), (x + half, y - half)), "tick", ref))
        return paths

    def figures(self, further: set[float]) -> tuple[list[Words], float]:
        """Its lettering and where the next string may begin. ``further``: places that lines cross on their way out."""
        w, letter = self.sheet.weight, self.sheet.lettering
        words: list[Words] = []
        tiers: list[list[tuple[float, float]]] = []
        for span in self.spans:
            long = width(span.mark.text) * letter * self.sheet.wide
            if long <= span.b - span.a - 4 * w:
                stops = [span.a, *sorted(t for t in further if span.a < t < span.b), span.b]
                a, b = max(pairwise(stops), key=lambda gap: gap[1] - gap[0])
                middle = (a + b) / 2 if long <= b - a - 4 * w else (span.a + span.b) / 2
                words.append(self._words(span, self.at(middle, self._base(0))))
            elif len(self.spans) == 1 and not self.inwards and self.level:
                at = self.at(span.b + 6 * w, self.line - CAP / 2 * letter)
                words.append(Words(at, span.mark.text, "figure", span.mark.ref, anchor="start"))
            else:
                middle = self._clear((span.a + span.b) / 2, long / 2 + 2 * w, further)
                reach = (middle - long / 2 - 2 * w, middle + long / 2 + 2 * w)
                tier = next((i for i, t in enumerate(tiers) if all(reach[0] > b or reach[1] < a for a, b in t)), -1)
                if tier < 0:
                    tiers.append([])
                tiers[tier].append(reach)
                tier = tier if tier >= 0 else len(tiers) - 1
                words.append(self._words(span, self.at(middle, self._base(tier + 1))))
        if self.inwards:
            return words, (self._base(len(tiers)) if tiers else self.line) + 4 * w
        return words, self._base(len(tiers)) + CAP * letter + 4 * w

    def _clear(self, middle: float, half: float, further: set[float]) -> float:
        """Where a figure that overhangs its size stands: moved off a line that crosses it, if it sits nearer an end."""
        for t in sorted(further):
            if middle - half < t < middle + half and t != middle:
                return t - half if t > middle else t + half
        return middle

    def _base(self, tier: int) -> float:
        """Where lettering of a tier has its base line; tier 0 stands on the string itself."""
        w, letter = self.sheet.weight, self.sheet.lettering
        if not self.inwards:
            return self.line + 3 * w + tier * LINE * letter
        return self.line - 3 * w if tier == 0 else self.line + 4 * w + CAP * letter + (tier - 1) * LINE * letter

    def _words(self, span: _Span, at: Point) -> Words:
        return Words(at, span.mark.text, "figure", span.mark.ref, TURNS[self.side])
