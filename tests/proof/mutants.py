"""Every small wrong change ("mutant") that can be made in the trade rooms, by syntax tree, in an order drawn by chance.

Two kinds. In formulas, the strings that the working computes: another sign, another choice, a term that no longer
counts, one more after rounding up, another number. In code: ``<`` for ``<=``, ``or`` for ``and``, no ``not``, another
sign, ``max`` for ``min``, one more, ``at_most`` that no longer lets the limit itself through.

The order hangs only on the seed and on what each mutant says, not on where it stands: an edit elsewhere in a room
does not draw another lot.
"""

from __future__ import annotations

import ast
import hashlib
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Literal

ROOMS = (
    "buildup", "condition", "days", "finish", "grounds", "joints", "lath", "mix", "price", "quantities",
    "quantities/cutting",
)  # fmt: skip

Kind = Literal["formula", "code"]

_FORMULA = re.compile(r"(?:^| )[-+*/] |^(?:max|min|ceil)\(|[ (](?:max|min|ceil)\(")
_SIGNS = {"+": "-", "-": "+", "*": "/", "/": "*"}
_COMPARED = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "==", "is": "is not", "is not": "is",
             "in": "not in", "not in": "in"}  # fmt: skip
_OPERATORS = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.FloorDiv: "//", ast.Mod: "%"}
_CODE_SIGNS = {"+": "-", "-": "+", "*": "/", "/": "*", "//": "/", "%": "//"}


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change: ``was`` at ``start`` of the file (characters) becomes ``now``."""

    room: str
    path: str
    within: str
    kind: Kind
    start: int
    was: str
    now: str
    line: int
    before: str
    after: str
    nth: int = 0

    @property
    def name(self) -> str:
        """What stays the same while other lines of the file change: place, the line before, the line after."""
        again = f" ({self.nth + 1})" if self.nth else ""
        return f"{self.path}:{self.within}: {self.before} => {self.after}{again}"

    def applied(self, text: str) -> str:
        """The file's text with the change in it."""
        end = self.start + len(self.was)
        assert text[self.start : end] == self.was
        return text[: self.start] + self.now + text[end:]


def drawn(source: Path, seed: int, formulas: int, codes: int, rooms: tuple[str, ...] = ROOMS) -> list[Mutant]:
    """So many mutants of each kind out of every room, drawn by ``seed``; ``source`` holds the rooms."""
    lot: list[Mutant] = []
    for room in rooms:
        for kind, count in (("formula", formulas), ("code", codes)):
            of_kind = [m for m in mutants(source, room) if m.kind == kind]
            of_kind.sort(key=lambda m: hashlib.sha256(f"{seed} {m.name}".encode()).digest())
            lot += of_kind[:count]
    return lot


def mutants(source: Path, room: str) -> list[Mutant]:
    """Every mutant of one room, in the order of its files and lines."""
    found: list[Mutant] = []
    seen: Counter[str] = Counter()
    for file in sorted((source / room).glob("*.py")):
        text = file.read_text(encoding="utf-8")
        path = file.relative_to(source).as_posix()
        for within, kind, start, was, now in _Changes(text).all():
            line, before, after = _told(text, start, was, now)
            one = Mutant(room, path, within, kind, start, was, now, line, before, after)
            again = seen[one.name]
            seen[one.name] += 1
            found.append(Mutant(room, path, within, kind, start, was, now, line, before, after, again))
    return found


def _told(text: str, start: int, was: str, now: str) -> tuple[int, str, str]:
    """Line number, and the line (or lines) without and with the change."""
    first = text.rfind("\n", 0, start) + 1
    last = text.find("\n", start + len(was))
    last = len(text) if last < 0 else last
    before, after = text[first:last], text[first:start] + now + text[start + len(was) : last]
    return text.count("\n", 0, start) + 1, " ".join(before.split()), " ".join(after.split())


Change = tuple[str, Kind, int, str, str]


class _Changes:
    """All changes of one file."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.bytes = [0]
        for row in text.encode().splitlines(keepends=True):
            self.bytes.append(self.bytes[-1] + len(row))
        self.plain = text.isascii()
        self.raw = text.encode()

    def at(self, line: int, column: int) -> int:
        """A place of the tree (in bytes of a line) as characters of the text."""
        place = self.bytes[line - 1] + column
        return place if self.plain else len(self.raw[:place].decode())

    def span(self, node: ast.expr) -> tuple[int, int]:
        assert node.end_lineno is not None
        assert node.end_col_offset is not None
        return self.at(node.lineno, node.col_offset), self.at(node.end_lineno, node.end_col_offset)

    def all(self) -> Iterator[Change]:
        yield from self._in(ast.parse(self.text), "")

    def _in(self, node: ast.AST, within: str) -> Iterator[Change]:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            within = f"{within}.{node.name}" if within else node.name
        for name, inner in ast.iter_fields(node):
            for child in inner if isinstance(inner, list) else [inner]:
                if isinstance(child, ast.AST) and not self._aside(node, name, child):
                    yield from self._of(node, child, within)
                    if not isinstance(child, ast.JoinedStr):  # its parts have no places of their own
                        yield from self._in(child, within)

    @staticmethod
    def _aside(node: ast.AST, name: str, child: ast.AST) -> bool:
        """Docstrings, types, decorators, what a module imports: nothing to compute with."""
        return (
            name in ("annotation", "returns", "decorator_list", "bases")
            or (isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant))
            or isinstance(child, ast.Import | ast.ImportFrom | ast.Assert | ast.Raise)
            or (isinstance(child, ast.If) and ast.unparse(child.test) == "TYPE_CHECKING")
            or (isinstance(node, ast.Subscript) and name == "slice" and isinstance(child, ast.Constant))
        )

    def _of(self, around: ast.AST, node: ast.AST, within: str) -> Iterator[Change]:
        match node:
            case ast.Constant(value=str() as formula) if _FORMULA.search(formula):
                for start, was, now in self._formula(node):
                    yield within, "formula", start, was, now
            case ast.JoinedStr(values=parts) if any(
                isinstance(p, ast.Constant) and _FORMULA.search(str(p.value)) for p in parts
            ):
                start, end = self.span(node)
                for place, was, now in _signs(_outside_braces(self.text[start:end])):
                    yield within, "formula", start + place, was, now
            case ast.Constant(value=int() as number) if not isinstance(number, bool):
                if isinstance(around, ast.BinOp | ast.Compare) or _chooses(around):
                    start, end = self.span(node)
                    yield within, "code", start, self.text[start:end], str(number + 1)
            case ast.expr():
                for start, was, now in self._code(node):
                    yield within, "code", start, was, now

    # --- formulas ----------------------------------------------------------------------------------

    def _formula(self, node: ast.Constant) -> Iterator[tuple[int, str, str]]:
        start, end = self.span(node)
        written = self.text[start:end]
        for place, was, now in _signs(written):
            yield start + place, was, now
        formula = str(node.value)
        if written not in (f'"{formula}"', f"'{formula}'"):
            return
        try:
            tree = ast.parse(formula, mode="eval").body
        except SyntaxError:  # a piece of a formula that is put together
            return
        for part in ast.walk(tree):
            for place, was, now in _without(part, formula):
                yield start + 1 + place, was, now

    # --- code --------------------------------------------------------------------------------------

    def _code(self, node: ast.expr) -> Iterator[tuple[int, str, str]]:
        match node:
            case ast.Compare(left=left, ops=ops, comparators=several):
                for before, op, after in zip([left, *several], ops, several, strict=False):
                    yield from self._between(before, after, _sign_of(op), _COMPARED)
            case ast.BoolOp(op=op, values=values):
                word = "and" if isinstance(op, ast.And) else "or"
                for before, after in pairwise(values):
                    yield from self._between(before, after, word, {"and": "or", "or": "and"})
            case ast.UnaryOp(op=ast.Not()):
                start, _ = self.span(node)
                yield start, "not ", ""
            case ast.BinOp(left=left, op=op, right=right) if type(op) in _OPERATORS and _counts(left, right):
                yield from self._between(left, right, _OPERATORS[type(op)], _CODE_SIGNS)
            case ast.Call(func=ast.Name(id="min" | "max" as word) as name):
                start, _ = self.span(name)
                yield start, word, "max" if word == "min" else "min"
            case ast.Call(func=ast.Name(id="at_most") as name, args=[one, other], keywords=[]):
                (start, _), (_, end) = self.span(name), self.span(node)
                texts = [self.text[slice(*self.span(x))] for x in (one, other)]
                yield start, self.text[start:end], f"(not at_most({texts[1]}, {texts[0]}))"
            case ast.Call(func=ast.Name(id="whole" | "any" | "all" as word) as name):
                start, _ = self.span(name)
                now = {"whole": "1 + whole", "any": "all", "all": "any"}[word]
                yield start, word, now
            case ast.IfExp(test=test):
                start, end = self.span(test)
                yield start, self.text[start:end], f"not ({self.text[start:end]})"

    def _between(
        self, before: ast.expr, after: ast.expr, sign: str, other: dict[str, str]
    ) -> Iterator[tuple[int, str, str]]:
        """The sign between two operands, brackets and line ends beside it left alone."""
        (_, start), (end, _) = self.span(before), self.span(after)
        gap = re.sub(r"#[^\n]*", lambda m: " " * len(m[0]), self.text[start:end])
        spelled = re.escape(sign) if not sign[0].isalpha() else r"\b" + sign.replace(" ", r"\s+") + r"\b"
        found = list(re.finditer(spelled, gap))
        if len(found) == 1 and sign in other:
            yield start + found[0].start(), found[0][0], other[sign]


def _outside_braces(written: str) -> str:
    """A written f-string with what it puts in blanked."""
    depth, kept = 0, []
    for sign in written:
        depth += (sign == "{") - (sign == "}")
        kept.append("_" if depth and sign not in "{}" else sign)
    return "".join(kept)


def _chooses(node: ast.AST) -> bool:
    """Whether this takes the least or the greatest of what it is given."""
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("min", "max")


def _signs(written: str) -> Iterator[tuple[int, str, str]]:
    """Signs and choices within a piece of formula as it is written in the file."""
    for found in re.finditer(r"(?<=[ \"'}])[-+*/](?= )", written):
        yield found.start(), found[0], _SIGNS[found[0]]
    for found in re.finditer(r"\b(?:max|min)(?=\()", written):
        yield found.start(), found[0], "max" if found[0] == "min" else "min"
    for found in re.finditer(r"\bceil(?=\()", written):
        yield found.start(), found[0], "1 + ceil"


def _without(part: ast.AST, formula: str) -> Iterator[tuple[int, str, str]]:
    """A term, factor or choice of ``part`` that no longer counts; its name stays, as the working wants every name."""

    def text(node: ast.expr) -> str:
        return formula[node.col_offset : node.end_col_offset]

    match part:
        case ast.BinOp(op=ast.Add() | ast.Sub(), right=right):
            yield right.col_offset, text(right), f"0 * {text(right)}"
        case ast.BinOp(op=ast.Mult() | ast.Div(), right=ast.Name() as right):
            yield right.col_offset, text(right), f"(2 * {text(right)})"
        case ast.Call(func=ast.Name(id="min" | "max" as word), args=args):
            for n in range(len(args)):
                others = [text(a) for k, a in enumerate(args) if k != n]
                left = others[0] if len(others) == 1 else f"{word}({', '.join(others)})"
                yield part.col_offset, text(part), f"({left} + 0 * ({text(args[n])}))"
        case ast.Call(func=ast.Name(id="ceil"), args=[inner]):
            yield part.col_offset, text(part), f"({text(inner)})"
        case ast.Constant(value=int() as number):
            yield part.col_offset, text(part), str(number + 1)


def _sign_of(op: ast.cmpop) -> str:
    return {
        ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!=", ast.Is: "is",
        ast.IsNot: "is not", ast.In: "in", ast.NotIn: "not in",
    }[type(op)]  # fmt: skip


def _counts(*operands: ast.expr) -> bool:
    """Whether a sign between these can be arithmetic: not where texts, tuples or lists are joined."""
    return not any(
        isinstance(x, ast.JoinedStr | ast.Tuple | ast.List | ast.ListComp | ast.Dict | ast.Set)
        or (isinstance(x, ast.Constant) and isinstance(x.value, str))
        for x in operands
    )
