"""Whole numbers and moments as a form or a phone says them."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from django.utils import timezone
from django.utils.dateparse import parse_datetime

from darby.desk.uploads.limits import DIGITS, Refused

if TYPE_CHECKING:
    from collections.abc import Mapping

OLDEST = 2000
"""No phone that keeps pages was made before; a clock that lost its battery says 1970."""
AHEAD = timedelta(days=366)
"""A clock may go wrong by that much, and the line is kept all the same."""


def number(text: str) -> int | None:
    """A whole number from 0 on, of a size that somebody writes; None where it is something else."""
    return int(text) if text.isdecimal() and len(text) <= DIGITS else None


def whole(posted: Mapping[str, str], key: str, otherwise: int = 0) -> int:
    """A whole number that a form says; ``otherwise`` where it says none, or something else."""
    found = number(str(posted.get(key, "")))
    return otherwise if found is None else found


def moment(written: object) -> datetime | None:
    """When a line was written where it was written, with its zone; None where that is not said.

    Raises
    ------
    Refused
        made: it is no moment, has no zone, or no clock of our days says so.
    """
    text = str(written or "").strip()
    if not text:
        return None
    try:
        said = parse_datetime(text)
    except ValueError:
        said = None
    if said is None or said.tzinfo is None or said.year < OLDEST or said.year >= datetime.max.year:
        raise Refused("made", found=text[:40])
    if said > timezone.now() + AHEAD:
        raise Refused("made", found=text[:40])
    return said
