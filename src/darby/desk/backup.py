"""The whole desk as one file, and back: by SQLite's own backup, so that it may run while the desk serves."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path

from darby.desk.home import Home

TABLES = {"kept_revision", "kept_entry", "kept_person", "kept_photograph", "django_migrations"}


class NoBackup(ValueError):
    """The file is no whole copy of a desk; ``why`` is what SQLite or we found."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


def backup(home: Home, file: Path) -> None:
    """Copy all that is kept into ``file``: written beside it, checked, then put in its place.

    Raises
    ------
    NoBackup
        if there is no desk in the folder, or the copy is not whole.
    OSError
        if the file cannot be written.
    """
    if not home.base.exists():
        raise NoBackup(str(home.base))
    file.parent.mkdir(parents=True, exist_ok=True)
    beside = file.with_name(f".{file.name}.part")
    beside.unlink(missing_ok=True)
    os.close(os.open(beside, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    try:
        with closing(sqlite3.connect(home.base)) as source, closing(sqlite3.connect(beside)) as target:
            source.backup(target)
            target.execute("PRAGMA journal_mode=DELETE")
        check(beside)
        with beside.open("rb") as written:
            os.fsync(written.fileno())
        beside.replace(file)
    except sqlite3.Error as error:
        raise NoBackup(str(error)) from None
    finally:
        beside.unlink(missing_ok=True)


def check(file: Path) -> None:
    """Look at every page of a copy.

    Raises
    ------
    NoBackup
        if it is damaged, or no desk.
    """
    try:
        with closing(sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro", uri=True)) as base:
            found = base.execute("PRAGMA integrity_check").fetchone()
            names = {name for (name,) in base.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    except sqlite3.Error as error:
        raise NoBackup(str(error)) from None
    if found != ("ok",):
        raise NoBackup(str(found[0]))
    if not names >= TABLES:
        raise NoBackup(", ".join(sorted(TABLES - names)))


def restore(home: Home, file: Path) -> Path | None:
    """Put what ``file`` holds in place of all that is kept, in one transaction; what stood before is kept beside it.

    Gives the file that holds what stood before; None if there was nothing.

    Raises
    ------
    NoBackup
        if the file is damaged or no desk; nothing is changed then.
    OSError
        if the folder cannot be written.
    """
    if not file.is_file():
        raise NoBackup(str(file))
    check(file)
    home.make()
    before = None
    if home.base.stat().st_size:
        before = _free(home.folder / f"before-restore-{datetime.now():%Y%m%d-%H%M%S}.sqlite3")
        backup(home, before)
    try:
        with closing(sqlite3.connect(file)) as source, closing(sqlite3.connect(home.base, timeout=20)) as target:
            source.backup(target)
    except sqlite3.Error as error:
        raise NoBackup(str(error)) from None
    return before


def _free(file: Path) -> Path:
    """A name that is not taken: what stood before is never written over."""
    n, free = 1, file
    while free.exists():
        n += 1
        free = file.with_stem(f"{file.stem}-{n}")
    return free
