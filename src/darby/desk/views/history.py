"""What a document was, who changed it, and the way back; the log of what happened on site."""

from __future__ import annotations

from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponseBase, JsonResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from darby.desk.doors import for_crew, person_of
from darby.desk.forms import fault_text
from darby.desk.frame import changed
from darby.desk.kept import saving
from darby.desk.kept.models import Entry, Photograph, Revision
from darby.desk.reading import read
from darby.desk.speaking import said_in
from darby.desk.uploads import Refused, moment
from darby.desk.views.job import job_or_404, rod
from darby.job import JobError

MOST_TEXT = 4000


@require_GET
def history(request: HttpRequest, document: str) -> HttpResponseBase:
    """Every revision, newest first."""
    revisions = saving.history(document)
    if not revisions:
        raise Http404
    found = read(document)
    setting = said_in(request)
    around = {"read": found, "rod": rod(found, "", owner=True, setting=setting)} if found is not None else {}
    return render(request, "desk/history.html", {"document": document, "revisions": revisions, **around})


@require_GET
def compare(request: HttpRequest, document: str, number: int) -> HttpResponseBase:
    """Revision ``number`` beside what stands now: the answers that differ, and the lines of the text."""
    from difflib import unified_diff

    then, now = read(document, number=number), read(document)
    old = Revision.objects.filter(document=document, number=number).select_related("who").first()
    latest = saving.latest(document)
    if old is None or latest is None:
        raise Http404
    setting = said_in(request)
    rows = changed(then.answers, now.answers, setting, owner=True) if then and now and now.answers else []
    diff = unified_diff(old.text.splitlines(), latest.text.splitlines(), lineterm="", n=1)
    lines = [(line[:1], line[1:]) for line in diff if not line.startswith(("---", "+++", "@@"))]
    around = {"read": now, "rod": rod(now, "", owner=True, setting=setting)} if now is not None else {}
    context = {"document": document, "old": old, "now": latest, "changed": rows, "lines": lines, **around}
    return render(request, "desk/compare.html", context)


@require_POST
def back(request: HttpRequest, document: str, number: int) -> HttpResponseBase:
    """Write an old revision again as the newest."""
    try:
        saving.go_back(document, number, person_of(request))
    except Revision.DoesNotExist:
        raise Http404 from None
    except JobError as error:
        setting = said_in(request)
        context = {"document": document, "revisions": saving.history(document),
                   "faults": [fault_text(fault, setting) for fault in error.faults]}  # fmt: skip
        return render(request, "desk/history.html", context, status=422)
    return redirect("history", document)


@for_crew
@require_http_methods(["GET", "POST"])
def log(request: HttpRequest, document: str) -> HttpResponseBase:
    """Add a line to the log of a job. A line brings its own id, so that it may be sent again."""
    job_or_404(document)
    return _add(request, document) if request.method == "POST" else redirect("stage", document, "record")


def _add(request: HttpRequest, document: str) -> HttpResponseBase:
    """One line. For a script: 201 new, 200 kept already, 409 the id stands for something else, 400 unreadable."""
    script = request.headers.get("Accept", "").startswith("application/json")
    posted = request.POST
    try:
        id = UUID(posted.get("id", ""))
    except ValueError:
        return JsonResponse({"kept": False}, status=400)
    text = posted.get("text", "").strip()[:MOST_TEXT]
    if not text:
        return JsonResponse({"kept": False}, status=400) if script else redirect("stage", document, "record")
    try:
        _, new = saving.note_down(
            id, document, "note", person_of(request), said={"text": text}, at=posted.get("at", "job")[:120] or "job",
            made=moment(posted.get("made")),
        )  # fmt: skip
    except saving.SentOtherwise:
        return JsonResponse({"kept": False}, status=409)
    except Refused as refused:
        if script:
            return JsonResponse(
                {"kept": False, "says": said_in(request).say(refused.code, **refused.values)}, status=400
            )
        raise
    if script:
        return JsonResponse({"kept": True, "id": str(id)}, status=201 if new else 200)
    return redirect("stage", document, "record")


@for_crew
@require_GET
def photograph(_: HttpRequest, document: str, sha256: str) -> HttpResponseBase:
    """A photograph that stands in this job's log."""
    from django.http import HttpResponse

    if not Entry.objects.filter(document=document, photograph_id=sha256).exists():
        raise Http404
    picture = Photograph.objects.get(sha256=sha256)
    return HttpResponse(bytes(picture.data), content_type=picture.kind)
