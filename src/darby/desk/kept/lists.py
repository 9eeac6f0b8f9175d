"""Two lists that were one come together: every entry with what it was, what mine and what theirs made of it."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Any

from darby.job.alike import frozen, ids, matched

Token = tuple[str, int]
"""An entry, whatever became of it: ("base", its number), or ("new", a number)."""


@dataclass(slots=True)
class Change:
    """One entry in the three lists; what is not there is the sign for nothing that was handed in."""

    base: Any
    mine: Any
    theirs: Any


def came_together(base: list[Any], mine: list[Any], theirs: list[Any], none: Any) -> tuple[list[Change], bool]:
    """Every entry of the three, in the order they come to stand in; and whether the orders go together.

    What both added at the same place and says the same is one entry; of what both added at one place theirs stands
    first. If both put the entries of before in another order, and not the same, theirs stands and it is told.
    """
    their_tokens = _tokens(base, theirs)
    new = {key: token for key, token in zip(_keys(theirs, their_tokens), their_tokens, strict=True) if key is not None}
    my_tokens = _tokens(base, mine, new, start=len(theirs))
    found = {("base", n): Change(value, none, none) for n, value in enumerate(base)}
    for token, value in zip(their_tokens, theirs, strict=True):
        found.setdefault(token, Change(none, none, none)).theirs = value
    for token, value in zip(my_tokens, mine, strict=True):
        found.setdefault(token, Change(none, none, none)).mine = value
    order, in_order = _ordered(my_tokens, their_tokens)
    return [found[token] for token in order], in_order


def _tokens(
    base: list[Any], rows: list[Any], known: dict[Hashable, Token] | None = None, start: int = 0
) -> list[Token]:
    tokens: list[Token] = [
        ("new", start + m) if n is None else ("base", n) for m, n in enumerate(matched(base, rows))
    ]  # fmt: skip
    if known:
        keys = _keys(rows, tokens)
        tokens = [known.get(key, token) if key is not None else token for key, token in zip(keys, tokens, strict=True)]
    return tokens


def _keys(rows: list[Any], tokens: Sequence[Token]) -> list[Hashable | None]:
    """What makes an entry that is new the same as a new one of somebody else: its id, else its place and all of it."""
    found: list[Hashable | None] = []
    after, seen = -1, dict[Hashable, int]()
    for row, id, (kind, n) in zip(rows, ids(rows), tokens, strict=True):
        if kind == "base":
            after = n
            found.append(None)
        elif id is not None:
            found.append(("id", id))
        else:
            key = (after, frozen(row))
            seen[key] = seen.get(key, 0) + 1
            found.append((*key, seen[key]))
    return found


def _ordered(mine: Sequence[Token], theirs: Sequence[Token]) -> tuple[list[Token], bool]:
    both = set(mine) & set(theirs)
    as_theirs = [t for t in mine if t in both] == [t for t in theirs if t in both]
    if as_theirs or not _moved(mine):
        return _put_in(theirs, mine, behind=True), True
    if not _moved(theirs):
        return _put_in(mine, theirs, behind=False), True
    return _put_in(theirs, mine, behind=True), False


def _moved(tokens: Sequence[Token]) -> bool:
    """Whether the entries of before stand in another order than then."""
    old = [n for kind, n in tokens if kind == "base"]
    return old != sorted(old)


def _put_in(lead: Sequence[Token], other: Sequence[Token], *, behind: bool) -> list[Token]:
    """``lead`` with each further entry of ``other`` after the one it follows there, and ``behind`` what is new."""
    order, there = list(lead), set(lead)
    own = {t for t in lead if t[0] == "new"} - set(other)
    at = 0
    for token in other:
        if token in there:
            at = order.index(token) + 1
            continue
        while behind and at < len(order) and order[at] in own:
            at += 1
        order.insert(at, token)
        at += 1
    return order
