"""Changes on the pages of "Put on": lines of joints, a layout that is taken; each kept, and all answered again."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.http import urlencode
from django.views.decorators.http import require_POST

from darby.answers import answer
from darby.desk.doors import person_of
from darby.desk.forms import fault_text
from darby.desk.kept import FIRM, saving
from darby.desk.places import stage_pages
from darby.desk.put_on.building import taken
from darby.desk.put_on.lines import said
from darby.desk.put_on.matching import entered
from darby.desk.put_on.measures import measured
from darby.desk.put_on.parting import limits_of
from darby.desk.speaking import said_in
from darby.desk.uploads import whole
from darby.desk.views.job import job_or_404, stage_response
from darby.job import JobError, dump, loads
from darby.measure.faults import Unreadable

Tables = Mapping[str, Any]


@require_POST
def joints_keep(request: HttpRequest, document: str) -> HttpResponse:
    """Keep the lines of one wall, or another layout of it."""
    return kept(request, document, "joints", lambda tables: said(tables, _at(request), request.POST.dict()))


@require_POST
def joints_try(request: HttpRequest, document: str) -> HttpResponse:
    """How the limits would stand with these lines; nothing is kept."""
    found = job_or_404(document)
    setting, at = said_in(request), _at(request)
    context: dict[str, Any] = {"read": found, "trying": True, "refused": []}
    firm = saving.firm_text()
    try:
        job = loads(dump(said(_base(request, document)[0], at, request.POST.dict())), firm=firm)
        context |= limits_of(answer(job, since=found.answers), at, setting)
    except JobError as error:
        context["refused"] = [fault_text(fault, setting) for fault in error.faults]
    return render(request, "desk/put_on/limits.html", context)


@require_POST
def measure(request: HttpRequest, document: str) -> HttpResponse:
    """Keep what his bucket, shovel or mixer holds, in the firm file."""
    system = said_in(request).system
    return kept(request, document, "mixes", lambda tables: measured(tables, request.POST.dict(), system), firm=True)


@require_POST
def match_keep(request: HttpRequest, document: str) -> HttpResponse:
    """Keep what was read of an old face, or which board was signed for."""
    return kept(request, document, "match", lambda tables: entered(tables, request.POST.dict()))


@require_POST
def coats_take(request: HttpRequest, document: str) -> HttpResponse:
    """Keep the way that some walls are built up."""
    posted = request.POST
    return kept(request, document, "coats", lambda tables: taken(tables, posted.getlist("at"), posted.get("way", "")))


# --- keeping -------------------------------------------------------------------------------------------


def kept(
    request: HttpRequest, document: str, name: str, made: Callable[[Tables], Tables], *, firm: bool = False
) -> HttpResponse:
    """Keep what ``made`` makes of the job's tables (``firm``: of the firm file's); then the page ``name`` again.

    Others' changes since ``base`` stay. What cannot be kept is said on the page, and stands there as it was filled in.
    """
    page = stage_pages()[name]
    old = job_or_404(document, later=page.later)
    setting = said_in(request)
    target = FIRM if firm else document
    before, number = _base(request, target)
    context: dict[str, Any] = {"kept": True}
    status, tables = 200, before
    try:
        tables = made(before)
        saving.keep(target, tables, person_of(request), base=number)
    except JobError as error:
        context = {"refused": [fault_text(fault, setting) for fault in error.faults]}
        status = 422
    except Unreadable as error:
        context = {"refused": [fault_text(error.fault, setting).lstrip(": ")]}  # it stands in no file yet
        status = 422
    except saving.Clash as clash:
        context, status = {"clash": clash}, 409
    if status != 200:
        request.refused_tables = tables  # type: ignore[attr-defined]
    found = job_or_404(document, later=page.later)
    response = stage_response(request, page, found, old.answers if status == 200 else None, **context)
    response.status_code = status
    at = _at(request)
    response.headers["HX-Push-Url"] = f"/job/{document}/{page.name}/" + (f"?{urlencode({'at': at})}" if at else "")
    return response


def _at(request: HttpRequest) -> str:
    return str(request.POST.get("at", ""))


def _base(request: HttpRequest, document: str) -> tuple[Tables, int]:
    """The tables that the page was made from, and their revision; the newest where it does not say."""
    number = whole(request.POST, "base")
    found = next((r for r in saving.history(document) if r.number == number), None) or saving.latest(document)
    return (saving.tables(found.text), found.number) if found is not None else ({}, 0)
