"""Every code this room hands out is a sentence in both languages, and every note can be said."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

import darby.quantities
from darby.measure.units import FT, IN, LB, unit
from darby.quantities import Cover, EdgeRun, Film, Opening, OrderAsk, Ordered, SealedJoint, VolumesAsk, order, volumes
from darby.quantities.items import ITEMS, sentence_of
from darby.words import LANGUAGES, Language, catalogue, say
from darby.working import Working
from tests.quantities.asks import BAGGED, BUYS, SITE, SQ_FT, block, door, frame

ROOM = Path(darby.quantities.__file__).parent


def codes() -> Iterator[str]:
    for path in ROOM.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.startswith("quantities."):
                yield node.value


@pytest.mark.parametrize("language", LANGUAGES)
def test_codes_in_the_room_are_sentences(language: Language) -> None:
    plain = {c for c in codes() if not c.endswith((".", "-"))}
    assert plain <= set(catalogue(language))
    assert {sentence_of(i) for i in ITEMS} <= set(catalogue(language))
    assert {f"word.{sentence_of(i)}" for i in ITEMS} <= set(catalogue(language))


def everything() -> Working:
    """Workings of asks that make the room say nearly all it can."""
    every = Working()
    asks = (
        VolumesAsk("a", (block(300, door(), struck=True, out_of_plane=IN, bonding=True, primer=1, paint=1),)),
        VolumesAsk("b", (frame(300, door(Fraction(0)), studs=None, bonding=True),), opening_rule="half"),
        VolumesAsk("c", (frame(300, Opening("vent", Fraction(1, 10))),), opening_rule="greece"),
        VolumesAsk("d", (block(300, paint=1),)),
    )
    answers = []
    for ask in asks:
        answer, working = volumes(ask)
        answers.append(answer)
        every.add(working)
    kinds = ("outside corner", "top", "jamb", "moat", "grade")
    runs = tuple(EdgeRun(f"a/{k}", "a", "left", k, 10 * FT, "block") for k in kinds)
    chosen = EdgeRun("a/bullnose", "a", "left", "outside corner", FT, "block", accessory="none", why="bullnose")
    found, working = order(
        OrderAsk(
            tuple(answers),
            (SITE, BAGGED),
            (*runs, chosen),
            (SealedJoint("x", FT),),
            (Cover("a", SQ_FT, FT),),
            BUYS[:1],
            (
                Ordered("portland", Fraction(1), unit("bags")),
                Ordered("float-finish", Fraction(100), unit("bags")),
                Ordered("gravel", LB, unit("lb")),
                Ordered("sand", LB, unit("gal")),
            ),
            Film(Fraction(1, 2)),
        )
    )
    every.add(working)
    for line in found.lines:
        assert line.says in catalogue("en")
        for part in (*line.made_of, *line.also):
            assert part.says in catalogue("es")
    for edge in found.edges:
        assert edge.because in catalogue("es")
    return every


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_note_can_be_said_and_every_step_has_a_title(language: Language, system: str) -> None:
    working = everything()
    for n in working.notes:
        said = say(n.code, n.values, language, system)  # type: ignore[arg-type]
        assert "{" not in said
        assert "quantities." not in said
    for step in working.steps.values():
        assert "{" not in say(step.says, (), language)


def test_both_languages_say_the_same_things() -> None:
    import re

    english, spanish = catalogue("en"), catalogue("es")
    mine = {k for k in english if "quantities." in k}
    assert mine == {k for k in spanish if "quantities." in k}
    for k in mine:
        assert sorted(re.findall(r"{(\w+)}", english[k])) == sorted(re.findall(r"{(\w+)}", spanish[k]))
        if len(english[k].split()) > 3:
            assert english[k] != spanish[k]
