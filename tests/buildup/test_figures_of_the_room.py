"""Figures that nobody published: common practice and memory. And: every figure of the room decides something."""

import ast
import re
import tomllib
from importlib import resources
from pathlib import Path

import pytest

from .asking import BOOK, chosen, printed, sixteenths

FILES = ("thickness", "coats", "curing", "preparing", "parting", "finishes")
TESTS = Path(__file__).parents[1]


@pytest.mark.parametrize(
    ("figure", "value"),
    [("thickness.joints-show.practice", 0.5), ("thickness.block.heavy-skim.practice", 0.25),
     ("thickness.dash-bond.practice", 0.0625), ("prep.paper.practice", 2), ("prep.paper.old-plaster.practice", 2),
     ("thickness.scraped-finish.practice", 0.1875), ("prep.test-hours.practice", 3)],
)  # fmt: skip
def test_common_practice_says_so(figure, value):
    # common practice, no source
    assert printed(figure) == (value,)
    assert BOOK.figures[figure].standing == "common practice"


def test_the_scratch_coat_overhead_is_from_memory_and_says_so():
    # from memory, not checked against the standard
    assert printed("thickness.scratch.lath-ceiling.c926") == (0.25,)
    assert BOOK.figures["thickness.scratch.lath-ceiling.c926"].standing == "memory"
    assert sixteenths(chosen(base="frame", position="horizontal").coats[0].nominal) == ("1/4",)


def rows():
    for name in FILES:
        text = resources.files("darby.rulebook").joinpath(f"{name}.toml").read_text(encoding="utf-8")
        yield from tomllib.loads(text)["figure"]


def test_every_subject_is_asked_for_by_the_room():
    source = "".join(p.read_text(encoding="utf-8") for p in resources.files("darby.buildup").iterdir()
                     if p.name.endswith(".py"))  # fmt: skip
    literals = {n.value for n in ast.walk(ast.parse(source.replace("from __future__ import annotations", "")))
                if isinstance(n, ast.Constant) and isinstance(n.value, str)}  # fmt: skip
    built = {f"thickness.{base}.{way}" for base in ("block", "concrete") for way in ("two-coat", "three-coat")}
    built |= {"thickness.scratch", "thickness.finish", "thickness.dash-bond"}
    built |= {f"cure.hot-{what}" for what in ("still", "windy", "wind")}
    assert {r["subject"] for r in rows()} - literals - built == set()


def test_every_number_is_pinned_by_a_published_check_or_here():
    """Its id stands in a test as a whole, or as the part that a template of ``printed(...)`` is filled with."""
    texts = [p.read_text(encoding="utf-8") for p in (*(TESTS / "published").glob("*.py"), Path(__file__))]
    filled = [(re.findall(r'printed\(f"([^"{]*)\{figure\}([^"]*)"\)', text), text) for text in texts]

    def pinned(name):
        for templates, text in filled:
            if f'"{name}"' in text:
                return True
            for head, tail in templates:
                middle = name[len(head) : len(name) - len(tail)]
                if name == f"{head}{middle}{tail}" and f'"{middle}"' in text:
                    return True
        return False

    assert [row["id"] for row in rows() if row.get("kind") != "rule" and not pinned(row["id"])] == []
