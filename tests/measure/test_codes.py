"""Every code that this room can refuse with is documented and has a sentence in both languages."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import darby
from darby.measure import reading
from darby.words.catalogue import LANGUAGES

HOME = Path(darby.__file__).parent
SOURCE = "\n".join(path.read_text(encoding="utf-8") for path in sorted((HOME / "measure").glob("*.py")))
READING = set(re.findall(r'refuse\(\s*"([a-z-]+)"', SOURCE)) | set(re.findall(r'refuse\("([a-z-]+)" if', SOURCE))
CODES = {f"measure.{code}" for code in READING} | set(re.findall(r'Fault\(\s*"(measure\.[a-z-]+)"', SOURCE))
CODES |= {f"measure.{kind}{end}" for kind in ("opening", "zone") for end in ("-outside", "s-overlap")}


def test_the_codes_are_found():
    assert len(CODES) > 30
    assert {"measure.ambiguous", "measure.no-unit", "measure.opening-outside", "measure.turns"} <= CODES


def test_every_code_of_reading_is_listed_at_its_head():
    assert {code for code in READING if f"measure.{code}" not in reading.__doc__} == set()


def test_every_code_is_in_the_docs():
    docs = (HOME.parents[1] / "docs" / "measuring.md").read_text(encoding="utf-8")
    assert {code for code in CODES if f"`{code}`" not in docs} == set()


def test_every_code_has_a_sentence_and_no_sentence_is_left_over():
    for language in LANGUAGES:
        path = HOME / "words" / language / "measure.toml"
        assert set(tomllib.loads(path.read_text(encoding="utf-8"))) == CODES


def test_sentences_ask_for_nothing_that_a_fault_does_not_have():
    for language in LANGUAGES:
        path = HOME / "words" / language / "measure.toml"
        for code, sentence in tomllib.loads(path.read_text(encoding="utf-8")).items():
            asked = set(re.findall(r"{(\w+)}", sentence))
            assert asked <= {"found", "allowed", "nearest"}, code
            assert {"found", "allowed"} <= asked or code == "measure.empty", code
