"""Freezing a quote: the PDF's bytes, every table as it read, and which document, prices and rule book it was made of.

It is a line of the log (kind "quote") and two files beside it; all only grow. Nothing that changes later can reach
them: what differs is found by reading the frozen tables beside the ones of today, not by answering the old job again.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any, get_args
from uuid import UUID

from django.db import transaction

from darby.desk import frame
from darby.desk.kept import FIRM, saving
from darby.desk.kept.models import Entry, Paper
from darby.measure.units import System
from darby.tables.page import Page
from darby.tables.setting import Setting
from darby.words import LANGUAGES

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.desk.kept.models import Person
    from darby.desk.reading import Read
    from darby.papers import QuotePaper

KIND = "quote"
PDF, TABLES = "application/pdf", "application/json"


class Incomplete(Exception):
    """There is no price, or not all of it: nothing can be sent."""


@dataclass(frozen=True, slots=True)
class Sent:
    """A quote that was sent. ``stood``: revisions of the job and the firm file, versions of the rule book and darby."""

    id: UUID
    who: str
    when: datetime
    to: str
    total: str
    paper: str
    tables: str
    stood: Mapping[str, str]


def stands_on(read: Read) -> dict[str, str]:
    """What a quote of this moment would be made of."""
    firm = saving.latest(FIRM)
    answers = read.answers
    return {
        "revision": str(read.revision.number),
        "firm": str(firm.number if firm is not None else 0),
        "book": answers.book_version if answers is not None else "",
        "made": answers.made_with if answers is not None else "",
    }


def quote_paper(answers: Answers) -> QuotePaper | None:
    """The quote alone, of all papers; None where there is no whole price."""
    from darby.papers.filled.quote import quote
    from darby.papers.filled.writer import Writer

    price = answers.answered("price")
    return quote(Writer(answers), price) if price is not None and price.complete else None


def freeze(id: UUID, read: Read, who: Person) -> Entry:
    """Keep the quote as it is now, whole or not at all. The same ``id`` again keeps nothing new.

    Raises
    ------
    Incomplete
        where there is no whole price.
    """
    from darby.papers import render

    there = Entry.objects.filter(id=id, document=read.id, kind=KIND).first()
    if there is not None:
        return there
    answers = read.answers
    paper = quote_paper(answers) if answers is not None else None
    if answers is None or paper is None:
        raise Incomplete(read.id)
    pdf, tables = render(paper), written(answers)
    said = stands_on(read) | {
        "job": answers.job_hash,
        "to": answers.job.customer,
        "total": paper.total,
        "paper": _hash(pdf),
        "tables": _hash(tables),
    }
    with transaction.atomic():
        for data, kind in ((pdf, PDF), (tables, TABLES)):
            if not Paper.objects.filter(sha256=_hash(data)).exists():
                Paper(sha256=_hash(data), kind=kind, data=data).save()
        return saving.note_down(id, read.id, KIND, who, said=said)[0]


def quotes(document: str) -> list[Sent]:
    """Every quote of a job that was sent, newest first."""
    found = Entry.objects.filter(document=document, kind=KIND).order_by("-when").select_related("who")
    return [_sent(entry) for entry in found]


def _sent(entry: Entry) -> Sent:
    said = {key: str(value) for key, value in entry.said.items()}
    stood = {key: said.get(key, "") for key in ("revision", "firm", "book", "made")}
    return Sent(
        entry.id, entry.who.name, entry.when, said.get("to", ""), said.get("total", ""), said.get("paper", ""),
        said.get("tables", ""), stood,
    )  # fmt: skip


def pdf_of(document: str, id: UUID) -> bytes | None:
    """The bytes that were sent; None if there is no such quote of this job."""
    entry = Entry.objects.filter(document=document, id=id, kind=KIND).first()
    return _file(str(entry.said.get("paper", ""))) if entry is not None else None


def differs(sent: Sent, answers: Answers, setting: Setting) -> list[frame.Change]:
    """Every number that reads otherwise now than in the frozen tables, those of the price first."""
    raw = _file(sent.tables)
    if raw is None:
        return []
    then = [_page(one) for one in json.loads(raw).get(_named(setting), ())]
    now = frame.all_tables(answers, setting)
    priced = {table.title for table in (*then, *now) if table.stage == "price"}
    found = frame.differences((t for t in then if t.stage != "job"), (t for t in now if t.stage != "job"))
    return sorted(found, key=lambda change: change.where not in priced)


# --- tables as a file ----------------------------------------------------------------------------------


def written(answers: Answers) -> bytes:
    """Every table in every language and system, so that whoever reads later compares like with like."""
    settings = [Setting(language, system) for language in LANGUAGES for system in get_args(System)]
    made = {_named(s): [_plain(table) for table in frame.all_tables(answers, s)] for s in settings}
    return json.dumps(made, ensure_ascii=False, sort_keys=True).encode()


def _named(setting: Setting) -> str:
    return f"{setting.language} {setting.system}"


def _plain(table: Page) -> dict[str, Any]:
    return {"stage": table.stage, "title": table.title, "heads": table.heads, "rows": table.rows, "last": table.last}


def _page(plain: Mapping[str, Any]) -> Page:
    rows = tuple(tuple(row) for row in plain["rows"])
    return Page(plain["stage"], plain["title"], tuple(plain["heads"]), rows, tuple(plain["last"]))


def _hash(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _file(sha256: str) -> bytes | None:
    found = Paper.objects.filter(sha256=sha256).first()
    return bytes(found.data) if found is not None else None
