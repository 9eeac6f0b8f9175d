"""Everything the room says has its sentence in both languages, and every sentence is said somewhere."""

from __future__ import annotations

import re
import tomllib
from decimal import Decimal
from importlib import resources

import pytest

from darby.grounds import FinishedAsk, Straightedge, check_finished
from darby.grounds.model import FACES, HELD
from darby.words import LANGUAGES, catalogue, say

from .asking import BOOK, FOOT, INCH, feet, grid, opening, run
from .walls import rough

OWN = [
    tomllib.loads(resources.files("darby.words").joinpath(f"{language}/grounds.toml").read_text(encoding="utf-8"))
    for language in LANGUAGES
]
FAULTS = {
    f"grounds.{x}"
    for x in ("few", "in-line", "off-wall", "in-opening", "disagree", "one-side", "close", "no-number", "least",
              "no-wall", "points-or-csv", "no-csv", "not-upright")
}  # fmt: skip


@pytest.fixture(scope="module")
def spoken():
    deep = (*grid(20, 10, lambda u, v: -2 if u == 10 else 0), *feet([(5, 5, "1/4")]))
    notes, codes = [], set()
    for found, working in (
        run(rough(20, 10, 1), price=Decimal("800"), face="leaning"),
        run(deep, fixed=feet([(0, 5, 1), (10, 5, 2), (20, 5, 1)])),
        *(run(deep, held=held, base="brick") for held in HELD),
        run((*grid(20, 10), *feet([(5, 5, "-1/2"), (15, 5, "-3/10")]))),
        run((*grid(20, 10), *feet([(9, 5, "3/8"), (15, 5, -1)])), price=Decimal("800")),
        run((*grid(20, 10), *feet([(9, 5, "3/8")]))),
        run(feet((u, v, 0) for u in (5, 15) for v in (4, 6)), straightedges=(Straightedge(5 * FOOT, INCH / 8),)),
        run(feet([(4, 1, 0), (16, 1, 0), (4, 9, 0), (16, 9, 0), (10, 5, "1/2"), (11, 5, 0)]), face="leaning",
            openings=(opening("door", 2, 2, 1, 4),)),
        run(feet([(6, 4, 0), (6, 6, 0), (14, 4, 1), (14, 6, "-1/2"), (11, 5, 0), (9, 5, "1/2")]), face="leaning"),
    ):  # fmt: skip
        notes += found.notes
        codes |= {s.says for s in working.steps.values()}
        codes |= {s.method for s in working.steps.values() if hasattr(s, "method")}
        codes |= {f.look for f in found.faces}
    for rows in (
        feet([(0, 4, 0), (4, 4, "1/8"), (9, 4, "1/2")]),
        feet([(0, 4, 0), (2, 4, 0), (4, 4, 0), (8, 4, 1)]),
        feet([(0, 4, 0), (6, 4, "1/16"), (20, 4, 0)]),
        feet([(0, 4, 0), (2, 4, "1/16"), (4, 4, 0)]),
    ):
        found, working = check_finished(FinishedAsk(BOOK, "bay-south", rows))
        notes += found.notes
        codes |= {s.says for s in working.steps.values()} | {s.method for s in working.steps.values()}
    codes |= {f"grounds.face.{name}" for name in FACES}
    codes |= {f"grounds.held.name.{how.replace(' ', '-')}" for how in HELD}
    codes |= {"grounds.bend.hollow", "grounds.bend.crown"}
    return notes, codes


def test_every_note_can_be_said_in_both_languages_and_systems(spoken):
    for note in spoken[0]:
        for language in LANGUAGES:
            for system in ("us", "metric"):
                text = say(note.code, note.values, language, system)
                assert "{" not in text
                assert "grounds." not in text, text
                assert ".." not in text, text


def test_every_title_and_method_has_its_word(spoken):
    for code in spoken[1]:
        for language in LANGUAGES:
            assert code in catalogue(language), code


def test_no_sentence_is_left_that_nobody_says(spoken):
    said = {n.code for n in spoken[0]} | spoken[1] | FAULTS
    assert [code for code in OWN[0] if not code.startswith("word.") and code not in said] == []


def test_both_languages_say_the_same_things_with_the_same_values():
    english, spanish = OWN
    assert list(english) == list(spanish)
    for code, sentence in english.items():
        assert set(re.findall(r"{(\w+)}", sentence)) == set(re.findall(r"{(\w+)}", spanish[code])), code
        assert sentence != spanish[code], code
