"""Patches round openings: how far old plaster is cut back on each side, drawn, and what ties the new in."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from darby.desk.drawn import drawing_of
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.drawing import titled
from darby.drawing.survey import patched_elevation


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """Every patch drawn."""
    answers, setting = read.answers, said_in(request)
    found = answers.answered("patch") if answers is not None else None
    if answers is None or found is None:
        return {}
    patches = []
    for patch in found.patches:
        surface = answers.job.surface(patch.surface)
        marks = patched_elevation(surface, patch, language=setting.language, system=setting.system)
        drawing = drawing_of(marks, titled(surface, setting.language, setting.system), setting)
        patches.append({"name": surface.name, "drawing": drawing})
    return {"patches": patches}


PAGE = StagePage(place="put-on", order=6, stages=("patch",), sections=("patch", "ring"), crew=True, more=more)
