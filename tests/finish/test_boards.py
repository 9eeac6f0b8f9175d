"""How an old face may have been made, and the boards that bracket it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.finish import OwnBoard, Signed
from darby.finish.model import METHODS
from darby.words import catalogue
from tests.finish.asking import FACE, INCH, MM, NAMED, codes, grams, kept_of, matched, said, sieve

FINE = grams(n16=0, n20=60, n30=40, pan=0)


def sands(found):
    return [(b.fine.name, b.coarse.name) for b in found.boards]


def test_sand_is_bracketed_by_opening():
    found = matched(sand=FINE)
    assert sands(found) == [("No. 30", "No. 20"), ("No. 20", "No. 16"), ("No. 16", "No. 8")]
    assert found.varies == "sand"
    assert [b.step for b in found.boards] == ["finer", "as read", "coarser"]
    assert found.order == (2, 1, 3)


def test_under_paint_the_coarser_is_tried_before_the_finer():
    assert matched(sand=FINE, paint_coats=2).order == (2, 3, 1)


def test_a_thrown_face_of_known_sand_changes_its_throw():
    found = matched(looks="dash")
    assert found.varies == "throw"
    assert set(sands(found)) == {("No. 8", "No. 4")}
    assert [b.how for b in found.boards] == [f"finish.how.dash.{s}" for s in ("finer", "as-read", "coarser")]


@pytest.mark.parametrize(
    "fields", [{"paint_coats": 1}, {"by": "grains", "sand": (), "grains": ((NAMED["No. 8"], NAMED["No. 4"]),)}]
)
def test_where_the_sand_is_in_doubt_the_sand_changes(fields):
    assert matched(looks="dash", **fields).varies == "sand"


def test_depth_within_the_grain_is_a_float_and_past_it_is_not():
    # largest grain 1.18 mm = 46.5 mil
    assert [c.method for c in matched(sand=FINE, mils=(40, 42, 44)).methods] == ["float", "scraped", "skip trowel"]
    assert [c.method for c in matched(sand=FINE, mils=(90, 92, 94)).methods] == ["dash", "skip trowel", "lace"]


def test_the_limit_is_the_grain_itself():
    assert "relief-within" in codes(matched(sand=FINE, mils=(46,)).notes)
    assert "relief-past" in codes(matched(sand=FINE, mils=(47,)).notes)


def test_stone_was_thrown():
    found = matched(sand=kept_of({"3/8 in.": 0, "4": 80, "pan": 20}, "g"))
    assert [c.method for c in found.methods] == ["wet dash", "pebble"]
    assert said(found.notes, "stone")["fine"] == "No. 4 (4.75 mm)"
    assert "stone" not in codes(matched().notes)


def test_what_he_sees_goes_first():
    found = matched(sand=FINE, mils=(40, 42), looks="lace")
    assert [c.method for c in found.methods] == ["lace", "float", "scraped"]
    assert found.methods[0].because == "finish.because.looks"
    assert {b.method for b in found.boards} == {"lace"}


def test_without_depth_a_float_and_a_dash_are_both_open():
    assert [c.method for c in matched(sand=FINE).methods] == ["float", "dash", "scraped"]


def test_a_board_is_no_thinner_than_coat_grain_or_relief():
    thick = [float(b.thickness) for b in matched(sand=FACE).boards]
    assert thick == pytest.approx([float(INCH / 8), float(4.75 * MM), float(9.5 * MM)])
    deep = matched(sand=FINE, mils=(300, 300)).boards
    assert [float(b.thickness.value / INCH) for b in deep] == pytest.approx([0.3] * 3)


def test_past_the_sieves_of_the_book_the_ladder_is_short_and_says_so():
    found = matched(sand=kept_of({"3/8 in.": 0, "4": 80, "pan": 20}, "g"), paint_coats=1)
    assert sands(found) == [("No. 8", "No. 4"), ("No. 4", "3/8 in.")]
    assert "ladder-short" in codes(found.notes)
    assert "ladder-short" not in codes(matched().notes)


def test_his_own_boards_stand_instead():
    own = (
        OwnBoard(sieve("30"), sieve("20"), "float", INCH / 8, "tight"),
        OwnBoard(sieve("20"), sieve("16")),
    )
    found = matched(sand=FINE, boards=own, looks="dash", signed=Signed(2, "the owner"))
    assert sands(found) == [("No. 30", "No. 20"), ("No. 20", "No. 16")]
    assert [(b.method, b.own, b.signed) for b in found.boards] == [("float", "tight", False), ("dash", "", True)]
    assert (found.varies, found.order) == ("own", (1, 2))
    assert said(found.notes, "signed") == {"board": 2, "by": "the owner"}


def test_who_judges_and_from_where():
    found = matched()
    assert (found.seen_from.number, found.side.number) == (pytest.approx(3.048), pytest.approx(0.6096))
    assert found.light.standing == found.seen_from.standing == "common practice"
    (note,) = (n for n in found.notes if n.code == "finish.boards-decide")
    assert note.rules == (found.seen_from.id, found.light.id)
    assert "sun" in found.light.written


@pytest.mark.parametrize(
    ("wanted", "sand", "said_of"),
    [("16/20", FINE, False), ("20/30", FINE, True), ("30", FINE, True), ("16/20", FACE, True)],
)
def test_the_jobs_sand_is_held_to_what_was_read(wanted, sand, said_of):
    assert ("other-sand" in codes(matched(sand=sand, wanted_sand=wanted).notes)) is said_of


def test_the_jobs_finish_is_held_to_what_he_sees():
    assert "other-finish" in codes(matched(looks="dash", wanted="float").notes)
    assert "other-finish" not in codes(matched(looks="float", wanted="float").notes)


def test_both_sides_are_painted_or_the_seam_shows():
    assert "new-side-bare" in codes(matched(new_painted=False).notes)
    assert "both-painted" in codes(matched(new_painted=True).notes)
    assert {"new-side-bare", "both-painted"}.isdisjoint(codes(matched().notes))


@given(
    st.sampled_from([None, *METHODS]),
    st.sampled_from(list(NAMED)[1:-1]),
    st.lists(st.integers(0, 400), max_size=4),
    st.integers(0, 3),
)
def test_every_board_has_a_sand_a_way_and_words_for_it(looks, top, depths, coats):
    names = list(NAMED)
    rows = dict.fromkeys((names[names.index(top) - 1], top), 0) | {top: 5, "pan": 1}
    found = matched(sand=kept_of(rows, "g"), looks=looks, mils=depths, paint_coats=coats)
    assert 2 <= len(found.boards) <= 3
    assert sorted(found.order) == [b.number for b in found.boards] == list(range(1, len(found.boards) + 1))
    for language in ("en", "es"):
        words = catalogue(language)
        for board in found.boards:
            assert board.how in words
            assert float(board.fine.opening) < float(board.coarse.opening) <= float(board.thickness) + float(INCH)
        assert all(c.tell in words and c.because in words for c in found.methods)
    if found.varies == "sand":
        openings = [float(b.fine.opening) for b in found.boards]
        assert openings == sorted(set(openings))
