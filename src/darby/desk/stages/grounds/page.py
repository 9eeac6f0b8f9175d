"""The grounds: how far out the face stands at each, from the readings of the bare wall; tapped in as they are read."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any
from uuid import uuid4

from django.http import HttpRequest

from darby.desk.doors import person_of
from darby.desk.drawn import Drawing, on_both, wall_drawing
from darby.desk.kept import saving
from darby.desk.kept.undoing import steps
from darby.desk.money import MONEY
from darby.desk.once import once
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.sketching.places import Grid, grids, step
from darby.desk.sketching.readings import Logged, logged
from darby.desk.sketching.refusing import said_back
from darby.desk.sketching.spelling import named
from darby.desk.speaking import said_in
from darby.drawing import LAPTOP, PHONE, Mark, elevation
from darby.drawing.geometry import box, flat_outline
from darby.drawing.lettering import inches
from darby.drawing.map import thickness_map
from darby.words import Verbatim, surface_called

if TYPE_CHECKING:
    from darby.grounds import Grounds
    from darby.job import Job
    from darby.measure.surface import Surface
    from darby.tables.setting import Setting

UPRIGHT = 90.0
FORMS = ("reading", "take", "step")


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The wall that was asked for, else the first that was read: its map, what is in the log, the line to write."""
    job, answers, setting = read.job, read.answers, said_in(request)
    if job is None or answers is None:
        return {}
    walls = [s for s in job.surfaces if s.tilt == UPRIGHT]
    if not walls:
        return {}
    begun = next((s for s in walls if any(r.surface == s.id for r in job.readings)), walls[0])
    here = next((s for s in walls if s.id == request.GET.get("at")), begun)
    owner = person_of(request).is_owner
    lines = logged(saving.log(read.id), job, here.id)
    found = answers.answered("grounds", here.id)
    open_marks = tuple(_logged(lines, here, setting))
    title = setting.say("desk.reading.map", wall=Verbatim(surface_called(here, setting.language)))

    def drawn() -> tuple[Drawing, tuple[Grid, Grid], Drawing | None]:
        marks = [*_map(here, job, found, setting), *open_marks]
        placed = wall_drawing(here, answers, setting) if found is not None else None
        return on_both(marks, title, setting, PHONE, LAPTOP, ()), grids(marks), placed

    drawing, (narrow, wide), placed = once(answers, "map", here.id, setting, open_marks, make=drawn)
    told = {"narrow": narrow.plain(), "wide": wide.plain(), "step": step(setting.system), "system": setting.system,
            "as": "point"}  # fmt: skip
    walk = steps(read.id)
    return {
        "surface": here, "surfaces": named(walls, setting.language), "at": here.id,
        "told": json.dumps(told), "new_id": uuid4(),
        "drawing": drawing,
        "placed": placed,
        "lines": lines, "open_lines": [line for line in lines if not line.taken],
        "spots": _spots(found, setting, owner=owner), "back": {form: said_back(request, form) for form in FORMS},
        "base": read.revision.number, "steps": walk, "steps_ways": (("back", walk.back), ("forward", walk.forward)),
    }  # fmt: skip


def _map(surface: Surface, job: Job, found: Grounds | None, setting: Setting) -> list[Mark]:
    """How thick the plaster will be; of a wall that cannot be answered yet, the wall with its readings."""
    points = [(float(u), float(v)) for r in job.readings if r.surface == surface.id for u, v, _ in r.points]
    if found is None:
        marks = elevation(surface, language=setting.language, system=setting.system)
        return [*marks, *(Mark("symbol", (point,), "dot", surface.id) for point in points)]
    past = [outline for patch in found.patches if not patch.slight for outline in patch.outlines]
    return list(
        thickness_map(
            surface, found.map.points, found.map.thickness, found.map.triangles, past=past,
            unread=found.coverage.outlines, readings=points, language=setting.language, system=setting.system,
        )
    )  # fmt: skip


def _logged(lines: list[Logged], surface: Surface, setting: Setting) -> list[Mark]:
    """What stands in the log and not in the job yet: a dot, and how far out of the line it was read, with its sign."""
    left, low, right, high = box(flat_outline(surface.outline))
    marks = []
    for line in lines:
        at = (float(line.u), float(line.v))
        if line.taken or not (left <= at[0] <= right and low <= at[1] <= high):
            continue
        sign = "+" if line.out > 0 else ""
        text = f"{sign}{inches(line.out, setting.system)}"
        marks.append(Mark("symbol", (at,), "dot", surface.id))
        marks.append(Mark("text", (at,), "letter", surface.id, text, anchor="start", shift=(0.5, -0.35)))
    return marks


def _spots(found: Grounds | None, setting: Setting, *, owner: bool) -> list[str]:
    """The high spots that hold the face out, and what each costs."""
    notes = [note for note in (found.notes if found is not None else ()) if note.code.startswith("grounds.spot")]
    said = [setting.say(note.code, **dict(note.values)) for note in notes]
    return [text for text in said if owner or not MONEY.search(text)]


PAGE = StagePage(
    place="wall", order=3, stages=("grounds",), sections=("readings",), crew=True, later=True, more=more
)  # fmt: skip
