"""What to order, supplier by supplier: what is needed, what is on order, and only the difference."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.http import HttpRequest

from darby.desk.drawn import writer_for
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.papers.filled.paper_set import order_papers
from darby.tables.page import Page

if TYPE_CHECKING:
    from darby.papers import OrderPaper
    from darby.tables.setting import Setting


@dataclass(frozen=True, slots=True)
class Supplier:
    """One supplier's list as his paper has it, the name of the file, and what is said beneath."""

    table: Page
    file: str
    cautions: tuple[str, ...]


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The orders as their papers are filled, in the reader's language."""
    answers, setting = read.answers, said_in(request)
    order = answers.answered("order") if answers is not None else None
    if answers is None or order is None:
        return {}
    papers = order_papers(writer_for(answers, setting), order)
    return {"suppliers": [_supplier(file, paper, setting) for file, paper in papers.items()]}


def _supplier(file: str, paper: OrderPaper, setting: Setting) -> Supplier:
    heads = tuple(setting.say(f"desk.order.{head}") for head in ("item", "needed", "ordered", "more"))
    rows = tuple(
        (
            f"{row.item}\n{row.package}" if row.package else row.item,
            row.needed,
            row.ordered,
            " ".join(filter(None, (row.count, row.unit))),
        )
        for row in paper.rows
    )
    right = frozenset({1, 2, 3})
    table = Page("order", paper.supplier, heads, rows, lines=paper.notes, right=right, whole=frozenset({3}))
    return Supplier(table, file, tuple(f"{c.opening} {c.text}" for c in paper.cautions))


PAGE = StagePage(place="money", order=1, stages=("order",), sections=("ordered",), more=more)
