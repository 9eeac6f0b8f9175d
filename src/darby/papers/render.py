"""A paper's data and its template to a tagged PDF, by one typst compiler for all papers."""

from __future__ import annotations

import json
import re
import threading
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from importlib import resources
from typing import Any, Literal

import typst

from darby.measure.units import UNITS
from darby.measure.writing import PRINTED
from darby.papers.model import (
    BoardPaper,
    CrewPaper,
    JointsPaper,
    KeyItem,
    LetterPaper,
    OrderPaper,
    Paper,
    PatchPaper,
    Picture,
    QuotePaper,
    SawingPaper,
    TicketPaper,
    TruingPaper,
    WorkingPaper,
)
from darby.words import LANGUAGES, Language, Verbatim, catalogue, say

KINDS: dict[type[Any], str] = {
    QuotePaper: "quote", OrderPaper: "order", CrewPaper: "crew", TicketPaper: "tickets", BoardPaper: "boards",
    LetterPaper: "letter", WorkingPaper: "working", SawingPaper: "sawing", TruingPaper: "truing",
    JointsPaper: "joints",
    PatchPaper: "patch",
}  # fmt: skip
PAIRED = (CrewPaper, TicketPaper, BoardPaper, SawingPaper, TruingPaper, PatchPaper)
"""Papers that may stand in two languages, one under the other."""
COMMON = ("local-opening", "local", "hold")
STANDARD: Literal["ua-1"] = "ua-1"
"""Tagged for whoever has it read aloud: every paper titled, every drawing with words for it."""


class MoneyOnCrewPaper(ValueError):
    """A crew's paper must not carry money; names where it stood."""


def render(paper: Paper) -> bytes:
    """The PDF of ``paper``. The same paper is the same file, whenever it is made.

    Raises
    ------
    MoneyOnCrewPaper
        if a money sign stands anywhere on a crew sheet, a batch ticket or a board's card.
    """
    with _one_at_a_time:
        made = _compiler().compile(**asked(paper))
    if not isinstance(made, bytes):
        raise TypeError("a PDF is one file")
    return made


def sheets(paper: Paper, dots: float = 120.0) -> list[bytes]:
    """The sheets of ``paper`` as PNG pictures, ``dots`` to the inch: to be looked at before it is sent.

    Raises
    ------
    MoneyOnCrewPaper
        as ``render``.
    """
    with _one_at_a_time:
        made = _compiler().compile(
            input=_input(paper),  # type: ignore[type-var]  # typst's own stub forgets that a dict of files is taken
            format="png",
            ppi=dots,
            timestamp=paper.stamp.seconds,
        )
    return [made] if isinstance(made, bytes) else [bytes(one) for one in made or ()]


def asked(paper: Paper) -> dict[str, Any]:
    """What the compiler is asked for ``paper``: its files, the standard, the time that it bears.

    Raises
    ------
    MoneyOnCrewPaper
        as ``render``.
    """
    return {"input": _input(paper), "pdf_standards": [STANDARD], "timestamp": paper.stamp.seconds}


def _input(paper: Paper) -> dict[str, bytes]:
    if isinstance(paper, PAIRED) and not getattr(paper, "money", False):
        _without_money(paper)
    kind = KINDS[type(paper)]
    files: dict[str, bytes] = {}
    data = {
        "data": _plain(paper, files),
        "labels": labels(kind, languages_of(paper), paper.stamp.made_with),
        **_foot(paper, kind),
    }
    files["main.typ"] = _template(f"{kind}.typ")
    files["house.typ"] = _template("house.typ")
    files["paper.json"] = json.dumps(data, ensure_ascii=False).encode()
    return files


def languages_of(paper: Paper) -> tuple[Language, ...]:
    """The languages a paper is written in, first one first."""
    return paper.languages if isinstance(paper, PAIRED) else (paper.language,)


def labels(kind: str, languages: tuple[Language, ...], made_with: str = "") -> dict[str, Any]:
    """A paper's own headings and labels by their last word; crew papers get each in both languages."""
    start = f"papers.{kind}."
    codes = {code.removeprefix(start): code for code in catalogue("en") if code.startswith(start)}
    codes |= {name: f"papers.{name}" for name in COMMON}
    given = {"made_with": Verbatim(made_with)}
    if kind not in {KINDS[paired] for paired in PAIRED}:
        return {name: say(code, given, languages[0]) for name, code in codes.items()}
    pairs = {name: [say(code, given, language) for language in languages] for name, code in codes.items()}
    return {name: {"first": pair[0], "second": pair[1] if len(pair) > 1 else ""} for name, pair in pairs.items()}


_one_at_a_time = threading.Lock()
"""The compiler cannot be lent twice; the desk sets papers on several threads."""


@cache
def _compiler() -> typst.Compiler:
    return typst.Compiler(ignore_system_fonts=True)


@cache
def _template(name: str) -> bytes:
    return resources.files("darby.papers").joinpath("templates", name).read_bytes()


def _foot(paper: Paper, kind: str) -> dict[str, str]:
    first, *more = languages_of(paper)
    stamp = paper.stamp
    values = {name: Verbatim(getattr(stamp, name)) for name in ("number", "revision", "job_hash", "book")}
    code = "papers.stamp" if stamp.number else "papers.stamp.no-number"
    return {
        "first": first,
        "second": more[0] if more else first,
        "kind": say(f"papers.{kind}.kind", {}, first),
        "stamp": say(code, values, first),
        "invented": say("papers.invented", {}, first) if stamp.invented else "",
        "sheet": say("papers.sheet", {"n": "{n}", "m": "{m}"}, first),
        "ticket": say("papers.ticket", {"n": "{n}", "m": "{m}"}, first),
    }


def _plain(thing: object, files: dict[str, bytes]) -> Any:
    """Dataclasses as JSON; drawings become files beside the template."""
    if is_dataclass(thing):
        plain = {f.name: _plain(getattr(thing, f.name), files) for f in fields(thing)}
        if isinstance(thing, (Picture, KeyItem)):
            name = f"drawing-{len(files)}.svg"
            files[name] = thing.svg.encode()
            plain["svg"] = name
        return plain
    if isinstance(thing, (tuple, list)):
        return [_plain(part, files) for part in thing]
    return _unparted().sub("\u00a0", thing) if isinstance(thing, str) else thing


@cache
def _unparted() -> re.Pattern[str]:
    """The space between a number and its unit: no line ends there."""
    printed = {code.removeprefix("unit."): word for name in LANGUAGES for code, word in catalogue(name).items()
               if code.startswith("unit.")}  # fmt: skip
    units = {*printed, *printed.values(), *PRINTED.values(), *(u for u in UNITS if u)}
    words = "|".join(re.escape(u) for u in sorted(units, key=lambda u: -len(u)) if u and not u.startswith(("/", "$")))
    return re.compile(rf"(?<=\d) (?=(?:{words}|\d+/\d+)(?![\w]))")


def _texts(thing: object, place: str) -> Iterator[tuple[str, str]]:
    if is_dataclass(thing):
        for f in fields(thing):
            yield from _texts(getattr(thing, f.name), f"{place}.{f.name}" if place else f.name)
    elif isinstance(thing, tuple):
        for i, part in enumerate(thing):
            yield from _texts(part, f"{place}[{i}]")
    elif isinstance(thing, str):
        yield place, thing


def _without_money(paper: Paper) -> None:
    for place, text in _texts(paper, ""):
        if "$" in text:
            raise MoneyOnCrewPaper(f"{place}: {text!r}")
