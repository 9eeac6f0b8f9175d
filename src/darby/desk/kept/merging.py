"""What changed between two documents, and how two changes of the same one come together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from darby.desk.kept.lists import Change, came_together
from darby.job.alike import ids, matched, same

Path = str
"""Keys with slashes between them: "wall/front/height". Entries of a list go by their id, else by their number."""

NONE = object()
MOST = 8
"""Plain entries of one list that are called by their numbers; of more it is said that the list changed."""


def changes(before: Any, after: Any, at: Path = "") -> tuple[Path, ...]:
    """Paths of all that differs, each as deep as it can be said."""
    if same(before, after):
        return ()
    if isinstance(before, Mapping) and isinstance(after, Mapping):
        found: list[Path] = []
        for key in dict.fromkeys([*before, *after]):
            found += changes(before.get(key, NONE), after.get(key, NONE), _below(at, key))
        return tuple(found)
    if isinstance(before, list) and isinstance(after, list):
        return _in_list(before, after, at)
    return (at,)


def _in_list(before: list[Any], after: list[Any], at: Path) -> tuple[Path, ...]:
    found: list[Path] = []
    pairs = matched(before, after)
    for m, n in enumerate(pairs):
        here = _below(at, _called(after, m))
        if n is None:
            found.append(here)
        elif isinstance(before[n], Mapping) and isinstance(after[m], Mapping):
            found += changes(before[n], after[m], here)
        elif not same(before[n], after[m]):
            found.append(here)
    found += [_below(at, _called(before, n)) for n in range(len(before)) if n not in pairs]
    stood = [n for n in pairs if n is not None]
    plain = not any(isinstance(x, Mapping) for x in (*before, *after))
    if stood != sorted(stood) or (plain and len(found) > MOST):
        return (at,)
    return tuple(dict.fromkeys(found))


def merge(base: Any, mine: Any, theirs: Any, at: Path = "") -> tuple[Any, tuple[Path, ...]]:
    """``theirs`` with what ``mine`` changed of ``base`` put in, and the paths where both changed the same thing.

    Lists come together entry by entry: see ``lists``. Where both changed it, ``theirs`` stands in what is handed back.
    """
    if same(theirs, base) or same(mine, theirs):
        return mine, ()
    if same(mine, base):
        return theirs, ()
    # What both added stood on nothing.
    old: Any = type(mine)() if base is NONE and isinstance(mine, Mapping | list) else base
    if all(isinstance(x, Mapping) for x in (old, mine, theirs)):
        return _tables(old, mine, theirs, at)
    if all(isinstance(x, list) for x in (old, mine, theirs)):
        return _lists(old, mine, theirs, at)
    return theirs, (at,)


def _tables(
    base: Mapping[str, Any], mine: Mapping[str, Any], theirs: Mapping[str, Any], at: Path
) -> tuple[Any, tuple[Path, ...]]:
    merged: dict[str, Any] = {}
    clashes: list[Path] = []
    for key in dict.fromkeys([*theirs, *mine]):
        value, more = merge(base.get(key, NONE), mine.get(key, NONE), theirs.get(key, NONE), _below(at, key))
        clashes += more
        if value is not NONE:
            merged[key] = value
    return merged, tuple(clashes)


def _lists(base: Sequence[Any], mine: list[Any], theirs: list[Any], at: Path) -> tuple[Any, tuple[Path, ...]]:
    merged: list[Any] = []
    clashes: list[Path] = []
    changed, in_order = came_together(list(base), mine, theirs, NONE)
    for change in changed:
        value, more = _entry(change, at, len(merged))
        clashes += more
        if value is not NONE:
            merged.append(value)
    return merged, tuple(clashes if in_order else [*clashes, at])


def _entry(change: Change, at: Path, n: int) -> tuple[Any, tuple[Path, ...]]:
    """One entry of a list: a table by its keys, all else as one thing; so is what both added under one id."""
    stands = next(x for x in (change.theirs, change.base, change.mine) if x is not NONE)
    here = _below(at, ids([stands])[0] or str(n + 1))
    if all(isinstance(x, Mapping) for x in (change.base, change.mine, change.theirs)):
        return merge(change.base, change.mine, change.theirs, here)
    if same(change.theirs, change.base) or same(change.mine, change.theirs):
        return change.mine, ()
    return change.theirs, () if same(change.mine, change.base) else (here,)


def _called(rows: Sequence[Any], n: int) -> str:
    """An entry by its id, else by its number, from 1 as people count."""
    return ids(rows)[n] or str(n + 1)


def _below(at: Path, key: str) -> Path:
    return f"{at}/{key}" if at else key
