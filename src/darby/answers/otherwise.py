"""What the job would cost with one thing done otherwise: only what leads to the price is answered anew."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from darby.answers.graph import Later, walk

if TYPE_CHECKING:
    from darby.answers.stage import Answers, Stage
    from darby.job.model import Job
    from darby.price.model import Price


def priced(answers: Answers, job: Job) -> Price | None:
    """The price of ``job``, which is the job of ``answers`` but for a thing or two; None if it has none."""
    other = walk(_leading_to("price"), job, answers.book, version=answers.made_with, since=answers, later=Later.skip)
    return other.answered("price")


@cache
def _leading_to(name: str) -> tuple[Stage[Any, Any], ...]:
    """The stage and every one that it needs, whatever is between, in their order."""
    from darby.answers import STAGES

    needed = {name}
    for stage in reversed(STAGES):
        if stage.name in needed:
            needed.update(stage.needs)
    return tuple(stage for stage in STAGES if stage.name in needed)
