"""The first page: one box, and beneath it the open jobs by when they may begin."""

from __future__ import annotations

import json
import re
from dataclasses import asdict, dataclass
from datetime import date
from typing import TYPE_CHECKING

from django.http import HttpRequest, HttpResponseBase
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET

from darby.answers.asked import ask
from darby.desk import made
from darby.desk.doors import for_crew, person_of
from darby.desk.kept import saving
from darby.desk.kept.models import Revision
from darby.desk.places import State, stage_pages
from darby.desk.reading import Read, read_revision
from darby.desk.speaking import said_in
from darby.measure import Unreadable
from darby.tables.said import fault_sections, question_sections, source_lines
from darby.tables.setting import Setting
from darby.words import Verbatim

if TYPE_CHECKING:
    from darby.answers.asked import Asked

SUM = re.compile(r"\d.*[x×*].*\d")
MOST_FOUND = 8


@dataclass(frozen=True, slots=True)
class JobLine:
    """A job of the list: its name, where it is, when it may begin, when it would be done, and how it stands."""

    id: str
    name: str
    address: str
    first: date | None
    last: date | None
    state: State


@dataclass(frozen=True, slots=True)
class Said:
    """What the box says: a title, lines, sections under heads."""

    title: str
    lines: tuple[str, ...] = ()
    sections: tuple[tuple[str, tuple[str, ...]], ...] = ()
    nearest: tuple[str, ...] = ()


@for_crew
@require_GET
def first(request: HttpRequest) -> HttpResponseBase:
    """One box: a sum, a question, a street or a name."""
    typed = request.GET.get("q", "").strip()
    every = open_jobs()
    found = matching(typed, every) if typed else []
    if (
        typed
        and not request.headers.get("HX-Request")
        and len(found) == 1
        and found[0].name.casefold() == typed.casefold()
    ):
        return redirect(reverse("job", args=[found[0].id]))
    said = answer_to(typed, said_in(request)) if typed and not found else None
    context = {"typed": typed, "jobs": every, "found": found, "said": said, "owner": person_of(request).is_owner}
    whole = not request.headers.get("HX-Request")
    return render(request, "desk/first.html" if whole else "desk/found.html", context)


def open_jobs() -> list[JobLine]:
    """Every job, those that can begin soonest first; those without days last."""
    firm = saving.firm_text()
    lines = [_job_line(revision, firm) for revision in saving.jobs()]
    return sorted(lines, key=lambda line: (line.first is None, line.first or date.max, line.name))


def _job_line(revision: Revision, firm: str | None) -> JobLine:
    """As it was made last, while the job and the firm stand as they did: a hundred jobs are not answered for a list."""
    key = (revision.document, revision.text, firm or "")
    found = _lines.get(key)
    if found is None:
        place = made.place_of("line", *key)
        kept = made.read(place)
        found = _read_line(kept) if kept is not None else None
        if found is None:
            found = _made_line(read_revision(revision, firm))
            made.write(place, json.dumps(asdict(found), default=date.isoformat).encode())
        if len(_lines) > MOST_LINES:
            _lines.clear()
        _lines[key] = found
    return found


_lines: dict[tuple[str, str, str], JobLine] = {}
MOST_LINES = 2000


def _read_line(kept: bytes) -> JobLine | None:
    try:
        said = json.loads(kept)
        days = {name: date.fromisoformat(said[name]) if said[name] else None for name in ("first", "last")}
        return JobLine(**(said | days))
    except (ValueError, TypeError, KeyError):
        return None


def _made_line(found: Read) -> JobLine:
    days = found.answers.good("days").get("job") if found.answers is not None else None
    head = found.tables.get("job", {})
    states = {page.state(found.answers) for page in stage_pages().values()}
    state: State = "asks" if found.faults or "asks" in states else "caution" if "caution" in states else "done"
    return JobLine(
        found.id, found.name, str(head.get("address", "")), days.first if days is not None else None,
        days.last if days is not None else None, state,
    )  # fmt: skip


def matching(typed: str, every: list[JobLine]) -> list[JobLine]:
    """Jobs in whose name or street every word stands."""
    words = typed.casefold().split()
    hits = [j for j in every if all(w in f"{j.name} {j.address}".casefold() for w in words)]
    return hits[:MOST_FOUND]


def answer_to(typed: str, setting: Setting) -> Said:
    """A sum if it looks like one, else the answer to a question."""
    if SUM.search(typed):
        said = _sum(typed, setting)
        if said is not None:
            return said
    told = ask(typed, language=setting.language, prefer=setting.language, system=setting.system)
    return _told(told, setting)


def _sum(typed: str, setting: Setting) -> Said | None:
    from darby.tables.quick import quick_line, quick_wall

    try:
        wall = quick_wall(typed)
    except Unreadable as error:
        if "," not in typed:
            return None
        found, allowed = Verbatim(error.fault.found), Verbatim(error.fault.allowed)
        return Said(setting.say("cli.sum-unreadable", found=found, allowed=allowed))
    title, *lines = quick_line(wall, setting)
    return Said(title, tuple(lines))


def _told(told: Asked, setting: Setting) -> Said:
    filled = told.filled
    if filled is None:
        nearest = tuple(hit.entry.said[setting.language].asked[0] for hit in told.found.nearest)
        return Said(setting.say("ask.nothing"), nearest=nearest)
    sections = question_sections(filled, setting) if filled.kind == "question" else fault_sections(filled, setting)
    lines = [head for head, body in sections if not body]
    lines += [told.reckoned] if told.reckoned else []
    parts = [(head, tuple(body)) for head, body in sections if body]
    parts.append((setting.say("ask.told"), tuple(source_lines(filled.told, setting))))
    others = tuple(hit.entry.said[setting.language].asked[0] for hit in told.found.hits[1:4])
    return Said(filled.title, tuple(lines), tuple(parts), others)
