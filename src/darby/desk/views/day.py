"""What was done on site: written down by the crew, taken into the job by the owner."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from darby.desk.doors import for_crew, person_of
from darby.desk.forms import fault_text
from darby.desk.kept import saving
from darby.desk.onsite import lines
from darby.desk.places import stage_pages
from darby.desk.speaking import said_in
from darby.desk.uploads import Refused
from darby.desk.views.job import job_or_404, stage_response
from darby.desk.views.lines import keep_line
from darby.job import JobError

PAGE = "days"
FIELDS = ("coat", "on", "remark")


@for_crew
@require_POST
def down(request: HttpRequest, document: str) -> HttpResponseBase:
    """Write down a coat that is on, without a script; with one it goes in by ``lines``."""
    job_or_404(document)
    posted = request.POST
    said = {key: posted.get(key, "") for key in FIELDS if posted.get(key, "")}
    try:
        keep_line(request, document, {"id": posted.get("id"), "at": posted.get("at"), "kind": lines.DONE, "said": said})
    except Refused as refused:
        return render(request, "desk/refused.html", {"code": refused.code, "values": refused.values}, status=400)
    return redirect("stage", document, PAGE)


@require_POST
def take(request: HttpRequest, document: str) -> HttpResponse:
    """Take the lines that are ticked into the job, or leave them out of it; then the page with what changed."""
    old = job_or_404(document)
    ids = [id for id in request.POST.getlist("line") if _is_id(id)]
    setting, who = said_in(request), person_of(request)
    context: dict[str, Any] = {}
    status = 200
    try:
        if request.POST.get("do") == "leave":
            lines.leave(old, ids, who)
        else:
            lines.take(old, ids, who)
            context = {"kept": bool(ids)}
    except JobError as error:
        context, status = {"refused": [fault_text(fault, setting) for fault in error.faults]}, 422
    except saving.Clash as clash:
        context, status = {"clash": clash}, 409
    response = stage_response(
        request, stage_pages()[PAGE], job_or_404(document), old.answers if status == 200 else None, **context
    )
    response.status_code = status
    return response


def _is_id(text: str) -> bool:
    try:
        UUID(text)
    except ValueError:
        return False
    return True
