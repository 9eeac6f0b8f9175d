"""Walks the stages in order: the old answer is kept where the ask is equal; one bad surface takes no other with it."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from enum import Enum
from typing import TYPE_CHECKING, Any

from darby.answers.stage import NOT_ASKED, Answers, Kept, Key, Stage, Waiting
from darby.measure.faults import Fault, Unreadable
from darby.rulebook.model import BookError
from darby.working.model import Working

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook.book import Book


class Later(Enum):
    """What to do with slow stages."""

    skip = "skip"
    run = "run"


def walk(
    stages: Iterable[Stage[Any, Any]], job: Job, book: Book, *, version: str, since: Answers | None, later: Later
) -> Answers:
    """Answer ``job`` stage by stage. ``since``: earlier answers whose equal asks are kept."""
    kept: dict[Key, Kept] = {}
    old = since.kept if since is not None else {}
    anew = 0
    with no_collecting():
        for stage in stages:
            so_far = Answers(job, job.hash, book, version, kept)
            for at in (s.id for s in job.surfaces) if stage.per == "surface" else ("job",):
                key = (stage.name, at)
                ask = _asked(stage, at, so_far, later)
                before = old.get(key)
                if before is not None and before.ask == ask:
                    kept[key] = before
                    continue
                kept[key] = _run(stage, at, ask)
                anew += not isinstance(ask, (Waiting, Fault))
    return Answers(job, job.hash, book, version, kept, anew)


@contextmanager
def no_collecting() -> Iterator[None]:
    """Answers are many small frozen things without cycles: looking for garbage among them takes a third of the time.

    Within another such block nothing is looked for until that one ends."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _asked(stage: Stage[Any, Any], at: str, so_far: Answers, later: Later) -> Any:
    """The stage's ask, or Waiting behind what it needs. A job's stage goes on with the surfaces that are answered."""
    if stage.pace == "later" and later is Later.skip:
        return NOT_ASKED
    behind = tuple(
        (need, place)
        for need in stage.needs
        for place in ((at,) if (need, at) in so_far.kept else ("job",))
        if (need, place) in so_far.kept and isinstance(so_far.of(need, place), (Waiting, Fault))
    )
    if behind:
        return Waiting(behind=behind)
    try:
        return stage.ask(so_far.job, so_far.book, so_far, at)
    except Unreadable as error:
        return error.fault
    except BookError as error:
        return Fault("answers.book", at, str(error), "")


def _run(stage: Stage[Any, Any], at: str, ask: Any) -> Kept:
    if isinstance(ask, (Waiting, Fault)):
        return Kept(ask, ask, Working())
    try:
        answer, working = stage.run(ask)
    except Unreadable as error:
        return Kept(ask, error.fault if error.fault.place else error.fault.at(at), Working())
    except BookError as error:
        return Kept(ask, Fault("answers.book", at, str(error), ""), Working())
    return Kept(ask, answer, working)
