"""Eighty words of the trade, and that darby's Spanish keeps to them. The list itself is from memory and says so."""

import re
import tomllib
from pathlib import Path

import pytest

from darby.words import catalogue
from darby.words.asking import Question, entries

WORDS = Path(__file__).parents[2] / "src" / "darby" / "words" / "glossary.toml"
GLOSSARY = tomllib.loads(WORDS.read_text(encoding="utf-8"))
ROWS = GLOSSARY["word"]
CHECKED = [row for row in ROWS if row.get("check")]
REGIONS = {"US-MX", "MX", "CA", "PR", "ES"}
TYPED = "cli.help."
"""Help names words that are typed in English in both languages: block, lath."""


def pairs():
    """Every (place, English sentence, Spanish sentence) that people read, without what is put in."""
    english, spanish = catalogue("en"), catalogue("es")
    said = [(code, english[code], spanish[code]) for code in english if not code.startswith(TYPED)]
    for entry in entries():
        en, es = entry.said["en"], entry.said["es"]
        fields = ("answer", "more") if isinstance(entry, Question) else ("causes", "checks", "cure", "caution")
        for name in fields:
            theirs, ours = getattr(en, name), getattr(es, name)
            both = [(theirs, ours)] if isinstance(theirs, str) else zip(theirs, ours, strict=True)
            said += [(f"{entry.id}.{name}", e, s) for e, s in both]
    # what stands between straight marks is a word of the job file, the same in every language
    return [(place, *(re.sub(r"\{\w*\}|\"[^\"]*\"", "", text) for text in both)) for place, *both in said]


PAIRS = pairs()


def keeps(row, sentence):
    return any(form.casefold() in sentence.casefold() for form in (row["es"], *row.get("or", ())))


def speaks_of(row, sentence):
    if any(other in sentence for other in row.get("unless", ())):
        return False
    return re.search(rf"(?<![\w-]){re.escape(row['en'])}s?(?![\w-])", sentence, re.IGNORECASE) is not None


def test_eighty_words_each_once_with_who_says_it():
    assert len(ROWS) >= 80
    assert len({row["en"] for row in ROWS}) == len(ROWS)
    for row in ROWS:
        assert set(row["said"]) == REGIONS, row["en"]
        assert all(words.strip() for words in row["said"].values()), row["en"]
        assert set(row) <= {"en", "es", "or", "unless", "check", "said"}, row["en"]


def test_the_list_says_that_it_is_from_memory():
    assert GLOSSARY["meta"]["standing"] == "memory"


def test_a_word_is_not_its_own_translation():
    assert [row["en"] for row in ROWS if row["en"] == row["es"]] == ["block"]  # said so on every site


def test_half_the_words_are_checked_and_every_check_meets_a_sentence():
    assert len(CHECKED) >= 40
    assert [row["en"] for row in CHECKED if not any(speaks_of(row, e) for _, e, _ in PAIRS)] == []


@pytest.mark.parametrize("row", CHECKED, ids=lambda row: row["en"])
def test_spanish_keeps_to_the_word(row):
    assert [(place, s) for place, e, s in PAIRS if speaks_of(row, e) and not keeps(row, s)] == []


def test_a_stray_word_is_found():
    row = next(row for row in CHECKED if row["en"] == "mixer")
    assert speaks_of(row, "Most of the water goes into the mixer first.")
    assert not keeps(row, "Primero casi toda el agua a la hormigonera.")
    assert keeps(row, "Primero casi toda el agua a la revolvedora.")
