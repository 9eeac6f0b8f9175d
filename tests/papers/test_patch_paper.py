"""The sheet of old work: the example's wall and window, as the crew reads them."""

import io
import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pypdf
import pytest

import darby
from darby.papers import paper_set, render
from darby.words import say
from tests.papers.test_real_set import texts

EXAMPLE = Path(__file__).parents[2] / "examples" / "window-patch.toml"
ONE = (("en", "es"), ("es",), ("en",))


@cache
def made(languages=("en", "es"), system="us"):
    job = darby.load(EXAMPLE)
    return paper_set(darby.answer(replace(job, firm=replace(job.firm, languages=languages, system=system))))


@cache
def pages(name, languages=("en", "es"), system="us"):
    reader = pypdf.PdfReader(io.BytesIO(render(made(languages, system)[name])))
    return tuple(" ".join(page.extract_text().split()) for page in reader.pages)


def test_the_set_has_everything_a_crew_and_a_customer_need():
    assert {"quote.pdf", "crew-window.pdf", "patch.pdf", "tickets.pdf", "working.pdf"} <= set(made())


@pytest.mark.parametrize("languages", ONE, ids="-".join)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_it_is_three_pages_at_most_and_ends_no_value_with_two_points(languages, system):
    sheets = pages("patch.pdf", languages, system)
    assert len(sheets) <= 3
    assert not [t for t in texts(made(languages, system)["patch.pdf"]) if re.search(r"(?<!\.)\.\.(?!\.)", t)]


def test_every_finding_and_every_side_stands_on_it():
    paper = made()["patch.pdf"]
    (wall,), (patch,) = paper.found, paper.patches
    assert [row.does.first for row in wall.rows] == ["cut out", "test first", "leave", "test first", "test first"]
    assert wall.rows[0].does.second == "cortar"
    assert [row.width for row in wall.rows] == ["", "", "1/32 in.", "3/32 in.", ""]
    assert [(row.side.first, row.back) for row in patch.rows] == [
        ("Head", "12 in."), ("Sill", "12 in."), ("Left side", "12 in."), ("Right side", "12 in."),
    ]  # fmt: skip
    assert patch.rows[3].depths == ("12 in.", "7 3/8 in.", "5 3/8 in.", "12 in.")
    assert [step.first.split()[0] for step in patch.steps] == [
        "Saw", "Leave", "Sill", "Then", "Then", "Head", "The", "Bend", "Wet",
    ]  # fmt: skip


def test_the_wall_is_drawn_with_its_cracks_lettered_and_its_hollow_hatched():
    (wall,), (patch,) = made()["patch.pdf"].found, made()["patch.pdf"].patches
    assert "1/32 in." in wall.picture.svg and "3/32 in." in wall.picture.svg
    for role in ("d-hollow", "d-crack-moving", "d-loose", "d-tap"):
        assert role in wall.picture.svg
    keyed = {item.text for item in wall.picture.key}
    assert {say(f"drawing.key.{role}") for role in ("hollow", "loose", "crack", "crack moving", "tap")} <= keyed
    assert {say("drawing.key.new paper"), say("drawing.key.lath tie")} <= {i.text for i in patch.picture.key}


def test_what_hurts_stands_on_it_in_both_languages():
    said = " ".join(pages("patch.pdf"))
    for words in ("Lead.", "Plomo.", "Asbestos.", "Asbesto.", "Power lines.", "Cables de luz.", "Falls.",
                  "Dust at the saw.", "Wet cement burns."):  # fmt: skip
        assert words in said


def test_the_customer_hears_what_was_found_besides_and_how_it_is_cut():
    said = " ".join(pages("quote.pdf", ("en",)))
    assert "Found besides, and not mended at this price: hollow, by the taps (test first); crack" in said
    assert "The old plaster is cut back to a line" in said
    spanish = " ".join(pages("quote.pdf", ("es",)))
    assert "Hallado además" in spanish and "se corta hasta una línea" in spanish


def test_the_crew_hears_how_deep():
    assert "As deep as the old work, 1 in." in " ".join(pages("crew-window.pdf", ("en",)))


def test_a_job_without_old_work_has_no_such_sheet():
    assert "patch.pdf" not in paper_set(darby.answer(darby.load(EXAMPLE.parent / "garden-wall.toml")))


def test_what_holds_for_every_edge_is_said_once_of_all_of_them():
    old = [c.text for c in made()["crew-window.pdf"].cautions if c.opening.first == "Where it meets old work."]
    (text,) = old
    assert text.first.startswith("At the foot, the right edge, the top, the left edge cut the old work to a sound edge")
    assert text.second.startswith("En el pie, la orilla derecha, lo alto, la orilla izquierda corte lo viejo")


def test_old_paint_is_not_blasted_and_eyes_are_kept():
    said = " ".join(texts(made()["crew-window.pdf"]))
    assert "and blast none" in said
    assert "ni le dé chorro" in said
    assert "Gloves, glasses" in said
    assert "Guantes, lentes" in said
