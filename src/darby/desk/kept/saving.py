"""The only way into the two tables: a revision of a document, a line of the log. Told only when it is on the disk."""

from __future__ import annotations

import hashlib
import re
import tomllib
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from darby.desk.kept import FIRM
from darby.desk.kept.merging import Path, changes
from darby.desk.kept.models import Entry, Person, Photograph, Revision
from darby.desk.kept.signs import odd_signs
from darby.desk.kept.together import Together, come_together
from darby.desk.uploads.limits import Refused
from darby.job import JobError, loads
from darby.job.places import place
from darby.job.rewriting import rewritten
from darby.measure import Fault

PROBE = """
darby = 1
[job]
name = "-"
as_of = 2026-01-01
[[wall]]
id = "w"
length = "1'"
height = "1'"
base = "concrete"
"""
"""The smallest job: a firm file is checked by reading it with one."""


class Clash(Exception):
    """Somebody changed the same thing meanwhile. ``paths``: what; ``latest``: what stands now; nothing was kept.

    ``both``: the document with what each changed, and mine where it is the same thing: to be looked at and kept again.
    """

    def __init__(self, paths: tuple[Path, ...], latest: Revision, both: Mapping[str, Any] | None = None) -> None:
        super().__init__(", ".join(paths))
        self.paths, self.latest, self.both = paths, latest, dict(both or {})


class SentOtherwise(Exception):
    """A line of the log came a second time under the same id, and says something else."""


@dataclass(frozen=True, slots=True)
class Saved:
    """The revision that stands now. ``also``: what others changed meanwhile, and was kept too."""

    revision: Revision
    also: tuple[Path, ...] = ()


def latest(document: str) -> Revision | None:
    """The document as it stands."""
    return Revision.objects.filter(document=document).order_by("-number").select_related("who").first()


def history(document: str) -> list[Revision]:
    """All revisions of a document, newest first."""
    return list(Revision.objects.filter(document=document).order_by("-number").select_related("who"))


def jobs() -> list[Revision]:
    """Every job as it stands, newest change first."""
    newest = Revision.objects.exclude(document=FIRM).values("document").annotate(newest=Max("id")).values("newest")
    return list(Revision.objects.filter(id__in=newest).order_by("-when").select_related("who"))


def firm_text() -> str | None:
    """The firm file as it stands."""
    found = latest(FIRM)
    return found.text if found is not None else None


def tables(text: str) -> dict[str, Any]:
    """A text as tables.

    Raises
    ------
    tomllib.TOMLDecodeError
        if it is no TOML.
    """
    return tomllib.loads(text)


def keep(document: str, wanted: str | Mapping[str, Any], who: Person, *, base: int = 0, says: str = "") -> Saved:
    """Keep ``wanted``, which was made from revision ``base`` (0: the document is new): a text, or tables.

    Tables are put into the text of that revision: remarks, order and spelling of what did not change stay as they were
    written. What others changed meanwhile stays, where it is not the same thing.

    Raises
    ------
    JobError
        with every fault of the text; nothing is kept.
    Clash
        if others changed the same thing meanwhile, or the two cannot stand together; nothing is kept.
    """
    before = Revision.objects.filter(document=document, number=base).first()
    old = before.text if before is not None else ""
    text = wanted if isinstance(wanted, str) else rewritten(old, wanted)
    check(document, text)
    with transaction.atomic():
        now = latest(document)
        if now is None:
            return Saved(_write(document, 1, None, (), text, who, says))
        also: tuple[Path, ...] = ()
        if now.number != base:
            also = changes(tables(old), tables(now.text))
            found = come_together(old, text, now.text)
            if not isinstance(found, Together):
                raise Clash(found.paths, now, found.both)
            text = found.text
            try:
                check(document, text)
            except JobError:  # each alone can be read, and both cannot: two openings in one place
                his = tables(text)
                raise Clash(changes(tables(now.text), his), now, his) from None
        if text == now.text:
            return Saved(now, also)
        changed = changes(tables(now.text), tables(text))
        return Saved(_write(document, now.number + 1, now, changed, text, who, says), also)


def begin(name: str, wanted: str | Mapping[str, Any], who: Person) -> Revision:
    """Keep a new job under an id of its own, made from its name; two who begin at once have one each.

    Raises
    ------
    JobError
        with every fault; nothing is kept.
    """
    with transaction.atomic():
        return keep(free_id(name), wanted, who).revision


def check(document: str, text: str) -> None:
    """Read it as it will be read.

    Raises
    ------
    JobError
        with every fault.
    """
    if document == FIRM:
        loads(PROBE, firm=text)
    else:
        loads(text, firm=firm_text())
    made = tables(text)
    if found := [Fault("desk.kept.sign", place(made, at), sign, sign) for at, sign in odd_signs(made)]:
        raise JobError(tuple(found))


def _write(
    document: str, number: int, parent: Revision | None, changed: tuple[Path, ...], text: str, who: Person, says: str
) -> Revision:
    row = Revision(
        document=document, number=number, parent=parent, who=who, changed=list(changed), says=says, text=text
    )
    row.save()
    return row


def go_back(document: str, number: int, who: Person) -> Saved:
    """Write revision ``number`` again, as the newest: nothing that came after it is lost.

    Raises
    ------
    Revision.DoesNotExist
        if there is no such revision.
    JobError
        if the text of then is no job any more.
    """
    old = Revision.objects.get(document=document, number=number)
    now = latest(document)
    return keep(document, old.text, who, base=now.number if now is not None else 0, says=f"back:{number}")


def free_id(name: str) -> str:
    """A document's id from a job's name, not taken yet."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    slug = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:40] or "job"
    slug = f"{slug}-job" if slug in (FIRM, "new") else slug
    n, free = 1, slug
    while Revision.objects.filter(document=free).exists():
        n += 1
        free = f"{slug}-{n}"
    return free


# --- the log -------------------------------------------------------------------------------------------


def note_down(
    id: UUID,
    document: str,
    kind: str,
    who: Person,
    *,
    said: Mapping[str, Any] | None = None,
    at: str = "job",
    made: datetime | None = None,
    photograph: tuple[bytes, str] | None = None,
) -> tuple[Entry, bool]:
    """Keep a line of the log, once: (the line, whether it is new). ``photograph``: bytes and media type.

    Raises
    ------
    SentOtherwise
        if another line stands under that id.
    Refused
        sign: there is a sign in it that nobody writes.
    """
    words = dict(said or {})
    if found := next((sign for _, sign in odd_signs([words, at, kind])), ""):
        raise Refused("sign", found=found)
    with transaction.atomic():
        sha = hashlib.sha256(photograph[0]).hexdigest() if photograph is not None else None
        there = Entry.objects.filter(id=id).first()
        if there is not None:
            same = (there.document, there.kind, there.at, there.said, there.photograph_id) == (
                document, kind, at, words, sha)  # fmt: skip
            if not same:
                raise SentOtherwise(str(id))
            return there, False
        if photograph is not None and sha is not None and not Photograph.objects.filter(sha256=sha).exists():
            Photograph(sha256=sha, kind=photograph[1], data=photograph[0]).save()
        row = Entry(
            id=id, document=document, kind=kind, at=at, said=words, photograph_id=sha, who=who,
            made=made or timezone.now(),
        )  # fmt: skip
        row.save()
        return row, True


def log(document: str) -> list[Entry]:
    """The log of a job, newest first."""
    return list(Entry.objects.filter(document=document).order_by("-made", "-when").select_related("who"))
