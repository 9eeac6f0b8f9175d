"""The list in docs/assumptions.md, written from the code: ``python -m tests.answers.assumptions`` brings it up to date.

Every note of grade "assumed" that a room can make, with its sentence. The codes are found in the source, so that an
assumption nobody listed cannot slip in.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from darby.words import catalogue

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "darby"
DOC = ROOT / "docs" / "assumptions.md"
MARK = "<!-- written by: python -m tests.answers.assumptions -->"

TITLES = {
    "job": "What was measured",
    "buildup": "What goes on",
    "grounds": "Truing it",
    "joints": "Where it parts",
    "mix": "What it is mixed of",
    "quantities": "How much of it",
    "cutting": "Cutting beads",
    "days": "When",
    "price": "What it costs",
}
"""Rooms in the order of the work; a room without a title comes last, under its own name."""

SPELLED = {"mix.*-*": ("mix.sand-short", "mix.sand-over", "mix.lime-short", "mix.lime-over")}
"""Codes that are put together of so little that they would match anything."""


def codes() -> list[str]:
    """Every code of an assumption, in the catalogue's order."""
    known = catalogue("en")
    found: set[str] = set()
    for pattern in {p for path in sorted(SOURCE.rglob("*.py")) for p in _patterns(ast.parse(path.read_text("utf-8")))}:
        if pattern in SPELLED:
            found |= set(SPELLED[pattern])
            continue
        room, _, rest = pattern.partition(".")
        if not rest.strip("*-."):
            raise ValueError(f"{pattern!r} could be any note of {room!r}: spell out what it stands for in SPELLED")
        like = re.compile(re.escape(pattern).replace(r"\*", "[^.]+"))
        matching = {code for code in known if like.fullmatch(code)}
        if not matching:
            raise ValueError(f"{pattern!r} has no sentence")
        found |= matching
    return [code for code in known if code in found]


def _patterns(tree: ast.Module) -> Iterator[str]:
    """Codes of what is assumed in one file, a star where a part is put in at run time."""
    for function in ast.walk(tree):
        if not isinstance(function, (ast.FunctionDef, ast.Module)):
            continue
        graded = _names_that_may_be(function, "assumed")
        for node in ast.walk(function):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            grades = node.args[1:2]
            if called == "assume" or (called == "note" and any(_may_be(g, "assumed", graded) for g in grades)):
                yield from _texts(node.args[0])


def _names_that_may_be(function: ast.AST, text: str) -> set[str]:
    return {
        target.id
        for node in ast.walk(function)
        if isinstance(node, ast.Assign) and _may_be(node.value, text, set())
        for target in node.targets
        if isinstance(target, ast.Name)
    }


def _may_be(node: ast.expr, text: str, names: set[str]) -> bool:
    if isinstance(node, ast.IfExp):
        return _may_be(node.body, text, names) or _may_be(node.orelse, text, names)
    return (isinstance(node, ast.Constant) and node.value == text) or (isinstance(node, ast.Name) and node.id in names)


def _texts(node: ast.expr) -> Iterator[str]:
    match node:
        case ast.Constant(value=str(text)):
            yield text
        case ast.JoinedStr(values=parts):
            yield "".join(str(p.value) if isinstance(p, ast.Constant) else "*" for p in parts)
        case ast.IfExp(body=one, orelse=other):
            yield from _texts(one)
            yield from _texts(other)


def listed() -> str:
    """The written part of the page."""
    by_room: dict[str, list[str]] = {room: [] for room in TITLES}
    for code in codes():
        by_room.setdefault(code.partition(".")[0], []).append(code)
    lines = [MARK]
    for room, found in by_room.items():
        if found:
            lines += ["", f"### {TITLES.get(room, room.capitalize())}", "", "| taken | code |", "|---|---|"]
            lines += [f"| {_said(code)} | `{code}` |" for code in found]
    return "\n".join(lines) + "\n"


def _said(code: str) -> str:
    sentence = re.sub(r"\{\w+\}", "…", catalogue("en")[code])
    return sentence.replace("|", "\\|")


def whole() -> str:
    """The page: its hand-written head, then the list."""
    head, mark, _ = DOC.read_text(encoding="utf-8").partition(MARK)
    if not mark:
        raise ValueError(f"{DOC} has no line {MARK!r}")
    return head + listed()


if __name__ == "__main__":
    DOC.write_text(whole(), encoding="utf-8")
