"""A shape in one line, as he writes it: ``garden wall 60' x 6' x 8", pilasters every 10', 16" x 4", block``.

The shape and its sizes first, then parts with a comma between. A part is a key of the job file and its value (``facing
south``, ``gable 3'``), a base by itself (``block``), pilasters, or an opening by shorthand; a part that only goes on
with the one before it (``16" x 4"``, ``sill 3'``) stands right behind it. Anything else is a fault at its place.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any, NoReturn

from darby import measure
from darby.desk.sketching.spelling import begins, choices, free_name, spellings
from darby.desk.uploads.numbers import number
from darby.job import schema
from darby.measure.faults import Fault, Unreadable
from darby.measure.numerals import nearest
from darby.words import Language

PART = re.compile(r"\s*[,;]\s+")
BY = re.compile(r"\s*(?:[x×*]|\bby\b|\bpor\b)\s*", re.IGNORECASE)
SIZE = re.compile(r"\d{4}(?!\s*['\"\d])|.*?\d.*?(?:[x×*]|\bby\b|\bpor\b).*", re.IGNORECASE)
NAMED = re.compile(r"[\"“](?P<name>[^\"”]{1,80})[\"”]\s+(?=\d)")
QUOTED = re.compile(r"[\"“][^\"”\d][^\"”]{0,80}[\"”](?=\s+\d)")
SHAPES = ("wall", "house", "garden_wall", "box", "strip", "ring")
KINDS: Mapping[str, tuple[str, Mapping[str, str]]] = {
    "chimney": ("box", {"kind": "chimney"}), "column": ("box", {"kind": "column"}),
    "planter": ("box", {"kind": "planter"}), "soffit": ("strip", {"kind": "soffit"}),
    "band": ("strip", {"kind": "band"}), "foundation": ("strip", {"kind": "foundation"}),
}  # fmt: skip
"""What he calls it, and which shape of the job file that is."""
OF_BASE = ("base", "block", "joints", "brick", "behind", "sheathing", "studs")
SAID_SIZES = {"wall": 2, "garden_wall": 3, "box": 3, "strip": 2}
LIKE = "wall 24' x 8', block, facing south, 3068 at 4'"


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the line and where it begins in it."""

    text: str
    at: int


class Misspelled(Exception):
    """What cannot be read in a line: the fault, and from where to where."""

    def __init__(self, fault: Fault, part: Part) -> None:
        super().__init__(fault.code)
        self.fault, self.start, self.stop = fault, part.at, part.at + len(part.text)


@dataclass(frozen=True, slots=True)
class Said:
    """The entry that a line makes. ``taken``: keys that were not said, and taken from the entry called ``like``."""

    section: str
    entry: dict[str, Any]
    taken: tuple[str, ...] = ()
    like: str = ""


@dataclass(slots=True)
class _Entry:
    """The entry as it grows, part by part; ``open`` is what a following part may go on with."""

    section: str
    entry: dict[str, Any]
    open: str = ""
    openings: list[str] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)


def said_line(text: str, tables: Mapping[str, Any], units: str | None = None, language: Language = "en") -> Said:
    """The entry that one line makes, named so that no other of ``tables`` is called so.

    Both languages are read; ``language`` is the one in which a fault names what is allowed.

    Raises
    ------
    Misspelled
        at the part that cannot be read.
    """
    first, *rest = _parts(text)
    made = _shape(first, tables, units, language)
    for part in rest:
        _part(made, part, units)
    made.openings = [_with_kind(written) for written in made.openings]
    for written, part in zip(made.openings, made.parts, strict=True):
        _checked(lambda written=written: measure.opening_line(written, units), part)
    if made.openings:
        made.entry["openings"] = made.openings
    taken, like = _like_before(made, tables)
    return Said(made.section, made.entry, taken, like)


def said_opening(text: str, units: str | None = None) -> str:
    """An opening by shorthand as the job file writes it: ``window 3040 at 10', sill 3'`` is ``… at 10' up 3'``.

    Raises
    ------
    Misspelled
        at the part that cannot be read.
    """
    parts = _parts(text)
    bare = f" {parts[0].text}" if SIZE.match(parts[0].text) else parts[0].text
    written = _opening(parts[0]) or bare
    for part in parts[1:]:
        written += f", {_onward(part) or part.text}"
    written = _with_kind(written)
    _checked(lambda: measure.opening_line(written, units), Part(text, 0))
    return written


def _parts(text: str) -> list[Part]:
    found, at = [], 0
    quoted = QUOTED.search(text)
    span = quoted.span() if quoted is not None else (0, 0)
    for match in (*(m for m in PART.finditer(text) if not span[0] < m.start() < span[1]), None):
        stop = match.start() if match is not None else len(text)
        piece = text[at:stop]
        found.append(Part(piece.strip(), at + len(piece) - len(piece.lstrip())))
        at = match.end() if match is not None else stop
    return found


# --- the shape ---------------------------------------------------------------------------------------


def _shape(part: Part, tables: Mapping[str, Any], units: str | None, language: Language) -> _Entry:
    called, rest = begins(part.text, spellings("shape"))
    if not called and not rest[:1].isdigit():
        known = sorted(spellings("shape", language))
        word = re.split(r"\s+\d", part.text, maxsplit=1)[0]
        _misspelled(part, "desk.line.shape", word or "-", ", ".join(known), nearest(word, known))
    section, more = KINDS.get(called, (called or "wall", {}))
    named = NAMED.match(rest)
    name = named["name"].strip() if named else ""
    sizes = rest[named.end() :] if named else rest
    entry: dict[str, Any] = {"id": free_name(name or called or "wall", _names(tables))}
    if name:
        entry["name"] = name
    entry |= more
    entry |= _sized(section, Part(sizes, part.at + len(part.text) - len(sizes)), units)
    return _Entry(section, entry)


def _sized(section: str, part: Part, units: str | None) -> dict[str, Any]:
    if section == "ring":
        return {"size": part.text}
    pieces = [piece for piece in BY.split(part.text) if piece]
    if section == "house":
        walls = [w.strip() for w in pieces[0].split("+")] if pieces else []
        if len(walls) > 1 and len(pieces) == 2:
            _lengths(part, [*walls, pieces[1]], units)
            return {"walls": walls, "height": pieces[1], "closed": False}
        if len(pieces) == 3:
            _lengths(part, pieces, units)
            return {"walls": [pieces[0], pieces[1], pieces[0], pieces[1]], "height": pieces[2]}
        _misspelled(part, "desk.line.sizes", part.text or "-", "house 40' x 24' x 9', house 14' + 12' + 14' x 8'")
    if len(pieces) != SAID_SIZES[section]:
        like = {2: "24' x 8'", 3: "60' x 6' x 8\""}[SAID_SIZES[section]]
        _misspelled(part, "desk.line.sizes", part.text or "-", like)
    _lengths(part, pieces, units)
    match section:
        case "garden_wall":
            return {"length": pieces[0], "height": pieces[1], "thick": pieces[2]}
        case "box":
            return {"sides": pieces[:2], "height": pieces[2]}
        case "strip":
            return {"length": pieces[0], "width": pieces[1]}
    return {"length": pieces[0], "height": pieces[1]}


def _lengths(part: Part, pieces: list[str], units: str | None) -> None:
    for piece in pieces:
        at = part.text.find(piece)
        _checked(lambda piece=piece: measure.length(piece, units), Part(piece, part.at + max(at, 0)))


# --- the parts after it ------------------------------------------------------------------------------


def _part(made: _Entry, part: Part, units: str | None) -> None:
    if made.open == "pilasters" and _is_size(part.text):
        wide, out = BY.split(part.text)[:2]
        _lengths(part, [wide, out], units)
        made.entry["pilasters"] |= {"width": wide, "out": out}
        made.open = ""
        return
    if made.open == "opening" and (onward := _onward(part)):
        made.openings[-1] += f", {onward}"
        return
    made.open = ""
    written = _opening(part)
    if written:
        if "openings" not in _keys(made.section) or made.section in ("house", "box"):
            _misspelled(part, "desk.line.no-openings", part.text, ", ".join(sorted(_keys(made.section))))
        made.openings.append(written)
        made.parts.append(part)
        made.open = "opening"
        return
    key, value = begins(part.text, spellings("key"))
    if key == "pilasters" and "pilasters" in _keys(made.section):
        _pilasters(made, part, value, units)
    elif key and value and key in _keys(made.section):
        made.entry[key] = _value(made.section, key, value, part)
    elif not _by_itself(made, part):
        known = [*spellings("key"), *choices(tuple(_keys(made.section)["base"]["enum"]))]
        _misspelled(part, "desk.line.part", part.text or "-", LIKE, nearest(part.text, known))


def _pilasters(made: _Entry, part: Part, value: str, units: str | None) -> None:
    word, rest = begins(value, spellings("pilaster"))
    if not word:
        _misspelled(part, "desk.line.part", part.text, 'pilasters every 10\', 16" x 4"')
    places = re.split(r"\s+", rest) if word == "at" else [rest]
    _lengths(part, places, units)
    made.entry["pilasters"] = {"at": places} if word == "at" else {"every": rest}
    made.open = "pilasters"


def _by_itself(made: _Entry, part: Part) -> bool:
    """A base, what kind of block it is, a point of the compass, or a key that is yes when it is said."""
    keys = _keys(made.section)
    low = part.text.casefold()
    for key in ("base", "block", "brick", "joints", "sheathing", "behind"):
        words = choices(tuple(keys[key]["enum"]))
        if low in words:
            made.entry[key] = words[low]
            return True
    for kind, base in (("block", "block"), ("brick", "brick")):
        for spelled, word in choices(tuple(keys[kind]["enum"])).items():
            ends = [b for b, means in choices(tuple(keys["base"]["enum"])).items() if means == base]
            if any(low in (f"{spelled} {b}", f"{b} {spelled}") for b in ends):
                said = str(made.entry.get("base", ""))  # "painted block, dense block" is painted block all the same
                made.entry |= {"base": said if base in said.split() else base, kind: word}
                return True
    for spelled, word in choices(tuple(keys["joints"]["enum"])).items():
        if any(
            low in (f"{spelled} {j}", f"{j} {spelled}") for j, means in spellings("key").items() if means == "joints"
        ):
            made.entry["joints"] = word
            return True
    if low in spellings("facing"):
        made.entry["facing"] = spellings("facing")[low]
        return True
    key = spellings("key").get(low, "")
    if keys.get(key, {}).get("type") == "boolean":
        made.entry[key] = True
        return True
    return False


def _value(section: str, key: str, value: str, part: Part) -> Any:
    node = _keys(section)[key]
    if key in ("left", "right"):
        return choices(_ends()).get(value.casefold(), value)
    if "enum" in node:
        words = choices(tuple(node["enum"]))
        if value.casefold() not in words:
            _misspelled(part, "desk.line.choice", value, ", ".join(node["enum"]), nearest(value, words))
        return words[value.casefold()]
    if key == "facing":
        return spellings("facing").get(value.casefold(), value)
    if key == "cap":
        return spellings("cap").get(value.casefold(), value)
    if node.get("type") == "integer":
        if number(value) is None:
            _misspelled(part, "desk.line.choice", value, "1, 2, 3")
        return int(value)
    return value


# --- openings ----------------------------------------------------------------------------------------


def _opening(part: Part) -> str:
    """The beginning of an opening as the job file writes it, or ""; with a blank before it where its kind is unsaid."""
    kind, rest = begins(part.text, spellings("opening"))
    if not kind and not SIZE.match(part.text):
        return ""
    head, *more = _PLACED.split(rest)
    if not kind and not more:
        return ""
    pairs = [f"{_place_word(word)} {value.strip()}" for word, value in zip(more[::2], more[1::2], strict=True)]
    return " ".join([kind, re.sub(BY, " x ", head.strip()), *pairs]).rstrip()


def _with_kind(written: str) -> str:
    """What nobody called anything stands on the base, as doors do; with a sill it is an opening."""
    if not written.startswith(" "):
        return written
    return f"{'opening' if re.search(r'[ ,]up ', written) else 'door'}{written}"


_PLACED = re.compile(r"\s+(at|up|sill|reveal|frame|a|en|antepecho|mocheta|marco)\s+(?=[\d.])", re.IGNORECASE)


def _place_word(word: str) -> str:
    return spellings("place").get(word.casefold(), word.casefold())


def _onward(part: Part) -> str:
    """A part that goes on with an opening, as the job file writes it: ``sill 3'`` is ``up 3'``."""
    word, rest = begins(part.text, spellings("place"))
    return f"{word} {rest}" if word and rest else ""


def _is_size(text: str) -> bool:
    return text[:1].isdigit() and len(BY.split(text)) == 2


# --- what was not said -------------------------------------------------------------------------------


def _like_before(made: _Entry, tables: Mapping[str, Any]) -> tuple[tuple[str, ...], str]:
    """A base that is not said is the one of the shape before it, and so is the cap of a garden wall or a box."""
    before = [(s, e) for s in SHAPES for e in tables.get(s, ()) if isinstance(e, Mapping)]
    taken: list[str] = []
    like = ""
    if "base" not in made.entry:
        same = [e for s, e in before if s == made.section and "base" in e] or [e for _, e in before if "base" in e]
        if same:
            of = {key: same[-1][key] for key in OF_BASE if key in same[-1] and key in _keys(made.section)}
            made.entry |= {key: value for key, value in of.items() if key not in made.entry}
            taken, like = list(of), str(same[-1].get("name") or same[-1].get("id"))
    if "cap" in _keys(made.section) and "cap" not in made.entry:
        same = [e for _, e in before if "cap" in e]
        if same:
            made.entry["cap"] = same[-1]["cap"]
            taken.append("cap")
            like = like or str(same[-1].get("name") or same[-1].get("id"))
    return tuple(taken), like


def _names(tables: Mapping[str, Any]) -> list[str]:
    """Every short name of the document, of shapes and of walls that were only looked at."""
    return [
        str(e["id"]) for s in (*SHAPES, "survey") for e in tables.get(s, ()) if isinstance(e, Mapping) and "id" in e
    ]


@cache
def _ends() -> tuple[str, ...]:
    """What the end of a wall can be."""
    return tuple(schema("job")["$defs"]["EndDocument"]["properties"]["kind"]["enum"])


@cache
def _keys(section: str) -> dict[str, Any]:
    """The keys of a shape in the job file's own schema."""
    whole = schema("job")
    items = whole["properties"][section]["items"]
    node = whole["$defs"][items["$ref"].rpartition("/")[2]]
    return {key: _followed(whole, inner) for key, inner in node["properties"].items()}


def _followed(whole: Mapping[str, Any], node: Mapping[str, Any]) -> dict[str, Any]:
    return dict(whole["$defs"][node["$ref"].rpartition("/")[2]]) if "$ref" in node else dict(node)


def _checked(do: Any, part: Part) -> None:
    try:
        do()
    except Unreadable as error:
        raise Misspelled(error.fault, part) from None


def _misspelled(part: Part, code: str, found: str, allowed: str, close: str = "") -> NoReturn:
    raise Misspelled(Fault(code, "", found, allowed, close), part)
