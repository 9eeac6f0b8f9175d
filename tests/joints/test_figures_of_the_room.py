"""Figures that nobody published: common practice, memory, trial. And: every figure of the room decides something."""

from __future__ import annotations

import ast
import tomllib
from importlib import resources
from pathlib import Path

import pytest

from tests.joints.asking import BOOK, ft, plain, run

TESTS = Path(__file__).parents[1]


def test_the_rod_is_common_practice() -> None:
    # common practice, no source
    figure = BOOK["joint.rod.practice"]
    assert (figure.standing, figure.number) == ("common practice", pytest.approx(0.25))


def test_corners_first_is_common_practice() -> None:
    # common practice, no source
    assert BOOK.rule("joint.corners").figure.id == "joint.corners.practice"
    assert BOOK["joint.corners.practice"].standing == "common practice"


@pytest.mark.parametrize(
    ("name", "value"), [("joint.expansion.block.tms402", 4.5e-6), ("joint.shrinkage.mortar.neville", 0.00085)]
)
def test_what_is_from_memory_says_so(name: str, value: float) -> None:
    # from memory, not checked against the standard
    figure = BOOK[name]
    assert (figure.standing, figure.unit.from_si(figure.number)) == ("memory", pytest.approx(value, rel=1e-9))


def test_memory_does_not_rule_where_a_better_standing_speaks() -> None:
    ruled = BOOK.rule("joint.expansion", base="block")
    assert ruled.figure.id == "joint.expansion.block.masonry-2003"
    assert [f.id for f in ruled.others] == ["joint.expansion.block.tms402"]


def test_how_much_is_looked_at_is_our_own_trial() -> None:
    assert (BOOK["joint.search.trial"].standing, BOOK["joint.search.trial"].number) == ("trial", 400_000)


def rows() -> list[dict[str, str]]:
    text = resources.files("darby.rulebook").joinpath("joints.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)["figure"]


def test_every_subject_is_asked_for_by_the_room() -> None:
    literals = {
        node.value
        for path in resources.files("darby.joints").iterdir() if path.name.endswith(".py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }  # fmt: skip
    assert {row["subject"] for row in rows()} - literals == set()


def test_every_figure_is_named_by_a_check() -> None:
    texts = [p.read_text(encoding="utf-8") for p in ((TESTS / "published").glob("*.py"))]
    texts += [p.read_text(encoding="utf-8") for p in (TESTS / "joints").glob("*.py")]
    assert [row["id"] for row in rows() if not any(f'"{row["id"]}"' in text for text in texts)] == []


def test_limits_are_the_ones_that_the_build_up_names() -> None:
    answer, _ = run(plain(30, 9))
    note = next(n for n in answer.notes if n.code == "joints.limits")
    assert note.rules == ("parting.panel-area.c1063", "parting.panel-side.c1063", "parting.panel-ratio.c1063")
    below, _ = run(plain(30, 9), position="horizontal")
    note = next(n for n in below.notes if n.code == "joints.limits")
    assert note.rules[0] == "parting.panel-area.ceiling.c1063"


def test_two_piece_joints_go_where_the_newsletter_says() -> None:
    answer, _ = run(plain(30, 18), floor_lines=(ft(9),))
    assert next(n for n in answer.notes if n.code == "joints.kind.expansion").rules == ("joint.two-piece.newsletter",)
