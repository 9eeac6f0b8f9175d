"""Signs that nobody writes: what ends a text for some readers, or is no sign at all, is kept nowhere."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping
from typing import Any

from darby.job.places import Loc

WRITTEN = "\n\r\t"
"""Of the signs that steer a printer, those that a keyboard makes."""
ODD = ("Cc", "Cs")
"""Unicode's kinds of sign: one that steers, half of one."""


def odd(text: str) -> str:
    """The first odd sign of a text, as Unicode calls it ("U+0000"); "" if there is none."""
    if text.isprintable():
        return ""
    return next((f"U+{ord(c):04X}" for c in text if unicodedata.category(c) in ODD and c not in WRITTEN), "")


def odd_signs(value: Any, at: Loc = ()) -> Iterator[tuple[Loc, str]]:
    """Every odd sign in a value of tables, lists and texts: where, and which."""
    if isinstance(value, str):
        if found := odd(value):
            yield at, found
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            if found := odd(str(key)):
                yield at, found
            yield from odd_signs(inner, (*at, str(key)))
    elif isinstance(value, list | tuple):
        for n, inner in enumerate(value):
            yield from odd_signs(inner, (*at, n))
