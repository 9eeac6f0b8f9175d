"""The rule book a job is answered from: the trade's figures, the voices the firm follows, local rules on top."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.rulebook import Book, default

if TYPE_CHECKING:
    from darby.job.model import Job


def book_of(job: Job, book: Book | None = None) -> Book:
    """``book`` (the default one) as this job sees it.

    Raises
    ------
    BookError
        if the firm follows a voice that is silent, or two local rules speak on one subject.
    """
    seen = book or default()
    if job.firm.follows:
        seen = seen.following(job.firm.follows)
    return seen.with_local(job.rules) if job.rules else seen
