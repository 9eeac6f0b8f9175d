"""Marks as DXF: real entities on the layers of the role table, in the unit that is asked for."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from math import degrees
from typing import TYPE_CHECKING, Any, Literal

from darby.drawing.geometry import BLOCK, arc, turned
from darby.drawing.layout import Layout, core, lay_out, pitch_of, run
from darby.drawing.lettering import CAP
from darby.drawing.model import PAPER, Mark, Point, Sheet
from darby.drawing.placed import Ring, Words
from darby.drawing.roles import ROLES, Hatch
from darby.measure.units import FT, IN

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

Units = Literal["in", "ft", "mm", "m"]
SIZES: dict[Units, tuple[float, int]] = {"in": (float(IN), 1), "ft": (float(FT), 2), "mm": (0.001, 4), "m": (1.0, 6)}
"""Metres of one drawing unit and the number by which DXF knows it."""
PT_MM = 25.4 / 72


def to_dxf(marks: Sequence[Mark], sheet: Sheet = PAPER, units: Units = "in") -> bytes:
    """A DXF (R2010) of ``marks``, full size in ``units``; lettering as high as ``sheet`` has it.

    One entity for each mark: LINE, LWPOLYLINE (arcs as bulges), ARC, TEXT, DIMENSION, HATCH, and an INSERT for each
    symbol. A text that the sheet has no room for is left out, as in the SVG; a text of several lines is several TEXTs.

    Raises
    ------
    KeyError
        for units that are not in ``SIZES``.
    """
    # the library takes as long to load as a whole job to answer, and most drawings are never written as DXF
    from ezdxf import zoom
    from ezdxf.filemanagement import new

    size, code = SIZES[units]
    document = new("R2010", setup=["linetypes"], units=code)
    document.header["$MEASUREMENT"] = 0 if units in ("in", "ft") else 1
    writer = _Writer(document, sheet, size, lay_out([m for m in marks if m.kind == "dimension" or core(m)], sheet))
    for mark in marks:
        if ROLES[mark.role].dxf:
            writer.add(mark)
    if len(document.modelspace()):
        zoom.window(document.modelspace(), *_corners(marks, size))
    stream = io.StringIO()
    document.write(stream)
    return _steady(stream.getvalue()).encode()


def _corners(marks: Sequence[Mark], size: float) -> tuple[Point, Point]:
    """The lower left and the upper right corner of what is drawn, in drawing units."""
    us, vs = zip(*((float(u) / size, float(v) / size) for mark in marks for u, v in mark.points), strict=True)
    return (min(us), min(vs)), (max(us), max(vs))


def _plain(text: str) -> str:
    """Text that a DXF line can hold: no line ends, none of its own codes (``%%c`` would print a sign)."""
    held = "".join(c if c.isprintable() else " " for c in text).replace("%%", "% %").replace("\\", "/")
    return " ".join(held.replace("^", "\u02c6").split())


_CLOCK = re.compile(r"(\$TDU?(?:CREATE|UPDATE)\n +40\n)[\d.]+")
_CHANCE = re.compile(r"(\$(?:FINGERPRINT|VERSION)GUID\n +2\n)\{[0-9A-F-]+\}")
_STAMP = re.compile(r"( @ )\d{4}-\d\d-\d\dT[\d:.+-]+")


def _steady(text: str) -> str:
    """The same drawing is the same file: the library's clock and chance are taken out again."""
    text = _CLOCK.sub(r"\g<1>2451544.5", text)
    text = _CHANCE.sub(r"\g<1>{00000000-0000-0000-0000-000000000000}", text)
    return _STAMP.sub(r"\g<1>2000-01-01T00:00:00+00:00", text)


class _Writer:
    def __init__(self, document: Drawing, sheet: Sheet, size: float, laid: Layout) -> None:
        self.document, self.sheet, self.size, self.laid = document, sheet, size, laid
        self.space: Modelspace = document.modelspace()
        self.high = self._long(sheet.metres(sheet.lettering)) * CAP
        self.document.styles.add("LETTERING", font="txt")
        self._dimension_style()
        for role in ROLES.values():
            if role.dxf and role.dxf not in document.layers:
                document.layers.add(role.dxf, color=role.aci, lineweight=self._weight(role.weight))

    def add(self, mark: Mark) -> None:
        role = ROLES[mark.role]
        look: dict[str, Any] = {
            "layer": role.dxf, "color": role.aci, "lineweight": self._weight(role.weight),
            "linetype": self._linetype(mark.role),
        }  # fmt: skip
        points, bulges = run(mark, self.sheet)
        at = [self._at(p) for p in points]
        match mark.kind:
            case "line":
                self.space.add_line(at[0], at[1], look)
            case "polyline" | "polygon":
                rows = [(*p, b) for p, b in zip(at, bulges or (0.0,) * len(at), strict=True)]
                self.space.add_lwpolyline(rows, format="xyb", close=mark.kind == "polygon", dxfattribs=look)
            case "arc":
                self._arc(mark, look)
            case "text":
                self._text(mark, look)
            case "dimension":
                self._dimension(mark, look)
            case "hatch":
                self._hatch(mark, role.hatch, look)
            case "symbol":
                self._symbol(mark, look)

    @staticmethod
    def _name(role: str) -> str:
        """Name of a role's pattern, line type or block."""
        return "DARBY_" + role.upper().replace(" ", "_")

    def _at(self, point: Point) -> Point:
        return point[0] / self.size, point[1] / self.size

    def _long(self, metres: float) -> float:
        return metres / self.size

    def _px(self, px: float) -> float:
        """Line-table pixels as drawing units."""
        return self._long(self.sheet.metres(px * self.sheet.weight))

    def _weight(self, px: float) -> int:
        """Hundredths of a millimetre, the nearest that DXF knows."""
        known = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211)
        wanted = px * 0.6 * PT_MM * 100
        return min(known, key=lambda w: abs(w - wanted))

    def _linetype(self, role: str) -> str:
        dash = ROLES[role].dash
        if not dash:
            return "CONTINUOUS"
        name = self._name(role)
        if name not in self.document.linetypes:
            parts = [self._px(d) * (-1 if i % 2 else 1) for i, d in enumerate(dash)]
            self.document.linetypes.add(name, [sum(map(abs, parts)), *parts], description=role)
        return name

    def _arc(self, mark: Mark, look: dict[str, Any]) -> None:
        turn = arc(mark.points[0], mark.points[1], mark.bulges[0])
        ends = [degrees(turn.start), degrees(turn.start + turn.sweep)]
        first, last = ends if turn.sweep > 0 else ends[::-1]
        self.space.add_arc(self._at(turn.centre), self._long(turn.radius), first, last, dxfattribs=look)

    def _text(self, mark: Mark, look: dict[str, Any]) -> None:
        from ezdxf.enums import TextEntityAlignment

        for words in lay_out([mark], self.sheet).placed:
            if isinstance(words, Words):
                at = self._at((words.at[0] / self.sheet.scale, -words.at[1] / self.sheet.scale))
                own = {**look, "linetype": "CONTINUOUS", "style": "LETTERING"}
                entity = self.space.add_text(_plain(words.text), height=self.high, rotation=words.turn, dxfattribs=own)
                align = {"start": "LEFT", "middle": "CENTER", "end": "RIGHT"}[words.anchor]
                entity.set_placement(at, align=TextEntityAlignment[align])

    def _dimension_style(self) -> None:
        style = self.document.dimstyles.add("DARBY")
        style.dxf.dimtxt, style.dxf.dimtsz = self.high, self._px(ROLES["tick"].size) / 2
        style.dxf.dimexe, style.dxf.dimexo, style.dxf.dimgap = self._px(4), self._px(5), self._px(3)
        style.dxf.dimtad, style.dxf.dimtih, style.dxf.dimtoh = 1, 0, 0
        style.dxf.dimtxsty = "LETTERING"
        style.dxf.dimclrd = style.dxf.dimclre = ROLES["dimension"].aci
        style.dxf.dimclrt = ROLES["figure"].aci

    def _dimension(self, mark: Mark, look: dict[str, Any]) -> None:
        level = mark.side in ("below", "above")
        stands = self.laid.strings[mark.side, mark.row] / self.sheet.scale
        base = self._at((mark.points[0][0], -stands) if level else (stands, mark.points[0][1]))
        a, b = (self._at(p) for p in mark.points)
        drawn = self.space.add_linear_dim(base, a, b, text=_plain(mark.text) or "<>", angle=0 if level else 90,
                                          dimstyle="DARBY", dxfattribs={"layer": look["layer"]})  # fmt: skip
        drawn.render()

    def _hatch(self, mark: Mark, hatch: Hatch | None, look: dict[str, Any]) -> None:
        if hatch is None:
            raise KeyError(f"{mark.role!r} is no hatching")
        entity = self.space.add_hatch(color=look["color"], dxfattribs={"layer": look["layer"]})
        for i, ring in enumerate((mark.points, *mark.holes)):
            entity.paths.add_polyline_path([self._at(p) for p in ring], is_closed=True, flags=1 if i == 0 else 16)
        pitch = self._long(self.sheet.metres(hatch.pitch * pitch_of(self.sheet)))
        origin = self._at(mark.origin or mark.points[0])
        if hatch.family == "solid":
            entity.set_solid_fill(color=look["color"])
        elif hatch.family == "courses":
            long, tall = (self._long(b) for b in BLOCK)
            x, y = origin
            rows = [(0.0, (x, y), (0.0, tall), []), (90.0, (x, y), (long, 0.0), [tall, -tall]),
                    (90.0, (x + long / 2, y + tall), (long, 0.0), [tall, -tall])]  # fmt: skip
            entity.set_pattern_fill(self._name(mark.role), color=look["color"], definition=rows)
        elif hatch.family in ("lines", "diamonds"):
            turns = (hatch.angle, -hatch.angle) if hatch.family == "diamonds" else (hatch.angle,)
            rows = [(turn, origin, turned((0.0, pitch), turn), []) for turn in turns]
            entity.set_pattern_fill(self._name(mark.role), color=look["color"], definition=rows)
        else:
            # three families of short dashes whose spacings share no measure: nothing is seen to repeat
            dash = max(self._px(hatch.size) if hatch.family == "strokes" else self._px(hatch.size) / 4, pitch / 50)
            families = (27.0, 0.7, 1.83, 2.9), (84.0, 1.1, 1.61, 3.4), (151.0, 0.4, 2.07, 2.6)
            rows = [
                (turn, (origin[0] + pitch * turn / 97, origin[1] + pitch * turn / 61),
                 turned((pitch * along, pitch * across), turn), [dash, -pitch * gap])
                for turn, along, across, gap in families
            ]  # fmt: skip
            entity.set_pattern_fill(self._name(mark.role), color=look["color"], definition=rows)

    def _symbol(self, mark: Mark, look: dict[str, Any]) -> None:
        role = ROLES[mark.role]
        name = self._name(mark.role)
        radius = self._px(role.size)
        if name not in self.document.blocks:
            block = self.document.blocks.new(name)
            inner = {"layer": "0", "color": 0}
            if role.symbol != "tag" and role.symbol != "dot":
                block.add_line((-radius, 0), (radius, 0), inner)
                block.add_line((0, -radius), (0, radius), inner)
            if role.symbol != "ground":
                block.add_circle((0, 0), radius * (1.6 if role.symbol == "ringed ground" else 1), inner)
            if mark.text:
                block.add_attdef("TEXT", (0, 0), height=self.high, dxfattribs={"layer": "0"})
        x, y = self._at(mark.points[0])
        tag = role.symbol == "tag"
        if tag:
            ring = next(p for p in self.laid.placed if isinstance(p, Ring) and (p.role, p.ref) == (mark.role, mark.ref))
            x, y = self._at((ring.at[0] / self.sheet.scale, -ring.at[1] / self.sheet.scale))
        insert = self.space.add_blockref(name, (x, y), {"layer": look["layer"], "color": look["color"]})
        if mark.text:
            at = (x - self.high / 3, y - self.high / 2) if tag else (x + radius * 1.3, y + radius * 0.5)
            insert.add_attrib("TEXT", _plain(mark.text), at, dxfattribs={"height": self.high, "layer": look["layer"]})
