"""The walls: one at a time to scale, with its sizes; and what was measured."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from darby.desk.drawn import wall_drawing
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.speaking import said_in


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The wall that was asked for (``?at=``), else the first; the others by name."""
    job = read.job
    if job is None or read.answers is None:
        return {}
    here = next((s for s in job.surfaces if s.id == request.GET.get("at")), job.surfaces[0])
    setting = said_in(request)
    return {
        "at": here.id,
        "title": here.name,
        "sub": setting.say("desk.wall.of", number=str(job.surfaces.index(here) + 1), count=str(len(job.surfaces))),
        "surface": here,
        "surfaces": job.surfaces,
        "drawing": wall_drawing(here, read.answers, setting),
    }


PAGE = StagePage(
    place="wall",
    order=1,
    stages=("wall",),
    sections=("job", "wall", "house", "garden_wall", "box", "strip", "ring"),
    crew=True,
    more=more,
)
