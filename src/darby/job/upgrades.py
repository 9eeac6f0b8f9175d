"""Older versions of the job file, brought up step by step. Each step is a plain table in, a plain table out.

Version 0 was an early form, before the head had a table of its own: ``name``, ``customer``, ``address``,
``number``, ``date`` and ``firm_file`` stood at the top, walls stood in a list ``walls`` with ``label`` for id and
``base_kind`` for base, and one ``finish`` stood for the whole job.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

Raw = dict[str, Any]

VERSION = 1
FIRM_VERSION = 1

HEAD_0 = {
    "name": "name", "customer": "customer", "address": "address", "number": "number", "date": "as_of",
    "built": "built", "invented": "invented", "firm_file": "firm",
}  # fmt: skip
"""Where the head's keys of version 0 went in [job]."""

WALL_0 = {"label": "id", "title": "name", "base_kind": "base"}
"""What the keys of a wall of version 0 are called now; its other keys are as they were."""


def from_0(old: Raw) -> Raw:
    """Version 0 to version 1. What is of no known shape is handed on: the shape pass says what is wrong with it."""
    new: Raw = {"darby": 1}
    head = {HEAD_0[key]: value for key, value in old.items() if key in HEAD_0}
    if head:
        new["job"] = head
    for key, value in old.items():
        if key == "walls":
            new["wall"] = [_wall(entry) for entry in value] if isinstance(value, list) else value
        elif key == "finish":
            new["coats"] = {"finish": value}
        elif key not in HEAD_0 and key != "darby":
            new[key] = value
    return new


def _wall(entry: Any) -> Any:
    if not isinstance(entry, Mapping):
        return entry
    return {WALL_0.get(key, key): value for key, value in entry.items()}


UPGRADES: Mapping[int, Callable[[Raw], Raw]] = {0: from_0}
"""From a version to the next."""


def upgrade(raw: Raw, version: int) -> Raw:
    """The document of ``version`` in today's form.

    Raises
    ------
    KeyError
        if no step leads on from a version.
    """
    while version < VERSION:
        raw, version = UPGRADES[version](raw), version + 1
    return raw
