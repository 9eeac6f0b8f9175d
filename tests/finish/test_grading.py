"""The grains of an old face: shares, the largest that counts, the most common, the median; three ways to tell them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.finish import OnSieve, Sieve
from darby.measure import Unreadable
from darby.measure.units import unit
from darby.working import Quantity
from tests.finish.asking import FACE, MM, codes, grams, kept_of, matched, run, said, sieve

FOLLOW = ("4", "8", "16", "20", "30", "50")


def names(grade):
    return (grade.fine and grade.fine.name, grade.coarse and grade.coarse.name)


def test_sieves_of_the_book_fall():
    from tests.finish.asking import NAMED

    openings = [float(s.opening / MM) for s in NAMED.values()]
    assert openings == pytest.approx([9.5, 4.75, 2.36, 1.18, 0.85, 0.6, 0.425, 0.3, 0.15, 0.075])


def test_the_texture_follows_the_largest_that_counts():
    sand = matched().sand
    assert names(sand.largest) == ("No. 8", "No. 4")
    assert names(sand.common) == ("No. 16", "No. 8")
    assert [round(float(g.share), 4) for g in sand.grades] == [0.11, 0.48, 0.2, 0.12, 0.06, 0.03]


@pytest.mark.parametrize(("on_eight", "largest"), [(5, "No. 8"), (4.9, "No. 16")])
def test_what_makes_less_than_a_twentieth_is_a_stray(on_eight, largest):
    sand = matched(sand=grams(n4=0, n8=on_eight, n16=100 - on_eight)).sand
    assert sand.largest.fine.name == largest
    assert sand.least.written == "5 %"


def test_half_is_finer_along_the_line_between_two_sieves():
    # finer than No. 16: 20 + 12 + 6 + 3 = 41 %; of the next 48 % nine are wanted
    assert float(matched().sand.median.value / MM) == pytest.approx(1.18 + (2.36 - 1.18) * 9 / 48)


def test_a_median_past_the_sieves_is_not_made_up():
    assert matched(sand=grams(n4=60, n8=40)).sand.median is None
    assert matched(sand=grams(n4=0, n8=40, pan=60)).sand.median is None


def test_weighed_and_by_share_is_the_same():
    by_share = kept_of({"4": 0, "8": 11, "16": 48, "20": 20, "30": 12, "50": 6}, "%")
    one, other = matched().sand, matched(sand=by_share).sand
    assert [float(g.share) for g in one.grades] == pytest.approx([float(g.share) for g in other.grades])
    assert names(other.grades[-1]) == (None, "No. 50")
    assert names(one.largest) == names(other.largest)


def through(rows):
    percent = unit("%")
    return tuple(OnSieve(sieve(n), Quantity(Fraction(str(p)) / 100, percent)) for n, p in rows.items())


def test_what_went_through_is_the_same():
    sand = matched(by="passing", sand=through({"4": 100, "8": 89, "16": 41, "20": 21, "30": 9, "50": 3})).sand
    one = matched().sand
    assert [float(g.share) for g in sand.grades] == pytest.approx([float(g.share) for g in one.grades])
    assert float(sand.median) == pytest.approx(float(one.median))


def test_grains_are_counted_by_their_stick():
    coarse, fine = (sieve("20"), sieve("16")), (sieve("30"), sieve("20"))
    sand = matched(by="grains", grains=(fine, coarse, fine, fine)).sand
    assert [(names(g), float(g.share)) for g in sand.grades] == [
        (("No. 20", "No. 16"), 0.25),
        (("No. 30", "No. 20"), 0.75),
    ]
    assert names(sand.largest) == ("No. 20", "No. 16")
    assert names(sand.common) == ("No. 30", "No. 20")


def test_sticks_that_leave_a_gap_have_no_median():
    assert matched(by="grains", grains=((sieve("8"), sieve("4")), (sieve("50"), sieve("30")))).sand.median is None


def test_nothing_sieved_is_refused():
    for fields in ({"sand": grams(n16=0, pan=0)}, {"by": "grains"}):
        with pytest.raises(Unreadable) as caught:
            matched(**fields)
        assert caught.value.fault.code == "finish.no-grains"


def test_past_the_coarsest_sieve_is_said_and_stands_in_the_next_of_the_book():
    found = matched(sand=grams(n16=70, n30=30))
    assert {"open-top", "no-pan"} <= codes(found.notes)
    assert found.sand.largest.coarse is None
    assert [(b.fine.name, b.coarse.name) for b in found.boards] == [
        ("No. 20", "No. 16"), ("No. 16", "No. 8"), ("No. 8", "No. 4"),
    ]  # fmt: skip


def test_all_through_the_finest_sieve_is_said():
    assert "open-foot" in codes(matched(sand=grams(n50=0, pan=5)).notes)


def test_a_pan_not_weighed_is_taken_as_nothing_and_said():
    found = matched(sand=FACE[:-1])
    assert said(found.notes, "no-pan")["sieve"] == "No. 50"
    assert sum(float(g.share) for g in found.sand.grades) == pytest.approx(1)


@given(st.lists(st.integers(0, 1000), min_size=6, max_size=7).filter(any))
def test_shares_come_to_the_whole(amounts):
    rows = dict(zip((*FOLLOW, "pan"), amounts, strict=False))
    found, working = run(sand=kept_of(rows, "g"))
    sand = found.sand
    assert sum(float(g.share) for g in sand.grades) == pytest.approx(1)
    assert sand.largest in sand.grades
    assert float(sand.common.share) == max(float(g.share) for g in sand.grades)
    if sand.median is not None:
        under = sum(float(g.share) for g in sand.grades if g.coarse and float(g.coarse.opening) <= float(sand.median))
        assert under <= 0.5 + 1e-9
    assert all(n.code.startswith("finish.") for n in working.notes)


def test_a_sieve_of_his_own_stands_by_its_opening():
    own = Sieve("1 mm", MM)
    found = matched(sand=(OnSieve(own, Quantity(Fraction(1, 1000), unit("g"))),))
    assert said(found.notes, "open-top")["fine"] == "1 mm"
