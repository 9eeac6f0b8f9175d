"""[price]: how the price is given."""

from __future__ import annotations

from darby.job.draft import Draft
from darby.job.fields import Document, key
from darby.job.model import Price
from darby.job.part import Part


class PriceDocument(Document):
    """[price]: how the price is given."""

    stands_days: int = key("For how many days the price stands.")
    says: str = key("A sentence of yours that the quote carries.")


def read(root: Part, draft: Draft) -> None:
    """Read [price] into the draft."""
    part = root.part("price")
    if part is not None:
        draft.put(price=Price(part.count("stands_days", None), part.text("says")))
