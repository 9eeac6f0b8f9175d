"""The days: the week drawn, what comes next, what came in from site, and a form for what is done."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

from django.http import HttpRequest
from django.utils import timezone

from darby.answers.open_jobs import next_coats
from darby.desk.doors import person_of
from darby.desk.onsite import lines
from darby.desk.onsite.plan import plan
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.tables.open_jobs import next_page, waits_page


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The week that was asked for (``?week=``), and the forms."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    today = timezone.localdate()
    days = answers.answered("days")
    coming = next_coats(answers, today)
    return {
        "plan": plan(answers, setting, request.GET.get("week", ""), today),
        "next": next_page(coming, answers, setting) if days is not None else None,
        "waits": waits_page(days, answers, setting) if days is not None else None,
        "came_in": lines.came_in(read, setting),
        "readings": lines.readings(read, setting),
        "places": lines.places(answers, setting),
        "likely": coming[0].at[0] if coming else "",
        "likely_coat": coming[0].coat if coming else "",
        "coats": lines.coats(setting),
        "today": today.isoformat(),
        "done_id": uuid4(),
        "takes": person_of(request).is_owner,
    }


PAGE = StagePage(
    place="day", order=2, stages=("days", "paint"), sections=("days", "done", "also"), crew=True, more=more
)
