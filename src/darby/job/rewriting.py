"""A document as its writer left it, with only what changed put in: remarks, order, blank lines and spelling stay.

What is put in is tried: if it does not read back to the very document that was wanted, the part that does not is
written anew, and if nothing else helps the whole (``saving.dump``).
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from darby.job.alike import matched, same
from darby.job.inside import Edit, applied, new_value
from darby.job.saving import dump
from darby.job.spans import Keys, Span, Statement, Table, read, statements_of
from darby.job.writing import blocks, is_blocks, line

LEAST = 2
"""Blanks before a remark that stands in a column with others."""


def rewritten(text: str, document: Mapping[str, Any]) -> str:
    """``text`` with what makes it read as ``document``; remarks of what is taken out go with it.

    Raises
    ------
    tomllib.TOMLDecodeError
        if the text is no TOML.
    """
    text = text.replace("\r\n", "\n")
    before = tomllib.loads(text)
    if same(before, document):
        return text
    if (found := _tried(text, before, document)) is not None:
        return found
    for key in [key for key in {**before, **document} if not same(before.get(key), document.get(key))]:
        wanted = {k: v for k, v in {**before, key: document.get(key)}.items() if k != key or key in document}
        found = _tried(text, before, wanted) or _tried(text, before, wanted, anew=True)
        if found is None:
            return dump(document)
        text, before = found, wanted
    return text


def _tried(text: str, before: Mapping[str, Any], wanted: Mapping[str, Any], *, anew: bool = False) -> str | None:
    """The text with the change put in; None if it does not read back so."""
    try:
        root, every = read(text)
        work = _Work(text, root, every, anew=anew)
        work.table(root, before, wanted, ())
        found = applied(text, work.edits)
        return found if same(tomllib.loads(found), wanted) else None
    except (ValueError, KeyError, IndexError, AssertionError, AttributeError):
        return None  # a way of writing that is not foreseen here: the caller writes it anew


class _Work:
    """Gathers what is to be put where in the text."""

    def __init__(self, text: str, root: Table, every: Sequence[Statement], *, anew: bool) -> None:
        self.text, self.root, self.every, self.anew = text, root, every, anew
        self.number = {one.start: n for n, one in enumerate(every)}
        self.edits: list[Edit] = []

    # --- tables --------------------------------------------------------------------------------------

    def table(self, node: Table, old: Mapping[str, Any], new: Mapping[str, Any], path: Keys) -> None:
        """Everything that changed in a table of its own header."""
        new_lines: list[str] = []
        new_blocks: list[str] = []
        for key, value in new.items():
            there = node.inside.get(key)
            if key in old and same(old[key], value):
                continue
            if there is not None and not self.anew and self._in_place(there, old[key], value, (*path, key)):
                continue
            if there is not None:
                self.remove(there)
            if is_blocks(value) and not node.dotted:
                new_blocks.append(blocks((*path, key), value))
            else:
                new_lines.append(line(key, value))
        for key in old:
            if key not in new:
                self.remove(node.inside[key])
        if new_lines:
            self._put_lines(node, new_lines)
        if new_blocks:
            self._put_blocks(node, new_blocks)

    def _in_place(self, there: Statement | Table | list[Table], old: Any, new: Any, path: Keys) -> bool:
        """Change it where it stands; False if it cannot stay what it is."""
        if isinstance(there, Statement):
            assert there.value is not None
            self.edits += self._in_column(there.value, new_value(self.text, there.value, old, new))
            return True
        if isinstance(there, Table) and isinstance(new, Mapping):
            self.table(there, old, new, path)
            return True
        if isinstance(there, list) and isinstance(new, list) and new and all(isinstance(x, Mapping) for x in new):
            return self._entries(there, old, new, path)
        return False

    def _in_column(self, span: Span, edits: list[Edit]) -> list[Edit]:
        """A remark behind a value that is another as a whole stays in its column, where there is room."""
        rest = self.text[span.stop :].partition("\n")[0]
        gap = len(rest) - len(rest.lstrip())
        if (
            [edit.start for edit in edits] != [span.start]
            or not rest.lstrip().startswith("#")
            or gap < LEAST
            or "\n" in edits[0].text
        ):
            return edits
        more = len(edits[0].text) - (edits[0].stop - edits[0].start)
        return [*edits, Edit(span.stop, span.stop + gap, " " * max(gap - more, LEAST))]

    def _put_lines(self, node: Table, lines: Sequence[str]) -> None:
        """Behind the last value of the table, or right below its header."""
        if node.dotted:
            raise ValueError("keys with dots")
        own = node.own()
        after = max((one.stop for one in own), default=node.header.stop if node.header is not None else None)
        if after is None:
            if node is not self.root:  # only tables below it have a header
                raise ValueError("no header")
            after = self._with_remarks(self.every[0].start) if self.every else len(self.text)
        self.edits.append(Edit(after, after, self._on_a_line(after) + "".join(lines)))

    def _put_blocks(self, node: Table, made: Sequence[str]) -> None:
        after = max((one.stop for one in node.statements()), default=len(self.text)) if node.header else len(self.text)
        self.edits.append(Edit(after, after, self._on_a_line(after) + "".join(f"\n{block}" for block in made)))

    def _on_a_line(self, at: int) -> str:
        """A line end, where the text does not end with one."""
        return "" if at == 0 or self.text[at - 1] == "\n" else "\n"

    # --- lists of tables -----------------------------------------------------------------------------

    def _entries(self, there: list[Table], old: list[Any], new: list[Any], path: Keys) -> bool:
        pairs = matched(old, new, renamed=True)
        stay = [n for n in pairs if n is not None]
        if stay != sorted(stay) or not stay:
            return False
        for n in range(len(old)):
            if n not in stay:
                self.remove(there[n])
        before: int | None = None
        fresh: list[str] = []
        for m, found in enumerate(pairs):
            if found is None:
                fresh.append(blocks(path, [new[m]]))
                continue
            self._put_entries(there, before, found, fresh)
            self.table(there[found], old[found], new[m], path)
            before, fresh = found, []
        self._put_entries(there, before, None, fresh)
        return True

    def _put_entries(self, there: list[Table], before: int | None, after: int | None, fresh: Sequence[str]) -> None:
        if not fresh:
            return
        if before is not None:
            at = max(one.stop for one in there[before].statements())
            self.edits.append(Edit(at, at, self._on_a_line(at) + "".join(f"\n{block}" for block in fresh)))
        else:
            assert after is not None
            header = there[after].header
            assert header is not None
            at = self._with_remarks(header.start)
            self.edits.append(Edit(at, at, "".join(f"{block}\n" for block in fresh)))

    # --- taking out ----------------------------------------------------------------------------------

    def remove(self, there: Statement | Table | list[Table]) -> None:
        """Take it out, with remarks in it and right above a header, and one blank line."""
        numbers = sorted(self.number[one.start] for one in statements_of(there))
        runs: list[list[int]] = [numbers[:1]]
        for one, other in pairwise(numbers):
            if other == one + 1:
                runs[-1].append(other)
            else:
                runs.append([other])
        for run in runs:
            first, last = self.every[run[0]], self.every[run[-1]]
            start = first.start if first.kind == "value" else self._with_remarks(first.start)
            stop = last.stop
            if first.kind != "value" and self.text.startswith("\n", stop):
                stop += 1
            self.edits.append(Edit(start - self._indent(start), stop, ""))

    def _indent(self, at: int) -> int:
        line_start = self.text.rfind("\n", 0, at) + 1
        return at - line_start if not self.text[line_start:at].strip() else 0

    def _with_remarks(self, at: int) -> int:
        """The start of the remarks that stand right above, with no blank line between."""
        start = self.text.rfind("\n", 0, at) + 1
        while start:
            above = self.text.rfind("\n", 0, start - 1) + 1
            if not self.text[above:start].lstrip().startswith("#") or not self._is_loose(above):
                break
            start = above
        return start

    def _is_loose(self, at: int) -> bool:
        """Whether a line lies in no statement: what looks like a remark may be inside a text of several lines."""
        return not any(one.start <= at < one.stop for one in self.every)
