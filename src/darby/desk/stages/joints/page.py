"""The joints of one wall: lines to pin, forbid and move; what is left to each limit; the ways to part it, drawn."""

from __future__ import annotations

import json
from typing import Any

from django.http import HttpRequest

from darby.desk.doors import person_of
from darby.desk.places import StagePage
from darby.desk.put_on.parting import drawing_with_lines, limits_of, places_to_catch, rows_of, surface_of, ways_of
from darby.desk.reading import Read
from darby.desk.speaking import said_in


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """One wall at a time; what was filled in and refused stands as it was filled in."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    here = surface_of(answers, request.POST.get("at") or request.GET.get("at"))
    tables = getattr(request, "refused_tables", read.tables)
    rows = rows_of(tables, answers, here.id, setting)
    ends = [[float(getattr(corner, axis)) for corner in here.outline] for axis in ("u", "v")]
    return {
        "at": here.id,
        "title": here.name,
        "sub": setting.say("cli.part.joints"),
        "surface": here,
        "surfaces": answers.job.surfaces,
        "drawing": drawing_with_lines(here, rows, answers, setting),
        "rows": rows,
        "fills": person_of(request).is_owner,
        "ways": ways_of(answers, here, setting),
        "box": json.dumps([min(ends[0]), max(ends[0]), min(ends[1]), max(ends[1])]),
        "catch": json.dumps(places_to_catch(here)),
        "system": setting.system,
        "another": setting.say("desk.put-on.another"),
        **limits_of(answers, here.id, setting),
    }


PAGE = StagePage(place="put-on", order=2, stages=("joints",), sections=("joints",), crew=True, more=more)
