"""What was done and seen on site: the log, newest first, and a line to add to it."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

from django.http import HttpRequest

from darby.desk.kept import saving
from darby.desk.photographed.telling import said_of
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.words import surface_called

SILENT = ("quote", "taken", "closed", "opened")
"""Lines that another page reads: they say nothing to whoever looks for what happened on site."""


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The lines, and an id for the next one, so that it is kept once however often it is sent."""
    setting = said_in(request)
    surfaces = read.job.surfaces if read.job is not None else ()
    called = {s.id: surface_called(s, setting.language) for s in surfaces}
    entries = [e for e in saving.log(read.id) if e.kind not in SILENT]
    photographs = {e.photograph_id for e in entries}
    return {
        # a line about a photograph stands at its hash, which says nothing to anybody
        "entries": [
            (e, called.get(e.at, "" if e.at == "job" or e.at in photographs else e.at), said_of(e, called, setting))
            for e in entries
        ],
        "new_id": uuid4(),
        "photo_id": uuid4(),
        "surfaces": [{"id": id, "name": name} for id, name in called.items()],
    }


PAGE = StagePage(place="day", order=4, crew=True, more=more)
