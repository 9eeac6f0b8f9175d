"""High spots: what each costs and what the hammer saves, where that is known in closed form."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from .asking import FOOT, cubic_feet, feet, grid, inches, run, up

CLOSE = 1e-5
PRICE = Decimal("700")


def one_spot(out="1/4"):
    return (*grid(20, 10), *feet([(10, 5, out)]))


@pytest.mark.parametrize("face", ["plumb", "leaning"])
def test_one_spot_holds_the_whole_face_out_by_its_height(face):
    found = up(one_spot(), face=face)
    (spot,) = found.spots
    assert spot.number == 67
    assert cubic_feet(spot.saves) == pytest.approx(200 * (1 / 4) / 12, abs=CLOSE)
    assert inches(spot.by) == pytest.approx(1 / 8)  # common practice, no source
    assert cubic_feet(spot.knocked) == pytest.approx(200 * (1 / 8) / 12, abs=CLOSE)


def test_in_money_it_is_the_same_times_the_price():
    found, working = run(one_spot(), price=PRICE)
    (spot,) = found.spots
    # 200 sq ft x 1/4 in. = 0.117987... m3, at $700
    assert spot.saves_money.value == Decimal("82.59")
    assert spot.knocked_money.value == Decimal("41.30")
    assert "grounds.spot-money" in {n.code for n in found.notes}
    assert working.steps[spot.saves.key].proof == ("200 sq ft × (5/8 in. - 3/8 in.)",)


def test_a_spot_is_not_knocked_past_its_neighbors():
    (spot,) = up(one_spot("1/16")).spots
    assert inches(spot.by) == pytest.approx(1 / 16)
    assert float(spot.knocked) == pytest.approx(float(spot.saves))


def test_behind_a_spot_stands_the_next_one():
    # two spots beside one another, 1/4 and 3/16 in.: without the higher the other holds the face
    found = up((*grid(20, 10), *feet([(10, 5, "1/4"), (10, 3, "3/16")])))
    first = found.spots[0]
    assert first.number == 67
    assert cubic_feet(first.saves) == pytest.approx(200 * (1 / 16) / 12, abs=CLOSE)


def test_a_wall_that_bows_has_no_high_spots():
    # smooth, 1/2 in. out in the middle: the face lies on it, but no reading stands out past its neighbors
    found = up(grid(20, 10, lambda u, v: Fraction(1, 2) - Fraction((u - 10) ** 2, 200)))
    assert all(cubic_feet(s.saves) < 0.6 for s in found.spots)


def test_a_low_wall_end_is_no_high_spot():
    found = up(feet([(0, 0, 0), (0, 10, 0), (20, 0, 0), (20, 10, 0), (9, 4, "-1/4")]))
    assert found.spots == ()


def test_no_more_than_three_are_shown():
    # common practice, no source
    spots = feet([(5, 3, "1/4"), (15, 7, "1/4"), (5, 7, "1/4"), (15, 3, "1/4"), (9, 9, "1/4"), (11, 1, "1/4")])
    found = up((*grid(20, 10), *spots), face="wandering")
    assert len(found.spots) == 3
    assert [float(s.saves) for s in found.spots] == sorted((float(s.saves) for s in found.spots), reverse=True)


def test_in_a_wandering_face_a_spot_costs_only_what_lies_around_it():
    found = up(one_spot("1/4"), face="wandering", spacing=5 * FOOT)
    (spot,) = found.spots
    assert 0 < cubic_feet(spot.saves) < 200 * (1 / 4) / 12 / 2
    assert 0 < float(spot.knocked) <= float(spot.saves)


def test_the_answer_does_not_move_while_spots_are_tried():
    readings = (*grid(20, 10), *feet([(5, 3, "1/4"), (15, 7, "1/2")]))
    for face in ("plumb", "leaning", "wandering"):
        with_spots = up(readings, face=face)
        assert with_spots.chosen.volume == up(readings, face=face).face(face).volume
