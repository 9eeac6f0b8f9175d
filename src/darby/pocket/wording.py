"""The sentences that the page says, in both languages; and the questions with the book's figures in them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import SequenceMatcher
from typing import Any

from darby.pocket.asking import Asker
from darby.rulebook import Book
from darby.words import LANGUAGES, catalogue
from darby.words.catalogue import Language

ALWAYS = (
    "pocket.", "unit.", "date.", "buildup.option.", "word.buildup.option.", "buildup.coat.", "word.buildup.coat.",
    "buildup.prep.", "buildup.coat-note.", "buildup.sand.", "buildup.lath.", "buildup.set-back-",
    "quantities.allowance.", "quantities.opening-rule.", "common.local-code", "common.invented", "cli.stop",
    "quantities.area-gross", "quantities.area-off", "quantities.area-reveals", "quantities.volume",
    "quantities.item.sand", "quantities.needed", "quantities.bulking-within", "quantities.sand-moisture",
    "quantities.sand-mass", "quantities.cutting", "quantities.paper-laps", "quantities.packages-",
    "buildup.old-edge", "ask.apprentice", "ask.causes", "ask.checks", "ask.cure", "ask.caution",
)  # fmt: skip
"""Beginnings of the codes that the page itself says."""

REFUSALS = (
    "too-long", "empty", "no-unit", "unknown-unit", "ambiguous", "number", "fraction", "feet-not-whole", "inches",
    "unreadable", "not-positive", "count", "opening-size",
)  # fmt: skip
"""What the page refuses to read, as ``measure`` does."""

NEVER = ("pocket.too-large", "pocket.next", "pocket.prices-need-firm", "pocket.noscript")


def words(said: Mapping[str, Any]) -> dict[str, dict[str, str]]:
    """Language to code to sentence: what the page says itself, and every code and word that stands in ``said``."""
    texts = set(_texts(said))
    texts |= {f"word.{text}" for text in texts} | {f"measure.{code}" for code in REFUSALS}
    codes = [code for code in catalogue("en") if code in texts or code.startswith(ALWAYS)]
    return {name: {code: catalogue(name)[code] for code in codes if code not in NEVER} for name in LANGUAGES}


def _texts(thing: Any) -> Iterable[str]:
    if isinstance(thing, str):
        yield thing
    elif isinstance(thing, Mapping):
        for key, value in thing.items():
            yield str(key)
            yield from _texts(value)
    elif isinstance(thing, (list, tuple)):
        for value in thing:
            yield from _texts(value)


# --- questions ---------------------------------------------------------------------------------------


def questions(ask: Asker) -> dict[str, Any]:
    """Language to questions and symptoms: as they are asked, other words for them, and what there is to say.

    A darby without questions has a sheet without them.
    """
    try:
        from darby.words.asking import entries
    except ImportError:
        return {name: [] for name in LANGUAGES}
    book = ask.ruled
    return {name: [_question(entry, book, name) for entry in entries()] for name in LANGUAGES}


def _question(entry: Any, book: Book, language: Language) -> dict[str, Any]:
    """A question or a symptom: its words, and its answer as parts, each under the code of its heading."""
    from darby.words.asking import fill

    us, metric = (fill(entry, book, language, system) for system in ("us", "metric"))
    said = entry.said[language]
    parts: list[tuple[str, list[str]]] = [
        ("", [in_both(us.answer, metric.answer)]),
        ("ask.apprentice", [in_both(us.more, metric.more)]),
        ("ask.causes", [in_both(a.text, b.text) for a, b in zip(us.causes, metric.causes, strict=True)]),
        ("ask.checks", [in_both(a, b) for a, b in zip(us.checks, metric.checks, strict=True)]),
        ("ask.cure", [in_both(us.cure, metric.cure)]),
        ("ask.caution", [in_both(us.caution, metric.caution)]),
    ]
    return {
        "asked": us.title,
        "also": " ".join((*said.asked[1:], *said.also)),
        "told": [[code, texts] for code, texts in parts if any(texts)],
    }


def idle(languages: Iterable[Language] = LANGUAGES) -> dict[str, list[str]]:
    """Words of a question that say nothing, by language; none where darby has no questions."""
    try:
        from darby.words.asking.folding import _alike
    except ImportError:
        return {name: [] for name in languages}
    return {name: sorted(_alike(name).idle) for name in languages}


def in_both(us: str, metric: str) -> str:
    """Both texts as one: where they differ, ``{1/2 in.|13 mm}``."""
    ours, theirs = us.split(" "), metric.split(" ")
    if any(c in us + metric for c in "{|}"):
        raise ValueError(f"a question cannot hold braces or bars: {us}")
    pieces: list[str] = []
    for tag, a, b, c, d in SequenceMatcher(None, ours, theirs, autojunk=False).get_opcodes():
        both = " ".join(ours[a:b]), " ".join(theirs[c:d])
        pieces.append(both[0] if tag == "equal" else f"{{{both[0]}|{both[1]}}}")
    return " ".join(piece for piece in pieces if piece)
