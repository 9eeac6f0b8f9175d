"""Two texts that were one come together: their tables by ``merging``, and what was written around them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from darby.desk.kept.merging import Path, merge
from darby.job.alike import same
from darby.job.rewriting import rewritten
from darby.job.spans import remarks

REMARKS = "#"
"""The path of what is written behind it."""


@dataclass(frozen=True, slots=True)
class Together:
    """The text that holds what both changed."""

    text: str


@dataclass(frozen=True, slots=True)
class Apart:
    """Both changed the same thing. ``both``: the tables with what each changed, and mine where they meet."""

    paths: tuple[Path, ...]
    both: Mapping[str, Any]


def come_together(base: str, mine: str, theirs: str) -> Together | Apart:
    """``theirs`` with what ``mine`` changed of ``base``, line by line where that reads as it should.

    Where it does not, the tables are put into the text whose remarks are others than before; if both have other
    remarks, they are apart.

    Raises
    ------
    tomllib.TOMLDecodeError
        if one of them is no TOML.
    """
    old, my, their = (tomllib.loads(text) for text in (base, mine, theirs))
    wanted, clashes = merge(old, my, their)
    if clashes:
        return Apart(clashes, merge(old, their, my)[0])
    lines, meet = merge(base.split("\n"), mine.split("\n"), theirs.split("\n"))
    text = "\n".join(lines)
    if not meet and _reads_as(text, wanted):
        return Together(text)
    before, my_remarks, their_remarks = (remarks(text) for text in (base, mine, theirs))
    if my_remarks != before and their_remarks not in (before, my_remarks):
        return Apart((REMARKS,), wanted)
    return Together(rewritten(theirs if my_remarks == before else mine, wanted))


def _reads_as(text: str, wanted: Mapping[str, Any]) -> bool:
    try:
        return same(tomllib.loads(text), wanted)
    except tomllib.TOMLDecodeError:
        return False
