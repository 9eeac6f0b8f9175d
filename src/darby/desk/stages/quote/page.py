"""The quote: looked at, sent, and as it was sent; then the other papers of the job."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from uuid import uuid4

from django.http import HttpRequest
from django.urls import reverse

from darby.desk.choosing import item_called, to_price
from darby.desk.places import StagePage, stage_pages
from darby.desk.quoting import frozen
from darby.desk.quoting.looking import how_many, paper_names
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.papers import not_made
from darby.papers.filled.quote import stands_until
from darby.tables.places import place
from darby.tables.setting import Setting
from darby.words import Verbatim, catalogue, day

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.desk.frame import Change
    from darby.job import Job

SHORT = 8
"""Signs of a version that a person compares."""


@dataclass(frozen=True, slots=True)
class Line:
    """A quote that was sent: what it stood on, what of that is another now, and every number that differs."""

    sent: frozen.Sent
    moved: tuple[tuple[str, str, str], ...]
    differs: tuple[Change, ...]


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The quote before it goes, those that went, and every paper by name."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    price = answers.answered("price")
    whole = price is not None and price.complete
    now = frozen.stands_on(read)
    return {
        "papers": _papers(read, answers, setting),
        "head": _head(answers.job, setting),
        "missing": not_made(answers, setting.language),
        "missing_at": _where_missing(read, answers, setting),
        "total": setting.write(price.total) if price is not None and whole else "",
        "stood": now,
        "new_id": uuid4(),
        "sheets": range(1, how_many(read) + 1) if whole and request.GET.get("look") else (),
        "sent": [_line(one, now, answers, setting) for one in frozen.quotes(read.id)],
    }


def _head(job: Job, setting: Setting) -> dict[str, Any]:
    """To whom, where, until when, each with the section that says it: what he looks for before anything else."""
    until = day(stands_until(job), setting.language, weekday=False)
    rows = (
        (setting.say("desk.quote.to"), job.customer or setting.say("desk.quote.nobody"), "job"),
        (setting.say("desk.quote.where"), job.address or setting.say("desk.quote.nowhere"), "job"),
        (setting.say("desk.quote.until"), until, "price"),
    )
    return {"rows": rows, "invented": job.firm.invented and not job.invented}


def _where_missing(read: Read, answers: Answers, setting: Setting) -> list[tuple[str, str]]:
    """What is to be done before there is a price: (address of the form or page, in words)."""
    price = answers.answered("price")
    if price is None:
        waits = {stage for stage, _ in answers.unanswered()}
        pages = (page for page in stage_pages().values() if waits & set(page.stages) and page.name != "quote")
        return [
            (reverse("stage", args=[read.id, page.name]), setting.say("desk.quote.waits-at", page=page.title(setting)))
            for page in pages
        ]
    return [
        (to_price(item, read.id), setting.say("desk.quote.lacks-price", item=Verbatim(item_called(item, setting))))
        for item in price.lacks
    ]


def _line(sent: frozen.Sent, now: dict[str, str], answers: Answers, setting: Setting) -> Line:
    moved = tuple((key, was[:SHORT], now[key][:SHORT]) for key, was in sent.stood.items() if was != now[key])
    return Line(sent, moved, tuple(frozen.differs(sent, answers, setting)))


def _papers(read: Read, answers: Answers, setting: Setting) -> list[dict[str, str]]:
    papers, words = [], catalogue(setting.language)
    for name in paper_names(read):
        kind, _, of = name.rpartition(".")[0].partition("-")
        at = place(answers, of, setting) or of.replace("-", " ")
        codes = (f"desk.paper.{kind}", f"papers.{kind}.kind")
        says = next((words[code] for code in codes if code in words), kind)
        papers.append({"file": name, "says": says, "of": at})
    return papers


PAGE = StagePage(place="money", order=4, notes=False, stages=("price",), sections=("job", "price"), more=more)
