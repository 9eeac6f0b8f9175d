"""The limits of frost and heat that bind every day of a plan. What a given day's air asks for is not known here."""

from __future__ import annotations

from darby.rulebook import Book
from darby.working import Note
from darby.working.model import note


def limits(book: Book) -> tuple[Note, ...]:
    """The cautions of frost and heat, with their figures (``rulebook/curing.toml``, ``weather.toml``)."""
    air, hold, guard = (book.number(s) for s in ("cure.cold", "cure.hold-warm", "weather.frost.guard"))
    still, windy, over = (book.number(f"cure.hot-{s}") for s in ("still", "windy", "wind"))
    frozen = book.number("weather.frost.base")
    return (
        note("safety.cold", "caution", "job", rules=(air.id, hold.id, guard.id), air=air, hold=hold, guard=guard),
        note("safety.frozen-base", "caution", "job", rules=(frozen.id,)),
        note("safety.hot", "caution", "job", rules=(still.id, windy.id, over.id), still=still, windy=windy, wind=over),
    )
