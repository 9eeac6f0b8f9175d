"""Walls as drawing files: for a drafter, or a saw that reads them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.drawing import to_dxf
from darby.papers.filled.lathing import lath_over
from darby.papers.filled.pictures import marks_of
from darby.papers.filled.writer import Writer

if TYPE_CHECKING:
    from darby.answers import Answers


def drawn_names(answers: Answers) -> dict[str, str]:
    """File name to surface id."""
    return {f"wall-{wall.id}.dxf": wall.id for wall in answers.job.surfaces}


def drawn_wall(writer: Writer, surface: str) -> bytes:
    """A wall with its sizes, its joints and its sheets of lath, each on a layer of its own (DXF)."""
    wall = writer.answers.job.surface(surface)
    return to_dxf((*marks_of(writer, wall), *lath_over(writer, wall)))


def drawn_walls(writer: Writer) -> dict[str, bytes]:
    """Every wall, by file name."""
    return {name: drawn_wall(writer, surface) for name, surface in drawn_names(writer.answers).items()}
