"""Sending a quote, taking a sent one again, looking at one before it goes; the owner's, all of it."""

from __future__ import annotations

from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect
from django.views.decorators.http import require_GET, require_POST

from darby.desk.doors import person_of
from darby.desk.places import stage_pages
from darby.desk.quoting import frozen
from darby.desk.quoting.looking import picture_of
from darby.desk.views.job import job_or_404, stage_response


@require_POST
def send(request: HttpRequest, document: str) -> HttpResponseBase:
    """Freeze the quote that he looked at. If what it stands on changed meanwhile, nothing is sent; the page says so."""
    found = job_or_404(document)
    try:
        id = UUID(request.POST.get("id", ""))
    except ValueError:
        raise Http404 from None
    now = frozen.stands_on(found)
    sent_already = any(quote.id == id for quote in frozen.quotes(document))
    if not sent_already and any(request.POST.get(key, "") != value for key, value in now.items()):
        response = stage_response(request, stage_pages()["quote"], found, moved_on=True)
        response.status_code = 409
        return response
    try:
        frozen.freeze(id, found, person_of(request))
    except frozen.Incomplete:
        response = stage_response(request, stage_pages()["quote"], found)
        response.status_code = 422
        return response
    return redirect("stage", document, "quote")


@require_GET
def sent(_: HttpRequest, document: str, line: UUID) -> HttpResponseBase:
    """The paper that was sent, byte for byte."""
    data = frozen.pdf_of(document, line)
    if data is None:
        raise Http404
    name = f"{document}-quote-{str(line)[:8]}.pdf"
    return HttpResponse(data, content_type=frozen.PDF, headers={"Content-Disposition": f'inline; filename="{name}"'})


@require_GET
def sheet(_: HttpRequest, document: str, number: int) -> HttpResponseBase:
    """One sheet of the quote as a picture, as it would be sent now."""
    picture = picture_of(job_or_404(document), number)
    if picture is None:
        raise Http404
    return HttpResponse(picture, content_type="image/png")
