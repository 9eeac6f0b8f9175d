"""The whole set of a job's papers, by file name."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from darby.papers.filled.boards import board_paper
from darby.papers.filled.crew import crew_sheet
from darby.papers.filled.letter import letter
from darby.papers.filled.orders import item_called, orders
from darby.papers.filled.patch import patch_paper
from darby.papers.filled.quote import quote
from darby.papers.filled.tickets import tickets
from darby.papers.filled.ways import ways_paper
from darby.papers.filled.workings import working_package
from darby.papers.filled.writer import Writer
from darby.words import Verbatim

if TYPE_CHECKING:
    from collections.abc import Iterator

    from darby.answers import Answers
    from darby.papers.model import OrderPaper, Paper
    from darby.quantities import Order
    from darby.words import Language


def paper_set(answers: Answers) -> dict[str, Paper]:
    """File name to paper: all that ``each_paper`` makes."""
    return dict(each_paper(answers))


def each_paper(answers: Answers) -> Iterator[tuple[str, Paper]]:
    """File name and paper, one by one: quote, working, orders, a crew sheet a surface, tickets, boards.

    What is not answered has no paper. Where an item has no price there is no quote; ``not_made`` says so. The working
    comes early because it takes longest to set.
    """
    writer = Writer(answers)
    price, order = answers.answered("price"), answers.answered("order")
    if price is not None and price.complete:
        yield "quote.pdf", quote(writer, price)
    yield "working.pdf", working_package(writer)
    if order is not None:
        yield from order_papers(writer, order).items()
    for surface in answers.good("volumes"):
        yield f"crew-{surface}.pdf", crew_sheet(writer, surface)
    mixes = answers.answered("mixes")
    others = {
        "letter.pdf": letter(writer),
        "joints.pdf": ways_paper(writer),
        "tickets.pdf": tickets(writer, mixes) if mixes is not None else None,
        "boards.pdf": board_paper(writer),
        "patch.pdf": patch_paper(writer),
    }
    yield from ((name, paper) for name, paper in others.items() if paper is not None)


def order_papers(writer: Writer, order: Order) -> dict[str, OrderPaper]:
    """File name to paper: one for each supplier."""
    taken: set[str] = set()
    return {
        _free(taken, f"order-{_slug(supplier)}" if _slug(supplier) else "order"): paper
        for supplier, paper in orders(writer, order).items()
    }


def not_made(answers: Answers, language: Language | None = None) -> tuple[str, ...]:
    """In words which papers are missing from the set, and why; in ``language``, else in the papers' own."""
    writer = Writer(answers)
    price = answers.answered("price")
    if price is None:
        return (writer.say("paper.not-made.quote-waits", language),)
    if not price.complete:
        named = {line.item: line for line in answers.of("order").lines}
        items = [item_called(writer, named[item], language) if item in named else item for item in price.lacks]
        return (writer.say("paper.not-made.quote", language, items=Verbatim(", ".join(items))),)
    return ()


def _free(taken: set[str], name: str) -> str:
    """A file name that is not taken: two suppliers may differ in signs only."""
    n, free = 1, f"{name}.pdf"
    while free in taken:
        n += 1
        free = f"{name}-{n}.pdf"
    taken.add(free)
    return free


def _slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
