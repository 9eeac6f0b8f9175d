"""A new job from one line a shape: which few things are asked, and the document they make."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from darby.desk.forms import filled_in

HEAD = ("job.name", "job.customer", "job.address")
LAST = ("coats.finish", "coats.paint")


@dataclass(frozen=True, slots=True)
class Shape:
    """A shape that a job can begin with: what is asked, and what stands in the form already."""

    name: str
    asked: tuple[str, ...]
    begin: Mapping[str, Any]

    @property
    def ways(self) -> tuple[str, ...]:
        """All that is asked, in order."""
        return (*HEAD, *self.asked, *LAST)


SHAPES: Mapping[str, Shape] = {
    shape.name: shape
    for shape in (
        Shape(
            "garden_wall",
            tuple(f"garden_wall.0.{key}" for key in (
                "length", "height", "thick", "facing", "base", "block", "joints", "out_of_plane", "pilasters.every",
                "pilasters.width", "pilasters.out", "cap", "sprinklers")),
            {"garden_wall": [{"id": "wall", "thick": "8 in", "base": "block", "joints": "flush", "cap": "drip"}]},
        ),
        Shape(
            "wall",
            tuple(f"wall.0.{key}" for key in (
                "name", "length", "height", "facing", "base", "block", "joints", "out_of_plane", "openings")),
            {"wall": [{"id": "wall", "base": "block", "joints": "flush"}]},
        ),
        Shape(
            "house",
            tuple(f"house.0.{key}" for key in (
                "walls", "height", "facing", "base", "sheathing", "studs", "block", "openings", "gables")),
            {"house": [{"id": "house", "base": "frame"}]},
        ),
    )
}  # fmt: skip


def blank(shape: Shape, today: date) -> dict[str, Any]:
    """The document before anything is filled in; ``today`` counts the days."""
    return {"darby": 1, "job": {"name": "", "as_of": today}, **shape.begin, "coats": {"finish": "float"}}


def document_of(shape: Shape, posted: Mapping[str, str], today: date) -> dict[str, Any]:
    """The document that was filled in."""
    return filled_in("", blank(shape, today), posted, ("job", shape.name, "coats"))
