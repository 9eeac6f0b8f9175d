"""Sample boards on paper: what was read, three cards to write on, no money, in one language or two."""

from io import BytesIO

import pytest
from pypdf import PdfReader

import darby
from darby.papers import MoneyOnCrewPaper, render
from darby.papers.filled.boards import board_paper
from darby.papers.filled.writer import Writer
from tests.answers.jobs import firehall as example

COATS = "paint_coats = 3 "
SIGNED = 'signed = { board = 2, by = "A. Robles", on = 2026-09-20, light = "open shade", off = "10 ft" }\n'


def paper(*edits):
    return board_paper(Writer(darby.answer(example(*edits))))


def sheets(made):
    return [page.extract_text() for page in PdfReader(BytesIO(render(made))).pages]


@pytest.fixture(scope="module")
def firehall_boards():
    return paper()


def test_a_sheet_of_what_was_read_and_a_sheet_of_three_cards(firehall_boards):
    face, cards = sheets(firehall_boards)
    assert "3.9 mil to 10.3 mil" in face.replace("\u00a0", " ")
    assert "Try them in this order: 2, 3, 1." in face
    for number, sand in (("1", "No. 16 (1.18 mm) – No. 8"), ("2", "No. 8 (2.36 mm) – No. 4"), ("3", "No. 4 (4.75 mm)")):
        assert sand in cards.replace("\u00a0", " "), number
    assert cards.count("Signed for, name and date") == 3
    assert cards.count("from 10") == 3


def test_both_languages_stand_on_it(firehall_boards):
    face, cards = sheets(firehall_boards)
    assert "Pruébelas en este orden" in face
    assert cards.count("Junto a la cara vieja") == 3


def test_who_signed_stands_on_his_board_alone():
    (face,) = paper((COATS, SIGNED + COATS)).faces
    assert [bool(card.signed.first) for card in face.cards] == [False, True, False]
    assert face.cards[1].signed.first == "Signed for: A. Robles, September 20, 2026, open shade, 10 ft."
    assert face.cards[1].signed.second == "Firmada: A. Robles, 20 de septiembre de 2026, open shade, 10 pies."


def test_how_sure_custom_and_film_are_is_said(firehall_boards):
    (face,) = firehall_boards.faces
    assert "common practice, no source" in face.standing.first
    assert "from memory" in face.standing.first
    (bare,) = paper((COATS, "# ")).faces
    assert "memory" not in bare.standing.first


def test_old_paint_is_warned_of_first_and_bare_is_not(firehall_boards):
    assert [c.opening.first for c in firehall_boards.faces[0].cautions] == ["Old paint.", "Wet cement burns."]
    assert [c.opening.first for c in paper((COATS, "# ")).faces[0].cautions] == ["Wet cement burns."]


def test_no_money_on_a_card():
    own = 'board = [{ sand = ["No. 30", "No. 20"], how = "the $40.00 sand" }]\n'
    with pytest.raises(MoneyOnCrewPaper, match="cards"):
        render(paper((COATS, own + COATS)))


def test_a_job_without_an_old_face_has_none():
    job = darby.load("examples/garden-wall.toml")
    assert board_paper(Writer(darby.answer(job))) is None
