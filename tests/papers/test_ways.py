"""The paper of ways to part a wall: every layout drawn, every panel with what is left to each limit."""

from __future__ import annotations

from pathlib import Path

import pytest

import darby
from darby.job import loads
from darby.papers.filled.drawn_walls import drawn_walls
from darby.papers.filled.paper_set import paper_set
from darby.papers.filled.ways import ways_paper
from darby.papers.filled.writer import Writer
from darby.papers.model import JointsPaper
from darby.papers.render import render
from darby.tables.pages import page_of
from darby.tables.setting import Setting
from tests.papers.test_filled import look_over

JOB = """
darby = 1
[job]
name = "Long wall"
as_of = 2026-09-30
[[wall]]
id = "long"
name = "Long wall"
length = "48'"
height = "10'"
base = "frame"
studs = "16 in"
openings = ["window 3' x 4' at 8' up 3'", "window 3' x 4' at 30' up 3'", "door 3068 at 20'"]
{more}
"""


def answered(more: str = "") -> darby.Answers:
    return darby.answer(loads(JOB.format(more=more)))


def made(more: str = "") -> JointsPaper:
    paper = ways_paper(Writer(answered(more)))
    assert paper is not None
    return paper


def test_every_layout_is_drawn_with_every_panel_and_the_taken_one_stands_first() -> None:
    answers = answered()
    laid = answers.of("joints", "long")
    (wall,) = made().walls
    assert len(wall.ways) == len(laid.layouts) > 1
    assert wall.ways[0].heading.startswith("Taken: ") and wall.ways[1].heading.startswith("Another way: ")
    for way, layout in zip(wall.ways, laid.layouts, strict=True):
        assert [row[0] for row in way.rows] == [panel.id for panel in layout.panels]
        assert all(f">{panel.id}<" in way.picture.svg for panel in layout.panels)
        assert all(all(row) for row in way.rows)


def test_the_one_he_chooses_is_the_one_that_is_taken() -> None:
    name = answered().of("joints", "long").layouts[1].name
    (wall,) = made(f'[[joints]]\nsurface = "long"\nchoose = "{name}"').walls
    assert wall.ways[0].heading != made().walls[0].ways[0].heading


def test_what_is_claimed_is_said() -> None:
    (wall,) = made().walls
    assert any(line.startswith("Looked at: ") for line in wall.claims)
    assert any("144 sq ft" in line for line in wall.rules)


def test_where_no_layout_holds_the_paper_says_which_limit_fails_and_what_mends_it() -> None:
    everywhere = '[[joints]]\nsurface = "long"\nnot_upright = ["0\' to 48\'"]\nnot_level = ["0\' to 10\'"]'
    (wall,) = made(everywhere).walls
    assert len(wall.ways) == 1
    assert any("No way to part it holds" in line for line in wall.claims)


def test_a_wall_that_needs_no_joint_is_on_no_such_paper() -> None:
    openings = JOB[JOB.index("openings") : JOB.index("{more}")]
    short = darby.answer(loads(JOB.replace(openings, "").replace("48'", "12'").format(more="")))
    assert ways_paper(Writer(short)) is None
    assert "joints.pdf" not in paper_set(short)


@pytest.mark.parametrize("language", ["en", "es"])
def test_it_is_a_tagged_paper_and_a_table_at_the_command_line(language: str, tmp_path: Path) -> None:
    assert look_over(render(made())) <= 2
    pages = page_of("joints", answered(), Setting(language, "metric"))  # type: ignore[arg-type]
    (page,) = [page for page in pages if len(page.heads) == 6]
    headings = [row for row in page.rows if len(row) == 1]
    assert len(headings) == len(answered().of("joints", "long").layouts)


def test_the_drawing_file_of_a_wall_on_lath_has_its_sheets_on_a_layer_of_their_own() -> None:
    text = drawn_walls(Writer(answered()))["wall-long.dxf"]
    assert isinstance(text, bytes)
    assert b"SHEETS" in text and b"STUDS" in text
