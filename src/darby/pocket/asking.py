"""Asks the core: jobs of sample walls, with the firm the sheet is made for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from darby.answers import STAGES, Answers, book_of
from darby.answers.graph import Later, walk
from darby.job import Firm, Job, loads
from darby.job.firm import Allowance
from darby.rulebook import Book, default

A_DAY = date(2001, 1, 1)
"""A clock for sample jobs: nothing on the sheet hangs on it."""

AT_ONCE = 40
"""Walls in one sample job: what is said of a wall is looked for among all that is said, so few are quicker."""

Walls = Iterable[tuple[dict[str, Any], dict[str, Any]]]
"""Walls as a job file has them: each its [[wall]] and its [[coats.on]]."""

PLAIN: Walls = (({"id": "w", "length": "20'", "height": "9'", "base": "block"}, {"surface": "w"}),)


@dataclass(frozen=True, slots=True)
class Asker:
    """The firm that the sheet is for: its file, None for no firm; and the rule book before the firm's voices."""

    file: Path | None = None
    book: Book | None = None

    def job(self, walls: Walls, **more: Any) -> Job:
        """A job of these walls.

        Raises
        ------
        JobError
            for everything that is wrong with the firm's file.
        """
        pairs = list(walls)
        head: dict[str, Any] = {"name": "sample", "as_of": A_DAY}
        if self.file is not None:
            head["firm"] = self.file.name
        document = {"darby": 1, "job": head, "wall": [w for w, _ in pairs], "coats": {"on": [on for _, on in pairs]}}
        return loads(document | more, folder=self.file.parent if self.file is not None else None)

    def jobs(self, walls: Walls) -> Iterator[Job]:
        """A job for each wall. Many are read at once and then taken apart: reading the firm is what takes its time."""
        pairs = list(walls)
        for start in range(0, len(pairs), AT_ONCE):
            job = self.job(pairs[start : start + AT_ONCE])
            for surface in job.surfaces:
                on = tuple(wanted for wanted in job.coats.on if wanted.surface == surface.id)
                bases = tuple(base for base in job.bases if base.surface == surface.id)
                yield replace(job, surfaces=(surface,), bases=bases, coats=replace(job.coats, on=on))

    @property
    def firm(self) -> Firm:
        """The firm, with nothing said where there is none."""
        return self.job(PLAIN).firm

    @property
    def ruled(self) -> Book:
        """The rule book as this firm sees it."""
        return book_of(self.job(PLAIN), self.book or default())

    def answers(self, job: Job, *stages: str) -> Answers:
        """The job answered: all of it, or these stages and what they need."""
        some = [stage for stage in STAGES if not stages or stage.name in _needed(stages)]
        return walk(some, job, book_of(job, self.book), version="", since=None, later=Later.skip)

    def seen_by_firm(self, job: Job, **shares: Any) -> Job:
        """``job`` with this firm's voices and local rules, whatever its own firm is; ``shares`` are allowances."""
        ours = self.job(PLAIN)
        allow = tuple(Allowance(name, part) for name, part in shares.items())
        return replace(job, firm=replace(job.firm, follow=ours.firm.follow, allow=allow), rules=ours.rules)


def _needed(stages: Iterable[str]) -> set[str]:
    """These stages, and all that they stand on."""
    needs = {stage.name: stage.needs for stage in STAGES}
    found, ahead = set[str](), list(stages)
    while ahead:
        name = ahead.pop()
        if name not in found:
            found.add(name)
            ahead += needs[name]
    return found
