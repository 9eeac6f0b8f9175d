"""[[ordered]]: what is already on order, so that the order is only the difference."""

from __future__ import annotations

from darby.job.draft import Draft
from darby.job.fields import Day, Document, Measured, key, must
from darby.job.model import Ordered
from darby.job.part import Part


class OrderedDocument(Document):
    """[[ordered]]: one thing on order, or already in the yard."""

    item: str = must("What it is, by the name the firm file buys it under.")
    amount: Measured = must("How much: `20 bags`, `3 cu yd`, `12 sheets`.")
    on: Day = key("The day it was ordered.")


def read(root: Part, draft: Draft) -> None:
    """Read [[ordered]] into the draft. An item must be one the firm buys, or one darby orders."""
    ordered: list[Ordered] = []
    for part in root.parts("ordered"):
        item = part.text("item", must=True)
        items = draft.items()
        if item and items is not None and item not in items:
            part.unknown("item", "job.unknown-item", item, items)
        amount = part.amount("amount")
        on = part.day("on") if part.has("on") else None
        if amount is not None:
            ordered.append(Ordered(item, amount[0], amount[1], on))
    draft.put(ordered=tuple(ordered))
