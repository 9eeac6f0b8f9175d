"""The whole set of a job's papers, by file name."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from darby.drawing import elevation, to_dxf
from darby.papers.filled.crew import crew_sheet
from darby.papers.filled.orders import orders
from darby.papers.filled.quote import quote
from darby.papers.filled.tickets import tickets
from darby.papers.filled.workings import working_package
from darby.papers.filled.writer import Writer
from darby.papers.model import Paper

if TYPE_CHECKING:
    from darby.answers import Answers


def paper_set(answers: Answers) -> dict[str, Paper | bytes]:
    """File name to paper: quote, an order a supplier, a crew sheet and a drawing a surface, tickets, working.

    What is not answered has no paper: without prices there is no quote.
    """
    writer = Writer(answers)
    made: dict[str, Paper | bytes] = {}
    price, order = answers.good("price").get("job"), answers.good("order").get("job")
    if price is not None:
        made["quote.pdf"] = quote(writer, price)
    if order is not None:
        for supplier, paper in orders(writer, order).items():
            made[f"order-{_slug(supplier)}.pdf"] = paper
    for surface in answers.good("volumes"):
        made[f"crew-{surface}.pdf"] = crew_sheet(writer, surface)
    mixes = answers.good("mixes").get("job")
    if mixes is not None:
        made["tickets.pdf"] = tickets(writer, mixes)
    made["working.pdf"] = working_package(writer)
    for wall in answers.job.surfaces:
        made[f"wall-{wall.id}.dxf"] = to_dxf(elevation(wall, language=writer.language, system=writer.system))
    return made


def _slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
