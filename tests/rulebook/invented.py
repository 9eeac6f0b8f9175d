"""A small invented book: no figure in it is anybody's."""

from __future__ import annotations

from typing import Any

from darby.rulebook import Book, Figure, Source, figure_of
from darby.rulebook.load import book_of

SOURCE = {"title": "An invented handbook", "publisher": "nobody", "year": "2020", "address": ""}
SOURCES = {"hand": Source("hand", **SOURCE)}


def row(figure_id: str, value: str = "1/2 in", **more: Any) -> dict[str, Any]:
    """A whole row; its subject is the id without the last word."""
    start = {
        "id": figure_id, "subject": figure_id.rpartition(".")[0], "value": value, "says": "invented", "source": "hand",
        "where": "page 3", "standing": "read", "voice": figure_id.rpartition(".")[2],
    }  # fmt: skip
    return start | more


def book(*rows: dict[str, Any]) -> Book:
    return book_of([{"sources": {"hand": SOURCE}, "figure": list(rows)}])


def local(subject: str, value: str, why: str = "we do it so", **more: Any) -> Figure:
    return figure_of(row(f"{subject}.local", value, voice="", why=why) | more, SOURCES)
