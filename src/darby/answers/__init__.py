"""The stages of a job, in order, and ``answer(job)``: the only place where the trade rooms meet.

Everything is loaded when it is first asked for, so that one wall in one line (``quick``) does not load every room.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from darby.answers.book import book_of
    from darby.answers.graph import Later
    from darby.answers.stage import Answers, Stage, Waiting
    from darby.answers.stages import STAGES, answer, with_later

_HOMES = {
    "Answers": "stage",
    "Later": "graph",
    "STAGES": "stages",
    "Stage": "stage",
    "Waiting": "stage",
    "answer": "stages",
    "book_of": "book",
    "with_later": "stages",
}

__all__ = ["STAGES", "Answers", "Later", "Stage", "Waiting", "answer", "book_of", "with_later"]


def __getattr__(name: str) -> Any:
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{home}"), name)
