"""Readings of a bare wall: written down in the log by anybody, taken into the job by the owner."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponseBase
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.http import urlencode

from darby.desk.doors import for_crew, person_of
from darby.desk.kept import saving
from darby.desk.sketching.readings import READ, logged, taken_in
from darby.desk.sketching.refusing import NotKept, sent_back, typed_fault
from darby.desk.speaking import said_in
from darby.desk.views.job import job_or_404
from darby.desk.views.sketch import answered, keep_by_hand, posted_to, surface_of
from darby.job.places import place
from darby.measure import length
from darby.measure.faults import Unreadable

PAGE = "grounds"


@for_crew
@posted_to(PAGE)
def add(request: HttpRequest, document: str) -> HttpResponseBase:
    """One reading, from a form without script; a phone sends its own by ``lines``."""
    now = job_or_404(document)
    at, setting = surface_of(request, now), said_in(request)
    posted = {key: value for key, value in request.POST.items() if isinstance(value, str)}
    faults: dict[str, tuple[str, ...]] = {}
    for key in READ:
        try:
            length(posted.get(key, ""))
        except Unreadable as error:
            faults[key] = (typed_fault(error.fault, setting.say(f"desk.reading.{key}"), setting),)
    if faults:
        sent_back(request, NotKept("reading", posted, faults))
        return answered(request, document, PAGE, None)
    try:
        said = {key: posted[key].strip() for key in READ}
        saving.note_down(UUID(posted.get("id", "")), document, "reading", person_of(request), said=said, at=at)
    except (ValueError, saving.SentOtherwise):
        sent_back(request, NotKept("reading", posted, loose=(setting.say("desk.reading.again"),)))
        return answered(request, document, PAGE, None)
    return redirect(f"{reverse('stage', args=[document, PAGE])}?{urlencode({'at': at})}")


@posted_to(PAGE)
def take(request: HttpRequest, document: str) -> HttpResponseBase:
    """Take what was read, line by line as it is ticked, into the job."""
    now = job_or_404(document)
    at, setting = surface_of(request, now), said_in(request)
    chosen = set(request.POST.getlist("take"))
    rows = logged(saving.log(document), now.job, at) if now.job is not None else []
    rows = [row for row in rows if str(row.entry.id) in chosen]

    def make(tables: dict[str, Any]) -> dict[str, Any]:
        return taken_in(tables, at, rows, setting.system) if rows else tables

    def placed(made: dict[str, Any]) -> dict[str, str]:
        several = made.get("readings", [])
        n = next((n for n, r in enumerate(several) if r.get("surface") == at), 0)
        points = several[n].get("points", []) if several else []
        return {place(made, ("readings", n, "points", m)): "take" for m in range(len(points))}

    return keep_by_hand(request, document, PAGE, "take", make, placed=placed)
