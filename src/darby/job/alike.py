"""Which entry of a list is which entry of the list that it became: what changed, what is new, what is gone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Mapping, Sequence
from difflib import SequenceMatcher
from itertools import pairwise
from typing import Any

NAMES = ("id", "surface", "item")
"""Keys by which a table is called: two that are called otherwise are never one that changed."""
MOST_PAIRS = 2500
"""Entries compared with each other to find which became which; beyond that they go by their place."""
HALF = 0.5


def frozen(value: Any) -> Hashable:
    """The value, so that only what reads the same is equal: 1, 1.0 and true are three things."""
    if isinstance(value, Mapping):
        return "{", frozenset((key, frozen(inner)) for key, inner in value.items())
    if isinstance(value, list):
        return "[", tuple(frozen(inner) for inner in value)
    return value if isinstance(value, str) else (type(value).__name__, repr(value))


def same(one: Any, other: Any) -> bool:
    """Whether two values of a document read the same."""
    return one is other or frozen(one) == frozen(other)


def ids(rows: Sequence[Any]) -> list[str | None]:
    """The id of each entry; None where it has none, or shares it with another."""
    found = [str(row["id"]) if isinstance(row, Mapping) and "id" in row else None for row in rows]
    often = Counter(found)
    return [id if often[id] == 1 else None for id in found]


def matched(before: Sequence[Any], after: Sequence[Any], *, renamed: bool = False) -> list[int | None]:
    """For each entry of ``after`` where it stood in ``before``; None: it is new.

    Entries with an id go by it, wherever they stand. The others go by what they are: those that did not change find
    each other, in order if they can; of what lies between those, what is most alike is taken for one that changed;
    ``renamed``: of tables even if it is called otherwise, or little alike.
    """
    found: list[int | None] = [None] * len(after)
    by_id = {id: n for n, id in enumerate(ids(before)) if id is not None}
    for m, id in enumerate(ids(after)):
        if id is not None and id in by_id:
            found[m] = by_id[id]
    taken = set(found)
    rest = [n for n in range(len(before)) if n not in taken]
    open_ = [m for m in range(len(after)) if found[m] is None]
    old, new = [frozen(before[n]) for n in rest], [frozen(after[m]) for m in open_]
    equal = _stayed(old, new)
    gaps = _between(equal, len(old), len(new))
    equal += _elsewhere(old, new, equal)
    for i, j in equal:
        found[open_[j]] = rest[i]
    gone, come = set(range(len(old))) - {i for i, _ in equal}, set(range(len(new))) - {j for _, j in equal}
    for olds, news in gaps:
        left, fresh = [rest[i] for i in olds if i in gone], [open_[j] for j in news if j in come]
        for n, m in _became(before, after, left, fresh, renamed):
            found[m] = n
    return found


def _stayed(old: Sequence[Hashable], new: Sequence[Hashable]) -> list[tuple[int, int]]:
    """Pairs that are equal, in order: at both ends first, and place by place where that finds as many."""
    least = min(len(old), len(new))
    head = next((k for k in range(least) if old[k] != new[k]), least)
    tail = next((k for k in range(least - head) if old[-1 - k] != new[-1 - k]), least - head)
    pairs = [(k, k) for k in range(head)]
    pairs += [(len(old) - k, len(new) - k) for k in range(tail, 0, -1)]
    one, other = old[head : len(old) - tail], new[head : len(new) - tail]
    blocks = SequenceMatcher(None, one, other, False).get_matching_blocks()
    middle = [(b.a + k, b.b + k) for b in blocks for k in range(b.size)]
    by_place = [(k, k) for k, (a, b) in enumerate(zip(one, other, strict=False)) if a == b]
    if len(one) == len(other) and len(by_place) >= len(middle):
        middle = by_place
    return sorted([*pairs, *((head + i, head + j) for i, j in middle)])


def _between(equal: Sequence[tuple[int, int]], olds: int, news: int) -> list[tuple[range, range]]:
    """What lies before, between and behind the pairs."""
    edges = [(-1, -1), *equal, (olds, news)]
    return [(range(i + 1, k), range(j + 1, m)) for (i, j), (k, m) in pairwise(edges)]


def _elsewhere(
    old: Sequence[Hashable], new: Sequence[Hashable], equal: Sequence[tuple[int, int]]
) -> list[tuple[int, int]]:
    """Pairs that are equal among what is left: they were put in another place."""
    paired, at = {i for i, _ in equal}, {j for _, j in equal}
    left = [i for i in range(len(old)) if i not in paired]
    pairs = []
    for j, value in enumerate(new):
        i = next((i for i in left if old[i] == value), None) if j not in at else None
        if i is not None:
            left.remove(i)
            pairs.append((i, j))
    return pairs


def _became(
    before: Sequence[Any], after: Sequence[Any], rest: Sequence[int], new: Sequence[int], renamed: bool
) -> list[tuple[int, int]]:
    """Pairs in order that are most alike, all together."""
    if len(rest) * len(new) > MOST_PAIRS:
        return [(n, m) for n, m in zip(rest, new, strict=False) if _alike(before[n], after[m], renamed)]
    alike = [[_alike(before[n], after[m], renamed) for m in new] for n in rest]
    best = [[0.0] * (len(new) + 1) for _ in range(len(rest) + 1)]
    for i in reversed(range(len(rest))):
        for j in reversed(range(len(new))):
            both = alike[i][j] + best[i + 1][j + 1] if alike[i][j] else 0.0
            best[i][j] = max(both, best[i + 1][j], best[i][j + 1])
    pairs, i, j = [], 0, 0
    while i < len(rest) and j < len(new):
        if alike[i][j] and best[i][j] == alike[i][j] + best[i + 1][j + 1]:
            pairs.append((rest[i], new[j]))
            i, j = i + 1, j + 1
        elif best[i][j] == best[i + 1][j]:
            i += 1
        else:
            j += 1
    return pairs


def _alike(one: Any, other: Any, renamed: bool) -> float:
    """How alike two entries are; 0: they are not the same thing."""
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        called = [(str(one[key]), str(other[key])) for key in NAMES if key in one and key in other]
        if not renamed and any(a != b for a, b in called):
            return 0.0
        every = {*one, *other}
        share = sum(key in one and key in other and same(one[key], other[key]) for key in every) / max(len(every), 1)
        if renamed:
            return share + HALF / 4
        return 1 + share if called else share if share >= HALF else 0.0
    if isinstance(one, str) and isinstance(other, str):
        return HALF / 2 + SequenceMatcher(None, one, other, False).ratio()
    if isinstance(one, list) and isinstance(other, list):
        return HALF / 2 + sum(same(a, b) for a, b in zip(one, other, strict=False)) / max(len(one), len(other), 1)
    return HALF / 4
