"""The papers of the job: the quote first, then orders, crew sheets, tickets, working, drawings."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.papers import not_made, paper_set
from darby.tables.places import place
from darby.words import catalogue


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """Every paper by name, and in words what cannot be made yet. They are set when they are opened."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    price = answers.good("price").get("job")
    papers, words = [], catalogue(setting.language)
    for name in paper_set(answers):
        kind, _, of = name.rpartition(".")[0].partition("-")
        at = place(answers, of, setting) or of.replace("-", " ")
        codes = (f"desk.paper.{kind}", f"papers.{kind}.kind")
        says = next((words[code] for code in codes if code in words), kind)
        papers.append({"file": name, "says": says, "of": at})
    total = setting.write(price.total) if price is not None and price.complete else ""
    return {"papers": papers, "missing": not_made(answers, setting.language), "total": total}


PAGE = StagePage(place="money", order=3, notes=False, stages=("price",), sections=("job", "price"), more=more)
