"""The hash of what a job means: another way of writing the same thing has the same hash."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from functools import cache
from typing import Any

from quicktions import Fraction

from darby.measure.units import Unit

SHORT = 12
"""Hex digits kept: enough to tell the jobs of a lifetime apart, short enough to read out."""

END = "\x1f"
"""Stands between two pieces; no text of a job holds it."""


def hash_of(thing: Any) -> str:
    """The first hex digits of the SHA-256 of a dataclass, field by field."""
    pieces: list[str] = []
    _write(thing, pieces)
    return hashlib.sha256(END.join(pieces).encode("utf-8", "surrogatepass")).hexdigest()[:SHORT]


@cache
def _names(kind: type[Any]) -> tuple[str, ...] | None:
    """The fields of a dataclass that count when two are compared; None for anything else."""
    return tuple(f.name for f in fields(kind) if f.compare) if is_dataclass(kind) else None


def _write(thing: Any, pieces: list[str]) -> None:
    kind = type(thing)
    if kind is Fraction or kind is Decimal:
        top, bottom = thing.as_integer_ratio()
        pieces.append(f"{top}/{bottom}")
    elif kind is str:
        pieces.append(f"'{thing}")
    elif kind is tuple:
        pieces.append(f"list {len(thing)}")
        for entry in thing:
            _write(entry, pieces)
    elif kind is Unit:
        pieces.append(f"unit {thing.name}")
    elif (names := _names(kind)) is not None:  # type: ignore[arg-type]
        pieces.append(kind.__name__)
        for name in names:
            pieces.append(name)
            _write(getattr(thing, name), pieces)
    elif kind is frozenset:
        pieces.append(f"set {sorted(thing)}")
    elif isinstance(thing, Mapping):
        pieces.append(f"map {len(thing)}")
        for key in sorted(thing):
            pieces.append(str(key))
            _write(thing[key], pieces)
    elif isinstance(thing, date):
        pieces.append(f"date {thing.isoformat()}")
    else:
        pieces.append(repr(thing))
