"""Words brought to one form: no capitals, accents or endings, and one word for words that mean the same here."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources

from darby.words.catalogue import Language

_ENDINGS: Mapping[Language, tuple[str, ...]] = {
    "en": ("ings", "ing", "ied", "ies", "ed", "es", "er", "ly", "s", "y", "e"),
    "es": ("iendo", "ando", "adas", "ados", "idas", "idos", "ada", "ado", "ida", "ido", "aron", "ieron", "amos", "ar",
           "er", "ir", "as", "os", "es", "an", "en", "a", "o", "e", "s"),
}  # fmt: skip
"""Endings that are taken off, the longest first, as long as enough letters stay."""
_LEAST: Mapping[Language, int] = {"en": 3, "es": 4}
_WORD = re.compile(r"\d+/\d+|[a-z]+")
_YEAR = re.compile(r"(?<![\w/.,])(?:1[89]|20)\d\d(?![\w/.,])")


@dataclass(frozen=True, slots=True)
class Word:
    """A word as it was typed, and the stem it is looked up by."""

    typed: str
    stem: str


def fold(text: str) -> str:
    """``text`` in small letters without accents and apostrophes; a year is the word "year"."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    plain = "".join(c for c in plain if not unicodedata.combining(c)).replace("'", "").replace("’", "")
    return _YEAR.sub(" year ", plain)


def stem(word: str, language: Language) -> str:
    """``word`` without its ending: cracks, cracked, cracking are one."""
    word = _sounds(word) if language == "es" else word
    for ending in _ENDINGS[language]:
        if word.endswith(ending) and len(word) - len(ending) >= _LEAST[language]:
            word = word[: -len(ending)]
            break
    return word[:-1] if len(word) > _LEAST[language] and word[-1] == word[-2] else word


_SOUNDS = (
    (re.compile(r"(?<!c)h"), ""), (re.compile(r"z|c(?=[ei])"), "s"), (re.compile(r"v"), "b"), (re.compile(r"ll"), "y"),
    (re.compile(r"g(?=[ei])"), "j"), (re.compile(r"qu(?=[ei])|k"), "c"),
)  # fmt: skip


def _sounds(word: str) -> str:
    """Spanish as it sounds, since that is how it is typed: "gruezo" is "grueso", "yobió" is "llovió"."""
    for letters, sound in _SOUNDS:
        word = letters.sub(sound, word)
    return word


def words_of(text: str, language: Language) -> tuple[Word, ...]:
    """The words of ``text`` that say something, once each, in order."""
    alike = _alike(language)
    folded = alike.phrase.sub(lambda found: f" {alike.phrases[found[0]]} ", fold(text))
    found: dict[str, Word] = {}
    for word in _WORD.findall(folded):
        if word in alike.idle:
            continue
        one = alike.words.get(word, word)
        root = stem(one, language)
        root = alike.stems.get(root, root)
        found.setdefault(root, Word(word, root))
    return tuple(found.values())


@dataclass(frozen=True, slots=True)
class _Alike:
    """Words that say nothing, words and phrases that stand for another word, and the same by stem.

    ``phrase`` finds the phrases, the longest first.
    """

    idle: frozenset[str]
    words: Mapping[str, str]
    phrases: Mapping[str, str]
    phrase: re.Pattern[str]
    stems: Mapping[str, str]


@cache
def _alike(language: Language) -> _Alike:
    text = resources.files("darby.words.asking").joinpath("alike.toml").read_text(encoding="utf-8")
    rows = tomllib.loads(text)[language]
    words: dict[str, str] = {}
    phrases: dict[str, str] = {}
    for group in rows["same"]:
        first, *others = (fold(word).strip() for word in group)
        for other in others:
            (phrases if " " in other else words)[other] = first
    stems = {stem(word, language): stem(one, language) for word, one in words.items()}
    stems = {word: one for word, one in stems.items() if word != one}
    longest = "|".join(re.escape(phrase) for phrase in sorted(phrases, key=lambda p: (-len(p), p)))
    return _Alike(frozenset(fold(w) for w in rows["idle"]), words, phrases, re.compile(rf"\b(?:{longest})\b"), stems)
