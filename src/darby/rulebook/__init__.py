"""The trade's figures, each with unit, source, where and standing; local rules on top."""

from darby.rulebook.book import LOCAL, Book
from darby.rulebook.finding import Entry, Shown, search, show, standing_code
from darby.rulebook.load import default, figure_of
from darby.rulebook.model import STANDINGS, BookError, Figure, Ruled, Source, Standing

__all__ = [
    "LOCAL",
    "STANDINGS",
    "Book",
    "BookError",
    "Entry",
    "Figure",
    "Ruled",
    "Shown",
    "Source",
    "Standing",
    "default",
    "figure",
    "figure_of",
    "search",
    "show",
    "standing_code",
]


def figure(subject: str, /, **where: str) -> Ruled:
    """The default book's ruling on ``subject``: ``.figure`` rules, ``.others`` are the other voices."""
    return default().rule(subject, **where)
