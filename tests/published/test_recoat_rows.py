"""Published rows that a re-coat stands on: cracks that return, paint, lath over what cannot bond, C926 on lath."""

import pytest

from darby.answers.ladder import WHY
from darby.measure.units import IN
from darby.rulebook import default
from tests.condition.test_recoat_ladder import rungs
from tests.published import checked

BOOK = default()


@checked("copied figure", "SMA, Stucco Crack Policy, as reprinted by a contractor: wide and returning cracks")
def test_a_crack_wider_than_a_sixteenth_has_movement_behind_it():
    figure = BOOK.rule("recoat.cracks-return").figure
    assert (figure.written, figure.standing) == ("1/16 in", "second-hand")
    assert float(figure.number) / float(IN) == pytest.approx(1 / 16)
    assert all(figure.id in rung.rules and {"cracks", "movement"} & {*rung.leaves} for rung in rungs().values())


@checked("copied figure", "PCA, Stucco FAQ, bonding agents: painted masonry, hollow sheets")
def test_the_skim_stands_on_what_is_said_of_paint_and_of_hollow_plaster():
    assert {"prep.painted.pca", "prep.hollow.pca"} <= {*rungs()["skim"].rules}
    assert {"prep.hollow.pca"} <= {*rungs()["paint"].rules}


@checked(
    "copied figure", "Masonry Construction, Stuccoing over masonry: lath where nothing bonds or thickness is wanted"
)
def test_lath_is_what_is_left_where_nothing_bonds():
    assert "prep.lath-needed.masonry-construction" in rungs()["lath"].rules
    assert "bond" in rungs()["lath"].cures


@checked("our arithmetic", "C926 as reported: 7/8 in. of three coats on lath, over a frame that stands out 3/4 in.")
@pytest.mark.parametrize(("place", "short"), [("house-1/window-1", 3 / 8), ("house-1/window-2", 5 / 8)])
def test_three_coats_on_lath_pass_the_usual_frame(place, short):
    """3/4 in. less 7/8 in. leaves it 1/8 in. behind the face, and 1/4 in. should be kept."""
    (check,) = (c for c in rungs()["lath"].short if c.at == place)
    assert check.short.value / float(IN) == pytest.approx(short)


def test_every_reason_is_in_the_book():
    assert all(BOOK.rule(subject).figure.standing for subjects in WHY.values() for subject in subjects)
