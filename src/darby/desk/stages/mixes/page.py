"""The mortar: one batch of every mix in his own measures, as the ticket at the mixer says it."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from darby.desk.doors import person_of
from darby.desk.kept import FIRM, saving
from darby.desk.places import StagePage
from darby.desk.put_on.reader import reader
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.papers.filled.tickets import tickets

SHOWN = ("gauge", "box", "count", "holds", "mixer")


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """A ticket of every mix, and what his bucket and his mixer hold."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    mixes = answers.answered("mixes")
    paper = tickets(reader(answers, setting), mixes) if mixes is not None else None
    firm = saving.latest(FIRM)
    measures = saving.tables(firm.text).get("measures", {}) if firm is not None else {}
    filled = {name: request.POST.get(name, "") for name in SHOWN} if hasattr(request, "refused_tables") else {}
    return {
        "tickets": paper.tickets if paper is not None else (),
        "fills": person_of(request).is_owner,
        "firm_base": firm.number if firm is not None else 0,
        "measures": measures,
        "gauge": filled.get("gauge") or measures.get("gauge", "bucket"),
        "filled": filled,
    }


PAGE = StagePage(place="put-on", order=4, stages=("volumes", "mixes"), sections=("coats",), crew=True, more=more)
