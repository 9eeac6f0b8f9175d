"""[cuts]: how the beads of the job are cut from bars, and what lies on the truck already."""

from __future__ import annotations

from typing import Literal

from darby.job import allowed as ok
from darby.job.cutting import BARS, Cutting, OnTruck
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.part import Part

BarItem = Literal[
    "corner bead", "casing bead", "weep screed", "drip screed", "control joint", "expansion joint", "corner lath"
]


class OnTruckDocument(Document):
    """[[cuts.on_truck]]: bars and offcuts that are there already; they are used up first."""

    item: BarItem = must("What it is.")
    length: Measured = must("How long each is: `6'-3\"`.")
    count: int = key("How many of them; one unless you say.")
    name: str = key("What is written on it.")


class CutsDocument(Document):
    """[cuts]: how beads are cut from bars."""

    blade: Measured = key("What the blade takes with every cut: `1/8 in`; snips take nothing.")
    splice: Measured = key("No part of a spliced piece is shorter than this: `2 ft`.")
    one_piece: list[BarItem] = key("Items that are never spliced: a piece longer than any bar is then a fault.")
    on_truck: list[OnTruckDocument] = key("What lies on the truck already.")


def read(root: Part, draft: Draft) -> None:
    """Read [cuts] into the draft."""
    part = root.part("cuts")
    if part is None:
        return
    held = []
    for row in part.parts("on_truck"):
        item, length = row.word("item"), row.length("length", positive=True)
        count = row.count("count", 1)
        name = row.text("name")
        if item in BARS and length is not None:
            held.append(OnTruck(item, length, count, name))
    one_piece: list[str] = []
    for n, item in part.rows("one_piece"):
        if item in one_piece:
            part.fault_at(("one_piece", n), "job.twice", item, ok.ONCE)
        else:
            one_piece.append(item)
    draft.put(
        cuts=Cutting(part.length("blade"), part.length("splice", positive=True), tuple(one_piece), tuple(held)),
    )
