"""What was found on an old wall: one finding more, and the list of all of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.http import Http404, HttpRequest, HttpResponseBase

from darby.desk.reading import Read, read
from darby.desk.sketching import found as by_hand
from darby.desk.speaking import said_in
from darby.desk.uploads import whole
from darby.desk.views.job import job_or_404
from darby.desk.views.sketch import keep_by_hand, posted_to

PAGE = "survey"


def _at(request: HttpRequest, now: Read) -> str:
    at = request.GET.get("at", "")
    if now.job is None or at not in [*(s.id for s in now.job.surfaces), *(s.surface for s in now.job.survey)]:
        raise Http404
    return at


@posted_to(PAGE)
def add(request: HttpRequest, document: str) -> HttpResponseBase:
    """One finding more."""
    at = _at(request, job_or_404(document))
    posted = {key: value for key, value in request.POST.items() if isinstance(value, str)}

    def make(tables: dict[str, Any]) -> dict[str, Any]:
        return by_hand.added(tables, at, posted)

    return keep_by_hand(
        request, document, PAGE, "add", make, placed=lambda made: by_hand.where(made, at, new=posted.get("kind", ""))
    )


@posted_to(PAGE)
def keep(request: HttpRequest, document: str) -> HttpResponseBase:
    """The list: what is new in it, and what is taken out."""
    now = job_or_404(document)
    at, setting = _at(request, now), said_in(request)
    posted = {key: value for key, value in request.POST.items() if isinstance(value, str)}
    number = whole(posted, "base", now.revision.number)
    then = read(document, number=number)
    if then is None or then.job is None:
        raise Http404
    there = by_hand.findings(then.tables, then.job, at, setting.system)

    def make(tables: dict[str, Any]) -> dict[str, Any]:
        return by_hand.changed(tables, there, at, posted)

    def again(posted: Mapping[str, str], _: int) -> Mapping[str, str]:
        left = {field.name for row in there for field in row.fields if posted.get(field.name) == field.text}
        return {name: text for name, text in posted.items() if name not in left}

    return keep_by_hand(request, document, PAGE, "list", make, placed=lambda made: by_hand.where(made, at), again=again)
