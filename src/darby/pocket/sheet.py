"""The sheet itself: tables, style and script in one file."""

from __future__ import annotations

import hashlib
import re
from html import escape
from importlib import resources
from pathlib import Path
from typing import Any

from darby import __version__
from darby.job.model import Job
from darby.measure.openings import OPENING_KINDS
from darby.measure.units import COUNTS
from darby.pocket import measuring
from darby.pocket.asking import A_DAY, Asker
from darby.pocket.builds import builds
from darby.pocket.calendar import Calendar
from darby.pocket.cautions import cautions
from darby.pocket.choices import IN_COATS, TESTS
from darby.pocket.deflating import PACKING, packed, text_of
from darby.pocket.lines import lines
from darby.pocket.packing import number
from darby.pocket.takes import takes
from darby.pocket.wording import idle, questions, words
from darby.quantities import opening_rule
from darby.rulebook import Book
from darby.words import Language, say

MOST_BYTES = 250_000
"""A phone opens more; a sheet that is sent from hand to hand should not be more."""

UNITS = (
    "", "%", "in", "ft", "ft-in", "m", "mm", "cm", "yd", "um", "mil", "sq ft", "cu ft", "cu yd", "gal", "lb", "ton",
    "lb/sq ft", "lb/cu ft", "sq ft/cu ft", "h", "min", "day", "deg F", "mph", "$", *COUNTS,
)  # fmt: skip
"""Units that the page writes in."""

DRAWING = {
    "width": 343, "left": 8, "right": 34, "top": 8, "below": 34, "tallest": 260, "string": 24, "tick": 4, "lift": 6,
    "letter": 8, "quarter": 90, "diamond": 6, "tallies": 40, "hand": 5, "stroke": 5, "mark": 16,
}  # fmt: skip
"""Sizes on the page [px]: the drawing of a wall, tally marks."""


class TooLarge(ValueError):
    """The sheet would be more than ``MOST_BYTES``."""

    def __init__(self, size: int) -> None:
        super().__init__(f"{size} bytes, {MOST_BYTES} at the most")
        self.size = size


def pocket_sheet(
    firm: Path | None = None, *, language: Language = "en", prices: bool = False, book: Book | None = None
) -> str:
    """The pocket sheet as one HTML document: no server, nothing fetched, no rule and no figure of its own.

    Parameters
    ----------
    firm
        the firm file: its mixes, measures, voices, allowances and packages; None = the rule book's.
    language
        the one it opens in; both are in it.
    prices
        whether the firm's prices are in it, for whoever holds the phone to see.

    Raises
    ------
    JobError
        with everything that is wrong with the firm's file.
    TooLarge
        past ``MOST_BYTES``.
    """
    ask = Asker(firm, book)
    tables = sheet_tables(ask, language=language, prices=prices)
    page = _read("sheet.html")
    for name, text in (
        ("language", language),
        ("title", escape(say("pocket.title", language=language))),
        ("noscript", escape(say("pocket.noscript", language=language))),
        ("css", _plain(_read("sheet.css"))),
        ("script", script()),
        ("packing", text_of(PACKING)),
        ("tables", packed(tables)),
    ):
        page = page.replace(f"{{{name}}}", text, 1)
    size = len(page.encode())
    if size > MOST_BYTES:
        raise TooLarge(size)
    return page


def write_sheet(into: Path, firm: Path | None = None, *, language: Language = "en", prices: bool = False) -> None:
    """Write the sheet to a file: whole, or not at all.

    Raises
    ------
    JobError, TooLarge
        as ``pocket_sheet``; nothing is written then.
    OSError
        if the file cannot be written.
    """
    beside = into.with_name(f".{into.name}.part")
    try:
        beside.touch()  # a place that cannot be written to is found before the core is asked thousands of questions
        beside.write_text(pocket_sheet(firm, language=language, prices=prices), encoding="utf-8")
        beside.replace(into)
    finally:
        beside.unlink(missing_ok=True)


def sheet_tables(ask: Asker, *, language: Language = "en", prices: bool = False) -> dict[str, Any]:
    """Everything the page reckons with and says, exported by the core."""
    job = ask.job([({"id": "w", "length": "1'", "height": "1'", "base": "block"}, {"surface": "w"})])
    built = builds(ask)
    tables: dict[str, Any] = {
        "exact": measuring.exact(),
        "units": measuring.units(UNITS),
        "writing": measuring.written(),
        "reading": measuring.read(),
        "lines": lines(ask),
        "builds": built.table,
        **takes(ask, built.takes, prices=prices).table(),
        "customs": _customs(ask),
        "allowances": _allowances(ask, job),
        "cautions": cautions(ask, built.dangers),
        **Calendar(ask).table(),
        "weekdays": [str((day - 1) % 7) for day in range(7)],
        "openingKinds": OPENING_KINDS,
        "inCoats": IN_COATS,
        "tests": TESTS,
        "drawing": DRAWING | {"block": [ask.ruled.number("block.long").number, ask.ruled.number("block.high").number]},
    }
    tables["words"] = words(tables)
    tables |= {"questions": questions(ask), "idle": idle()}
    return tables | {"made": _made(ask, job, tables, language=language, prices=prices)}


def _customs(ask: Asker) -> list[dict[str, Any]]:
    """Customs by which openings come off, the one this firm follows first."""
    ruled = ask.ruled.rule("openings.rule")
    rows = []
    for figure in (ruled.figure, *ruled.others):
        rule = opening_rule(ask.ruled, figure.voice)
        limits = {"none": rule.none_under, "oneFace": rule.one_face_up_to, "share": rule.share}
        rows.append({"voice": rule.voice} | {k: None if f is None else f.number for k, f in limits.items()})
    return rows


def _allowances(ask: Asker, job: Job) -> dict[str, str | float]:
    """Each allowance that the sheet takes: the firm's own, or the book's."""
    dampness = ask.ruled.number("mix.sand.dampness")
    usual = {name: ask.ruled.number(f"allow.{name}").number for name in ("spread", "waste", "bulking", "lath")}
    usual["moisture"] = dampness.high if dampness.high is not None else dampness.number
    own = {name: job.firm.allowance(name) for name in usual}
    return {name: number(share if share is not None else usual[name]) for name, share in own.items()}


def _made(ask: Asker, job: Job, tables: dict[str, Any], *, language: Language, prices: bool) -> dict[str, Any]:
    """For whom and of what the sheet was made."""
    usual = job.firm.usual.price
    return {
        "id": hashlib.sha256(text_of(tables).encode()).hexdigest()[:12],
        "name": job.firm.name,
        "firm": ask.file.name if ask.file is not None else "",
        "invented": job.firm.invented,
        "system": job.system,
        "language": language,
        "book": ask.ruled.version,
        "version": __version__,
        "day": A_DAY.isoformat(),
        "prices": prices,
        "usual": [number(usual.low), number(usual.high)] if prices and usual is not None else None,
    }


# --- files of the page -------------------------------------------------------------------------------


def _read(name: str) -> str:
    return resources.files("darby.pocket").joinpath("page", name).read_text(encoding="utf-8")


def scripts() -> list[str]:
    """Names of the script's files, in the order in which they stand in the page."""
    folder = resources.files("darby.pocket").joinpath("page")
    return sorted(file.name for file in folder.iterdir() if file.name.endswith(".js"))


def script() -> str:
    """The page's script: its files one after the other, without the comments that stand on lines of their own."""
    return "\n".join(_plain(_read(name)) for name in scripts())


def _plain(text: str) -> str:
    """Without indents, empty lines and comments that stand on lines of their own."""
    lines = (line.strip() for line in text.split("\n"))
    return "\n".join(line for line in lines if line and not re.fullmatch(r"//.*|/\*.*\*/", line))
