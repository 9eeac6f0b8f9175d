"""Changing walls by hand: a shape by one line, an opening by shorthand, the sketch and its list, one step back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from typing import Any

from django.http import Http404, HttpRequest, HttpResponseBase, QueryDict
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.http import urlencode

from darby.answers import Answers
from darby.desk import frame
from darby.desk.doors import person_of
from darby.desk.kept import saving
from darby.desk.kept.models import Revision
from darby.desk.kept.undoing import steps
from darby.desk.places import StagePage, stage_pages
from darby.desk.reading import Read, read
from darby.desk.sketching.entries import NotSo, Sketch, changed, own_of, put_openings, sketch, tapped, where, wrote
from darby.desk.sketching.lines import Misspelled, said_line, said_opening
from darby.desk.sketching.refusing import NotKept, by_field, sent_back, typed_fault
from darby.desk.speaking import said_in
from darby.desk.uploads import whole
from darby.desk.views.job import job_or_404, stage_response
from darby.job import JobError
from darby.tables.setting import Setting

Make = Callable[[dict[str, Any]], dict[str, Any]]
Change = Callable[[HttpRequest, str], HttpResponseBase]
Again = Callable[[Mapping[str, str], int], Mapping[str, str]]
MOST_LINE = 500
OK = 200


def posted_to(page: str) -> Callable[[Change], Change]:
    """A view that changes something, below the address of a page: whoever only looks there is sent to the page."""

    def around(view: Change) -> Change:
        @wraps(view)
        def answer(request: HttpRequest, document: str) -> HttpResponseBase:
            if request.method == "POST":
                return view(request, document)
            return redirect(f"{reverse('stage', args=[document, page])}?{request.GET.urlencode()}")

        return answer

    return around


def units_of(tables: Mapping[str, Any]) -> str | None:
    """What a bare length of this document is in; None where it must say."""
    own = tables.get("firm")
    if not isinstance(own, Mapping):
        text = saving.firm_text()
        own = saving.tables(text) if text else {}
    found = tables.get("units") or own.get("units")
    return str(found) if found else None


def answered(request: HttpRequest, document: str, page: str, before: Answers | None, **more: Any) -> HttpResponseBase:
    """The page after a change, with every answer that is another than before: first the last line of each table."""
    stage = stage_pages()[page]
    found = read(document, later=stage.later)
    if found is None:
        raise Http404
    request.path = reverse("stage", args=[document, page])  # what the page says of itself, to come back to
    request.META["QUERY_STRING"] = request.GET.urlencode()
    refused = getattr(request, "not_kept", None)
    if before is not None and found.answers is not None and refused is None:
        every = _changed(stage, before, found.answers, said_in(request))
        last = list({change.where: change for change in every}.values())
        more |= {"by_hand_changed": every, "by_hand_first": last, "by_hand_rest": [c for c in every if c not in last]}
    response = stage_response(request, stage, found, before, by_hand=refused is None, **more)
    response.status_code = refused.status if isinstance(refused, NotKept) else OK
    return response


def _changed(stage: StagePage, before: Answers, after: Answers, setting: Setting) -> list[frame.Change]:
    """Every answer that is another; of a slow stage those of its own page first."""
    own: list[frame.Change] = []
    if stage.later:
        own = frame.differences(*(frame.tables_of(stage, a, setting, owner=True) for a in (before, after)))
    return [*own, *frame.changed(before, after, setting, owner=True)]


def keep_by_hand(
    request: HttpRequest, document: str, page: str, form: str, make: Make, *,
    placed: Callable[[dict[str, Any]], Mapping[str, str]] = lambda _: {}, names: Mapping[str, str] | None = None,
    then: Callable[[], str] | None = None, again: Again | None = None, **more: Any,
) -> HttpResponseBase:  # fmt: skip
    """Change the document of the revision that the form was made from, keep it, and answer with the page.

    ``make`` hands back the document as it would be; ``placed`` its places by the field that says them. Whatever is
    wrong goes back with the form, and nothing of it is kept. ``then``: the surface that is shown once it is kept.
    ``again``: what of the form stands in it beside what somebody else kept meanwhile.
    """
    posted = {key: value for key, value in request.POST.items() if isinstance(value, str)}
    setting = said_in(request)
    base = whole(posted, "base")
    revision = Revision.objects.filter(document=document, number=base).first() or saving.latest(document)
    if revision is None:
        raise Http404
    old = read(document, later=stage_pages()[page].later)
    made: dict[str, Any] = {}
    also: tuple[str, ...] = ()
    try:
        made = make(saving.tables(revision.text))
        also = saving.keep(document, made, person_of(request), base=revision.number).also
        if then is not None:
            request.GET = QueryDict(urlencode({"at": then()}))
    except NotSo as wrong:
        faults = {name: (typed_fault(f, (names or {}).get(name, ""), setting),) for name, f in wrong.faults.items()}
        sent_back(request, NotKept(form, posted, faults, base=revision.number))
    except Misspelled as wrong:
        line = posted.get("line", "")
        marked = (line[: wrong.start], line[wrong.start : wrong.stop], line[wrong.stop :])
        said = typed_fault(wrong.fault, marked[1] or line, setting)
        sent_back(request, NotKept(form, posted, {"line": (said,)}, marked=marked, base=revision.number))
    except JobError as error:
        found, loose = by_field(error.faults, placed(made), setting)
        sent_back(request, NotKept(form, posted, found, loose, base=revision.number))
    except saving.Clash as clash:
        own = again(posted, clash.latest.number) if again is not None else posted
        sent_back(request, NotKept(form, own, clash=clash, base=clash.latest.number))
    response = answered(request, document, page, old.answers if old is not None else None, also=also, **more)
    if then is not None and response.status_code == OK:
        response.headers["HX-Push-Url"] = f"{reverse('stage', args=[document, page])}?{request.GET.urlencode()}"
    return response


def surface_of(request: HttpRequest, found: Read) -> str:
    """The surface that the address names (``?at=``), else the first.

    Raises
    ------
    Http404
        if the job cannot be read, or has no such surface.
    """
    if found.job is None:
        raise Http404
    ids = [s.id for s in found.job.surfaces]
    at = request.GET.get("at") or ids[0]
    if at not in ids:
        raise Http404
    return at


# --- the wall ----------------------------------------------------------------------------------------


def there(document: str, number: int, at: str, setting: Any) -> Sketch | None:
    """The wall as the form showed it: as it stood at the revision the form was made from."""
    found = read(document, number=number)
    if found is None or found.job is None:
        return None
    by = wrote(found.tables, at)
    surface = next((s for s in found.job.surfaces if s.id == at), None)
    return sketch(found.tables, surface, by, setting.system) if by is not None and surface is not None else None


@posted_to("wall")
def wall(request: HttpRequest, document: str) -> HttpResponseBase:
    """The list beside the sketch, or one size tapped in it (``what``, ``typed``)."""
    now = job_or_404(document)
    at, setting = surface_of(request, now), said_in(request)
    posted = {key: value for key, value in request.POST.items() if isinstance(value, str)}
    number = whole(posted, "base", now.revision.number)
    shown = there(document, number, at, setting)
    if shown is None:
        raise Http404
    names = {name: setting.say(f"desk.sketch.{name.rpartition('.')[2]}") for name in shown.cells}
    names |= {f"c.new.{key}": setting.say(f"desk.sketch.{key}") for key in ("u", "v")}

    def make(tables: dict[str, Any]) -> dict[str, Any]:
        units = units_of(tables)
        form: Mapping[str, str] = posted
        if posted.get("what"):
            form = {**posted, **_tapped(shown, posted["what"], posted.get("typed", ""), setting.system, units)}
        return changed(tables, shown, form, setting.system, units)

    def again(posted: Mapping[str, str], latest: int) -> Mapping[str, str]:
        now = there(document, latest, at, setting)
        return own_of(posted, shown, now) if now is not None else {}

    return keep_by_hand(
        request, document, "wall", "sketch", make, placed=lambda made: where(made, shown) if made else {}, names=names,
        again=again,
    )  # fmt: skip


def _tapped(shown: Sketch, what: str, text: str, system: Any, units: str | None) -> Mapping[str, str]:
    try:
        return tapped(shown, what, text, system, units)
    except (KeyError, ValueError, IndexError):
        raise Http404 from None


@posted_to("wall")
def line(request: HttpRequest, document: str) -> HttpResponseBase:
    """A shape by one line."""
    job_or_404(document)
    text = request.POST.get("line", "").strip()[:MOST_LINE]
    taken: dict[str, Any] = {}

    def make(tables: dict[str, Any]) -> dict[str, Any]:
        said = said_line(text, tables, units_of(tables), said_in(request).language)
        taken.update(id=said.entry["id"], taken=said.taken, like=said.like, entry=said.entry)
        return {**tables, said.section: [*tables.get(said.section, []), said.entry]}

    def first() -> str:
        job = job_or_404(document).job
        ids = [s.id for s in job.surfaces] if job is not None else []
        return next((id for id in ids if id == taken["id"] or id.startswith(f"{taken['id']}-")), ids[0])

    return keep_by_hand(request, document, "wall", "line", make, then=first, added=taken)


@posted_to("wall")
def opening(request: HttpRequest, document: str) -> HttpResponseBase:
    """An opening by shorthand."""
    now = job_or_404(document)
    at = surface_of(request, now)
    text = request.POST.get("line", "").strip()[:MOST_LINE]

    def make(tables: dict[str, Any]) -> dict[str, Any]:
        by = wrote(tables, at)
        if by is None:
            raise Http404
        put_openings(tables, by, [*by.openings(tables), said_opening(text, units_of(tables))])
        return tables

    def placed(made: dict[str, Any]) -> dict[str, str]:
        from darby.job.places import place

        by = wrote(made, at) if made else None
        return {place(made, by.opening_loc(len(by.openings(made)) - 1)): "line"} if by is not None else {}

    return keep_by_hand(request, document, "wall", "opening", make, placed=placed)


@posted_to("wall")
def step(request: HttpRequest, document: str) -> HttpResponseBase:
    """One step back in the history, or forward again (``way``): only from what the page showed."""
    now = job_or_404(document)
    page = request.POST.get("page", "wall")
    if page not in stage_pages():
        raise Http404
    walk = steps(document)
    to = walk.back if request.POST.get("way") != "forward" else walk.forward
    posted = {key: value for key, value in request.POST.items() if isinstance(value, str)}
    old = read(document, later=stage_pages()[page].later)
    latest = saving.latest(document)
    if latest is not None and posted.get("base") != str(walk.now):
        clash = saving.Clash(tuple(latest.changed), latest)
        sent_back(request, NotKept("step", posted, clash=clash, base=walk.now))
    elif to is not None:
        try:
            saving.go_back(document, to, person_of(request))
        except JobError as error:
            _, loose = by_field(error.faults, {}, said_in(request))
            sent_back(request, NotKept("step", posted, loose=loose, base=now.revision.number))
    return answered(request, document, page, old.answers if old is not None else None)
