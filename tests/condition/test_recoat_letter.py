"""The letter: every rung's numbers as they were answered, in both languages, and what forbids a rung in its place."""

from __future__ import annotations

import io
from dataclasses import replace
from functools import cache

import pypdf
import pytest

import darby
from darby.papers import render
from darby.papers.filled.letter import letter
from darby.papers.filled.writer import Writer
from darby.papers.model import LetterPaper
from darby.words import written
from tests.condition.test_recoat_ladder import EXAMPLE, TESTS, answered, rungs


@cache
def made(language: str = "en", *edits: tuple[str, str]) -> LetterPaper:
    job = answered(*edits).job
    other = tuple({"en", "es"} - {language})
    firm = replace(job.firm, languages=(language, *other))
    paper = letter(Writer(darby.answer(replace(job, firm=firm))))
    assert paper is not None
    return paper


@cache
def text(language: str = "en") -> str:
    pages = pypdf.PdfReader(io.BytesIO(render(made(language)))).pages
    return " ".join(" ".join(page.extract_text().split()) for page in pages)


def row(paper: LetterPaper, label: str) -> tuple[str, ...]:
    return next(r.cells for r in paper.rows if r.label == label)


def test_prices_trips_and_depths_are_the_ladders() -> None:
    paper, found = made(), rungs().values()
    assert row(paper, "Whole price") == tuple(written(rung.total) for rung in found)
    assert [cell.partition(" ")[0] for cell in row(paper, "Trips, over")] == [
        f"{rung.trips.value:g}" for rung in found if rung.trips is not None
    ]
    assert row(paper, "Comes out by")[1:] == ("1/4 in. (common practice, no source)", "7/8 in.")


def test_tight_places_are_all_that_any_rung_leaves_short() -> None:
    paper = made()
    short = {c.at for rung in rungs().values() for c in rung.checks if c.short is not None or c.renewed}
    # the foot and the frieze are alike on four walls, and stand in one row each
    assert len(paper.tight) == len(short) - 3 - 3
    assert next(t.cells for t in paper.tight if t.name == "Crawl-space vents (4)") == ("1/8 in. short", "3/4 in. short")


def test_a_barred_rung_says_why_and_is_silent() -> None:
    paper = made("en", (TESTS, TESTS.replace('pull = "held"', 'pull = "let go"')), ('choose = "heavy-skim"\n', ""))
    first, *others = paper.rows
    assert first.barred == (False, True, False)
    assert first.cells[1] == "No: the test patch let go; nothing bonds here."
    assert all(r.cells[1] == "" and not any(r.barred) for r in others)


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", ("Old paint may hold lead.", "Old plaster may hold asbestos.",
                "Local rules come first.", "What we ask of you")),
        ("es", ("La pintura vieja puede tener plomo.", "El repello viejo puede tener asbesto.",
                "Primero las reglas locales.", "Lo que le preguntamos")),
    ],
)  # fmt: skip
def test_hazards_local_rules_questions_and_the_stamp_stand_on_it(language: str, said: tuple[str, ...]) -> None:
    words = text(language)
    assert all(sentence in words for sentence in said)
    assert made(language).stamp.job_hash in words and made(language).stamp.book in words


def test_it_promises_no_years() -> None:
    assert " years for any of the three" in text() and "life" not in text()


def test_both_languages_have_the_same_numbers_in_the_same_places() -> None:
    english, spanish = made(), made("es")
    assert row(english, "Whole price") == row(spanish, "Precio total")
    assert [len(r.cells) for r in english.rows] == [len(r.cells) for r in spanish.rows]
    assert [(t.room.split(" ")[0], len(t.cells)) for t in english.tight] == [
        (t.room.split(" ")[0], len(t.cells)) for t in spanish.tight
    ]


def test_bare_masonry_has_its_ways_in_the_letter() -> None:
    fire = letter(Writer(darby.answer(darby.load(EXAMPLE.with_name("firehall.toml")))), with_ways=True)
    assert fire is not None and fire.rungs == ()
    assert fire.ways[0].what == "One heavy coat, floated as the finish"
    assert len({way.price for way in fire.ways}) > 1
