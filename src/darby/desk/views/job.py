"""A job's pages: a stage, why a number is what it is, and its papers."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.views.decorators.http import require_GET

from darby.answers import Answers
from darby.desk import frame
from darby.desk.doors import for_crew, person_of, refused
from darby.desk.once import once
from darby.desk.places import PLACES, StagePage, pages_for, stage_pages
from darby.desk.reading import Read, read
from darby.desk.speaking import said_in
from darby.tables.pages import page_of
from darby.tables.places import place
from darby.tables.setting import Setting


def job_or_404(document: str, *, later: bool = False) -> Read:
    """The job as it stands.

    Raises
    ------
    Http404
        if there is none.
    """
    found = read(document, later=later)
    if found is None:
        raise Http404
    return found


@for_crew
@require_GET
def job(request: HttpRequest, document: str) -> HttpResponseBase:
    """A job opens at the first page that its reader may see."""
    job_or_404(document)
    return redirect("stage", document, pages_for(owner=person_of(request).is_owner)[0].name)


@for_crew
@require_GET
def stage(request: HttpRequest, document: str, name: str) -> HttpResponseBase:
    """One stage's page."""
    page = stage_pages().get(name)
    if page is None:
        raise Http404
    if not page.crew and not person_of(request).is_owner:
        return refused(request, "desk.door.owner")
    return stage_response(request, page, job_or_404(document, later=page.later))


def stage_response(
    request: HttpRequest, page: StagePage, found: Read, before: Answers | None = None, **more: Any
) -> HttpResponse:
    """The page; after a change with every answer that is another than ``before``, and only the sheet for htmx."""
    setting, owner = said_in(request), person_of(request).is_owner
    answers = found.answers
    context: dict[str, Any] = {
        "read": found, "page": page, "title": page.title(setting), "owner": owner,
        "rod": rod(found, page.name, owner=owner, setting=setting), "places": PLACES,
    } | more  # fmt: skip
    if answers is None:
        from darby.desk.forms import fault_text

        context["faults"] = [fault_text(fault, setting) for fault in found.faults]
        return render(request, "desk/unread.html", context)
    if page.more is not None:
        context |= page.more(request, found)
    at = context.get("at", "")
    context |= {
        "given": frame.given(page, found, setting, at) if owner else [],
        **once(
            answers,
            "page",
            page.name,
            setting,
            owner,
            at,
            make=lambda: _set(frame.made(page, answers, setting, owner=owner, at=at), found, setting, owner=owner),
        ),
        "changed": frame.changed(before, answers, setting, owner=owner),
        "waiting": waiting(page, answers, setting),
    }
    return render(request, page.template, context)


def _set(made: dict[str, Any], found: Read, setting: Setting, *, owner: bool) -> dict[str, Any]:
    """With the tables, and the numbers with their working, as the page shows them: hundreds of rows, set once."""
    around = made | {"setting": setting, "owner": owner, "read": found}
    return made | {
        "ledger": render_to_string("desk/parts/numbers.html", around),
        "shown_tables": render_to_string("desk/parts/every_table.html", around),
    }


def waiting(page: StagePage, answers: Answers, setting: Setting) -> list[str]:
    """What this page's stages wait for, in words."""
    if not any(stage in page.stages for stage, _ in answers.unanswered()):
        return []
    return [line for table in page_of("waiting", answers, setting) for line in table.lines]


def rod(found: Read, here: str, *, owner: bool, setting: Setting) -> list[dict[str, Any]]:
    """The four places with their pages and how each stands."""
    marks = []
    for name in PLACES:
        pages = [
            {"name": p.name, "title": p.title(setting), "state": p.state(found.answers), "here": p.name == here}
            for p in pages_for(owner=owner)
            if p.place == name
        ]
        if pages:
            states = [p["state"] for p in pages]
            state = next((s for s in ("caution", "asks", "done") if s in states), "bare")
            marks.append({"place": name, "pages": pages, "state": state, "here": any(p["here"] for p in pages)})
    return marks


@require_GET
def why(request: HttpRequest, document: str) -> HttpResponseBase:
    """A number and all it stands on: ``?key=bay-south/rest/base/volume``."""
    found = job_or_404(document)
    setting = said_in(request)
    answers = found.answers
    key = request.GET.get("key", "")
    if answers is None:
        raise Http404
    try:
        step = answers.step(key)
    except KeyError:
        raise Http404 from None
    rows, seen, ahead = [], set(), [step]
    while ahead:
        one = ahead.pop(0)
        if one.key not in seen:
            seen.add(one.key)
            rows.append((place(answers, one.key, setting), frame.row_of(one, answers, setting, only=True)))
            ahead += [answers.step(k) for k in one.after]
    marks = rod(found, "", owner=True, setting=setting)
    context = {"read": found, "rows": rows, "title": rows[0][1].title, "rod": marks}
    return render(request, "desk/why.html", context)


CREW_PAPERS = ("crew-", "tickets", "joints", "boards", "patch")


@for_crew
@require_GET
def paper(request: HttpRequest, document: str, name: str) -> HttpResponseBase:
    """One paper as a PDF, or a wall as DXF; the crew gets its own papers only."""
    if not person_of(request).is_owner and not name.startswith(CREW_PAPERS):
        return refused(request, "desk.door.owner")
    found = job_or_404(document)
    data = file_of(found.answers, name) if found.answers is not None else None
    if data is None:
        raise Http404
    kind = "application/pdf" if name.endswith(".pdf") else "application/dxf"
    way = "inline" if name.endswith(".pdf") else "attachment"
    as_file = {"Content-Disposition": f'{way}; filename="{document}-{name}"'}
    return HttpResponse(data, content_type=kind, headers=as_file)


def file_of(answers: Answers, name: str) -> bytes | None:
    """A paper or a drawing of the job by its file name; None if it has none of that name."""
    from darby.papers import each_paper
    from darby.papers import render as set_paper
    from darby.papers.filled.drawn_walls import drawn_names, drawn_wall
    from darby.papers.filled.writer import Writer

    wall = drawn_names(answers).get(name)
    if wall is not None:
        return drawn_wall(Writer(answers), wall)
    made = next((paper for called, paper in each_paper(answers) if called == name), None)
    return set_paper(made) if made is not None else None
