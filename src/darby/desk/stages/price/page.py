"""The price: what it adds up to, where each dollar comes from, what moves it, what the customer might rather have."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from darby.answers.alternatives import alternatives
from darby.desk.once import once
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.tables.pages import page_of
from darby.tables.priced import built_pages, rather_page


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """Tables beneath the price itself; the job is answered anew for each alternative and each thing that moves it."""
    answers, setting = read.answers, said_in(request)
    price = answers.answered("price") if answers is not None else None
    if answers is None or price is None:
        return {}
    moved = once(answers, "moves", setting, make=lambda: [t for t in page_of("assumed", answers, setting) if t.rows])
    return {
        "total": setting.write(price.total) if price.complete else "",
        "moves": moved,
        "rather": once(answers, "rather", setting, make=lambda: rather_page(alternatives(answers), answers, setting)),
        "built": built_pages(price, answers, setting),
    }


PAGE = StagePage(place="money", order=3, stages=("price",), sections=("also", "price", "firm"), more=more)
