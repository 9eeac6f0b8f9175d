"""The trade's figures, each with unit, source, where and standing; local rules on top."""

from darby.rulebook.book import Book
from darby.rulebook.load import default
from darby.rulebook.model import STANDINGS, BookError, Figure, Ruled, Source, Standing

__all__ = ["STANDINGS", "Book", "BookError", "Figure", "Ruled", "Source", "Standing", "default", "figure"]


def figure(subject: str, /, **where: str) -> Ruled:
    """The default book's ruling on ``subject``: ``.figure`` rules, ``.others`` are the other voices."""
    return default().rule(subject, **where)
