"""Whether a desk is open in a folder: it holds a lock while it serves, which goes with its process however it ends."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from darby.desk.home import Home

try:
    import fcntl
except ImportError:  # a system without such locks: nothing is held, and nothing is found open
    fcntl = None  # type: ignore[assignment]


class IsOpen(Exception):
    """A desk serves this folder."""


@contextmanager
def serving(home: Home) -> Iterator[None]:
    """The desk is open; another may serve the same folder beside it, but nobody puts a copy back.

    Raises
    ------
    IsOpen
        if a copy is put back just now.
    OSError
        if the folder cannot be written.
    """
    with _held(home, alone=False):
        yield


@contextmanager
def alone(home: Home) -> Iterator[None]:
    """No desk is open in this folder, and none opens.

    Raises
    ------
    IsOpen
        if one is.
    OSError
        if the folder cannot be written.
    """
    with _held(home, alone=True):
        yield


@contextmanager
def _held(home: Home, *, alone: bool) -> Iterator[None]:
    home.make()
    handle = os.open(home.folder / "open", os.O_CREAT | os.O_RDWR, 0o600)
    try:
        if fcntl is not None:
            try:
                fcntl.flock(handle, (fcntl.LOCK_EX if alone else fcntl.LOCK_SH) | fcntl.LOCK_NB)
            except BlockingIOError:
                raise IsOpen(str(home.folder)) from None
        yield
    finally:
        os.close(handle)
