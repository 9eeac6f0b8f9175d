"""Marks on a photograph come in and are kept; an opening that was confirmed goes into the job document."""

from __future__ import annotations

from typing import Any
from uuid import UUID, uuid4

from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponseBase
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from darby.desk.doors import for_crew, person_of
from darby.desk.forms import fault_text
from darby.desk.kept import saving
from darby.desk.photographed.confirming import KINDS, put_in, said
from darby.desk.photographed.sheet import CONFIRMED, KIND, kept, posted
from darby.desk.photographed.shot import letter
from darby.desk.photographed.showing import Photo, Sent, newest, photos, surface_of
from darby.desk.photographed.worked import SIZES, work
from darby.desk.places import stage_pages
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.desk.uploads import whole
from darby.desk.views.job import job_or_404, stage_response
from darby.job import JobError
from darby.words import Verbatim

PAGE = "photograph"
MOST_NAME = 60


def _photo(document: str, sha256: str) -> Photo:
    found = next((p for p in photos(document) if p.sha == sha256), None)
    if found is None:
        raise Http404
    return found


def _back(document: str, sha256: str) -> HttpResponseBase:
    return redirect(f"{reverse('stage', args=(document, PAGE))}?photo={sha256}")


@for_crew
@require_http_methods(["GET", "POST"])
def marks(request: HttpRequest, document: str, sha256: str) -> HttpResponseBase:
    """Work out what is marked (``act=work``: nothing is kept), or keep it as a line of the log (``act=keep``)."""
    found = job_or_404(document)
    photo = _photo(document, sha256)
    if request.method == "GET":
        return _back(document, sha256)
    surfaces = {s.id: s for s in found.job.surfaces} if found.job is not None else {}
    wanted = request.POST.get("surface", "")
    sheet = posted(request.POST, wanted if wanted in surfaces else "")
    if request.POST.get("act") != "keep":
        request.photograph = Sent(photo.sha, sheet)  # type: ignore[attr-defined]
        return stage_response(request, stage_pages()[PAGE], found)
    _note(request, document, KIND, sheet.said(), photo)
    return _back(document, sha256)


@require_http_methods(["GET", "POST"])
def confirm(request: HttpRequest, document: str, sha256: str) -> HttpResponseBase:
    """Put one opening of the kept marks into the job document: only if each of its numbers is ticked."""
    found = job_or_404(document)
    photo = _photo(document, sha256)
    if request.method == "GET":
        return _back(document, sha256)
    setting = said_in(request)
    stands = newest(document, KIND, photo.sha)
    n = whole(request.POST, "n", -1)
    if not stands or str(stands[0].id) != request.POST.get("sheet"):
        return _not_so(request, found, photo, n, 409, setting.say("desk.photograph.other-marks"))
    sheet = kept(stands[0].said)
    surface = surface_of(found, sheet, photo)
    told = work(sheet, photo.size, surface, setting.system).frames.get(n)
    if told is None or surface is None:
        raise Http404
    if not set(SIZES) <= set(request.POST.getlist("tick")):
        return _not_so(request, found, photo, n, 422, setting.say("desk.photograph.tick-all"))
    shown = request.POST.getlist("shown")
    if shown != [told[name].text for name in SIZES]:  # his measures, or the marks, are others than when it was shown
        return _not_so(request, found, photo, n, 409, setting.say("desk.photograph.other-marks"))
    kind = request.POST.get("kind", "")
    if kind not in KINDS:
        return _not_so(request, found, photo, n, 422, setting.say("desk.photograph.which-kind"))
    key = sheet.frames[n].key
    before: dict[str, Any] = next(
        (e.said for e in newest(document, CONFIRMED, photo.sha) if e.said.get("key") == key), {}
    )
    old = str(before.get("opening", "")) if before.get("surface") == surface.id else ""
    name = request.POST.get("name", "").strip()[:MOST_NAME]
    try:
        tables, id = put_in(found.tables, surface, told, id=old, kind=kind, name=name)
    except KeyError:
        return _not_so(request, found, photo, n, 422, setting.say("desk.photograph.no-openings-here"))
    says = {"key": key, "letter": letter(n), "surface": surface.id, "opening": id, "sheet": str(stands[0].id)}
    says |= said(told)
    person = person_of(request)
    try:
        with transaction.atomic():
            saving.keep(document, tables, person, base=found.revision.number)
            _note(request, document, CONFIRMED, says, photo)
    except JobError as error:
        return _not_so(request, found, photo, n, 422, *(fault_text(fault, setting) for fault in error.faults))
    except saving.Clash as clash:
        words = setting.say("desk.clash.says", who=Verbatim(clash.latest.who.name))
        return _not_so(request, found, photo, n, 409, words)
    request.photograph = Sent(photo.sha)  # type: ignore[attr-defined]
    return stage_response(request, stage_pages()[PAGE], job_or_404(document), found.answers, kept=True)


def _not_so(
    request: HttpRequest, found: Read, photo: Photo, n: int, status: int, *says: str
) -> HttpResponseBase:  # fmt: skip
    form = {"tick": request.POST.getlist("tick"), "kind": request.POST.get("kind"), "name": request.POST.get("name")}
    request.photograph = Sent(photo.sha, None, (n, says), form)  # type: ignore[attr-defined]
    response = stage_response(request, stage_pages()[PAGE], found)
    response.status_code = status
    return response


def _note(request: HttpRequest, document: str, kind: str, says: dict[str, Any], photo: Photo) -> None:
    """A line of the log under the id of its form; sent again from an old page and saying something else, a new line."""
    try:
        id = UUID(request.POST.get("id", ""))
    except ValueError:
        id = uuid4()
    try:
        saving.note_down(id, document, kind, person_of(request), said=says, at=photo.sha)
    except saving.SentOtherwise:
        saving.note_down(uuid4(), document, kind, person_of(request), said=says, at=photo.sha)
