"""The job document: loading, checking, upgrading, saving. What it becomes stands in ``model`` and ``firm``.

``load``, ``loads`` and ``schema`` import what reads documents only when they are called: it is heavy.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

from darby.job.firm import Firm
from darby.job.model import Job, JobError
from darby.job.saving import dump, save

__all__ = ["Firm", "Job", "JobError", "dump", "load", "loads", "save", "schema"]


def load(path: str | Path) -> Job:
    """The job in a file; its firm file is looked for from the file's own folder.

    Raises
    ------
    JobError
        with every fault, whatever its depth.
    """
    from darby.job.loading import load as load_file

    return load_file(path)


def loads(
    text: str | Mapping[str, Any], *, firm: str | Mapping[str, Any] | None = None, folder: str | Path | None = None
) -> Job:
    """The job in a text or in tables; ``firm`` is the firm file likewise, ``folder`` where a named one is looked for.

    Raises
    ------
    JobError
        with every fault, whatever its depth.
    """
    from darby.job.loading import loads as load_text

    return load_text(text, firm=firm, folder=folder)


def schema(kind: Literal["job", "firm"] = "job") -> dict[str, Any]:
    """JSON Schema (2020-12) of the job file or of the firm file."""
    from darby.job.document import schema as made

    return made(kind)
