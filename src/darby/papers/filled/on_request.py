"""Papers that are only written when they are asked for: slow to work out, or of use to few."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING

from darby.answers import with_later
from darby.papers.filled.drawn_walls import drawn_walls
from darby.papers.filled.letter import letter
from darby.papers.filled.sawing import cut_list_papers
from darby.papers.filled.truing import truing_papers
from darby.papers.filled.writer import Writer

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.papers.model import Paper


def _ways(writer: Writer) -> dict[str, Paper]:
    made = letter(writer, with_ways=True)
    return {"letter.pdf": made} if made is not None else {}


ON_REQUEST: Mapping[str, Callable[[Writer], Mapping[str, Paper | bytes]]] = {
    "cuts": cut_list_papers,
    "drawings": drawn_walls,
    "grounds": truing_papers,
    "ways": _ways,
}
"""Part to its papers by file name; {} where there is nothing to show."""

AT_HAND = ("drawings",)
"""What needs no slow stage."""

ALL = "all"


def on_request(answers: Answers, stages: Iterable[str]) -> tuple[Answers, dict[str, Mapping[str, Paper | bytes]]]:
    """The answers, with the slow stages if they are needed; the papers of ``stages`` by stage, then by file name.

    Raises
    ------
    KeyError
        for a stage that has no papers of its own.
    """
    names = [name for asked in stages for name in (ON_REQUEST if asked == ALL else (asked,))]
    for name in names:
        ON_REQUEST[name]
    if not set(names) <= set(AT_HAND):
        answers = with_later(answers)
    writer = Writer(answers)
    return answers, {name: ON_REQUEST[name](writer) for name in dict.fromkeys(names)}
