"""Matching an old face: what sieves and depths say of it, the ladder of boards, and who signed for which."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from darby.desk.doors import person_of
from darby.desk.places import StagePage
from darby.desk.put_on.faces import faces_of, form_of
from darby.desk.reading import Read
from darby.desk.speaking import said_in


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """Every face that was read with its boards, a form for each, and one for a face that nobody read yet."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    tables = getattr(request, "refused_tables", read.tables)
    read_faces = {str(e.get("surface", "")) for e in tables.get("match", []) if isinstance(e, dict)}
    unread = [s for s in answers.job.surfaces if s.id not in read_faces]
    entries = [e for e in tables.get("match", []) if isinstance(e, dict)]
    return {
        "faces": faces_of(answers, setting),
        "fills": person_of(request).is_owner,
        "forms": [form_of(entry, answers, setting) for entry in entries],
        "unread": unread,
        "empty": form_of({}, answers, setting),
    }


PAGE = StagePage(place="put-on", order=5, stages=("match",), sections=("match",), crew=True, more=more)
