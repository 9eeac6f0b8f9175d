"""What the crew wrote down and is not in the job: coats that are on, which the owner takes in here or leaves out; and
readings, which are taken in at their wall."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING, Any, get_args
from uuid import UUID, uuid4

from django.db import transaction

from darby.desk.kept import saving
from darby.desk.sketching.readings import logged
from darby.job.done import DoneWork
from darby.tables.places import place
from darby.words import Verbatim, catalogue
from darby.words import day as in_words

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.desk.kept.models import Entry, Person
    from darby.desk.reading import Read
    from darby.tables.setting import Setting

DONE, READING, TAKEN = "done", "reading", "taken"
COATS: tuple[str, ...] = get_args(DoneWork)


@dataclass(frozen=True, slots=True)
class CameIn:
    """A line that is not in the job yet: what it says in words, who wrote it and when. ``surface``: of a reading."""

    id: UUID
    says: str
    who: str
    when: datetime
    remark: str
    surface: str


def places(answers: Answers, setting: Setting) -> list[tuple[str, str]]:
    """Where something may be done: (place, what it is called), every zone of every surface."""
    kept = answers.kept.get(("days", "job"))
    at = [s.at for s in kept.ask.surfaces] if kept is not None and hasattr(kept.ask, "surfaces") else []
    if not at:
        at = [f"{b.surface}/{b.zone}" for b in answers.job.bases]
    return [(one, place(answers, one, setting)) for one in dict.fromkeys(at)]


def coats(setting: Setting) -> list[tuple[str, str]]:
    """What may be done: (word of the file, what it is called)."""
    words = catalogue(setting.language)
    return [(coat, words.get(f"cli.work.{coat}", coat)) for coat in COATS]


def faulty(said: Mapping[str, Any]) -> bool:
    """Whether a line of kind "done" names no coat, or no day."""
    return str(said.get("coat", "")) not in COATS or _day(said.get("on")) is None


def came_in(read: Read, setting: Setting) -> list[CameIn]:
    """Coats that are neither in the job nor left out, oldest first."""
    entries = saving.log(read.id)
    settled = {str(id) for e in entries if e.kind == TAKEN for key in ("took", "left") for id in e.said.get(key, ())}
    return [_line(e, read, setting) for e in reversed(entries) if e.kind == DONE and str(e.id) not in settled]


def readings(read: Read, setting: Setting) -> list[CameIn]:
    """Readings that the job does not say yet, wall by wall; of one place only the newest."""
    if read.job is None:
        return []
    entries = saving.log(read.id)
    found = [one.entry for s in read.job.surfaces for one in logged(entries, read.job, s.id) if not one.taken]
    return [_line(entry, read, setting) for entry in found]


def _line(entry: Entry, read: Read, setting: Setting) -> CameIn:
    return CameIn(
        entry.id, says(entry, read, setting), entry.who.name, entry.made, str(entry.said.get("remark", "")), entry.at
    )


def says(entry: Entry, read: Read, setting: Setting) -> str:
    """A line of the log in the reader's words; a note in those of who wrote it."""
    said = entry.said
    where = place(read.answers, entry.at, setting) if read.answers is not None else ""
    where = where or entry.at
    if entry.kind == DONE:
        called = dict(coats(setting)).get(str(said.get("coat", "")), str(said.get("coat", "")))
        day = _day(said.get("on"))
        on = in_words(day, setting.language) if day is not None else str(said.get("on", ""))
        return setting.say("desk.days.came-done", coat=Verbatim(called), where=Verbatim(where), on=Verbatim(on))
    if entry.kind == READING:
        values = {key: Verbatim(str(said.get(key, ""))) for key in ("u", "v", "out")}
        return setting.say("desk.days.came-reading", where=Verbatim(where), **values)
    return str(said.get("text", ""))


def take(read: Read, ids: Iterable[str], who: Person) -> None:
    """Write these lines into the job and note that they are in it, both or neither.

    Raises
    ------
    JobError
        if the job cannot be read with them; nothing is kept.
    Clash
        if somebody changed the same thing meanwhile; nothing is kept.
    """
    entries = _chosen(read, ids)
    if not entries:
        return
    with transaction.atomic():
        saving.keep(read.id, with_lines(read.tables, entries), who, base=read.revision.number)
        saving.note_down(uuid4(), read.id, TAKEN, who, said={"took": [str(e.id) for e in entries]})


def leave(read: Read, ids: Iterable[str], who: Person) -> None:
    """Note that these lines stay out of the job; they stand in the log as they were written."""
    entries = _chosen(read, ids)
    if entries:
        saving.note_down(uuid4(), read.id, TAKEN, who, said={"left": [str(e.id) for e in entries]})


def _chosen(read: Read, ids: Iterable[str]) -> list[Entry]:
    wanted = set(ids)
    return [e for e in reversed(saving.log(read.id)) if e.kind == DONE and str(e.id) in wanted]


def with_lines(tables: Mapping[str, Any], entries: Sequence[Entry]) -> dict[str, Any]:
    """The job's tables with what was done in [[done]]; nothing twice."""
    done = _tables(tables.get("done"))
    for entry in entries:
        surface, _, zone = entry.at.partition("/")
        row: dict[str, Any] = {"surface": surface} | ({"zone": zone} if zone else {})
        row |= {"coat": entry.said["coat"], "on": date.fromisoformat(entry.said["on"])}
        if row not in done:
            done.append(row)
    return dict(tables) | {"done": done}


def _tables(value: Any) -> list[dict[str, Any]]:
    return [one for one in value if isinstance(one, dict)] if isinstance(value, list) else []


def _day(written: Any) -> date | None:
    try:
        return date.fromisoformat(str(written))
    except ValueError:
        return None
