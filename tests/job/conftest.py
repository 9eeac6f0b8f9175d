"""A small rule book, invented, so that these tests stand whatever the real one says this year."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from darby.rulebook.book import Book
from darby.rulebook.load import figure_of
from darby.rulebook.model import Source

SOURCE = Source("made-up", "A made-up source", "nobody", "2026", "")
ROWS = (
    ("thickness.block.two-coat", "1/2 in", "c926"),
    ("thickness.block.two-coat", "5/8 in", "pca"),
    ("thickness.scratch", "3/8 in", "c926"),
    ("cure.moist", "48 h", "ibc"),
    ("cure.wait", "7 day", "ufgs"),
    ("openings.rule", "0 sq ft", "net"),
    ("allow.spread", "5 to 10 %", "practice"),
)


def small_book() -> Book:
    figures = [
        figure_of(
            {"id": f"{subject}.{voice}", "subject": subject, "value": value, "says": "made up", "source": SOURCE.id,
             "where": "here", "standing": "memory", "voice": voice},
            {SOURCE.id: SOURCE},
        )
        for subject, value, voice in ROWS
    ]  # fmt: skip
    worded = figure_of(
        {"id": "prep.damp.pca", "subject": "prep.damp", "value": "evenly damp", "kind": "rule", "says": "made up",
         "source": SOURCE.id, "where": "here", "standing": "memory", "voice": "pca"},
        {SOURCE.id: SOURCE},
    )  # fmt: skip
    return Book([*figures, worded], {SOURCE.id: SOURCE})


@pytest.fixture(autouse=True)
def _small_book(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    if "real_book" not in request.fixturenames:
        book = small_book()
        monkeypatch.setattr("darby.job.sections.rules.default", lambda: book)
    yield


@pytest.fixture
def real_book() -> None:
    """For tests of the examples: the rule book that ships."""
