"""The walls: one at a time to scale, drawn and written by hand; and what was measured."""

from __future__ import annotations

import json
from typing import Any

from django.http import HttpRequest

from darby.desk.doors import person_of
from darby.desk.drawn import wall_drawing, wall_marks
from darby.desk.kept.undoing import steps
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.sketching.entries import sketch, wrote
from darby.desk.sketching.places import grids, step
from darby.desk.sketching.refusing import said_back
from darby.desk.sketching.spelling import named
from darby.desk.speaking import said_in
from darby.measure.units import unit
from darby.words import surface_called
from darby.working import Quantity

FINE = {"us": "in", "metric": "mm"}


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The wall that was asked for (``?at=``), else the first; the others by name."""
    job = read.job
    if job is None or read.answers is None:
        return {}
    here = next((s for s in job.surfaces if s.id == request.GET.get("at")), job.surfaces[0])
    setting = said_in(request)
    found = {
        "at": here.id,
        "title": surface_called(here, setting.language),
        "sub": setting.say("desk.wall.of", number=str(job.surfaces.index(here) + 1), count=str(len(job.surfaces))),
        "surface": here,
        "surfaces": named(job.surfaces, setting.language),
        "drawing": wall_drawing(here, read.answers, setting),
    }
    return found | (by_hand(request, read, found) if person_of(request).is_owner else {})


def by_hand(request: HttpRequest, read: Read, found: dict[str, Any]) -> dict[str, Any]:
    """What the owner changes it with: the list, the measure of the drawing for the script, the steps."""
    here, setting = found["surface"], said_in(request)
    back = {form: said_back(request, form) for form in ("sketch", "line", "opening", "step")}
    walk = steps(read.id)
    made: dict[str, Any] = {
        "back": back, "steps": walk, "steps_ways": (("back", walk.back), ("forward", walk.forward)),
        "base": read.revision.number, "snap": Quantity(step(setting.system), unit(FINE[setting.system])),
    }  # fmt: skip
    by = wrote(read.tables, here.id)
    if by is None or read.answers is None:
        return made
    there = sketch(read.tables, here, by, setting.system)
    marks = wall_marks(here, read.answers, setting)
    narrow, wide = grids(marks, there)
    told = {"narrow": narrow.plain(), "wide": wide.plain(), "step": step(setting.system), "system": setting.system,
            "straight": "gable" in there.whole, "free": by.free}  # fmt: skip
    not_kept = back["sketch"]
    return made | {
        "told": json.dumps(told),
        "sketch": there if not_kept is None else there.filled(not_kept.posted, not_kept.faults),
        "new": not_kept.posted if not_kept is not None else {},
    }


PAGE = StagePage(
    place="wall",
    order=1,
    stages=("wall",),
    sections=("job", "wall", "house", "garden_wall", "box", "strip", "ring"),
    crew=True,
    more=more,
)
