"""What goes on this base, in what coats, how thick, and why; what it meets and how it is parted."""

from __future__ import annotations

from typing import Any

from darby.buildup.choosing import build_up
from darby.buildup.curing import profiles
from darby.buildup.model import (
    BuildUp,
    BuildUpAsk,
    Coat,
    MeetsOld,
    Option,
    Override,
    OwnCoat,
    Parting,
)
from darby.buildup.weather import care
from darby.rulebook.book import Book
from darby.rulebook.load import default

__all__ = [
    "BuildUp", "BuildUpAsk", "Coat", "MeetsOld", "Option", "Override", "OwnCoat", "Parting",
    "build_up", "care", "choose", "profiles",
]  # fmt: skip


def choose(*, base: str, position: str = "vertical", finish: str = "float", book: Book | None = None,
           at: str = "wall", **more: Any) -> tuple[Option, ...]:  # fmt: skip
    """The options for a base, best first.

    Parameters
    ----------
    base
        "block", "concrete", "frame", "lath over block", "painted block", "brick", "stone", "old plaster" or
        "painted plaster"; on the last and on what is painted ``tests`` decide (``model.Tried``).
    position
        "vertical", or "horizontal" for what is seen from below.
    finish
        "float", "smooth", "dash", "lace", "scraped", "wet dash", "skip trowel", "pebble", or "none".
    book
        None = the rule book that ships with darby.
    more
        any other field of ``BuildUpAsk``: ``weight``, ``joints``, ``suction``, ``out_of_plane`` [m] ...

    Raises
    ------
    Unreadable
        as ``build_up``.
    TypeError
        for a keyword that ``BuildUpAsk`` has not.
    """
    ask = BuildUpAsk(book if book is not None else default(), at, base, position=position, finish=finish, **more)  # type: ignore[arg-type]
    return build_up(ask)[0].options
