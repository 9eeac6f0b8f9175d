"""Every note, title and fault of the room has its sentence in both languages, and every placeholder its value."""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from importlib import resources
from pathlib import Path

import pytest

import darby.joints
from darby.joints import Forbidden, Ground, Joints, JointsAsk, Pin, Sealing, lay_out_joints
from darby.measure import wall, zone
from darby.measure.shapes import WallSide
from darby.measure.surface import BASE_KINDS, Meets
from darby.measure.units import IN
from darby.words import LANGUAGES, catalogue, say
from darby.working import Working, line
from tests.joints.asking import BOOK, ft, hole, own, plain, run
from tests.joints.test_base import patched

ROOM = Path(darby.joints.__file__).parent
OWN = [
    tomllib.loads(resources.files("darby.words").joinpath(f"{language}/joints.toml").read_text(encoding="utf-8"))
    for language in LANGUAGES
]
F = Fraction


def everything() -> Iterator[tuple[Joints, Working]]:
    """Answers and workings that between them say all there is to say."""
    windows = hole("a", 2, 3, 3, 3), hole("b", 11, 3, 2, 3), hole("c", 18, 3, 2, 3), hole("d", 24, 3, 3, 3)
    everywhere = Forbidden("vertical", ft(0), ft(99)), Forbidden("horizontal", ft(0), ft(99))
    yield run(plain(10, 9))
    yield run(plain(30, 9))
    yield run(plain(30, 9), choose="smaller")
    yield run(plain(32, 9, *windows))
    yield run(plain(32, 9, *windows), limits=own(area=100))
    yield run(plain(32, 9, *windows), limits=own(area=200, side=20))
    yield run(plain(34, 19, hole("wide", 11, 3, 12, 4)), "lath over block")
    yield run(plain(48, 20), floor_lines=(ft(10),), sealing=Sealing(cold=-10, installed=15, moisture=F(1, 5000),
                                                                    shrinkage=True, tolerance=IN / 8))  # fmt: skip
    yield run(plain(30, 18), floor_lines=(ft(9),), forbidden=(Forbidden("horizontal", ft(9)),))
    yield run(patched())
    yield run(plain(60, 9), "block", block_joints=(ft(30),), pinned=(Pin("vertical", ft(15)),))
    beam = zone("beam", "concrete", [(ft(0), ft(8)), (ft(24), ft(8)), (ft(24), ft(9)), (ft(0), ft(9))])
    yield run(plain(24, 9, zones=(beam, zone("b", "block"))))
    yield run(plain(17, 9), forbidden=everywhere)
    yield run(plain(19, 7), forbidden=everywhere)
    yield run(plain(16, 6), forbidden=(everywhere[0], Forbidden("horizontal", ft(0), ft(6))))
    edges = {"left": WallSide("meets old work", meets=Meets("old plaster")), "right": WallSide("change of base")}
    yield run(wall("w", "w", ft(14), ft(9), top="floor line", **edges))  # type: ignore[arg-type]
    yield run(wall("w", "w", ft(14), ft(9), **edges), "stone")  # type: ignore[arg-type]
    yield run(wall("w", "w", ft(14), ft(9), **edges), "brick", sealing=Sealing(shrinkage=True))  # type: ignore[arg-type]
    frame = (Ground("", "frame", True),)
    sma = BOOK.following({"joint.lath": "sma"})
    yield lay_out_joints(JointsAsk(sma, plain(30, 9), frame))
    few = replace(BOOK["joint.search.trial"], value=2000.0, written="2000", why="slow", id="local.search")
    yield lay_out_joints(JointsAsk(BOOK.with_local([few]), plain(60, 9, *windows), frame))


@pytest.fixture(scope="module")
def spoken() -> list[tuple[Joints, Working]]:
    return list(everything())


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_note_can_be_said(spoken: list[tuple[Joints, Working]], language: str) -> None:
    for answer, w in spoken:
        assert answer.notes == tuple(w.notes)
        for note in w.notes:
            for system in ("us", "metric"):
                text = say(note.code, note.values, language, system)  # type: ignore[arg-type]
                assert "{" not in text and not re.search(r"joints\.[a-z]", text) and ".." not in text, text


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_step_and_layout_has_its_title(spoken: list[tuple[Joints, Working]], language: str) -> None:
    words = catalogue(language)  # type: ignore[arg-type]
    for answer, w in spoken:
        for step in w.steps.values():
            assert step.says in words
            assert "\n" in line(step) or "=" in line(step)
            assert getattr(step, "method", step.says) in words
        assert all(f"joints.layout.{x.name}" in words for x in answer.layouts)
        assert all(e.because in words for e in answer.edges)


def test_every_code_in_the_room_is_a_sentence_and_every_sentence_is_said() -> None:
    said: set[str] = set()
    for path in ROOM.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                said |= set(re.findall(r"joints\.[a-z.-]+[a-z]", node.value))
    names = ("best", "fewest", "through", "smaller", "base")
    made = {f"joints.{kind}.{name}" for kind in ("layout", "method", "other") for name in names}
    made |= {f"joints.limit.{name}" for name in ("area", "side", "ratio")}
    made |= {f"joints.axis.{name}" for name in ("vertical", "horizontal")}
    made |= {f"joints.moves.{base}" for base in BASE_KINDS if base != "painted block"}
    assert {code.removeprefix("word.") for code in OWN[0]} - said - made == set()
    heads = {"joints.limit", "joints.axis", "joints.moves", "joints.layout", "joints.method", "joints.other"}
    assert {c for c in said - heads if c not in OWN[0] and f"word.{c}" not in OWN[0]} == set()


def test_both_languages_say_the_same_things_with_the_same_values() -> None:
    english, spanish = OWN
    assert list(english) == list(spanish)
    for code, sentence in english.items():
        assert set(re.findall(r"{(\w+)}", sentence)) == set(re.findall(r"{(\w+)}", spanish[code])), code
        assert sentence != spanish[code] or code == "word.joints.axis.vertical", code


def test_all_notes_of_the_room_are_brought_out(spoken: list[tuple[Joints, Working]]) -> None:
    found = {n.code for _, w in spoken for n in w.notes}
    notes = {c for c in OWN[0] if c.startswith("joints.") and "{" in OWN[0][c]} - found
    faults = {c for c in notes if "{found}" in OWN[0][c] or "{allowed}" in OWN[0][c]}
    assert notes - faults == set()
