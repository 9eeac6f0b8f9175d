"""Where everything stands in the text of a document: statements with their remarks, values, entries of lists.

Only for a text that ``tomllib`` reads: what is no TOML is not found out here.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

Keys = tuple[str, ...]
BLANK = " \t"
LOOSE = " \t\n"
KEY = re.compile(r'"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'|[A-Za-z0-9_-]+')


@dataclass(frozen=True, slots=True)
class Span:
    """A value: from where to where, and what lies in it. Of a list or a table in braces its inside is known."""

    start: int
    stop: int
    kind: Literal["plain", "list", "table"] = "plain"
    items: tuple[Span, ...] = ()
    pairs: tuple[Pair, ...] = ()


@dataclass(frozen=True, slots=True)
class Pair:
    """A key and its value in a table in braces."""

    keys: Keys
    start: int
    value: Span


@dataclass(frozen=True, slots=True)
class Statement:
    """A line or several that say one thing, with what stands behind it on its last line.

    ``path``: the keys of a header, or those of a value below its header. ``value``: None of a header.
    """

    kind: Literal["table", "entry", "value"]
    path: Keys
    start: int
    stop: int
    value: Span | None = None


@dataclass(slots=True)
class Table:
    """A table of the document: the statements that make it, and what lies in it."""

    header: Statement | None = None
    inside: dict[str, Statement | Table | list[Table]] = field(default_factory=dict)
    dotted: bool = False
    """Made by a key with dots, not by a header of its own."""

    def statements(self) -> Iterator[Statement]:
        """All that makes it, in no order."""
        if self.header is not None:
            yield self.header
        for one in self.inside.values():
            yield from statements_of(one)

    def own(self) -> list[Statement]:
        """The values that stand in it by one key each, in order."""
        return [one for one in self.inside.values() if isinstance(one, Statement)]


def statements_of(one: Statement | Table | list[Table]) -> Iterator[Statement]:
    """All that makes a value, a table or a list of tables."""
    if isinstance(one, Statement):
        yield one
    else:
        for table in one if isinstance(one, list) else [one]:
            yield from table.statements()


def read(text: str) -> tuple[Table, list[Statement]]:
    """The text as a tree, and its statements in order."""
    root = Table()
    here = root
    every = list(_Reading(text).statements())
    for one in every:
        if one.kind == "value":
            table = here
            for key in one.path[:-1]:
                table = _into(table, key, dotted=True)
            table.inside[one.path[-1]] = one
            continue
        above = root
        for key in one.path[:-1]:
            above = _into(above, key)
        if one.kind == "entry":
            rows = above.inside.setdefault(one.path[-1], [])
            assert isinstance(rows, list)
            here = Table(one)
            rows.append(here)
        else:
            here = _into(above, one.path[-1])
            here.header = one
    return root, every


def remarks(text: str) -> list[str]:
    """Every remark of a text, in order."""
    reading = _Reading(text)
    for _ in reading.statements():
        pass
    return reading.remarks


def _into(table: Table, key: str, *, dotted: bool = False) -> Table:
    found = table.inside.setdefault(key, Table(dotted=dotted))
    if isinstance(found, list):
        return found[-1]
    assert isinstance(found, Table)
    return found


class _Reading:
    def __init__(self, text: str) -> None:
        self.text, self.at = text, 0
        self.remarks: list[str] = []

    def statements(self) -> Iterator[Statement]:
        while self._over_loose():
            start = self.at
            if self._sees("[[") or self._sees("["):
                kind: Literal["table", "entry"] = "entry" if self._sees("[[") else "table"
                self.at += 2 if kind == "entry" else 1
                path = self._keys()
                self._to_the_line_end()
                yield Statement(kind, path, start, self.at)
            else:
                path = self._keys()
                self.at = self.text.index("=", self.at) + 1
                value = self._value()
                self._to_the_line_end()
                yield Statement("value", path, start, self.at, value)

    def _sees(self, sign: str) -> bool:
        return self.text.startswith(sign, self.at)

    def _over(self, signs: str) -> None:
        while self.at < len(self.text) and self.text[self.at] in signs:
            self.at += 1

    def _over_loose(self) -> bool:
        """Over blanks, line ends and remarks; whether anything follows."""
        self._over(LOOSE)
        while self._sees("#"):
            self._remark()
            self._over(LOOSE)
        return self.at < len(self.text)

    def _remark(self) -> None:
        start, self.at = self.at, self._line_end()
        self.remarks.append(self.text[start : self.at].rstrip())

    def _line_end(self) -> int:
        stop = self.text.find("\n", self.at)
        return len(self.text) if stop < 0 else stop

    def _to_the_line_end(self) -> None:
        """Over what closes a header, blanks and a remark."""
        self._over(BLANK + "]")
        if self._sees("#"):
            self._remark()
        self.at = min(self._line_end() + 1, len(self.text))

    def _keys(self) -> Keys:
        found = []
        while True:
            self._over(BLANK)
            part = KEY.match(self.text, self.at)
            if part is None:
                raise ValueError(self.text[self.at : self.at + 40])
            found.append(part[0] if part[0][0] not in "\"'" else str(tomllib.loads(f"x = {part[0]}")["x"]))
            self.at = part.end()
            self._over(BLANK)
            if not self._sees("."):
                return tuple(found)
            self.at += 1

    def _value(self) -> Span:
        self._over(BLANK)
        start = self.at
        for quotes in ('"""', "'''", '"', "'"):
            if self._sees(quotes):
                self._text(quotes)
                return Span(start, self.at)
        if self._sees("["):
            return self._list(start)
        if self._sees("{"):
            return self._table(start)
        while self.at < len(self.text) and self.text[self.at] not in ",]}#\n":
            self.at += 1
        return Span(start, start + len(self.text[start : self.at].rstrip()))

    def _text(self, quotes: str) -> None:
        self.at += len(quotes)
        while not self._sees(quotes):
            self.at += 2 if quotes[0] == '"' and self._sees("\\") else 1
        self.at += len(quotes)
        while len(quotes) == 3 and self._sees(quotes[0]):  # two more may belong to the text
            self.at += 1

    def _list(self, start: int) -> Span:
        self.at += 1
        items = []
        self._over_loose()
        while not self._sees("]"):
            items.append(self._value())
            self._over_loose()
            if self._sees(","):
                self.at += 1
                self._over_loose()
        self.at += 1
        return Span(start, self.at, "list", tuple(items))

    def _table(self, start: int) -> Span:
        self.at += 1
        pairs = []
        self._over(BLANK)
        while not self._sees("}"):
            begin = self.at
            keys = self._keys()
            self.at = self.text.index("=", self.at) + 1
            pairs.append(Pair(keys, begin, self._value()))
            self._over(BLANK)
            if self._sees(","):
                self.at += 1
                self._over(BLANK)
        self.at += 1
        return Span(start, self.at, "table", pairs=tuple(pairs))
