"""A job's sections as forms, made from the job file's own schema: the same words, the same strict parser.

A field holds what the file holds, as it is written there; a list of plain things is a line each; a table inside a line
is written as in the file, ``{ kind = "slope", fall = "1 in" }``. Faults come from reading the whole document again.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from darby.desk.frame import field_title, section_title
from darby.desk.kept import FIRM
from darby.job import dump, schema
from darby.job.places import place
from darby.tables.setting import Setting
from darby.words import Verbatim, catalogue

if TYPE_CHECKING:
    from darby.measure.faults import Fault

Kind = Literal["text", "choice", "yes", "whole", "date", "lines", "long", "table", "tables"]
Loc = tuple[str | int, ...]


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

    @property
    def filled(self) -> bool:
        """Whether something stands in it."""
        return bool(self.value) or any(f.filled for f in self.inside)

    @property
    def first(self) -> bool:
        """Whether it is shown at once; the others open with one tap."""
        return self.must or self.filled or bool(self.faults) or any(f.faults for f in self.inside)


@cache
def _schema(kind: Literal["job", "firm"]) -> dict[str, Any]:
    return schema(kind)


def sections(document: str) -> tuple[str, ...]:
    """The sections that have a form, in the order of the file."""
    kind: Literal["job", "firm"] = "firm" if document == FIRM else "job"
    return tuple(
        key for key, node in _schema(kind)["properties"].items() if (_kind(_open(node, kind)) in ("table", "tables")
        and _open(node, kind).get("properties", {}) != {}) or _kind(_open(node, kind)) == "tables"
    )  # fmt: skip


def _open(node: Mapping[str, Any], kind: Literal["job", "firm"]) -> dict[str, Any]:
    """The node with its reference followed; its own description stays."""
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
        self, document: str, tables: Mapping[str, Any], setting: Setting, faults: Sequence[Fault] = ()
    ) -> None:
        self.kind: Literal["job", "firm"] = "firm" if document == FIRM else "job"
        self.tables, self.setting = tables, setting
        self.faults: dict[str, list[str]] = {}
        self.loose = [fault_text(f, setting) for f in faults]
        for fault in faults:
            self.faults.setdefault(fault.place, []).append(fault_text(fault, setting))

    def section(self, key: str) -> Field:
        """The whole section, with one more empty entry where it is a list."""
        node = _open(_schema(self.kind)["properties"][key], self.kind)
        return self.field((key,), key, node, self.tables.get(key), must=False)

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
            if step.isdigit() and node.get("type") == "array":
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
        return replace(found, label=f"{field_title(str(loc[-2]), self.setting)}, {found.label.lower()}")

    def field(self, loc: Loc, key: str, node: Mapping[str, Any], value: Any, *, must: bool) -> Field:
        """One key of the file."""
        kind = _kind(node)
        title = section_title(key, self.setting) if len(loc) == 1 else field_title(key, self.setting)
        inside: tuple[Field, ...] = ()
        if kind == "table":
            inside = self._table(loc, node, value if isinstance(value, Mapping) else {})
        elif kind == "tables":
            entry = _open(node["items"], self.kind)
            rows = [*(value if isinstance(value, list) else []), {}]
            inside = tuple(
                Field(
                    ".".join(map(str, (*loc, n))), self._called(row, title, n, last=n == len(rows) - 1), key, "table",
                    False, "", inside=self._table((*loc, n), entry, row if isinstance(row, Mapping) else {}),
                )
                for n, row in enumerate(rows)
            )  # fmt: skip
        return Field(
            name=".".join(map(str, loc)),
            label=title,
            word=key,
            kind=kind,
            must=must,
            hint=self._hint(loc, node),
            value="" if inside else _text(value, kind),
            choices=self._choices(node) if kind == "choice" else (),
            faults=tuple(self._faults(loc)),
            inside=inside,
        )

    def _hint(self, loc: Loc, node: Mapping[str, Any]) -> str:
        """What to write there, by the words of a new job's forms where the schema's own are in another language."""
        if self.setting.language == "en":
            return _plain(str(node.get("description", "")))
        if loc[0] not in ("job", "garden_wall", "wall", "house", "coats") or (
            loc[0] == "house" and loc[-1] == "openings"
        ):
            return ""
        way = ".".join(str(step) for step in loc[1:] if not isinstance(step, int))
        return catalogue(self.setting.language).get(f"desk.hint.{way}", "")

    def _table(self, loc: Loc, node: Mapping[str, Any], value: Mapping[str, Any]) -> tuple[Field, ...]:
        must = node.get("required", ())
        return tuple(
            self.field((*loc, key), key, _open(inner, self.kind), value.get(key), must=key in must)
            for key, inner in node["properties"].items()
        )

    def _called(self, row: Any, title: str, n: int, *, last: bool) -> str:
        if last:
            return self.setting.say("desk.form.another", section=Verbatim(title.lower()))
        name = (
            row.get("name") or row.get("id") or row.get("item") or row.get("surface") if isinstance(row, dict) else ""
        )
        return str(name or n + 1)

    def _choices(self, node: Mapping[str, Any]) -> tuple[tuple[str, str], ...]:
        words = catalogue(self.setting.language)
        return tuple(
            (str(word), words.get(f"desk.choice.{word}") or words.get(f"word.{word}", str(word)))
            for word in node["enum"]
        )

    def _faults(self, loc: Loc) -> list[str]:
        found = self.faults.get(place(self.tables, loc), [])
        self.loose = [text for text in self.loose if text not in found]
        return found


def _plain(text: str) -> str:
    return text.replace("`", "")


def _text(value: Any, kind: Kind) -> str:
    """What stands in the file, as it is written there."""
    if value is None:
        return ""
    if kind == "lines" and isinstance(value, list):
        return "\n".join(_inline(v) for v in value)
    if kind == "long" and isinstance(value, Mapping):
        return dump(value)
    return _inline(value)


def _inline(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{key} = {_toml(inner)}" for key, inner in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(_toml(v) for v in value) + "]"
    return value.isoformat() if isinstance(value, date) else str(value)


def _toml(value: Any) -> str:
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return _inline(value)


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
        value = _read((key,), node, tables.get(key), posted, kind)
        if value is None or value in ({}, []):
            made.pop(key, None)
        else:
            made[key] = value
    return made


def _read(
    loc: Loc, node: Mapping[str, Any], there: Any, posted: Mapping[str, str], kind: Literal["job", "firm"]
) -> Any:
    what = _kind(node)
    name = ".".join(map(str, loc))
    if what == "table":
        before = there if isinstance(there, Mapping) else {}
        read = {key: _read((*loc, key), _open(inner, kind), before.get(key), posted, kind)
                for key, inner in node["properties"].items()}  # fmt: skip
        order = [*before, *(k for k in read if k not in before)]
        return {k: read[k] for k in order if k in read and read[k] not in (None, {}, [])} or None
    if what == "tables":
        entry = _open(node["items"], kind)
        before_rows = there if isinstance(there, list) else []
        rows = []
        for n in range(len(before_rows) + 1):
            if posted.get(f"{name}.{n}.gone"):
                continue
            row = _read((*loc, n), entry, before_rows[n] if n < len(before_rows) else None, posted, kind)
            if row:
                rows.append(row)
        return rows or None
    if name not in posted:
        return there
    return _value(posted[name].replace("\r\n", "\n").strip(), what, there, only_text=node.get("type") == "string")


def _value(text: str, kind: Kind, there: Any, *, only_text: bool) -> Any:
    if not text:
        return None
    if _text(there, kind) == text:
        return there
    match kind:
        case "yes":
            return {"true": True, "false": False}.get(text, text)
        case "whole":
            return int(text) if text.lstrip("-").isdigit() else text
        case "date":
            try:
                return date.fromisoformat(text)
            except ValueError:
                return text
        case "lines":
            return [_written(line) for line in text.split("\n") if line.strip()]
        case "long":
            return _or_text(text, text)
    return text if only_text else _written(text)


def _written(text: str) -> Any:
    """A table or list written as in the file; a whole number; else the text itself."""
    text = text.strip()
    if text[:1] in "{[":
        read = _or_text(f"x = {text}", text)
        return read["x"] if isinstance(read, dict) else read
    return int(text) if text.isdigit() and len(text) < 10 and (text == "0" or text[0] != "0") else text


def _or_text(toml: str, text: str) -> Any:
    try:
        return tomllib.loads(toml)
    except (tomllib.TOMLDecodeError, ValueError):
        return text
