"""Marks as SVG: one text, no library, the same every time."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from darby.drawing.geometry import arc
from darby.drawing.layout import lay_out
from darby.drawing.model import Mark, Point, Sheet
from darby.drawing.placed import Area, Box, Path, Placed, Ring, Strokes, Words
from darby.drawing.roles import DAY, HALO, PAPER_GROUND, ROLES, Role

MARGIN = 1.0


def to_svg(marks: Sequence[Mark], sheet: Sheet, *, title: str, describe: str = "", bare: bool = False) -> str:
    """A drawing of ``marks`` on ``sheet`` as an SVG text.

    Parameters
    ----------
    marks
        what to draw, in drawing order [m].
    sheet
        scale and lettering; its name begins every id.
    title
        in words what the drawing shows: the ``<title>`` and, with ``describe``, the ``aria-label``.
    bare
        for a page that brings ``roles.stylesheet``: without the colours, weights and dashes that stand there.

    Colours and weights stand in the elements, so the drawing needs no style sheet; classes and the groups' layers let a
    page set its own (``roles.stylesheet``) and hide layers.
    """
    laid = lay_out(marks, sheet)
    left, top, right, bottom = laid.box() if laid.placed else (0.0, 0.0, 0.0, 0.0)
    page = (left - MARGIN, top - MARGIN, right + MARGIN, bottom + MARGIN)
    wide, high = page[2] - page[0], page[3] - page[1]
    label = f"{title} {describe}".strip()
    pen = _Pen(sheet, page, bare=bare)
    body = "".join(pen.group(role, list(some)) for role, some in groupby(laid.placed, key=lambda p: p.role))
    unit = sheet.unit if sheet.unit == "pt" else ""
    font = f' font-family="{_escaped(sheet.font)}"' if sheet.font else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing sheet-{_escaped(sheet.name)}" role="img" '
        f'width="{_n(wide)}{unit}" height="{_n(high)}{unit}" viewBox="0 0 {_n(wide)} {_n(high)}" '
        f'aria-label="{_escaped(label)}"{font} font-size="{_n(sheet.lettering)}">'
        f"<title>{_escaped(title)}</title>"
        f"{f'<desc>{_escaped(describe)}</desc>' if describe else ''}{body}</svg>\n"
    )


def identifier(ref: str) -> str:
    """A ref as an XML id: what an id may not hold is written as its number."""
    return re.sub(r"[^A-Za-z0-9-]", lambda m: "." if m[0] == "/" else f"_{ord(m[0]):x}", ref)


class _Pen:
    """Writes placed things; every id once."""

    def __init__(self, sheet: Sheet, page: Box, *, bare: bool) -> None:
        self.bare = bare
        self.sheet, self.left, self.top = sheet, page[0], page[1]
        self.ground = PAPER_GROUND if sheet.unit == "pt" else DAY["ground"]
        self.ids: set[str] = set()

    def group(self, name: str, placed: list[Placed]) -> str:
        """All neighbouring things of one role."""
        role = ROLES[name]
        layer = f' class="layer-{role.layer}"' if role.layer else ""
        return f"<g{layer}>{''.join(self._element(role, p) for p in placed)}</g>"

    def colour(self, name: str) -> str:
        return self.ground if name == "ground" else DAY[name]

    def _plain(self, role: Role) -> bool:
        """Whether the page's style sheet says all of it; of dots it says the colour alone."""
        return self.bare and role.symbol != "dot"

    def _element(self, role: Role, placed: Placed) -> str:
        head = f'class="{role.css}"{self._id(placed.ref)}'
        match placed:
            case Words():
                return self._words(role, placed, head)
            case Ring(at=at, radius=radius):
                x, y = self._at(at)
                look = f"{self._fill(role, role.fill)}{self._stroke(role)}"
                return f'<circle {head} cx="{x}" cy="{y}" r="{_n(radius)}"{look}/>'
            case Strokes(lines=lines):
                if not lines:
                    return ""
                look = f"{self._fill(role)}{self._stroke(role)}"
                return f'<path {head}{look} d="{"".join(self._strokes(lines))}"/>'
            case Area(points=points, holes=holes):
                d = "".join(self._run(Path(ring, "", closed=True)) for ring in (points, *holes))
                look = f'{self._fill(role, role.fill)} fill-rule="evenodd"{self._stroke(role)}'
                return f'<path {head}{look} d="{d}"/>'
            case Path():
                look = f"{self._fill(role, role.fill if placed.closed else '')}{self._stroke(role)}"
                inside = f"><title>{_escaped(placed.text)}</title></path>" if placed.text else "/>"
                return f'<path {head}{look} d="{self._run(placed)}"{inside}'

    def _id(self, ref: str) -> str:
        if not ref:
            return ""
        name = f"{identifier(self.sheet.name)}.{identifier(ref)}"
        if name in self.ids:
            return f' data-ref="{_escaped(ref)}"'
        self.ids.add(name)
        return f' id="{name}" data-ref="{_escaped(ref)}"'

    def _fill(self, role: Role, name: str = "") -> str:
        return "" if self._plain(role) else f' fill="{self.colour(name) if name else "none"}"'

    def _stroke(self, role: Role) -> str:
        if not role.pen:
            return ""
        if self._plain(role):
            return ' stroke-linecap="round"' if role.round else ""
        dash = f' stroke-dasharray="{" ".join(_n(d * self.sheet.weight) for d in role.dash)}"' if role.dash else ""
        cap = ' stroke-linecap="round"' if role.round else ""
        return (
            f' stroke="{self.colour(role.ink)}" stroke-width="{_n(role.pen * self.sheet.weight)}"'
            f' stroke-linejoin="miter"{dash}{cap}'
        )

    def _words(self, role: Role, words: Words, head: str) -> str:
        x, y = self._at(words.at)
        turn = f' transform="rotate({_n(-words.turn)} {x} {y})"' if words.turn else ""
        anchor = "" if words.anchor == "start" else f' text-anchor="{words.anchor}"'
        if self._plain(role):
            over = ' stroke-linejoin="round" paint-order="stroke"' if role.halo else ""
            return f'<text {head} x="{x}" y="{y}"{anchor}{turn}{over}>{_escaped(words.text)}</text>'
        halo = ""
        if role.halo:
            halo = (f' stroke="{self.ground}" stroke-width="{_n(HALO * self.sheet.weight)}" stroke-linejoin="round"'
                    ' paint-order="stroke"')  # fmt: skip
        fill = self.colour(role.ink)
        return f'<text {head} x="{x}" y="{y}"{anchor}{turn} fill="{fill}"{halo}>{_escaped(words.text)}</text>'

    def _run(self, path: Path) -> str:
        """Path data, arcs as arcs: v runs up on the wall and y down on the sheet, so a left turn has sweep 0."""
        points = [*path.points, path.points[0]] if path.closed else list(path.points)
        here = self._at(points[0])
        out = ["M{} {}".format(*here)]
        for i, point in enumerate(points[1:]):
            x, y = self._at(point)
            bulge = path.bulges[i] if path.bulges else 0.0
            if bulge:
                radius = _n(arc(points[i], point, bulge).radius)
                out.append(f"A{radius} {radius} 0 {int(abs(bulge) > 1)} {int(bulge < 0)} {x} {y}")
            else:
                out.append(_side(here, x, y))
            here = x, y
        if path.closed:
            if not (path.bulges and path.bulges[-1]):
                out.pop()
            out.append("Z")
        return "".join(out)

    def _strokes(self, lines: Iterable[tuple[Point, Point]]) -> Iterator[str]:
        for a, b in lines:
            (x0, y0), (x1, y1) = self._at(a), self._at(b)
            yield f"M{x0} {y0}h0" if a == b else f"M{x0} {y0}{_side((x0, y0), x1, y1)}"

    def _at(self, point: Point) -> tuple[str, str]:
        return _n(point[0] - self.left), _n(point[1] - self.top)


def _side(here: tuple[str, str], x: str, y: str) -> str:
    """A straight line from ``here``; level and upright ones by one number."""
    if here[1] == y:
        return f"H{x}"
    return f"V{y}" if here[0] == x else f"L{x} {y}"


_ESCAPES = {"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"}
_UNWRITABLE = re.compile("[\\x00-\\x08\\x0b\\x0c\\x0e-\\x1f\\ud800-\\udfff\\ufffe\\uffff]")


def _escaped(text: str) -> str:
    """Text for XML; what XML cannot hold at all is left out."""
    return "".join(_ESCAPES.get(c, c) for c in text if not _UNWRITABLE.match(c))


def _n(value: float) -> str:
    """A hundredth of a sheet unit is finer than any pen."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
