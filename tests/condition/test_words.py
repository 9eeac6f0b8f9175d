"""Everything the room says has its sentence in both languages, and nothing stands there that nobody says."""

import re
from pathlib import Path

import pytest

import darby.condition
from darby.condition import CoatOn, Hollow, Loose, MixOn
from darby.measure import length
from darby.measure.units import unit
from darby.words import LANGUAGES, catalogue, say
from darby.working import Quantity

from .asking import ROUND, box, crack, inch, patched, surveyed

ROOM = Path(darby.condition.__file__).parent
YEAR = ((0, 0.8, 0), (120, 0.8, 20), (240, 0.8, 10))


def everything():
    """Workings that between them say all there is to say of surveys and patches."""
    for n, (push, lath) in enumerate((("gives", None), ("firm", None), (None, "loose"), (None, None))):
        yield surveyed(hollow=(Hollow(f"h{n}", box(1, 1, 2, 3), push=push, lath=lath),))
    for readings, said in (
        ((), {"width": inch("1/16")}), ((), {"width": inch("1/8")}), (YEAR, {"width": inch("1/8")}), ((), {}),
        ((), {"leaks": True}), ((), {"returned": True}), (((0, 1, 0), (9, 2, 9)), {}), (((0, 1, 9), (9, 2, 0)), {}),
        (((0, 1, None), (9, 2, 0)), {}), (((0, 1, 0),), {"width": inch("1/64")}),
    ):  # fmt: skip
        yield surveyed(cracks=(crack(*readings, **said),))
    yield surveyed(cracks=(crack((0, 1, 0), gauge=None),), loose=(Loose("l", box(1, 1, 1, 1)),))
    yield surveyed(loose=(Loose("l", box(1, 1, 1, 1)),), built=2000,
                   pace=Quantity(length("1 ft") ** 2 / 36, unit("sq ft/h")))  # fmt: skip
    one = Quantity(1, unit(""))
    for papers, lathed in ((2, True), (0, False)):
        yield patched(
            lathed=lathed, papers=papers, old="soft", total=Quantity(inch(1), unit("in")), width=inch(6),
            hollow=(("left", inch(30)), ("right", inch(9))), lines=(("right", inch(5)), ("head", inch(20))),
            room=(("left", inch(9)),),
            mixes=(MixOn("scratch"), MixOn("brown", (("lime", one),)), MixOn("finish", (("portland", one),))),
            coats=(CoatOn("scratch", Quantity(inch(1), unit("in")), Quantity(90000, unit("h"))),
                   CoatOn("finish", Quantity(inch(1), unit("in")))),
        )  # fmt: skip
    yield patched(lathed=True, papers=1, old_depth=inch(1), cut=Quantity(length("1 ft") ** 2 / 600, unit("sq ft/h")),
                  lines=tuple((side, inch(9)) for side in ROUND))  # fmt: skip


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_note_and_step_can_be_said(language):
    said = set()
    for answer, working in everything():
        notes = (*working.notes, *getattr(answer, "order", ()))
        for note in notes:
            assert say(note.code, note.values, language)
            said.add(note.code)
        for step in working.steps.values():
            assert "{" not in catalogue(language)[step.says]
            said.add(step.says)
    room = re.compile(r"condition\.(survey|patch|order)\.")
    assert said == {code for code in catalogue(language) if room.match(code)}


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_sentence_ends_in_a_value_whose_unit_ends_in_a_point(language):
    """ "12 in..": a length may not stand last in a sentence."""
    ends = re.compile(r"\{(lap|tie|wire|back|room|line|least|width|depth|limit|total)\}\.")
    assert [c for c, s in catalogue(language).items() if c.startswith("condition.") and ends.search(s)
            and "readings" not in c] == []  # fmt: skip
