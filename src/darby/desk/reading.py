"""From a document of the data base to its answers: the same ``darby.answer`` as everywhere, kept while it stands."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock
from typing import TYPE_CHECKING, Any

from darby.answers import answer, with_later
from darby.desk.kept import FIRM, saving
from darby.desk.kept.models import Revision
from darby.job import Job, JobError, loads

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.measure.faults import Fault

MOST = 48
"""Answers kept in memory; a job's answers are a few hundred kilobytes."""


@dataclass(frozen=True, slots=True)
class Read:
    """A job as it stands: its revision, its tables, and its answers; faults where it cannot be read (any more)."""

    revision: Revision
    tables: dict[str, Any]
    answers: Answers | None
    faults: tuple[Fault, ...] = ()

    @property
    def id(self) -> str:
        """The document's id."""
        return self.revision.document

    @property
    def name(self) -> str:
        """What the job is called."""
        head = self.tables.get("job")
        return str(head.get("name", self.id)) if isinstance(head, dict) else self.id

    @property
    def job(self) -> Job | None:
        """The job, where it can be read."""
        return self.answers.job if self.answers is not None else None


_kept: OrderedDict[tuple[str, str, str, bool], Answers] = OrderedDict()
_lock = Lock()


def read(document: str, *, later: bool = False, number: int | None = None) -> Read | None:
    """The job as it stands (or as it stood at ``number``) with its answers; ``later``: the slow stages too.

    None if there is no such job.
    """
    revision = _revision(document, number)
    return read_revision(revision, saving.firm_text(), later=later) if revision is not None else None


def read_revision(revision: Revision, firm: str | None, *, later: bool = False) -> Read:
    """A revision with its answers, under the firm file ``firm``.

    Answers are kept by the texts they were made of: a copy that is put back may have other texts under old numbers.
    """
    document = revision.document
    tables = saving.tables(revision.text)
    key = (document, revision.text, firm or "", later)
    with _lock:
        found = _kept.get(key)
        since = next((a for k, a in reversed(_kept.items()) if k[0] == document), None)
    if found is None:
        try:
            job = loads(revision.text, firm=firm)
        except JobError as error:
            return Read(revision, tables, None, error.faults)
        found = answer(job, since=since)
        if later:
            found = with_later(found)
    with _lock:
        _kept[key] = found
        _kept.move_to_end(key)
        while len(_kept) > MOST:
            _kept.popitem(last=False)
    return Read(revision, tables, found)


def _revision(document: str, number: int | None) -> Revision | None:
    if document == FIRM:
        return None
    if number is None:
        return saving.latest(document)
    return Revision.objects.filter(document=document, number=number).select_related("who").first()
