"""Stage "straightedge": how true a finished face came out. Slow to load, so only when asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.answers.stage import NOTHING, Answers, Stage, Waiting
from darby.grounds.finished import check_finished
from darby.grounds.model import Finished, FinishedAsk

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book


def _ask(job: Job, book: Book, answers: Answers, at: str) -> FinishedAsk | Waiting:  # noqa: ARG001 -- of the job alone
    read = next((r for r in job.finished if r.surface == at), None)
    return FinishedAsk(book, at, read.points) if read is not None else NOTHING


STAGE: Stage[FinishedAsk, Finished] = Stage("straightedge", (), "surface", "later", _ask, check_finished)
