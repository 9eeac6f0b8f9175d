"""The stages of a job, in order, and ``answer(job)``: every trade room is loaded here."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from darby import __version__
from darby.answers import (
    cautions,
    coats,
    cuts,
    days,
    grounds,
    joints,
    lath,
    match,
    mixes,
    order,
    paint,
    patch,
    price,
    recoat,
    straightedge,
    survey,
    volumes,
    wall,
)
from darby.answers.book import book_of
from darby.answers.graph import Later, walk
from darby.answers.stage import Answers, Stage

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book

STAGES: tuple[Stage[Any, Any], ...] = (
    wall.STAGE,
    survey.STAGE,
    coats.STAGE,
    recoat.STAGE,
    joints.STAGE,
    lath.STAGE,
    volumes.STAGE,
    mixes.STAGE,
    patch.STAGE,
    order.STAGE,
    lath.COUNTED,
    days.STAGE,
    paint.STAGE,
    price.STAGE,
    cautions.STAGE,
    cuts.STAGE,
    grounds.STAGE,
    straightedge.STAGE,
    match.STAGE,
)


def answer(job: Job, *, book: Book | None = None, since: Answers | None = None, later: Later = Later.skip) -> Answers:
    """Everything that can be said about ``job``.

    Parameters
    ----------
    book
        the rule book, before the firm's voices and local rules; None = the one that ships with darby.
    since
        earlier answers: every stage whose ask is equal keeps its answer.
    later
        whether the slow stages are run too.

    Raises
    ------
    BookError
        if the firm follows a voice that is silent.
    """
    return walk(STAGES, job, book_of(job, book), version=__version__, since=since, later=later)


def with_later(answers: Answers) -> Answers:
    """The same answers with the slow stages run too; all that was answered is kept."""
    return walk(STAGES, answers.job, answers.book, version=answers.made_with, since=answers, later=Later.run)
