"""What changed between two documents, and how two changes of the same one come together."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Path = str
"""Keys with slashes between them: "wall/front/height". Entries of a list go by their id, else by their number."""

_NONE = object()


def changes(before: Any, after: Any, at: Path = "") -> tuple[Path, ...]:
    """Paths of all that differs, each as deep as it can be said."""
    if before == after:
        return ()
    one, other = _opened(before), _opened(after)
    if one is None or other is None:
        return (at,)
    found: list[Path] = []
    for key in dict.fromkeys([*one, *other]):
        found += changes(one.get(key, _NONE), other.get(key, _NONE), f"{at}/{key}" if at else key)
    return tuple(found)


def merge(base: Any, mine: Any, theirs: Any, at: Path = "") -> tuple[Any, tuple[Path, ...]]:
    """``theirs`` with what ``mine`` changed of ``base`` put in, and the paths where both changed the same thing.

    Where both changed it, ``theirs`` stands in what is handed back.
    """
    if theirs == base or mine == theirs:
        return mine, ()
    if mine == base:
        return theirs, ()
    parts = [_opened(x) for x in (base, mine, theirs)]
    if any(part is None for part in parts):
        return theirs, (at,)
    before, my, their = (part or {} for part in parts)
    merged: dict[str, Any] = {}
    clashes: list[Path] = []
    for key in dict.fromkeys([*their, *my]):
        here = f"{at}/{key}" if at else key
        value, more = merge(before.get(key, _NONE), my.get(key, _NONE), their.get(key, _NONE), here)
        clashes += more
        if value is not _NONE:
            merged[key] = value
    return (list(merged.values()) if isinstance(theirs, list) else merged), tuple(clashes)


def _opened(value: Any) -> dict[str, Any] | None:
    """A table by its keys, a list of named tables by their ids; None for all else: it changes as a whole."""
    if isinstance(value, Mapping):
        return dict(value)
    if isinstance(value, list) and value and all(isinstance(x, Mapping) for x in value):
        names = [str(x.get("id", n)) for n, x in enumerate(value)]
        if len(set(names)) == len(names):
            return dict(zip(names, value, strict=True))
    return None
