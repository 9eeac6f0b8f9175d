"""The hash of what a job means: another way of writing the same thing has the same hash."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

from darby.measure.units import Unit

SHORT = 12
"""Hex digits kept: enough to tell the jobs of a lifetime apart, short enough to read out."""


def hash_of(thing: Any) -> str:
    """The first hex digits of the SHA-256 of a dataclass, field by field."""
    digest = hashlib.sha256()
    for piece in _pieces(thing):
        digest.update(piece.encode("utf-8", "surrogatepass"))
        digest.update(b"\x00")
    return digest.hexdigest()[:SHORT]


def _pieces(thing: Any) -> Iterator[str]:
    match thing:
        case Unit():
            yield f"unit {thing.name}"
        case Fraction() | Decimal():
            top, bottom = thing.as_integer_ratio()
            yield f"number {top}/{bottom}"
        case date():
            yield f"date {thing.isoformat()}"
        case Mapping():
            yield f"map {len(thing)}"
            for key in sorted(thing):
                yield str(key)
                yield from _pieces(thing[key])
        case tuple():
            yield f"list {len(thing)}"
            for entry in thing:
                yield from _pieces(entry)
        case frozenset():
            yield f"set {sorted(thing)}"
        case _ if is_dataclass(thing):
            yield type(thing).__name__
            for field in fields(thing):
                if field.compare:
                    yield field.name
                    yield from _pieces(getattr(thing, field.name))
        case _:
            yield f"{type(thing).__name__} {thing!r}"
