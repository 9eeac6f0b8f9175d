"""What was found on old walls: hollow areas, cracks and loose paint on the elevation, and what each asks for."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from django.http import HttpRequest

from darby.answers.survey import looked_at
from darby.desk.doors import person_of
from darby.desk.drawn import on_both
from darby.desk.kept.undoing import steps
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.sketching.found import CHOICES, KINDS, findings, index_of, survey_of
from darby.desk.sketching.places import grids, step
from darby.desk.sketching.refusing import said_back
from darby.desk.sketching.spelling import named
from darby.desk.speaking import said_in
from darby.drawing import LAPTOP, PHONE, elevation
from darby.drawing.survey import surveyed_elevation
from darby.tables.surveyed import crack_width
from darby.words import Verbatim, surface_called

if TYPE_CHECKING:
    from darby.condition import Finding, Survey
    from darby.tables.setting import Setting

FORMS = ("add", "list", "step")


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The wall that was asked for, else the first that was looked at; its findings, each in the list."""
    job, answers, setting = read.job, read.answers, said_in(request)
    if job is None or answers is None:
        return {}
    own = [s.wall for s in job.survey if s.wall is not None]
    walls = [*own, *job.surfaces]
    first = job.survey[0].surface if job.survey else walls[0].id
    at = next((w.id for w in walls if w.id == request.GET.get("at")), first)
    here = looked_at(job, at)
    surveys = answers.answered("survey")
    found: Survey | None = surveys.of(at) if surveys is not None else None
    language, system = setting.language, setting.system
    if found is not None:
        marks = surveyed_elevation(here, found, _width(setting), language=language, system=system)
    else:
        marks = elevation(here, language=language, system=system)
    narrow, wide = grids(marks)
    grid = found.taps if found is not None else ()
    taps = [[round(float(t.u), 4), round(float(t.v), 4), t.column, t.row] for t in grid]
    told = {"narrow": narrow.plain(), "wide": wide.plain(), "step": step(system), "system": system, "as": "points",
            "taps": taps}  # fmt: skip
    back = {form: said_back(request, form) for form in FORMS}
    walk = steps(read.id)
    said = survey_of(job, at)
    n = index_of(read.tables, at)
    kept_back = back["list"]
    again = back["add"].posted if back["add"] is not None else {}
    heard = "\n".join(said.taps if said is not None else ())
    title = setting.say("desk.found.drawing", wall=Verbatim(surface_called(here, language)))
    return {
        "surface": here, "surfaces": named(walls, language), "at": at, "told": json.dumps(told), "back": back,
        "base": read.revision.number, "drawing": on_both(marks, title, setting, PHONE, LAPTOP, ()), "kinds": KINDS,
        "choices": {key: [(w, w == again.get(key)) for w in words] for key, words in CHOICES.items()},
        "findings": findings(
            read.tables, job, at, system, kept_back.posted if kept_back is not None else None,
            kept_back.faults if kept_back is not None else None,
        ),
        "taps": heard if kept_back is None else kept_back.posted.get("taps", heard),
        "tap_faults": kept_back.faults.get("taps", ()) if kept_back is not None else (), "surveyed": n is not None,
        "steps": walk, "steps_ways": (("back", walk.back), ("forward", walk.forward)),
        "owner": person_of(request).is_owner,
    }  # fmt: skip


def _width(setting: Setting) -> Any:
    def said(finding: Finding) -> str:
        return crack_width(finding.width, setting) if finding.width is not None else ""

    return said


PAGE = StagePage(place="wall", order=4, stages=("survey",), sections=("survey",), crew=True, more=more)
