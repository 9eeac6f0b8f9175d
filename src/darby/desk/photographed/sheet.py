"""What a person marked on a photograph, as he wrote it: known points, openings, lengths. Kept as a line of the log.

``rough`` of a row: by how many pixels a finger may miss on the screen it was tapped on, and which of its points were
not set in the magnified part since ("11 0 1"); empty once all are.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest
from typing import Any, Protocol, TypeVar
from uuid import uuid4

KIND = "marks"
"""The log line that holds a sheet; it stands at the photograph's hash, and the newest rules."""
CONFIRMED = "confirmed"
"""The log line that says which opening of the job was made from which frame of the photograph."""
MOST_ROWS = 40
MOST_TEXT = 40
MOST_JOG = 200
CORNERS = 4
ROWS_AT_LEAST = 4


Filled = TypeVar("Filled")


class Posted(Protocol):
    """The lists of a form (``request.POST``)."""

    def getlist(self, name: str) -> list[Any]:
        """Every value under one name, in the order of the form."""
        ...


@dataclass(frozen=True, slots=True)
class Mark:
    """A known point: where it is in the picture [px, from the upper left] and on the wall (lengths as written)."""

    x: str = ""
    y: str = ""
    u: str = ""
    v: str = ""
    rough: str = ""

    @property
    def empty(self) -> bool:
        """Nothing is written."""
        return not (self.x or self.y or self.u or self.v)


@dataclass(frozen=True, slots=True)
class Frame:
    """An opening: its corners "x, y" [px], two opposite ones or all four. ``key`` names it over all later sheets."""

    key: str = ""
    corners: tuple[str, ...] = ("",) * CORNERS
    rough: str = ""

    @property
    def empty(self) -> bool:
        """Nothing is written."""
        return not any(self.corners)


@dataclass(frozen=True, slots=True)
class Line:
    """A length between two points "x, y" [px]."""

    start: str = ""
    end: str = ""
    rough: str = ""

    @property
    def empty(self) -> bool:
        """Nothing is written."""
        return not (self.start or self.end)


@dataclass(frozen=True, slots=True)
class Sheet:
    """All of it, and the wall that the photograph shows."""

    surface: str = ""
    marks: tuple[Mark, ...] = ()
    frames: tuple[Frame, ...] = ()
    lines: tuple[Line, ...] = ()

    @property
    def jog(self) -> int:
        """By how many pixels the roughest point may miss; 0 where each was set in the magnified part, or typed."""
        rows: list[Mark | Frame | Line] = [*self.marks, *self.frames, *self.lines]
        firsts = [row.rough.split()[0] for row in rows if row.rough and not row.empty]
        return max((min(int(first), MOST_JOG) for first in firsts if first.isdecimal()), default=0)

    def said(self) -> dict[str, Any]:
        """As the log keeps it: without empty rows, every opening under a key of its own."""
        return {
            "surface": self.surface,
            "marks": [[m.x, m.y, m.u, m.v, m.rough] for m in self.marks if not m.empty],
            "frames": [[f.key or uuid4().hex[:8], *f.corners, f.rough] for f in self.frames if not f.empty],
            "lines": [[line.start, line.end, line.rough] for line in self.lines if not line.empty],
        }

    def with_room(self) -> Sheet:
        """The same with empty rows at the end of each list, to be filled in."""
        spare = max(1, ROWS_AT_LEAST - len(self.marks))
        return replace(
            self,
            marks=(*self.marks, *[Mark()] * spare),
            frames=(*self.frames, Frame()),
            lines=(*self.lines, Line()),
        )


def kept(said: Mapping[str, Any]) -> Sheet:
    """A sheet from its line of the log."""
    return Sheet(
        str(said.get("surface", "")),
        tuple(Mark(*map(str, row)) for row in said.get("marks", ())),
        tuple(Frame(str(key), tuple(map(str, corners)), str(rough)) for key, *corners, rough in said.get("frames", ())),
        tuple(Line(*map(str, row)) for row in said.get("lines", ())),
    )


def posted(form: Posted, surface: str) -> Sheet:
    """A sheet from its form, empty rows among it, so that a row keeps its number; no more rows than anybody needs."""

    def rows(*names: str) -> list[list[str]]:
        columns = [form.getlist(name) for name in names]
        filled = zip_longest(*columns, fillvalue="")
        return [[str(cell).strip()[:MOST_TEXT] for cell in row] for row in filled][:MOST_ROWS]

    corners = [f"corner{n}" for n in range(1, CORNERS + 1)]
    return Sheet(
        surface,
        _trimmed([Mark(*row) for row in rows("x", "y", "u", "v", "mark-rough")], lambda m: m.empty),
        _trimmed(
            [Frame(key[:8], tuple(rest), rough) for key, *rest, rough in rows("key", *corners, "frame-rough")],
            lambda f: f.empty,
        ),
        _trimmed([Line(*row) for row in rows("start", "end", "line-rough")], lambda line: line.empty),
    )


def _trimmed(rows: Sequence[Filled], empty: Callable[[Filled], bool]) -> tuple[Filled, ...]:
    """Without the empty rows at the end."""
    last = max((n for n, row in enumerate(rows) if not empty(row)), default=-1)
    return tuple(rows[: last + 1])
