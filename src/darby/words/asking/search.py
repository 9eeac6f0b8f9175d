"""Finds the entry for what a person typed. A small ranking that can say why: which of his words met which of ours.

Every entry is the words of its questions, its other words and, for less, the words of its answer. A word counts by how
few entries have it. An entry's score is for seven tenths how much of what was typed it has, for three tenths how near
the nearest of its questions is as a whole. Below ``ENOUGH`` nothing was found, and that is said.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from math import log
from typing import Literal

from darby.words.asking.entries import entries
from darby.words.asking.folding import Word, words_of
from darby.words.asking.model import Entry, Question
from darby.words.catalogue import LANGUAGES, Language

How = Literal["question", "other word", "answer", "spelling"]

COVER, NEAR = 0.7, 0.3
"""Shares of the score: how much of what was typed is there, how near a question is as a whole."""
BODY, MISSPELT = 0.5, 0.8
"""What a word of the answer counts, and a word that had to be spelt right first; a word of a question counts one."""
ALIKE, SHORTEST = 0.85, 4
"""How alike two spellings are, and how long the words that are compared; they begin with the same letter."""
ENOUGH = 0.38
"""Least score of a hit; and one word at least stands in its questions or other words, or two met."""
ASIDE = 0.6
"""An entry whose score is less than this part of the best one's is not offered beside it."""
MANY = 3


@dataclass(frozen=True, slots=True)
class Met:
    """One word typed, the word of ours that it met, and where."""

    typed: str
    word: str
    how: How


@dataclass(frozen=True, slots=True)
class Hit:
    """An entry that may be meant, its score from 0 to 1, and why."""

    entry: Entry
    score: float
    because: tuple[Met, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """What was found, best first, in the language it was asked in; where nothing was, ``nearest`` came close."""

    typed: str
    language: Language
    hits: tuple[Hit, ...]
    nearest: tuple[Hit, ...] = ()


@dataclass(frozen=True, slots=True)
class _Indexed:
    """The words of one entry in one language."""

    entry: Entry
    lines: tuple[frozenset[str], ...]
    asked: frozenset[str]
    also: frozenset[str]
    body: frozenset[str]

    def said(self) -> frozenset[str]:
        return self.asked | self.also


@dataclass(frozen=True, slots=True)
class _Index:
    """All entries in one language; ``rare`` how much each word counts, ``strange`` a word that nobody has."""

    language: Language
    entries: tuple[_Indexed, ...]
    rare: Mapping[str, float]
    strange: float


def find(typed: str, *, prefer: Language = "en", many: int = MANY) -> Found:
    """The entries that ``typed`` may mean, at most ``many``, best first; the same words always find the same.

    Both languages are searched; the answer's language is the one that fits better, ``prefer`` if both fit alike.
    """
    ranked = {language: _rank(typed, _index(language)) for language in LANGUAGES}
    best = {language: hits[0].score if hits else 0.0 for language, hits in ranked.items()}
    language = max(LANGUAGES, key=lambda one: (best[one], one == prefer))
    least = max(ENOUGH, best[language] * ASIDE)
    hits = tuple(hit for hit in ranked[language] if hit.score >= least and _is_one(hit))[:many]
    return Found(typed, language, hits, () if hits else tuple(ranked[language][:many]))


def _rank(typed: str, index: _Index) -> list[Hit]:
    words = [(word, *_known(word, index)) for word in words_of(typed, index.language)]
    whole = sum(weight for _, _, weight in words)
    if not whole:
        return []
    hits = []
    for one in index.entries:
        because = tuple(met for word, ours, _ in words if (met := _met(word, ours, one)) is not None)
        if because:
            score = COVER * _cover(words, one) / whole + NEAR * _near(words, one, index)
            hits.append(Hit(one.entry, score, because))
    order = {one.entry.id: n for n, one in enumerate(index.entries)}
    return sorted(hits, key=lambda hit: (-hit.score, order[hit.entry.id]))


def _is_one(hit: Hit) -> bool:
    firm = any(met.how != "answer" for met in hit.because)
    return hit.score >= ENOUGH and (firm or len(hit.because) > 1)


def _known(word: Word, index: _Index) -> tuple[str, float]:
    """The word of ours that ``word`` is or is likely meant to be ("" = none), and how much it counts."""
    if word.stem in index.rare:
        return word.stem, index.rare[word.stem]
    if len(word.stem) >= SHORTEST:
        likely = [ours for ours in index.rare if len(ours) >= SHORTEST and ours[0] == word.stem[0]]
        near = get_close_matches(word.stem, likely, 1, ALIKE)
        if near:
            return near[0], index.rare[near[0]]
    return "", index.strange


def _strength(ours: str, one: _Indexed) -> float:
    if ours in one.asked or ours in one.also:
        return 1.0
    return BODY if ours in one.body else 0.0


def _met(word: Word, ours: str, one: _Indexed) -> Met | None:
    if not ours or not _strength(ours, one):
        return None
    if ours not in one.asked and ours not in one.also:
        return Met(word.typed, ours, "answer")
    return Met(word.typed, ours, "spelling" if ours != word.stem else "question" if ours in one.asked else "other word")


def _cover(words: Iterable[tuple[Word, str, float]], one: _Indexed) -> float:
    return sum(
        weight * _strength(ours, one) * (1.0 if ours == word.stem else MISSPELT) for word, ours, weight in words if ours
    )


def _near(words: list[tuple[Word, str, float]], one: _Indexed, index: _Index) -> float:
    """How much the nearest of the entry's questions and the typed words have in common, of all that both say."""
    mine = {ours or word.stem: weight for word, ours, weight in words}
    best = 0.0
    for line in one.lines:
        common = sum(weight for ours, weight in mine.items() if ours in line)
        rest = sum(index.rare[word] for word in line if word not in mine)
        best = max(best, common / (sum(mine.values()) + rest))
    return best


@cache
def _index(language: Language) -> _Index:
    return _index_of(entries(), language)


def _index_of(rows: Iterable[Entry], language: Language) -> _Index:
    indexed = tuple(_indexed(entry, language) for entry in rows)
    count: dict[str, float] = defaultdict(float)
    for one in indexed:
        for word in one.said() | one.body:
            count[word] += 1.0 if word in one.said() else BODY
    size = len(indexed)
    rare = {word: log((size + 1) / (have + 0.5)) for word, have in sorted(count.items())}
    return _Index(language, indexed, rare, log((size + 1) / 0.5))


def _indexed(entry: Entry, language: Language) -> _Indexed:
    said = entry.said[language]
    lines = tuple(_stems(line, language) for line in said.asked)
    body: tuple[str, ...]
    if isinstance(entry, Question):
        body = (entry.said[language].answer, entry.said[language].more)
    else:
        seen = entry.said[language]
        body = (*seen.causes, *seen.checks, seen.cure)
    return _Indexed(entry, lines, _all(said.asked, language), _all(said.also, language), _all(body, language))


def _all(texts: Iterable[str], language: Language) -> frozenset[str]:
    return frozenset().union(*(_stems(text, language) for text in texts))


@cache
def _stems(text: str, language: Language) -> frozenset[str]:
    return frozenset(word.stem for word in words_of(text, language))
