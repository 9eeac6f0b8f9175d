"""Changing a job: a section as a form, the whole document as text, a new one from a shape."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from darby.desk.choosing import known_of
from darby.desk.doors import person_of
from darby.desk.forms import Field, Form, fault_text, filled_in, sections
from darby.desk.frame import section_title
from darby.desk.kept import FIRM, saving
from darby.desk.places import stage_pages
from darby.desk.reading import read
from darby.desk.sketching.refusing import typed_fault
from darby.desk.speaking import said_in
from darby.desk.starting import BY_LINES, HEAD, SHAPES, document_of, with_lines, with_names
from darby.desk.uploads import whole
from darby.desk.views.job import rod, stage_response
from darby.job import JobError, dump
from darby.job.rewriting import rewritten
from darby.measure import Fault
from darby.tables.setting import Setting
from darby.words import Verbatim


@require_http_methods(["GET", "POST"])
def section(request: HttpRequest, document: str, key: str) -> HttpResponseBase:
    """A section of a job or of the firm file as a form. ``from``: the page it was opened from, and goes back to.

    ``at``: the entry of a list that is open; what the address says of it stands in the form already.
    """
    now = saving.latest(document)
    if now is None or key not in sections(document):
        raise Http404
    came = _known(request.POST.get("from") or request.GET.get("from", ""), document)
    if request.method == "GET":
        tables = filled_in(document, saving.tables(now.text), request.GET.dict(), (key,))
        return _form(request, document, key, tables, now.number, came)
    base = whole(request.POST, "base")
    before = next((r for r in saving.history(document) if r.number == base), now)
    tables = filled_in(document, saving.tables(before.text), request.POST.dict(), (key,))
    old = read(document)
    try:
        saving.keep(document, tables, person_of(request), base=before.number)
    except JobError as error:
        return _form(request, document, key, tables, before.number, came, faults=error.faults)
    except saving.Clash as clash:
        return _form(request, document, key, clash.both, clash.latest.number, came, clash=clash)
    return _after(request, document, came, old.answers if old is not None else None)


def _known(came: str, document: str) -> str:
    """Where a form was opened: a page of the job, of the firm's that of a job before it; "" where it is neither."""
    job, _, name = came.rpartition("/")
    return came if name in stage_pages() and bool(job) == (document == FIRM) else ""


def _after(request: HttpRequest, document: str, came: str, before: Any) -> HttpResponseBase:
    """Back where it was opened, with every answer that changed."""
    if document == FIRM:
        job, _, name = came.partition("/")
        return redirect("stage", job, name) if name in stage_pages() and saving.latest(job) else redirect("firm")
    page = stage_pages().get(came) or next(iter(stage_pages().values()))
    found = read(document, later=page.later)
    if found is None:
        raise Http404
    response = stage_response(request, page, found, before, kept=True)
    response.headers["HX-Push-Url"] = f"/job/{document}/{page.name}/"
    return response


def _form(
    request: HttpRequest, document: str, key: str, tables: Mapping[str, Any], base: int, came: str, *,
    faults: Any = (), clash: saving.Clash | None = None,
) -> HttpResponse:  # fmt: skip
    setting = said_in(request)
    form = Form(document, tables, setting, faults, known_of(document, setting), request.GET.get("at", ""))
    field = form.section(key)
    context = {
        "document": document, "key": key, "title": section_title(key, setting), "field": field, "loose": form.loose,
        "base": base, "came": came, "clash": clash, "is_firm": document == FIRM, **_around(request, document),
    }  # fmt: skip
    return render(request, "desk/section.html", context, status=409 if clash else 422 if faults else 200)


def _around(request: HttpRequest, document: str) -> dict[str, Any]:
    """The rod, if it is a job's page."""
    found = read(document)
    if found is None:
        return {}
    return {"read": found, "rod": rod(found, "", owner=True, setting=said_in(request))}


@require_http_methods(["GET", "POST"])
def text(request: HttpRequest, document: str) -> HttpResponseBase:
    """The whole document as text, for the bold."""
    now = saving.latest(document)
    if now is None:
        raise Http404
    setting = said_in(request)
    context: dict[str, Any] = {"document": document, "text": now.text, "base": now.number, "faults": [],
                               "is_firm": document == FIRM, **_around(request, document)}  # fmt: skip
    if request.method == "GET":
        return render(request, "desk/text.html", context)
    written = request.POST.get("text", "").replace("\r\n", "\n")
    context["text"], context["base"] = written, whole(request.POST, "base")
    old = read(document)
    try:
        saving.keep(document, written, person_of(request), base=context["base"])
    except JobError as error:
        context["faults"] = [fault_text(fault, setting) for fault in error.faults]
        return render(request, "desk/text.html", context, status=422)
    except saving.Clash as clash:
        # Beside what is his, what others changed stands in it: kept again, it undoes nothing of theirs untold.
        both = rewritten(written, clash.both)
        context |= {"clash": clash, "base": clash.latest.number, "text": both}
        return render(request, "desk/text.html", context, status=409)
    return _after(request, document, "", old.answers if old is not None else None)


@require_http_methods(["GET", "POST"])
def new(request: HttpRequest, shape: str = "") -> HttpResponseBase:
    """A new job: pick a shape, fill in its few lines. What the address says already stands in the form."""
    setting = said_in(request)
    if not shape:
        return render(request, "desk/new.html", {"shapes": list(SHAPES)})
    if shape not in SHAPES:
        raise Http404
    asked = SHAPES[shape]
    sent = (request.POST if request.method == "POST" else request.GET).dict()
    tables = document_of(asked, sent, timezone.localdate())
    tables.setdefault("job", {}).setdefault("name", "")
    walls = sent.get(WALLS, "") if shape == BY_LINES else ""
    made, misread = with_lines(tables, walls, setting.language)
    faults: tuple[Fault, ...] = ()
    if request.method == "POST" and not misread:
        try:
            written = dump(with_names(made, setting.language))
            return redirect("job", saving.begin(str(made["job"]["name"]), written, person_of(request)).document)
        except JobError as error:
            faults = error.faults
    form = Form("", made, setting, faults)
    fields = form.only(asked.ways)
    if shape == BY_LINES:
        wrong = [_misread(number, text, fault, setting) for number, text, fault in misread]
        wrong += [] if walls.strip() or request.method == "GET" else [setting.say("desk.new.walls-lack")]
        fields.insert(len(HEAD), _walls(walls, wrong, setting))
    refused = request.method == "POST"
    context = {"shape": shape, "fields": fields, "loose": form.loose if refused else []}
    return render(request, "desk/new_shape.html", context, status=422 if refused else 200)


WALLS = "walls"
"""The field in which the walls of a job stand, a line each."""


def _walls(written: str, wrong: list[str], setting: Setting) -> Field:
    says = setting.say("desk.new.walls-says")
    return Field(WALLS, setting.say("desk.new.walls"), WALLS, "long", True, says, written, faults=tuple(wrong))


def _misread(number: int, text: str, fault: Fault, setting: Setting) -> str:
    return setting.say("desk.new.line-wrong", number=str(number), why=Verbatim(typed_fault(fault, text, setting)))


@require_http_methods(["GET"])
def firm(request: HttpRequest) -> HttpResponseBase:
    """The firm file: its sections, each with its form."""
    now = saving.latest(FIRM)
    if now is None:
        raise Http404
    setting = said_in(request)
    form = Form(FIRM, saving.tables(now.text), setting)
    rows = [(key, section_title(key, setting), form.section(key).filled) for key in sections(FIRM)]
    return render(request, "desk/firm.html", {"rows": rows, "name": Verbatim(saving.tables(now.text).get("name", ""))})
