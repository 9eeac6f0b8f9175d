"""The first page: one box, and beneath it the open jobs by when they may begin."""

from __future__ import annotations

import json
import re
from dataclasses import asdict, dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any, get_args
from urllib.parse import urlencode
from uuid import uuid4

from django.http import Http404, HttpRequest, HttpResponseBase
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from darby.answers.asked import ask
from darby.answers.open_jobs import next_coats
from darby.answers.open_jobs import open_jobs as next_of_all
from darby.desk import made
from darby.desk.doors import for_crew, person_of
from darby.desk.kept import FIRM, saving
from darby.desk.kept.models import Entry, Revision
from darby.desk.places import State, stage_pages
from darby.desk.reading import Read, read_revision
from darby.desk.sketching.lines import Misspelled, said_line
from darby.desk.sketching.refusing import typed_fault
from darby.desk.sketching.spelling import begins, spellings
from darby.desk.speaking import said_in
from darby.desk.starting import BY_LINES
from darby.measure import Unreadable
from darby.measure.openings import opening_size
from darby.measure.units import System
from darby.measure.writing import write
from darby.tables.open_jobs import open_jobs_page
from darby.tables.said import fault_sections, question_sections, source_lines
from darby.tables.setting import Setting
from darby.words import LANGUAGES, Verbatim
from darby.words.asking.typed import typed_in

if TYPE_CHECKING:
    from darby.answers.asked import Asked
    from darby.tables.quick import QuickWall

SUM = re.compile(r"\d.*[x×*].*\d")
MOST_FOUND = 8
CLOSED, OPENED = "closed", "opened"


@dataclass(frozen=True, slots=True)
class JobLine:
    """A job of the list: its next coat, from when it may go on and by when it must, in words what to do with it.

    ``says`` by language and system ("en us"). ``open``: a coat is still to come, or it cannot be said yet. The line is
    another one from the day ``until`` on; None: only when the job changes.
    """

    id: str
    name: str
    address: str
    ready_from: date | None
    must_by: date | None
    state: State
    says: dict[str, str]
    open: bool
    until: date | None


DATES = ("ready_from", "must_by", "until")


@dataclass(frozen=True, slots=True)
class Said:
    """What the box says: a title, lines, sections under heads; ``begin``: the address of a new job made of it."""

    title: str
    lines: tuple[str, ...] = ()
    sections: tuple[tuple[str, tuple[str, ...]], ...] = ()
    nearest: tuple[str, ...] = ()
    begin: str = ""


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
    away = put_away()
    setting = said_in(request)
    context: dict[str, Any] = {
        "typed": typed, "found": found[:MOST_FOUND], "more": len(found) - MOST_FOUND, "said": said,
        "owner": person_of(request).is_owner,
        "jobs": [job for job in every if job.open and job.id not in away],
        "done": [job for job in every if not job.open and job.id not in away],
        "away": [job for job in every if job.id in away],
        "spoken": f"{setting.language} {setting.system}",
    }  # fmt: skip
    context["every"] = (context["jobs"], context["done"])
    whole = not request.headers.get("HX-Request")
    return render(request, "desk/first.html" if whole else "desk/found.html", context)


def open_jobs() -> list[JobLine]:
    """Every job, those whose next coat must go on soonest first, then by the first day; those without days last."""
    firm, today = saving.firm_text(), timezone.localdate()
    lines = [_job_line(revision, firm, today) for revision in saving.jobs()]
    return sorted(lines, key=lambda one: (one.must_by or date.max, one.ready_from or date.max, one.name))


def _job_line(revision: Revision, firm: str | None, today: date) -> JobLine:
    """As it was made last, while the job and the firm stand as they did: a hundred jobs are not answered for a list."""
    key = (revision.document, revision.text, firm or "")
    found = _lines.get(key)
    if found is None or _past(found, today):
        place = made.place_of("line", *key)
        kept = made.read(place)
        found = _read_line(kept) if kept is not None else None
        if found is None or _past(found, today):
            found = _made_line(read_revision(revision, firm), today)
            made.write(place, json.dumps(asdict(found), default=date.isoformat).encode())
        if len(_lines) > MOST_LINES:
            _lines.clear()
        _lines[key] = found
    return found


_lines: dict[tuple[str, str, str], JobLine] = {}
MOST_LINES = 2000


def _past(line: JobLine, today: date) -> bool:
    return line.until is not None and line.until <= today


def _read_line(kept: bytes) -> JobLine | None:
    try:
        said = json.loads(kept)
        days = {name: date.fromisoformat(said[name]) if said[name] else None for name in DATES}
        return JobLine(**(said | days))
    except (ValueError, TypeError, KeyError):
        return None


def _made_line(found: Read, today: date) -> JobLine:
    head = found.tables.get("job", {})
    states = {page.state(found.answers) for page in stage_pages().values()}
    state: State = "asks" if found.faults or "asks" in states else "caution" if "caution" in states else "done"
    about = (found.id, found.name, str(head.get("address", "")))
    if found.answers is None:
        return JobLine(*about, None, None, state, {}, True, None)
    by_name = {found.id: found.answers}
    one = next(iter(next_of_all(by_name, today)), None)
    if one is None:
        return JobLine(*about, None, None, state, {}, False, None)
    settings = [Setting(language, system) for language in LANGUAGES for system in get_args(System)]
    rows = {f"{s.language} {s.system}": open_jobs_page([one], by_name, today, s).rows[0] for s in settings}
    says = {spoken: ". ".join(filter(None, row[-2:])) for spoken, row in rows.items()}
    return JobLine(*about, one.ready_from, one.must_by, state, says, True, _until(found, today))


def _until(found: Read, today: date) -> date | None:
    """The next day on which something else is to be said: a coat may go on, must have gone on, is damp no longer."""
    after = timedelta(days=1)
    days: set[date] = set()
    for coat in next_coats(found.answers, today) if found.answers is not None else ():
        days |= {coat.ready_from} if coat.ready_from is not None else set()
        days |= {day + after for day in (coat.must_by, coat.damp_until) if day is not None}
    return min((day for day in days if day > today), default=None)


def put_away() -> set[str]:
    """Jobs that were put away and not brought back since."""
    lines = Entry.objects.filter(kind__in=(CLOSED, OPENED)).order_by("when").values_list("document", "kind")
    last = dict(lines)
    return {document for document, kind in last.items() if kind == CLOSED}


@require_POST
def away(request: HttpRequest, document: str) -> HttpResponseBase:
    """Put a job away, or bring it back: a line of its log; the job itself stays as it is."""
    if document == FIRM or saving.latest(document) is None:
        raise Http404
    kind = OPENED if request.POST.get("do") == "bring-back" else CLOSED
    if (document in put_away()) != (kind == CLOSED):
        saving.note_down(uuid4(), document, kind, person_of(request))
    return redirect("first")


def matching(typed: str, every: list[JobLine]) -> list[JobLine]:
    """The job with just this short name, then those in whose name or street every word stands."""
    whole = typed.casefold()
    words = whole.split()
    hits = [j for j in every if j.id == whole or all(w in f"{j.name} {j.address}".casefold() for w in words)]
    return sorted(hits, key=lambda job: job.id != whole)


def answer_to(typed: str, setting: Setting) -> Said:
    """A new job, a wall, a sum, an opening by its four figures, if it looks like one; else the answer to a question."""
    said = _new_job(typed, setting) or _opening(typed, setting)
    if said is None and SUM.search(typed):
        said = _wall(typed, setting) or _sum(typed, setting)
    if said is not None:
        return said
    told = ask(typed, language=setting.language, prefer=setting.language, system=setting.system)
    if typed_in(typed).area is not None and (told.filled is None or AREA.fullmatch(typed)):
        told = ask(setting.say("desk.box.bags-for", area=Verbatim(typed)), language=setting.language,
                   prefer=setting.language, system=setting.system)  # fmt: skip
    return _told(told, setting)


def _new_job(typed: str, setting: Setting) -> Said | None:
    asked = setting.say("desk.box.new-job").split("|")
    return Said(setting.say("desk.new"), begin=reverse("new")) if typed.casefold() in asked else None


def _wall(typed: str, setting: Setting) -> Said | None:
    """A shape in one line, as *Outline* takes it: it can become a job."""
    called, _ = begins(typed, spellings("shape"))
    if not called:
        return None
    begin = f"{reverse('new-shape', args=[BY_LINES])}?{urlencode({'walls': typed})}"
    try:
        said_line(typed, {}, None, setting.language)
    except Misspelled as wrong:
        return Said(typed_fault(wrong.fault, typed[wrong.start : wrong.stop], setting), begin=begin)
    return Said(setting.say("desk.box.wall"), begin=begin)


AREA = re.compile(r"[\d.,]+\s*\S+(?:\s\S+)?")
OPENING = re.compile(r"[^\W\d]*\s*(?P<size>\d{4})\s*[^\W\d]*")


def _opening(typed: str, setting: Setting) -> Said | None:
    """``3068``: how wide and how high that is."""
    found = OPENING.fullmatch(typed)
    try:
        sides = opening_size(found["size"]) if found is not None else None
    except Unreadable:
        return None
    if found is None or sides is None:
        return None
    width, height = (Verbatim(write(side, "sentence")) for side in sides)
    return Said(setting.say("desk.box.opening", size=Verbatim(found["size"]), width=width, height=height))


def _sum(typed: str, setting: Setting) -> Said | None:
    from darby.tables.quick import quick_line, quick_wall

    try:
        wall = quick_wall(typed)
    except Unreadable as error:
        like = _like(typed)
        if "," not in typed and not like:
            return None
        found, allowed = Verbatim(error.fault.found), Verbatim(error.fault.allowed)
        return Said(setting.say("cli.sum-unreadable", found=found, allowed=allowed), nearest=like)
    title, *lines = quick_line(wall, setting)
    return Said(title, tuple(lines), begin=_begun(wall))


BARE = re.compile(
    r"(?P<a>\d+(?:\.\d+)?)\s*'?\s*[x×*]\s*(?P<b>\d+(?:\.\d+)?)\s*'?(?:\s*[x×*]\s*(?P<faces>\d+))?[\s,]*(?P<rest>.*)",
    re.IGNORECASE,
)


LIKE_ON = {"block": "1/2", "lath": "7/8", "frame": "7/8"}
"""As the hint of the box writes a thickness on each base; it only shows how a sum is written."""


def _like(typed: str) -> tuple[str, ...]:
    """The sum that was perhaps meant by ``60 x 6`` or ``24x8 lath``: feet, and a usual thickness on that base."""
    from darby.tables.quick import BASES

    found = BARE.fullmatch(typed.strip())
    if found is None:
        return ()
    base = next((base for base in BASES if base in found["rest"].casefold()), BASES[0])
    faces = f" x {found['faces']}" if found["faces"] else ""
    return (f"{found['a']}' x {found['b']}'{faces}, {LIKE_ON.get(base, LIKE_ON[BASES[0]])} {base}",)


def _begun(wall: QuickWall) -> str:
    """The address of a new job with these sizes: a garden wall if it has two faces."""
    section = "garden_wall" if wall.faces == 2 else "wall"
    asked = {"length": write(wall.length, to=64), "height": write(wall.height, to=64), "base": wall.base}
    if section == "garden_wall" or wall.base == "lath":
        del asked["base"]
    sizes = {f"{section}.0.{key}": text for key, text in asked.items()}
    return f"{reverse('new-shape', args=[section])}?{urlencode(sizes)}"


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
