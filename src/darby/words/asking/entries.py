"""Reads ``questions.toml`` and ``faults.toml``. An entry that is not whole is an error that names it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib import resources
from typing import Any

from darby.words.asking.model import Entry, Form, Question, Said, Seen, Symptom, Wanted
from darby.words.catalogue import LANGUAGES, Language

PLACEHOLDER = re.compile(r"\{(\w+)\}")
_FORMS: tuple[Form, ...] = ("written", "low", "high")
_QUESTION = frozenset({"id", "drawing", "wall", "sum", "notes", "figures", "rests", *LANGUAGES})
_FAULT = frozenset({"id", "drawing", "stands", "notes", "figures", *LANGUAGES})
_SAID = frozenset({"asked", "also", "answer", "more", "here", "reckoned"})
_SEEN = frozenset({"asked", "also", "causes", "checks", "cure", "caution"})


@cache
def entries() -> tuple[Entry, ...]:
    """Every question, then every symptom, in the order of their files.

    Raises
    ------
    ValueError
        naming the entry that is not whole.
    """
    folder = resources.files("darby.words")
    questions = tomllib.loads(folder.joinpath("questions.toml").read_text(encoding="utf-8"))
    faults = tomllib.loads(folder.joinpath("faults.toml").read_text(encoding="utf-8"))
    return entries_of(questions.get("question", ()), faults.get("fault", ()))


def entry(name: str) -> Entry:
    """The entry called ``name``.

    Raises
    ------
    KeyError
        if there is none.
    """
    for found in entries():
        if found.id == name:
            return found
    raise KeyError(name)


def entries_of(questions: Iterable[Mapping[str, Any]], faults: Iterable[Mapping[str, Any]]) -> tuple[Entry, ...]:
    """Entries of parsed rows.

    Raises
    ------
    ValueError
        naming the entry that is not whole or stands twice.
    """
    made: list[Entry] = [*(_question(row) for row in questions), *(_symptom(row) for row in faults)]
    seen: set[str] = set()
    for one in made:
        if one.id in seen:
            raise ValueError(f"{one.id} stands twice")
        seen.add(one.id)
    return tuple(made)


def _question(row: Mapping[str, Any]) -> Question:
    name = _head(row, _QUESTION)
    said: dict[Language, Said] = {}
    for language in LANGUAGES:
        words = _words(name, row, language, _SAID, ("answer", "more"))
        said[language] = Said(
            words["asked"],
            words.get("also", ()),
            words["answer"],
            words["more"],
            words.get("here", ""),
            words.get("reckoned", ""),
        )
        if bool(said[language].here) != bool(row.get("wall")) or bool(said[language].reckoned) != bool(row.get("sum")):
            raise ValueError(f"{name}: in {language}, 'here' goes with a wall and 'reckoned' with a sum")
    made = Question(
        id=name,
        said=said,
        figures=_figures(row),
        rests=tuple(wanted("", text) for text in row.get("rests", ())),
        drawing=row.get("drawing", ""),
        wall=row.get("wall", ""),
        sum=row.get("sum", ""),
        notes=tuple(row.get("notes", ())),
    )
    _placeholders(name, made.figures, [(s.answer, s.more) for s in said.values()])
    _same(name, [PLACEHOLDER.findall(s.here + s.reckoned) for s in said.values()])
    return made


def _symptom(row: Mapping[str, Any]) -> Symptom:
    name = _head(row, _FAULT)
    said: dict[Language, Seen] = {}
    for language in LANGUAGES:
        words = _words(name, row, language, _SEEN, ("causes", "checks", "cure", "caution"))
        parts = (words["causes"], words["checks"], words["cure"], words["caution"])
        said[language] = Seen(words["asked"], words.get("also", ()), *parts)
    stands = tuple(row.get("stands", ()))
    if len({len(s.causes) for s in said.values()}) > 1 or len({len(s.checks) for s in said.values()}) > 1:
        raise ValueError(f"{name}: as many causes and checks in one language as in the other")
    if len(stands) > len(said["en"].causes):
        raise ValueError(f"{name}: more figures than causes")
    made = Symptom(
        name, said, stands, _figures(row), row.get("drawing", ""), tuple(row.get("notes", ()))
    )  # fmt: skip
    _placeholders(name, made.figures, [(*s.causes, *s.checks, s.cure, s.caution) for s in said.values()])
    return made


def _head(row: Mapping[str, Any], known: frozenset[str]) -> str:
    name = str(row.get("id") or "an entry without id")
    if strange := row.keys() - known:
        raise ValueError(f"{name}: {', '.join(sorted(strange))} is no part of an entry")
    return name


def _words(
    name: str, row: Mapping[str, Any], language: Language, known: frozenset[str], must: tuple[str, ...]
) -> dict[str, Any]:
    found = row.get(language)
    if not isinstance(found, dict):
        raise ValueError(f"{name}: says nothing in {language}")
    if strange := found.keys() - known:
        raise ValueError(f"{name}: {', '.join(sorted(strange))} is no part of an entry in {language}")
    for key in ("asked", *must):
        if not found.get(key):
            raise ValueError(f"{name}: lacks {key!r} in {language}")
    return {key: tuple(value) if isinstance(value, list) else value for key, value in found.items()}


def _figures(row: Mapping[str, Any]) -> tuple[Wanted, ...]:
    return tuple(wanted(placeholder, text) for placeholder, text in row.get("figures", {}).items())


def wanted(name: str, text: str) -> Wanted:
    """A placeholder's figure as an entry writes it.

    ``"cure.wait coat=brown"`` the ruling figure of a subject at a place; ``"id:cure.moist.pca"`` one voice;
    ``"written:safety.lead.year"`` as the book writes it; ``"low:..."``, ``"high:..."`` one end of a range;
    ``"mix.bucket in=cu-ft"`` in another unit.
    """
    form: Form = "value"
    voice = False
    head, *rest = text.split()
    while ":" in head:
        mark, _, head = head.partition(":")
        if mark == "id":
            voice = True
        elif mark in _FORMS:
            form = mark
        else:
            raise ValueError(f"{text!r}: there is no {mark!r}")
    unit = ""
    where = []
    for part in rest:
        kind, is_said, place = part.partition("=")
        if not is_said:
            raise ValueError(f"{text!r}: {part!r} is no place")
        if kind == "in":
            unit = place.replace("-", " ")
        else:
            where.append((kind, place.replace("-", " ") if kind == "cement" else place))
    return Wanted(name, head, tuple(where), voice, form, unit)


def _placeholders(name: str, figures: tuple[Wanted, ...], texts: list[tuple[str, ...]]) -> None:
    """Every language names every figure, and no other."""
    names = {figure.name for figure in figures}
    for text in texts:
        used = set(PLACEHOLDER.findall(" ".join(text)))
        if used != names:
            raise ValueError(f"{name}: {', '.join(sorted(used ^ names))} is named in one place and not in the other")


def _same(name: str, used: list[list[str]]) -> None:
    if len({tuple(sorted(names)) for names in used}) > 1:
        raise ValueError(f"{name}: one language puts in what the other does not")
