"""Everything the room says has its sentence in both languages, and every value its place in one of them."""

import re
import tomllib
from importlib import resources
from itertools import product
from typing import get_args

import pytest

from darby.buildup import MeetsOld, Override, OwnCoat, care
from darby.buildup.model import DOUBTFUL, FINISHES, OPTIONS, Place, Tried
from darby.words import LANGUAGES, catalogue, say

from .asking import BOOK, DAY, HOUR, following, inch, run

OWN = [
    tomllib.loads(resources.files("darby.words").joinpath(f"{language}/buildup.toml").read_text(encoding="utf-8"))
    for language in LANGUAGES
]


def everything():
    """Answers and workings that between them say all there is to say."""
    for base, position, cure in product(
        ("block", "concrete", "frame", "lath over block"), ("vertical", "horizontal"), (None, "nwcb", "pca")
    ):
        yield run(base=base, position=position, cure=cure)
    for suction, joints, weight in product(
        ("high", "usual", "low", "none", None), ("flush", "struck"), ("lightweight", None)
    ):
        yield run(suction=suction, joints=joints, weight=weight, out_of_plane=inch("5/8"))
    for finish in FINISHES:
        yield run(finish=finish, paint=True)
    yield run(base="concrete", suction="usual", out_of_plane=inch("5/16"))
    yield run(base="concrete", out_of_plane=inch("3/8"), book=following(thickness_finish="indian-river"))
    yield run(base="lath over block", out_of_plane=inch("5/8"))
    yield run(base="frame", cure="double-back", sheathing="open studs", stud_spacing=inch("30"),
              above_earth=inch("1"), above_paving=inch("1"))  # fmt: skip
    yield run(base="frame", sheathing="open studs", position="horizontal")
    for base, total in product(("block", "frame"), ("3/8", "3/4", "7/8", "2")):
        edges = (MeetsOld("left", proud=inch("7/8")), MeetsOld("right", thickness=inch("1/4")), MeetsOld("top"),
                 MeetsOld("foot", "roof"), MeetsOld("door", "trim"), MeetsOld("end", "other base"))  # fmt: skip
        if (base, total) != ("frame", "3/8"):
            yield run(base=base, meets=edges, override=Override(inch(total), why="because"))
    for hours in (1, 500):
        coats = (OwnCoat("base", wait=hours * HOUR, moist=hours * HOUR), OwnCoat("finish", thickness=inch("1/4")))
        yield run(choose="single-base", override=Override(coats=coats))
    yield run(base="frame", choose="double-back", override=Override(coats=(OwnCoat("scratch", wait=DAY),)))
    yield from of_doubtful_bases()
    for brick in ("soft", "sound", None):
        yield run(base="brick", brick=brick)
    yield run(base="stone")
    for sand in ("16/20", "20/30", "30"):
        yield run(sand=sand, colored=True)
    yield run(finish="pebble", override=Override(inch("7/16"), (OwnCoat("finish", inch("5/16")),)))
    for place in get_args(Place):
        yield run(place=place, retains=inch("36"), sprinklers=True)
    yield run(suction="usual", choose="heavy-skim", override=Override(coats=(OwnCoat("skim", inch("3/8")),)))


def of_doubtful_bases():
    for base in DOUBTFUL:
        for tests in (None, Tried(tap="hollow"), Tried(pull="let go"), Tried("holds", "soaks in", "sound", "held"),
                      Tried("holds", "beads", "sound", "held")):  # fmt: skip
            yield run(base=base, tests=tests, behind="frame")
    yield run(base="painted plaster", tests=Tried(pull="let go"), behind="block")


@pytest.fixture(scope="module")
def spoken():
    notes, plain = [], set()
    for answer, working in everything():
        notes += working.notes
        plain |= {f"buildup.option.{o}" for o in OPTIONS}
        for o in answer.options:
            notes += [*o.reasons, *o.cautions]
            plain |= {f"buildup.prep.{p}" for p in o.preparation} | {f"buildup.how.{p.how}" for p in o.parting}
            plain |= {f"buildup.lath.{o.lath}"} if o.lath else set()
            for c in o.coats:
                plain |= {f"buildup.coat.{c.name}", f"buildup.sand.{c.sand}"}
                plain |= {f"buildup.coat-note.{n}" for n in c.notes}
        plain |= {s.says for s in working.steps.values()}
    for air, wind, damp in ((0.0, 0, 0.5), (40.0, 0, 0.8), (34.0, 10, None)):
        notes += care(BOOK, "job", air_c=air, wind=wind, humidity=damp)
    return notes, plain


def test_every_note_can_be_said_in_both_languages(spoken):
    notes, _ = spoken
    for note in notes:
        for language in LANGUAGES:
            text = say(note.code, note.values, language)
            assert "{" not in text
            assert ".." not in text, text
            assert "buildup." not in text, text


def test_every_title_has_its_word(spoken):
    for code in spoken[1]:
        for language in LANGUAGES:
            assert code in catalogue(language), code


def test_no_sentence_is_left_that_nobody_says(spoken):
    notes, plain = spoken
    faults = {f"buildup.{x}" for x in ("no-such-profile", "no-such-option", "no-such-finish", "no-such-coat",
                                       "coats-not-total", "no-room")}  # fmt: skip
    said = {n.code for n in notes} | plain | faults
    words = {str(v) for n in notes for _, v in n.values if str(v).startswith("buildup.")}
    dead = [c for c in OWN[0] if c not in said and c.removeprefix("word.") not in words]
    assert [c for c in dead if not c.startswith("word.")] == []


def test_both_languages_say_the_same_things_with_the_same_values():
    english, spanish = OWN
    assert list(english) == list(spanish)
    for code, sentence in english.items():
        assert set(re.findall(r"{(\w+)}", sentence)) == set(re.findall(r"{(\w+)}", spanish[code])), code
        assert sentence != spanish[code], code
