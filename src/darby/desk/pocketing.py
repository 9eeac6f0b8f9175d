"""The pocket sheet of the firm, made by another process: the core is asked thousands of questions for it.

Nobody waits for it: whoever asks before it is there is told so. It is kept in the folder by the text of the firm and
the language, this darby and its rule book (``made``).
"""

from __future__ import annotations

import contextlib
import logging
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Lock, Thread
from time import sleep

from darby.desk import made
from darby.words import Language

LATER = 60.0
"""Seconds after the start until it is begun by itself: whoever only looks in is not kept from it."""
LOOK = 5.0
"""Seconds between looks whether it is done."""
POLITE = 10
"""It gives way to whatever else the machine does (nice)."""

logger = logging.getLogger(__name__)


class NotMade(Exception):
    """The sheet could not be made; why stands in the log."""


@dataclass(slots=True)
class _Making:
    running: subprocess.Popen[bytes]
    folder: TemporaryDirectory[str]
    into: Path


_making: dict[Path, _Making] = {}
_lock = Lock()


def sheet(firm: str | None, language: Language) -> bytes | None:
    """The sheet; None while it is being made.

    Raises
    ------
    NotMade
        if it was begun and came to nothing: said once, then it is begun anew.
    """
    place = made.place_of("pocket", language, firm or "")
    found = made.read(place)
    if found is not None or place is None:
        return found
    with _lock:
        making = _making.get(place)
        if making is None:
            _making[place] = _begun(place, firm, language)
            return None
        if making.running.poll() is None:
            return None
        del _making[place]
        said = (Path(making.folder.name) / "said").read_text(encoding="utf-8", errors="replace")
        made_it = making.running.returncode == 0 and making.into.exists()
        if made_it:
            made.write(place, making.into.read_bytes())
        making.folder.cleanup()
    if not made_it:
        logger.error("The pocket sheet could not be made: %s", said[-2000:])
        raise NotMade
    return made.read(place)


def begin(firm: str | None, language: Language) -> None:
    """Make it in a while, if it is not there."""

    def make() -> None:
        sleep(LATER)
        with contextlib.suppress(NotMade):
            while sheet(firm, language) is None:
                sleep(LOOK)

    Thread(target=make, name="pocket", daemon=True).start()


def stop() -> None:
    """End what is still being made."""
    with _lock:
        for making in _making.values():
            making.running.kill()
            making.running.wait()
            making.folder.cleanup()
        _making.clear()


def _begun(place: Path, firm: str | None, language: Language) -> _Making:
    """Another process, in a folder of its own inside the desk's."""
    made.ready(place)
    folder = TemporaryDirectory(prefix="making-", dir=place.parent)
    into = Path(folder.name) / "pocket.html"
    words = [sys.executable, "-m", "darby", "pocket", "--into", str(into)]
    if firm is not None:
        file = Path(folder.name) / "firm.toml"
        file.write_text(firm, encoding="utf-8")
        words += ["--firm", str(file)]
    with (Path(folder.name) / "said").open("wb") as said:
        running = subprocess.Popen(
            _politely(words), stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=said,
            env=os.environ | {"DARBY_LANGUAGE": language},
        )  # fmt: skip
    return _Making(running, folder, into)


def _politely(words: list[str]) -> list[str]:
    from shutil import which

    nice = which("nice")
    return [nice, "-n", str(POLITE), *words] if nice else words
