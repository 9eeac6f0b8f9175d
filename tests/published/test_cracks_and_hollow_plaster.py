"""What publications say of cracks, hollow plaster and patches, held to what a survey and a patch ask for."""

import pytest

from darby.condition import Hollow
from darby.measure import length
from darby.rulebook import default
from tests.condition.asking import ROUND, box, crack, found, inch, patched, surveyed
from tests.condition.test_patch import ins
from tests.published import checked

BOOK = default()
POLICY = "Stucco Manufacturers Association, Stucco Crack Policy, undated, as reprinted by a contractor"
BOND = "Portland Cement Association, Stucco FAQ, bonding agents"
PAPER = "Uniform Building Code, section 1402, as reported"
YEAR = ((0, 2.0, 0), (120, 2.0, 20), (240, 2.0, 10))


@checked("copied figure", f"{POLICY}: cracks over 1/16 in. may be filled, finer ones are left or fog coated")
@pytest.mark.parametrize(("width", "does"), [("1/32", "leave"), ("1/16", "leave"), ("5/64", "fill"), ("1/8", "fill")])
def test_a_still_crack_is_filled_over_a_sixteenth(width, does):
    assert found(crack(*YEAR, width=inch(width)))[0].does == does


@checked("copied figure", f"{POLICY}: a crack that reopens after patching has movement behind it; monitor its width")
def test_a_crack_that_came_back_is_not_filled_again():
    got, working = found(crack(width=inch("1/32"), returned=True))
    assert got.does == "test first"
    assert "survey.returned.sma" in {rule for note in working.notes for rule in note.rules}
    assert BOOK.number("survey.returned").standing == "second-hand"


@checked("copied figure", f"{POLICY}: a crack that leaks is patched, however fine")
def test_a_crack_that_leaks_is_filled():
    assert found(crack(width=inch("1/64"), leaks=True))[0].does == "fill"


@checked("copied figure", f"{BOND}: plaster that has let go is cut out to sound, cleaned and roughened, a test pulled")
def test_plaster_that_has_let_go_is_cut_out():
    got, working = surveyed(hollow=(Hollow("h", box(1, 1, 2, 2), push="gives"),))
    assert got.findings[0].does == "cut out"
    assert "survey.hollow.pca" in {rule for note in working.notes for rule in note.rules}


@checked("our arithmetic", f"{PAPER}: 2 in. course on course, 6 in. end on end; past a 1-3/8 in. flange")
@pytest.mark.parametrize(
    ("side", "back"), [("head", 3.375), ("sill", 3.375), ("left", 7.375), ("right", 7.375)], ids=ROUND
)
def test_room_to_lap_paper(side, back):
    got, _ = patched(lathed=True, papers=2, flange=inch("1-3/8"))
    assert ins(got.side(side).paper) == back


@checked("copied figure", "a lath maker's note on ASTM C1063 section 7.8.1, 2015: laps wire tied at 9 in. or less")
def test_laps_of_lath_are_tied():
    wire = BOOK.number("patch.wire")
    assert (wire.number, wire.standing) == (float(length("9 in")), "second-hand")


@checked("our arithmetic", "Portland Cement Association, Stucco FAQ, installed weight, 142 lb a cubic foot, as quoted")
def test_what_comes_out_weighs():
    """18 sq ft, 7/8 in. deep: 18 x 0.875 / 12 x 142 = 186.375 lb."""
    got, _ = patched(old_depth=inch("7/8"), lines=tuple((side, inch(12)) for side in ROUND))
    assert float(got.weight.unit.from_si(got.weight.value)) == pytest.approx(186.375)


@checked("copied figure", "EPA, 40 CFR 745 Subpart E: homes built before 1978")
@pytest.mark.parametrize(("built", "does"), [(1960, "test first"), (1977, "test first"), (1978, "take off")])
def test_loose_paint_before_1978_is_tested(built, does):
    from darby.condition import Loose

    got, _ = surveyed(loose=(Loose("l", box(1, 1, 1, 1)),), built=built)
    assert got.findings[0].does == does
