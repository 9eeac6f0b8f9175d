"""The list over all open jobs, in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING

from darby.tables.page import Page
from darby.tables.places import place, places
from darby.tables.setting import Setting
from darby.tables.waiting import lack
from darby.words import Verbatim, catalogue, day

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.answers.open_jobs import OpenJob
    from darby.days.model import Visits


NAMED = 2
"""Places that are named in a row; of more only the number is said."""


def open_jobs_page(jobs: Sequence[OpenJob], answers_by_name: Mapping[str, Answers], on: date, setting: Setting) -> Page:
    """One row a job: must by, ready from, the job, its next coat and where, what to do."""
    heads = tuple(setting.say(f"openjobs.{h}") for h in ("must-by", "ready-from", "job", "next", "do"))
    rows = tuple(_row(job, answers_by_name[job.name], setting) for job in jobs)
    lines = [setting.say("openjobs.none")] if not jobs else []
    if rows:
        lines += [setting.say("openjobs.waits-only")]
    title = setting.say("openjobs.title", day=day(on, setting.language))
    return Page("open-jobs", title, heads if rows else (), rows, lines=tuple(lines))


def next_page(coats: Sequence[OpenJob], answers: Answers, setting: Setting) -> Page:
    """One row for each coat that comes next in one job; places that stand alike share a row."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for one in coats:
        row = (_called(one.coat, setting), _day(one.ready_from, setting), _day(one.must_by, setting),
               " ".join(_do(one, answers, setting, damp=False)))  # fmt: skip
        alike.setdefault(row, []).extend(one.at)
    rows = tuple(("; ".join(places(answers, at, setting)), *row) for row, at in alike.items())
    heads = tuple(setting.say(code) for code in ("cli.coats.where", "openjobs.next", "openjobs.ready-from",
                                                 "openjobs.must-by", "openjobs.do"))  # fmt: skip
    lines = () if rows else (setting.say("openjobs.all-on"),)
    return Page("next", setting.say("openjobs.next-title"), heads if rows else (), rows, lines=lines)


def waits_page(days: Visits, answers: Answers, setting: Setting) -> Page:
    """Every coat with its day, how long it is kept damp, and the first day of the next: the drawing as a table."""
    rows = tuple(
        (
            place(answers, coat.at, setting),
            _called(coat.coat, setting),
            _day(coat.last, setting),
            _day(coat.damp_until, setting),
            _day(coat.next_from, setting),
        )
        for coat in days.coats
        if coat.damp_until is not None or (coat.next_from is not None and coat.next_from > coat.last)
    )
    heads = tuple(setting.say(f"openjobs.waits.{head}") for head in ("where", "coat", "on", "damp", "next"))
    return Page("waits", setting.say("openjobs.waits.title"), heads if rows else (), rows)


def _row(job: OpenJob, answers: Answers, setting: Setting) -> tuple[str, ...]:
    return (
        _day(job.must_by, setting),
        _day(job.ready_from, setting),
        job.title,
        _next(job, answers, setting),
        " ".join(_do(job, answers, setting)),
    )


def _day(when: date | None, setting: Setting) -> str:
    return setting.say("openjobs.no-day") if when is None else day(when, setting.language)


def _next(job: OpenJob, answers: Answers, setting: Setting) -> str:
    if not job.coat:
        return ""
    return f"{_called(job.coat, setting)}: {_places(job.at, answers, setting)}"


def _places(at: Sequence[str], answers: Answers, setting: Setting) -> str:
    """The first places by name, and how many more there are."""
    every = places(answers, at, setting)
    named, left = "; ".join(every[:NAMED]), len(every) - NAMED
    return setting.say("openjobs.more", named=Verbatim(named), count=left) if left > 0 else named


def _called(coat: str, setting: Setting) -> str:
    code = f"cli.work.{coat}"
    return setting.say(code) if code in catalogue("en") else coat


def _do(job: OpenJob, answers: Answers, setting: Setting, *, damp: bool = True) -> list[str]:
    """What to do, and what the days come from."""
    if job.do == "ask":
        return [setting.say("openjobs.do.ask", lacks=", ".join(lack(code, setting) for code in job.lacks))]
    said = [setting.say(f"openjobs.do.{job.do}")]
    if job.after and job.after_on is not None:
        after, on = _called(job.after, setting), _day(job.after_on, setting)
        code = "openjobs.after" if job.wait is not None else "openjobs.after-at-once"
        said.append(setting.say(code, after=Verbatim(after), on=Verbatim(on), wait=job.wait))
    if job.by:
        said.append(setting.say(f"openjobs.by.{job.by}", date=_day(job.by_date, setting)))
    if damp and job.damp_at:
        where = Verbatim(_places(job.damp_at, answers, setting))
        said.append(setting.say("openjobs.damp", at=where, until=_day(job.damp_until, setting)))
    return said
