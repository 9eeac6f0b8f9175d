"""A job's sections as forms, made from the job file's own schema: the same words, the same strict parser.

A field holds what the file holds, as it is written there; a list of plain things is a line each; an opening, and what
hangs on a wall's number, as ``desk.spelled`` writes it. A wall is chosen from those of the job, and whoever gives no
short name gets one. Faults come from reading the whole document again.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from darby.desk.frame import field_title, section_title
from darby.desk.kept import FIRM
from darby.desk.sketching.spelling import free_name, spellings
from darby.desk.spelled import inline, lines_of, read_lines, toml_or_text, way_of, written
from darby.desk.uploads.numbers import number
from darby.desk.usual import OF_FIRM, OF_LETTERHEAD, USUAL
from darby.job import dump, schema
from darby.job.places import place
from darby.tables.setting import Setting
from darby.words import Verbatim, catalogue

if TYPE_CHECKING:
    from darby.measure.faults import Fault

Kind = Literal["text", "choice", "yes", "whole", "date", "lines", "long", "table", "tables"]
Loc = tuple[str | int, ...]
CALLED_BY = ("name", "id", "item", "what", "role", "kind", "coat", "surface", "on")
"""Keys by which an entry of a list is called, the best first."""
HINTED = ("job", "garden_wall", "wall", "house", "box", "strip", "ring", "survey", "coats")
Known = Mapping[str, tuple[tuple[str, str], ...]]
"""By key, what can be chosen there: (what the file writes, what it is called)."""


@dataclass(frozen=True, slots=True)
class Field:
    """One thing to fill in. ``name`` is its way into the section, dots between; ``inside`` the fields of a table."""

    name: str
    label: str
    word: str
    kind: Kind
    must: bool
    hint: str
    value: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    faults: tuple[str, ...] = ()
    inside: tuple[Field, ...] = ()
    usual: bool = False
    begun: bool = False

    @property
    def filled(self) -> bool:
        """Whether something stands in it."""
        return bool(self.value) or any(f.filled for f in self.inside)

    @property
    def first(self) -> bool:
        """Whether it is shown at once; the others open with one tap."""
        return self.must or self.usual or self.filled or bool(self.faults) or any(f.faults for f in self.inside)


VERSION = "darby_firm"
LETTERHEAD = "letterhead"
"""What stands in the firm file before its first table: its name, where it is, how its papers are written."""


@cache
def _schema(kind: Literal["job", "firm"]) -> dict[str, Any]:
    found = schema(kind)
    if kind == "firm":
        plain = {key: node for key, node in found["properties"].items() if key in OF_LETTERHEAD}
        return {**found, "properties": {LETTERHEAD: {"type": "object", "properties": plain}} | found["properties"]}
    firm = schema("firm")
    within = {key: firm["properties"][key] for key in OF_FIRM}
    ours = {**found["properties"]["firm"], "title": "firm", "properties": within}
    return {
        **found,
        "properties": found["properties"] | {"firm": ours},
        "$defs": firm["$defs"] | found["$defs"],
    }


def sections(document: str) -> tuple[str, ...]:
    """The sections that have a form, in the order of the file."""
    kind: Literal["job", "firm"] = "firm" if document == FIRM else "job"
    return tuple(
        key for key, node in _schema(kind)["properties"].items() if (_kind(_open(node, kind)) in ("table", "tables")
        and _open(node, kind).get("properties", {}) != {}) or _kind(_open(node, kind)) == "tables"
    )  # fmt: skip


def _open(node: Mapping[str, Any], kind: Literal["job", "firm"]) -> dict[str, Any]:
    """The node with its reference followed; its own description stays.

    What is a table or the first word of one (``left = "inside corner"``) is that table; ``plain`` names the word.
    """
    if "oneOf" in node:
        table = _open(next((one for one in node["oneOf"] if "$ref" in one), {}), kind)
        plain = next(iter(table.get("required", ())), "")
        if "enum" in table.get("properties", {}).get(plain, {}):
            return {**table, "plain": plain, "description": node.get("description", "")}
    if "$ref" not in node:
        return dict(node)
    named = _schema(kind)["$defs"][node["$ref"].rpartition("/")[2]]
    return {**named, **({"description": node["description"]} if "description" in node else {})}


def _kind(node: Mapping[str, Any]) -> Kind:
    if "enum" in node:
        return "choice"
    match node.get("type"):
        case "boolean":
            return "yes"
        case "integer":
            return "whole"
        case "object":
            return "table" if node.get("properties") else "long"
        case "array":
            items = node["items"]
            return "tables" if "$ref" in items else "lines"
    return "date" if node.get("format") == "date" else "text"


# --- showing -------------------------------------------------------------------------------------------


class Form:
    """The form of one section, or of some keys of several (``only``), filled from ``document``."""

    def __init__(
        self, document: str, tables: Mapping[str, Any], setting: Setting, faults: Sequence[Fault] = (),
        known: Known | None = None, begun: str = "",
    ) -> None:  # fmt: skip
        self.kind: Literal["job", "firm"] = "firm" if document == FIRM else "job"
        self.tables, self.setting, self.known, self.begun = tables, setting, known or {}, begun
        self.faults: dict[str, list[str]] = {}
        self.loose = [fault_text(f, setting) for f in faults]
        for fault in faults:
            self.faults.setdefault(fault.place, []).append(fault_text(fault, setting))

    def section(self, key: str) -> Field:
        """The whole section, with one more empty entry where it is a list."""
        node = _open(_schema(self.kind)["properties"][key], self.kind)
        value = _letterhead(self.tables) if key == LETTERHEAD else self.tables.get(key)
        return self.field((key,), key, node, value, must=False)

    def only(self, ways: Sequence[str]) -> list[Field]:
        """Fields by their ways: "garden_wall.0.length"."""
        return [self._way(way) for way in ways]

    def _way(self, way: str) -> Field:
        loc: list[str | int] = []
        node: dict[str, Any] = {"properties": _schema(self.kind)["properties"]}
        value: Any = self.tables
        must, optional = False, False
        for step in way.split("."):
            optional = optional or (len(loc) > 2 and not must)
            if step.isdecimal() and node.get("type") == "array":
                loc.append(int(step))
                node = _open(node["items"], self.kind)
                value = value[int(step)] if isinstance(value, list) and int(step) < len(value) else None
            else:
                loc.append(step)
                must = step in node.get("required", ())
                node = _open(node["properties"][step], self.kind)
                value = value.get(step) if isinstance(value, Mapping) else None
        found = self.field(tuple(loc), str(loc[-1]), node, value, must=must and not optional)
        if len(loc) <= 3:
            return found
        if f"desk.field.{loc[-2]}.{loc[-1]}" in catalogue(self.setting.language):
            return found
        return replace(found, label=f"{field_title(str(loc[-2]), self.setting)}, {found.label.lower()}")

    def field(self, loc: Loc, key: str, node: Mapping[str, Any], value: Any, *, must: bool) -> Field:
        """One key of the file."""
        kind = _kind(node)
        within = next((str(step) for step in reversed(loc[:-1]) if isinstance(step, str)), "")
        title = field_title(key, self.setting, within) if within else section_title(key, self.setting)
        inside: tuple[Field, ...] = ()
        choices = self._choices(node) if kind == "choice" else ()
        if kind == "text" and self.known.get(key):
            kind, choices = "choice", self._known(key, value)
        if kind == "table":
            inside = self._table(loc, node, _as_table(value, node))
        elif kind == "tables":
            entry = _open(node["items"], self.kind)
            rows = [*(value if isinstance(value, list) else []), {}]
            inside = tuple(
                self._row((*loc, n), entry, row, title, last=n == len(rows) - 1) for n, row in enumerate(rows)
            )
        return Field(
            name=".".join(map(str, loc)),
            label=title,
            word=key,
            kind=kind,
            must=must,
            hint=self._hint(loc, node),
            value="" if inside else _text(value, kind, node),
            choices=choices,
            faults=tuple(self._faults(loc)),
            inside=inside,
        )

    def _row(self, loc: Loc, entry: Mapping[str, Any], row: Any, title: str, *, last: bool) -> Field:
        """One entry of a list; the last one is empty."""
        name, n = ".".join(map(str, loc)), int(loc[-1])
        inside = self._table(loc, entry, row if isinstance(row, Mapping) else {})
        called = self._called(row, title, n, last=last)
        return Field(name, called, str(loc[-2]), "table", False, "", inside=inside, begun=name == self.begun)

    def _hint(self, loc: Loc, node: Mapping[str, Any]) -> str:
        """What to write there, by the words of a new job's forms where the schema's own are in another language.

        ``desk.says.<end of its way>`` says again what the schema says; another key of that end says something else.
        """
        words, said = catalogue(self.setting.language), _plain(str(node.get("description", "")))
        steps = [step.replace(" ", "-") for step in loc if isinstance(step, str)]
        way = ".".join(steps[1:])
        own = words.get(f"desk.hint.{loc[0]}.{way}", "") if self.kind == "job" else ""
        if own or self.setting.language == "en":
            return own or said
        if self.kind == "job" and loc[0] in HINTED and f"desk.hint.{way}" in words:
            return words[f"desk.hint.{way}"]
        ends = (f"desk.says.{'.'.join(steps[n:])}" for n in range(len(steps)))
        return next((words[end] for end in ends if said and catalogue("en").get(end) == said), "")

    def _table(self, loc: Loc, node: Mapping[str, Any], value: Mapping[str, Any]) -> tuple[Field, ...]:
        must = () if loc[0] == "firm" and self.kind == "job" else node.get("required", ())
        within = next((str(step) for step in reversed(loc) if isinstance(step, str)), "")
        usual = USUAL.get(within, (node["plain"],) if "plain" in node else ())
        keys = sorted(node["properties"], key=lambda key: usual.index(key) if key in usual else len(usual))
        fields = (
            self.field(
                (*loc, key), key, _open(node["properties"][key], self.kind), value.get(key),
                must=key in must and key not in ("id", node.get("plain")),
            )
            for key in keys
        )  # fmt: skip
        return tuple(replace(one, usual=one.word in usual) for one in fields)

    def _called(self, row: Any, title: str, n: int, *, last: bool) -> str:
        if last:
            return self.setting.say("desk.form.another", section=Verbatim(title.lower()))
        name = next((str(row[key]) for key in CALLED_BY if row.get(key)), "") if isinstance(row, dict) else ""
        words = catalogue(self.setting.language)
        return words.get(f"desk.choice.{name}") or words.get(f"word.{name}") or name or str(n + 1)

    def _choices(self, node: Mapping[str, Any]) -> tuple[tuple[str, str], ...]:
        words = catalogue(self.setting.language)
        return tuple(
            (str(word), words.get(f"desk.choice.{word}") or words.get(f"word.{word}", str(word)))
            for word in node["enum"]
        )

    def _known(self, key: str, value: Any) -> tuple[tuple[str, str], ...]:
        """What can be chosen there, and what stands there, if that is another."""
        found = self.known[key]
        there = _text(value, "text", {})
        return found if not there or any(code == there for code, _ in found) else (*found, (there, there))

    def _faults(self, loc: Loc) -> list[str]:
        found = self.faults.get(place(self.tables, loc), [])
        self.loose = [text for text in self.loose if text not in found]
        return found


def _plain(text: str) -> str:
    return text.replace("`", "")


def _text(value: Any, kind: Kind, node: Mapping[str, Any]) -> str:
    """What stands in the file, as it is written there, or as a person says it on lines."""
    if value is None:
        return ""
    lines = lines_of(value, way_of(node)) if kind in ("lines", "long") else None
    if lines is not None:
        return "\n".join(lines)
    if kind == "lines" and isinstance(value, list):
        return "\n".join(inline(v) for v in value)
    if kind == "long" and isinstance(value, Mapping):
        return dump(value)
    return inline(value)


def _as_table(value: Any, node: Mapping[str, Any]) -> Mapping[str, Any]:
    if isinstance(value, Mapping):
        return value
    return {node["plain"]: value} if "plain" in node and value is not None else {}


def fault_text(fault: Fault, setting: Setting) -> str:
    """One fault in words: where, what was found, what is allowed, what is nearest."""
    said = setting.say(fault.code, place=Verbatim(fault.place), found=Verbatim(fault.found), allowed=fault.allowed)
    near = setting.say("job.nearest", nearest=Verbatim(fault.nearest)) if fault.nearest else ""
    return f"{said} {near}".rstrip()


# --- reading back --------------------------------------------------------------------------------------


def filled_in(
    document: str, tables: Mapping[str, Any], posted: Mapping[str, str], names: Sequence[str]
) -> dict[str, Any]:
    """``tables`` with what was posted for the sections ``names``; an entry left empty is taken out.

    Keys that the form did not show stay as they are.
    """
    kind: Literal["job", "firm"] = "firm" if document == FIRM else "job"
    made = dict(tables)
    for key in names:
        node = _open(_schema(kind)["properties"][key], kind)
        if key == LETTERHEAD:
            rest = {name: value for name, value in made.items() if name not in (*OF_LETTERHEAD, VERSION)}
            head = _read((key,), node, _letterhead(tables), posted, kind) or {}
            made = {VERSION: made.get(VERSION, 1)} | head | rest
            continue
        value = _read((key,), node, tables.get(key), posted, kind)
        if value is None or value in ({}, []):
            made.pop(key, None)
        else:
            made[key] = value
    return made


def _letterhead(tables: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in tables.items() if key in OF_LETTERHEAD}


def _read(
    loc: Loc, node: Mapping[str, Any], there: Any, posted: Mapping[str, str], kind: Literal["job", "firm"]
) -> Any:
    what = _kind(node)
    name = ".".join(map(str, loc))
    if what == "table":
        before = _as_table(there, node)
        read = {key: _read((*loc, key), _open(inner, kind), before.get(key), posted, kind)
                for key, inner in node["properties"].items()}  # fmt: skip
        order = [*before, *(k for k in read if k not in before)]
        made = {k: read[k] for k in order if k in read and read[k] not in (None, {}, [])}
        if there is not None and made == before:
            return there
        return made.get(node["plain"]) if list(made) == [node.get("plain")] else made or None
    if what == "tables":
        entry = _open(node["items"], kind)
        before_rows = there if isinstance(there, list) else []
        rows = []
        for n in range(max(len(before_rows), *_numbers(name, posted)) + 1):
            if posted.get(f"{name}.{n}.gone"):
                continue
            row = _read((*loc, n), entry, before_rows[n] if n < len(before_rows) else None, posted, kind)
            if row:
                rows.append(row)
        return _with_names(rows, loc, entry, before_rows) or None
    if name not in posted:
        return there
    return _value(posted[name].replace("\r\n", "\n").strip(), what, there, node)


MOST_ROWS = 200
"""Entries of one list that a form sends at most."""


def _numbers(name: str, posted: Mapping[str, str]) -> list[int]:
    """0, and the numbers of the entries that were sent."""
    found = (re.match(rf"{re.escape(name)}\.(\d{{1,4}})\.", key) for key in posted)
    return [0, *(n for n in (int(match[1]) for match in found if match) if n < MOST_ROWS)]


def _with_names(rows: list[Any], loc: Loc, entry: Mapping[str, Any], before: Sequence[Any]) -> list[Any]:
    """Entries that must have a short name and were given none get one, by what they are called or what they are."""
    either = "surface" in entry.get("properties", {})  # of what is only looked at, the other is its wall
    if "id" not in entry.get("properties" if either else "required", ()):
        return rows
    taken = [str(row["id"]) for row in (*before, *rows) if isinstance(row, Mapping) and "id" in row]
    for n, row in enumerate(rows):
        if isinstance(row, dict) and "id" not in row and "surface" not in row:
            stem = str(row.get("name") or row.get("kind") or loc[-1]).replace("_", " ")
            taken.append(free_name(stem, taken))
            rows[n] = {"id": taken[-1], **row}
    return rows


def _value(text: str, kind: Kind, there: Any, node: Mapping[str, Any]) -> Any:
    if not text:
        return None
    if _text(there, kind, node) == text:
        return there
    match kind:
        case "yes":
            return {"true": True, "false": False}.get(text, text)
        case "whole":
            return text if number(text.removeprefix("-")) is None else int(text)
        case "date":
            try:
                return date.fromisoformat(text)
            except ValueError:
                return text
        case "lines":
            return _lines(text, node, there)
        case "long":
            read = read_lines(text.split("\n"), way_of(node), there)
            return toml_or_text(text, text) if read is None else read
    return text if node.get("type") == "string" else written(_in_our_words(text, node))


def _in_our_words(text: str, node: Mapping[str, Any]) -> str:
    """Where a wall looks, and what its cap is, in either language."""
    kind = str(node.get("title", ""))
    return spellings(kind).get(text.casefold(), text) if kind in ("facing", "cap") else text


def _lines(text: str, node: Mapping[str, Any], there: Any) -> Any:
    lines = [line.strip() for line in text.split("\n") if line.strip()]
    if way_of(node):
        return read_lines(lines, way_of(node), there)
    if node["items"].get("type") == ["string", "number"]:
        lines = [part for line in lines for part in _parted(line)]
    return [written(line) for line in lines]


def _parted(line: str) -> list[str]:
    """Several lengths on one line: ``36' + 24' + 36' + 24'``, ``4' x 2'-8"``, ``0.085 in, 0.110 in``."""
    return [part for part in re.split(r"\s*[,;]\s+|\s*\+\s*|(?<=\S)\s*[x×]\s*(?=\d)", line) if part]
