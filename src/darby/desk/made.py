"""What takes long to make, and stays the same while what it was made of does: files of the desk's folder.

They may be thrown away at any time; they are made again. A file is called after all that went into it, and after this
darby and its rule book: whatever changes, another file is asked for.
"""

from __future__ import annotations

import os
from functools import cache
from hashlib import sha256
from pathlib import Path

import darby
from darby import rulebook
from darby.desk.home import named

FOLDER = "made"
MOST = 4000
"""Files kept; the oldest go first. A line of the list of jobs is 200 bytes, a pocket sheet 250 kB."""


def place_of(kind: str, *parts: str) -> Path | None:
    """The file for what is made of ``parts``; None outside a desk's folder."""
    home = named()
    if home is None:
        return None
    mark = sha256("\0".join((_this_darby(), *parts)).encode()).hexdigest()[:32]
    return home.folder / FOLDER / f"{kind}-{mark}"


def read(place: Path | None) -> bytes | None:
    """What was made; None if it has to be made first."""
    try:
        return place.read_bytes() if place is not None else None
    except OSError:
        return None


def write(place: Path | None, content: bytes) -> None:
    """Keep it, whole or not at all. That it cannot be kept is no fault: it is made again next time."""
    if place is None:
        return
    beside = place.with_name(f"{place.name}.{os.getpid()}.part")
    try:
        ready(place)
        beside.write_bytes(content)
        beside.replace(place)
    except OSError:
        beside.unlink(missing_ok=True)


def ready(place: Path) -> None:
    """Make the folder; of too many files in it the oldest go."""
    place.parent.mkdir(mode=0o700, exist_ok=True)
    files = [file for file in place.parent.iterdir() if file.is_file()]
    if len(files) > MOST:
        for old in sorted(files, key=lambda file: file.stat().st_mtime)[: MOST // 2]:
            old.unlink(missing_ok=True)


@cache
def _this_darby() -> str:
    """Version, rule book, and when the newest of its own files was written: a change made here counts too."""
    folder = Path(darby.__file__).parent
    newest = max(
        file.stat().st_mtime_ns for kind in ("*.py", "*.toml", "*.html", "*.js") for file in folder.rglob(kind)
    )
    return f"{darby.__version__} {rulebook.default().version} {newest}"
