"""Writing a job document: to TOML text, and to a file in one step, so that no half-written file is ever seen."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any


def dump(document: Mapping[str, Any]) -> str:
    """The document (plain tables, lists, text, numbers, dates) as TOML text.

    Loading the text gives the same Job as the document; comments of a file it was read from are not kept.
    """
    import tomli_w

    return tomli_w.dumps(document, multiline_strings=False)


def save(document: Mapping[str, Any], path: str | Path) -> None:
    """Write the document to ``path``: to a new file beside it, flushed to the disk, then put in its place.

    Killed at any moment, either the old file stands whole or the new one does.

    Raises
    ------
    OSError
        if the folder cannot be written; the old file is then as it was.
    """
    target = Path(path)
    text = dump(document).encode("utf-8")
    handle, beside = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            os.chmod(beside, target.stat().st_mode & 0o777)  # noqa: PTH101
        else:
            os.chmod(beside, 0o644)  # noqa: PTH101
        Path(beside).replace(target)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise
    folder = os.open(target.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
