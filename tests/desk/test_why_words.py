"""The working behind a page's numbers is said in the reader's language, down to its proof and its sources."""

from functools import cache
from pathlib import Path

import pytest

import darby
from darby.desk.frame import ledger
from darby.tables.setting import Setting

EXAMPLE = Path(__file__).parents[2] / "examples" / "firehall.toml"


@cache
def said(language):
    """Sources, and lines of working, of three pages."""
    answers = darby.answer(darby.load(EXAMPLE))
    groups = ledger(("coats", "volumes", "mixes"), answers, Setting(language, "us"), owner=True)
    rows = [row for group in groups for row in group.rows]
    sources = [text for row in rows for text in row.sources]
    return sources, [part for row in rows for line in row.lines for part in (line.left, line.right)]


@pytest.mark.parametrize(
    ("language", "source", "proof"),
    [
        ("en", "every opening comes off whole; plastered reveals are added", "8.02 cu ft ≤ 9 cu ft"),
        ("es", "cada vano se descuenta entero; se suman las mochetas repelladas", "8.02 pies³ ≤ 9 pies³"),
    ],
)
def test_sources_and_proof_are_in_the_pages_language(language, source, proof):
    sources, lines = said(language)
    assert any(text.startswith(source) for text in sources)
    assert any(proof in text for text in lines)


def test_no_english_place_or_unit_is_left_on_a_spanish_page():
    sources, lines = said("es")
    assert any("respuesta sobre el grueso correcto" in text for text in sources)
    for english in ("answer on", "table of coats", "no published", "custom;", " not seen", "undated"):
        assert not [text for text in sources if english in text], english
    assert not [text for text in lines if " sq ft" in text or " cu ft" in text or " in. " in text]
