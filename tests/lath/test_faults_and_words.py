"""What cannot be laid is a clear fault; everything the room says is a sentence in both languages."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

import darby.lath
from darby.lath import Corner, LathAsk, Reveal, Roll, lay_lath
from darby.measure.faults import Unreadable
from darby.measure.units import FT, IN
from darby.words import LANGUAGES, Language, catalogue, say
from darby.working import Found, Working
from tests.lath.asking import box, framed, hole, inch, joint, over_block

WALL = framed(96, 96)


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (replace(WALL, outline=()), "lath.no-wall"),
        (replace(WALL, outline=box(0, 10, 0, 10)[:2]), "lath.no-wall"),
        (replace(WALL, outline=box(0, 10, 0, 0)), "lath.no-wall"),
        (replace(WALL, openings=(hole("all", -1, 97, -1, 97),)), "lath.no-wall"),
        (replace(WALL, count=0), "lath.count"),
        (replace(WALL, sheet=(inch(0), inch(97))), "lath.sheet-size"),
        (replace(WALL, sheet=(inch(5), inch(97))), "lath.sheet-size"),
        (replace(WALL, sheet=(inch(97), inch(27))), "lath.sheet-size"),
        (replace(WALL, side_lap=inch(14)), "lath.laps"),
        (replace(WALL, side_lap=inch(-1)), "lath.laps"),
        (replace(WALL, end_lap=inch(60)), "lath.laps"),
        (replace(WALL, studs=inch(0)), "lath.studs"),
        (replace(WALL, joints=(joint("s", (0, 0), (10, 10)),)), "lath.joint-slanted"),
        (replace(WALL, joints=(joint("s", (10, 10), (10, 10)),)), "lath.joint-slanted"),
        (replace(WALL, roll=Roll(2 * IN, 10 * FT)), "lath.roll"),
        (replace(WALL, roll=Roll(40 * IN, FT)), "lath.roll"),
    ],
)
def test_faults(ask: LathAsk, code: str) -> None:
    with pytest.raises(Unreadable) as wrong:
        lay_lath(ask)
    fault = wrong.value.fault
    assert fault.code == code
    for language in LANGUAGES:
        given = {"place": fault.place, "found": fault.found, "allowed": fault.allowed}
        assert "{" not in say(code, given, language)


def codes() -> Iterator[str]:
    for path in Path(darby.lath.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.startswith("lath."):
                yield node.value


SUBJECTS = {
    "lath.sheet.width", "lath.sheet.length", "lath.bundle.area", "lath.bundle.sheets", "lath.strip.least", "lath.tie",
    "lath.corner.return", "lath.fastener.along-studs", "lath.fastener.masonry-area",
}  # fmt: skip


@pytest.mark.parametrize("language", LANGUAGES)
def test_codes_in_the_room_are_sentences(language: Language) -> None:
    plain = {c for c in codes() if not c.endswith((".", "-"))} - SUBJECTS
    assert len(plain) > 30
    assert plain <= set(catalogue(language))


def everything() -> Working:
    every = Working()
    corners = (Corner("w", "left", "outside", "round"), Corner("e", "right", "inside", "strip"))
    window = hole("window", 30, 66, 30, 70, Reveal("head", inch(4)))
    joints = (joint("loose", (80, 0), (80, 40)), joint("sill", (66, 30), (180, 30)))
    asks = (
        LathAsk("a/z", box(0, 180, 0, 96), (window,), joints=joints, corners=corners),
        replace(framed(300, 54, studs=inch(120), side_lap=IN / 4), at="b/z"),
        replace(over_block(193, 54), at="c/z"),
        replace(framed(40, 20, paper=None), at="d/z"),
        replace(framed(161, 60, sheet=(inch(27), inch(96)), roll=Roll(40 * IN, 30 * FT)), at="e/z"),
    )
    for ask in asks:
        every.add(lay_lath(ask)[1])
    return every


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_note_can_be_said_and_every_step_has_a_title(language: Language, system: str) -> None:
    working = everything()
    assert len({n.code for n in working.notes}) >= 18
    for n in working.notes:
        said = say(n.code, n.values, language, system)  # type: ignore[arg-type]
        assert "{" not in said
        assert "lath." not in said
    for step in working.steps.values():
        assert "{" not in say(step.says, (), language)
        if isinstance(step, Found):
            assert say(step.method, (), language)
            assert step.proof
