"""Lath and paper of one wall: every sheet drawn in its place, what is laid beside what the square yard says."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from darby.desk.places import StagePage
from darby.desk.put_on.drawings import lath_drawing
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.tables.lath import lath_pages, laths_of


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The wall that was asked for among those that take lath, else the first."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    lathed = {name: found for name, found in answers.good("lath").items() if found.zones}
    surfaces = [surface for surface in answers.job.surfaces if surface.id in lathed]
    if not surfaces:
        return {}
    here = next((s for s in surfaces if s.id == request.GET.get("at")), surfaces[0])
    return {
        "at": here.id,
        "title": here.name,
        "sub": setting.say("cli.lath.title"),
        "surface": here,
        "surfaces": surfaces,
        "drawing": lath_drawing(here, lathed[here.id], answers, setting),
        "counted": lath_pages(answers, setting),
        "laid": laths_of(here.id, answers, setting),
    }


PAGE = StagePage(place="put-on", order=3, stages=("lath", "sheets"), sections=("lath",), crew=True, more=more)
