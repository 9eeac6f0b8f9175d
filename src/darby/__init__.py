"""From what a plasterer measured to what he must do: every number with its working and its source.

>>> job = darby.load("firehall.toml")     # darby.JobError lists every fault
>>> answers = darby.answer(job)           # Answers; answers.to_json() has stable, documented keys
>>> darby.answer(job, since=answers)      # only what changed

Everything is loaded when it is first asked for, so that ``import darby`` costs next to nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

__version__ = "0.1.0"

if TYPE_CHECKING:
    from darby.answers import STAGES, Answers, Later, answer
    from darby.job import Job, JobError, load

_HOMES = {
    "Answers": "darby.answers",
    "Job": "darby.job",
    "JobError": "darby.job",
    "Later": "darby.answers",
    "STAGES": "darby.answers",
    "answer": "darby.answers",
    "load": "darby.job",
}

__all__ = ["STAGES", "Answers", "Job", "JobError", "Later", "__version__", "answer", "load"]


def __getattr__(name: str) -> Any:
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module 'darby' has no attribute {name!r}")
    return getattr(import_module(home), name)
