"""What the job file writes as a table or a list, as a person writes it on a line of a form, and back.

An opening is its shorthand, with what he calls it behind its kind: ``door "front door" 3068 at 16', frame 3/4 in``.
What hangs on a wall's number is a line with that number: ``2: window 3' x 4' at 10' up 3'``. A list within a list is
its parts with commas between: ``1', 5', 1/8 in``. What the file holds in another way is shown as the file writes it.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, Literal

from darby.desk.sketching.lines import Misspelled, said_opening

Way = Literal["opening", "row", "openings by number", "by number", ""]
OPENING = {"kind", "size", "at", "up", "reveal", "frame", "name", "plaster"}
"""Keys of an opening that the shorthand can say."""
PLACED = ("at", "up", "reveal", "frame", "plaster")
NUMBERED = re.compile(r"(?:[^\W\d]+\s+)?(?P<number>\d+)\s*[:)]\s*(?P<rest>\S.*)")
QUOTED = re.compile(r"(?P<kind>[^\W\d]+)\s+[\"“](?P<name>[^\"”]{1,80})[\"”]\s+(?P<rest>\S.*)")
SPLIT = re.compile(rf"[,;\s]+({'|'.join(PLACED)})\s+", re.IGNORECASE)


def way_of(node: Mapping[str, Any]) -> Way:
    """How the schema's node is written on lines; "" as the file writes it."""
    within = node.get("items") if node.get("type") == "array" else node.get("additionalProperties")
    if not isinstance(within, Mapping):
        return ""
    if node.get("type") == "object":
        if within.get("type") == "array":
            return "openings by number" if way_of(within) == "opening" else ""
        return "by number" if "oneOf" not in within and "$ref" not in within and node.get("title") == "gables" else ""
    if within.get("type") == "array":
        return "row"
    return "opening" if any("Opening" in str(one.get("$ref", "")) for one in within.get("oneOf", ())) else ""


def lines_of(value: Any, way: Way) -> list[str] | None:
    """The lines that say ``value``; None where it holds what they cannot say."""
    if way == "row" and isinstance(value, list):
        lines = [_row(part) for part in value]
    elif way == "opening" and isinstance(value, list):
        lines = [_opening(part) or inline(part) for part in value]
    elif (
        way == "openings by number" and isinstance(value, Mapping) and all(isinstance(v, list) for v in value.values())
    ):
        lines = [f"{number}: {_opening(part) or inline(part)}" for number, parts in value.items() for part in parts]
    elif way == "by number" and isinstance(value, Mapping):
        lines = [f"{number}: {part}" if isinstance(part, str | int) else "" for number, part in value.items()]
    else:
        return None
    return lines if all(lines) else None


def read_lines(lines: Sequence[str], way: Way, there: Any) -> Any:
    """What the lines say. A line that stood there already keeps what the file held; None: they are not so written."""
    known = _known(there, way)
    if way == "row":
        return [known.get(line) or [part.strip() for part in re.split(r"\s*[,;]\s+", line)] for line in lines]
    if way == "opening":
        return [known.get(line) or _read_opening(line) for line in lines]
    numbered = [NUMBERED.fullmatch(line) for line in lines]
    if not way or not all(numbered):
        return None
    found: dict[str, Any] = {}
    for line, match in zip(lines, numbered, strict=True):
        assert match is not None
        if way == "by number":
            found[match["number"]] = known.get(line, match["rest"])
        else:
            found.setdefault(match["number"], []).append(known.get(line) or _read_opening(match["rest"]))
    return found


def _known(there: Any, way: Way) -> dict[str, Any]:
    lines = lines_of(there, way)
    if lines is None:
        return {}
    parts = list(there.values()) if isinstance(there, Mapping) else list(there)
    if way == "openings by number":
        parts = [part for several in parts for part in several]
    return dict(zip(lines, parts, strict=True))


def _row(part: Any) -> str:
    plain = isinstance(part, list) and all(isinstance(p, str | int) and not re.search(r"[,;]\s", str(p)) for p in part)
    return ", ".join(map(str, part)) if plain else ""


def _opening(part: Any) -> str:
    if isinstance(part, str):
        return part
    if not isinstance(part, Mapping) or not set(part) <= OPENING or not {"kind", "size", "at"} <= set(part):
        return ""
    name = f' "{part["name"]}"' if part.get("name") else ""
    said = f"{part['kind']}{name} {part['size']} at {part['at']}"
    for key in PLACED[1:]:
        if key in part:
            said += f", {key} {' '.join(part[key]) if isinstance(part[key], list) else part[key]}"
    return said


def _read_opening(line: str) -> Any:
    """An opening as the file writes it: a table where it has a name, or says which reveals are plastered."""
    if line.startswith("{"):
        return written(line)
    quoted = QUOTED.fullmatch(line)
    bare, name = (f"{quoted['kind']} {quoted['rest']}", quoted["name"].strip()) if quoted else (line, "")
    whole, *plaster = re.split(r"[,;\s]+plaster(?:ed)?\s+", bare, maxsplit=1, flags=re.IGNORECASE)
    try:
        shorthand = said_opening(whole)
    except Misspelled:
        return line
    if not name and not plaster:
        return shorthand
    head, *rest = SPLIT.split(shorthand)
    kind, _, size = head.partition(" ")
    made: dict[str, Any] = {"kind": kind, "size": size}
    made |= {key.lower(): value for key, value in zip(rest[::2], rest[1::2], strict=True)}
    if plaster:
        made["plaster"] = re.split(r"[,\s]+", plaster[0].strip())
    return made | ({"name": name} if name else {})


# --- as the file writes it -----------------------------------------------------------------------------


def inline(value: Any) -> str:
    """A value on one line, as the file writes it; a text without its quotes."""
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
    return inline(value)


def written(text: str) -> Any:
    """A table or list written as in the file; a whole number; else the text itself."""
    text = text.strip()
    if text[:1] in "{[":
        read = toml_or_text(f"x = {text}", text)
        return read["x"] if isinstance(read, dict) else read
    return int(text) if text.isdecimal() and len(text) < 10 and (text == "0" or text[0] != "0") else text


def toml_or_text(toml: str, text: str) -> Any:
    """What ``toml`` holds, or ``text`` where it is none."""
    try:
        return tomllib.loads(toml)
    except (tomllib.TOMLDecodeError, ValueError):
        return text
