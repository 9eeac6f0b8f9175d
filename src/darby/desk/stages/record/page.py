"""What was done and seen on site: the log, newest first, and a line to add to it."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

from django.http import HttpRequest

from darby.desk.kept import saving
from darby.desk.places import StagePage
from darby.desk.reading import Read


def more(_: HttpRequest, read: Read) -> dict[str, Any]:
    """The lines, and an id for the next one, so that it is kept once however often it is sent."""
    return {
        "entries": saving.log(read.id),
        "new_id": uuid4(),
        "photo_id": uuid4(),
        "surfaces": read.job.surfaces if read.job is not None else (),
    }


PAGE = StagePage(place="day", order=4, crew=True, more=more)
