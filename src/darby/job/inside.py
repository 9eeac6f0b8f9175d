"""A value changed where it stands in the text: only the entries of a list, the keys of a table, that are another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from darby.job.alike import matched, same
from darby.job.spans import BLANK, Span
from darby.job.writing import name, written


@dataclass(frozen=True, slots=True)
class Edit:
    """What stands from ``start`` to ``stop`` becomes ``text``."""

    start: int
    stop: int
    text: str


def applied(text: str, edits: Sequence[Edit]) -> str:
    """The text with every edit; what is taken out twice is taken out once, what is put in at one place in order."""
    made, at = [], 0
    for edit in sorted(edits, key=lambda e: (e.start, e.stop > e.start)):
        made.append(text[at : edit.start] if edit.start > at else "")
        made.append(edit.text)
        at = max(at, edit.stop)
    return "".join([*made, text[at:]])


def new_value(text: str, span: Span, old: Any, new: Any) -> list[Edit]:
    """What makes the value at ``span`` another."""
    if span.kind == "list" and isinstance(new, list) and new and span.items:
        pairs = matched(old, new, renamed=True)
        stay = [n for n in pairs if n is not None]
        if stay and stay == sorted(stay):
            return _List(text, span).edits(old, new, pairs)
    if span.kind == "table" and isinstance(new, Mapping) and new and all(len(p.keys) == 1 for p in span.pairs):
        kept = [p for p in span.pairs if p.keys[0] in new]
        if kept:
            return _table(text, span, old, new)
    return [Edit(span.start, span.stop, written(new))]


def _table(text: str, span: Span, old: Mapping[str, Any], new: Mapping[str, Any]) -> list[Edit]:
    edits = []
    rest = [p for p in span.pairs if p.keys[0] in new]
    for n, pair in enumerate(span.pairs):
        key = pair.keys[0]
        if key not in new:
            if pair.start > rest[-1].start:
                edits.append(Edit(span.pairs[n - 1].value.stop, pair.value.stop, ""))
            else:
                edits.append(Edit(pair.start, span.pairs[n + 1].start, ""))
        elif not same(old[key], new[key]):
            edits += new_value(text, pair.value, old[key], new[key])
    added = "".join(f", {name(key)} = {written(value)}" for key, value in new.items() if key not in old)
    if added:
        edits.append(Edit(rest[-1].value.stop, rest[-1].value.stop, added))
    return edits


class _List:
    def __init__(self, text: str, span: Span) -> None:
        self.text, self.span = text, span

    def edits(self, old: list[Any], new: list[Any], pairs: Sequence[int | None]) -> list[Edit]:
        made: list[Edit] = []
        stay = [n for n in pairs if n is not None]
        for n in range(len(old)):
            if n not in stay:
                made.append(self._gone(n, stay))
        before: int | None = None
        fresh: list[str] = []
        for m, found in enumerate(pairs):
            if found is None:
                fresh.append(written(new[m]))
                continue
            if fresh and before is None:
                made.append(self._in_front(found, fresh))
            elif fresh and before is not None:
                made += self._behind(before, fresh)
            if not same(old[found], new[m]):
                made += new_value(self.text, self.span.items[found], old[found], new[m])
            before, fresh = found, []
        if fresh and before is not None:
            made += self._behind(before, fresh)
        return made

    def _line_of(self, n: int) -> int | None:
        """Where the line begins, if the entry is the first thing on it."""
        start = self.span.items[n].start
        line = self.text.rfind("\n", 0, start) + 1
        return line if line > self.span.start and not self.text[line:start].strip() else None

    def _alone(self, n: int) -> bool:
        """Whether it has its lines for itself."""
        return self._line_of(n) is not None and (n + 1 == len(self.span.items) or self._line_of(n + 1) is not None)

    def _past_comma(self, n: int) -> tuple[int, bool]:
        """Behind the comma that follows; if there is none behind the entry."""
        at = self.span.items[n].stop
        while True:
            while self.text[at] in BLANK + "\n":
                at += 1
            if self.text[at] == "#":
                at = self.text.index("\n", at)
            elif self.text[at] == ",":
                return at + 1, True
            else:
                return self.span.items[n].stop, False

    def _line_rest(self, at: int) -> int:
        """Behind blanks and a remark on the same line."""
        while self.text[at] in BLANK:
            at += 1
        return self.text.index("\n", at) if self.text[at] == "#" else at

    def _gone(self, n: int, stay: Sequence[int]) -> Edit:
        item = self.span.items[n]
        behind, comma = self._past_comma(n)
        line = self._line_of(n)
        if line is not None and self._alone(n):
            rest = self._line_rest(behind)
            return Edit(line, rest + 1, "") if self.text[rest] == "\n" else Edit(line, rest, "")
        if n > stay[-1]:  # nothing follows that stays: the comma before it goes too, where it is on the same line
            last = self.span.items[n - 1].stop
            if "\n" not in self.text[last : item.start]:
                return Edit(last, item.stop, "")
        if comma and n + 1 < len(self.span.items) and self._line_of(n + 1) is None:
            return Edit(item.start, self.span.items[n + 1].start, "")
        return Edit(item.start, behind, "")

    def _in_front(self, n: int, fresh: Sequence[str]) -> Edit:
        start, line = self.span.items[n].start, self._line_of(n)
        between = f",\n{self.text[line:start]}" if line is not None and self._alone(n) else ", "
        return Edit(start, start, "".join(f"{one}{between}" for one in fresh))

    def _behind(self, n: int, fresh: Sequence[str]) -> list[Edit]:
        item = self.span.items[n]
        behind, comma = self._past_comma(n)
        line = self._line_of(n)
        if line is None or not self._alone(n):
            said = "".join(f", {one}" for one in fresh)
            return [Edit(item.stop, item.stop, said)]
        indent = self.text[line : item.start]
        rest = self._line_rest(behind)
        edits = [] if comma else [Edit(item.stop, item.stop, ",")]
        return [*edits, Edit(rest, rest, "".join(f"\n{indent}{one}," for one in fresh))]
