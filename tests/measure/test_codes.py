"""Every code that this room can refuse with is documented and has a sentence in both languages."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import darby
from darby.measure import reading
from darby.words.catalogue import LANGUAGES, catalogue

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


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_code_has_a_sentence_that_asks_for_nothing_a_fault_does_not_have(language):
    sentences = catalogue(language)
    for code in CODES:
        asked = set(re.findall(r"{(\w+)}", sentences[code]))
        assert asked <= {"place", "found", "allowed", "nearest"}, code
    assert {code for code in sentences if code.startswith("measure.")} == CODES
