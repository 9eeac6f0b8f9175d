"""PCA, Stucco FAQ on bonding agents: painted masonry is cleaned and roughened; hollow sheets and their cause."""

import pytest

from darby.buildup.model import Tried
from tests.buildup.asking import BOOK, up
from tests.published import checked

FAQ = "PCA, Stucco FAQ, bonding agents"
HELD = Tried("holds", "beads", "sound", "held")


def rules(code, **fields):
    (note,) = (n for n in up(**fields).notes if n.code == f"buildup.{code}")
    return note.rules


@checked("copied figure", FAQ)
def test_painted_masonry_is_cleaned_and_roughened_first():
    figure = BOOK.rule("prep.painted").figure
    assert (figure.id, figure.standing) == ("prep.painted.pca", "read")
    assert "no guarantee" in figure.written


@checked("our arithmetic", f"{FAQ}: what follows for painted block and painted plaster")
@pytest.mark.parametrize("base", ["painted block", "painted plaster"])
def test_paint_that_holds_is_cleaned_roughened_and_dashed(base):
    answer = up(base=base, tests=HELD)
    assert answer.verdict == "roughen and bond"
    assert "prep.painted.pca" in rules("verdict.roughen-and-bond", base=base, tests=HELD)
    steps = answer.chosen.preparation
    assert steps[-3:] == ("clean", "roughen", "dash-bond")
    assert "bonding-agent" not in steps


@checked("our arithmetic", f"{FAQ}: painted, sealed or dirty bases are the cause of hollow sheets")
def test_what_sounds_hollow_comes_off():
    assert "prep.hollow.pca" in rules("verdict.do-not", base="painted plaster", tests=Tried(tap="hollow"))
    assert BOOK.rule("prep.hollow").figure.standing == "second-hand"
