"""The whole desk as one file, and back: by SQLite's own backup, so that it may be copied while the desk serves."""

from __future__ import annotations

import errno
import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import datetime
from pathlib import Path

from darby.desk.home import Home
from darby.desk.open_now import alone

TABLES = {"kept_revision", "kept_entry", "kept_person", "kept_photograph", "django_migrations"}


class NoBackup(ValueError):
    """It cannot be copied or put back; nothing was changed. ``code`` of the sentence and the values in it."""

    def __init__(self, code: str, **values: object) -> None:
        super().__init__(f"{code} {values}")
        self.code, self.values = code, values


def backup(home: Home, file: Path) -> None:
    """Copy all that is kept into ``file``: written beside it, checked, then put in its place.

    Raises
    ------
    NoBackup
        if there is no desk in the folder, it is damaged, ``file`` is its own, or there is no room.
    OSError
        if the file cannot be written.
    """
    if not home.base.exists() or not home.base.stat().st_size:
        raise NoBackup("desk.no-desk", folder=home.folder)
    _not_its_own(home, file)
    file.parent.mkdir(parents=True, exist_ok=True)
    with _room(file.parent):
        handle, name = tempfile.mkstemp(prefix=f".{file.name}.", suffix=".part", dir=file.parent)
        os.close(handle)
        beside = Path(name)
        try:
            with closing(sqlite3.connect(home.base, timeout=20)) as source, closing(sqlite3.connect(beside)) as target:
                source.backup(target)
                target.execute("PRAGMA journal_mode=DELETE")
            check(beside, damaged="desk.damaged")
            with beside.open("rb") as written:
                os.fsync(written.fileno())
            beside.replace(file)
        except sqlite3.DatabaseError as error:
            raise _told(error, "desk.damaged", file.parent) from None
        finally:
            beside.unlink(missing_ok=True)


def check(file: Path, *, damaged: str = "desk.no-backup") -> None:
    """Look at every page of a copy.

    Raises
    ------
    NoBackup
        if it is damaged, or no desk.
    """
    try:
        with closing(_read(file)) as base:
            found = base.execute("PRAGMA integrity_check").fetchone()
            names = {name for (name,) in base.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    except sqlite3.Error as error:
        raise NoBackup(damaged, why=error) from None
    if found != ("ok",):
        raise NoBackup(damaged, why=found[0])
    if not names >= TABLES:
        raise NoBackup(damaged, why=", ".join(sorted(TABLES - names)))


def restore(home: Home, file: Path) -> Path | None:
    """Put what ``file`` holds in place of all that is kept, in one transaction; what stood before is kept beside it.

    Gives the file that holds what stood before; None if there was nothing. What stood before and is damaged is moved
    there as it is, for whoever can save something of it.

    Raises
    ------
    NoBackup
        if the file is damaged or no desk, or there is no room; nothing is changed then.
    IsOpen
        if a desk serves this folder: what it tells meanwhile would be lost.
    OSError
        if the folder cannot be written.
    """
    if not file.is_file():
        raise NoBackup("desk.no-file", file=file)
    _not_its_own(home, file)
    check(file)
    with alone(home), _room(home.folder):
        before, damaged = _put_aside(home)
        try:
            with closing(_read(file)) as source, closing(sqlite3.connect(home.base, timeout=20)) as target:
                source.backup(target)
        except sqlite3.DatabaseError as error:
            if before is not None and damaged:
                before.replace(home.base)
            raise _told(error, "desk.no-backup", home.folder) from None
        home.base.chmod(0o600)
        return before


def _put_aside(home: Home) -> tuple[Path | None, bool]:
    """Where what stood before is kept now, and whether it is damaged; (None, False) if there was nothing."""
    if not home.base.stat().st_size:
        return None, False
    before = _free(home.folder / f"before-restore-{datetime.now():%Y%m%d-%H%M%S}.sqlite3")
    try:
        backup(home, before)
    except NoBackup as found:
        if found.code != "desk.damaged":
            raise
        home.base.replace(before)
        for rest in ("-wal", "-shm"):  # of the damaged one: beside another they would damage it too
            beside = home.base.with_name(home.base.name + rest)
            if beside.exists():
                beside.replace(before.with_name(before.name + rest))
        return before, True
    return before, False


def _read(file: Path) -> sqlite3.Connection:
    """Open it so that nothing in it is changed."""
    return sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro", uri=True, timeout=20)


def _not_its_own(home: Home, file: Path) -> None:
    """A copy in place of the desk's own file would take it from under whoever writes."""
    if file.resolve().parent == home.folder.resolve() and file.name.startswith((home.base.name, "secret", "open")):
        raise NoBackup("desk.its-own", file=file)


@contextmanager
def _room(folder: Path) -> Iterator[None]:
    """What the system says of a full disk, in words."""
    try:
        yield
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT):
            raise NoBackup("desk.no-room", folder=folder) from None
        raise


def _told(error: sqlite3.DatabaseError, otherwise: str, folder: Path) -> NoBackup:
    if error.sqlite_errorcode == sqlite3.SQLITE_FULL:
        return NoBackup("desk.no-room", folder=folder)
    return NoBackup(otherwise, why=error)


def _free(file: Path) -> Path:
    """A name that is not taken: what stood before is never written over."""
    n, free = 1, file
    while free.exists():
        n += 1
        free = file.with_stem(f"{file.stem}-{n}")
    return free
