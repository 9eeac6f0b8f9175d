"""A set of papers is written to a new folder beside the old one and changed for it in one step."""

from __future__ import annotations

import ctypes
import errno
import hashlib
import json
import os
import shutil
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from darby.papers.model import Paper
from darby.papers.render import render

LIST = "papers.json"
"""Names every file of a set with its SHA-256: a folder that holds anything else is not ours to change."""


class NotOurs(Exception):
    """The folder holds something that no set of papers put there; nothing was written."""

    def __init__(self, folder: Path, names: tuple[str, ...]) -> None:
        super().__init__(f"{folder}: {', '.join(names)}")
        self.folder, self.names = folder, names


def write_set(
    papers: Mapping[str, Paper | bytes] | Iterable[tuple[str, Paper | bytes]], folder: Path
) -> tuple[Path, ...]:
    """Render ``papers`` and put them in place of ``folder`` as a whole.

    Parameters
    ----------
    papers
        file name to paper (rendered as PDF) or to bytes that are written as they are (a DXF, an SVG); a name that
        comes twice is the later paper's.
    folder
        where the set stands. Until the last step nothing in it changes; killed at any moment, it holds the old set or
        the new one, whole. What a killed writer left beside it is cleared away by the next.

    Raises
    ------
    NotOurs
        if the folder exists and holds files that are not of an earlier set.
    ValueError
        for a file name that leads out of the folder.
    """
    folder = folder.absolute()
    made = _rendered(papers.items() if isinstance(papers, Mapping) else papers)
    names = tuple(made)
    made[LIST] = _listed(made)
    folder.parent.mkdir(parents=True, exist_ok=True)
    with _alone(folder.parent):
        _put_right(folder)
        _check_ours(folder)
        new = folder.parent / f".{folder.name}.new"
        try:
            new.mkdir()
            for name, data in made.items():
                _write(new / name, data)
            _sync(new)
            _change(new, folder)
            _sync(folder.parent)
        except BaseException:
            _put_right(folder)
            raise
    return tuple(folder / name for name in names)


def _rendered(papers: Iterable[tuple[str, Paper | bytes]]) -> dict[str, bytes]:
    """Every paper as its file, one after the other: none is held longer than it takes to set it."""
    made: dict[str, bytes] = {}
    for name, paper in papers:
        if not name or Path(name).name != name or name == LIST or name.startswith("."):
            raise ValueError(f"not a file name for a paper: {name!r}")
        made[name] = paper if isinstance(paper, bytes) else render(paper)
    return made


def _listed(made: Mapping[str, bytes]) -> bytes:
    files = {name: hashlib.sha256(data).hexdigest() for name, data in sorted(made.items())}
    return (json.dumps({"files": files}, indent=1) + "\n").encode()


def _check_ours(folder: Path) -> None:
    if not folder.exists():
        return
    if not folder.is_dir():
        raise NotOurs(folder, (folder.name,))
    try:
        ours = set(json.loads((folder / LIST).read_text(encoding="utf-8"))["files"]) | {LIST}
    except (OSError, ValueError, KeyError, TypeError):
        ours = set()
    others = tuple(sorted(path.name for path in folder.iterdir() if path.name not in ours))
    if others:
        raise NotOurs(folder, others)


def _put_right(folder: Path) -> None:
    """Clear away what a killed writer left; bring the old set back where it was moved and nothing put in its place."""
    old, new = folder.parent / f".{folder.name}.old", folder.parent / f".{folder.name}.new"
    if old.exists() and not folder.exists():
        old.rename(folder)
    for left in (old, new):
        if left.exists():
            shutil.rmtree(left)


def _change(new: Path, folder: Path) -> None:
    old = folder.parent / f".{folder.name}.old"
    if folder.exists():
        if _exchange(new, folder):
            new.rename(old)
        else:  # two renames: between them only ``old`` is there, and the next writer brings it back
            folder.rename(old)
            new.rename(folder)
        shutil.rmtree(old)
    else:
        new.rename(folder)


_AT_FDCWD, _RENAME_EXCHANGE = -100, 2
_NO_EXCHANGE = (errno.EINVAL, errno.ENOSYS, errno.ENOTSUP, errno.EPERM)


def _exchange(one: Path, other: Path) -> bool:
    """Change two folders for each other in one step; False where the system cannot."""
    if not sys.platform.startswith("linux"):
        return False
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if rename is None:
        return False
    if rename(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE) == 0:
        return True
    code = ctypes.get_errno()
    if code in _NO_EXCHANGE:
        return False
    raise OSError(code, os.strerror(code), str(other))


def _write(path: Path, data: bytes) -> None:
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _sync(folder: Path) -> None:
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextmanager
def _alone(parent: Path) -> Iterator[None]:
    """One writer at a time beside ``parent``; a killed one holds nothing."""
    if os.name != "posix":
        yield
        return
    import fcntl

    handle = os.open(parent, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)
