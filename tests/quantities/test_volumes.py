"""Mortar: net first, then every allowance a line of its own, taken on the net volume and added."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure.units import FT, IN
from darby.quantities import Allowances, Coat, VolumesAsk, Zone, volumes
from darby.quantities.model import CoatVolume
from darby.rulebook import Book, default
from tests.quantities.asks import BASE, CU_FT, FINISH, FIRM, NOTHING, SQ_FT, block, frame, laid, shown


def lines(coat: CoatVolume) -> dict[str, float]:
    return {a.name: shown(a.volume) for a in coat.allowances}


def test_net_is_area_by_nominal_and_the_rest_is_added() -> None:
    """288 sq ft x 3/8 in. = 9 cu ft; ten and eight percent of it, not one on the other."""
    base, finish = laid("bay", block()).coats
    assert shown(base.net) == pytest.approx(9)
    assert lines(base) == pytest.approx({"spread": 0.9, "waste": 0.72})
    assert shown(base.total) == pytest.approx(10.62)
    assert shown(finish.net) == pytest.approx(3)
    assert shown(finish.total) == pytest.approx(3.54)


def test_a_line_says_what_percent_of_the_net_volume_it_is() -> None:
    base = laid("bay", block(struck=True)).coats[0]
    for line in base.allowances:
        assert float(line.share) == pytest.approx(float(line.volume) / float(base.net))
    assert shown(base.allowances[-1].share) == pytest.approx(8)


def test_keys_only_in_the_first_coat_on_lath() -> None:
    """900 sq ft of lath take 8 cu ft."""
    scratch, brown, finish = laid("crew", frame(900)).coats
    assert lines(scratch)["keys"] == pytest.approx(8)
    assert "keys" not in lines(brown)
    assert "keys" not in lines(finish)


def test_struck_joints_from_the_face_of_a_block() -> None:
    """On 8 x 16 in. with 3/8 in. joints the mortar shows on 1 - (15.625 x 7.625) / 128 of the face."""
    share = 1 - Fraction(125, 8) * Fraction(61, 8) / 128
    base, finish = laid("bay", block(288, struck=True)).coats
    assert lines(base)["joints"] == pytest.approx(float(288 * share / 8 / 12))
    assert "joints" not in lines(finish)
    raked = laid("bay", block(288, struck=True, joint_depth=Fraction(3, 8) * IN)).coats[0]
    assert lines(raked)["joints"] == pytest.approx(float(288 * share * 3 / 8 / 12))
    assert "joints" not in lines(laid("bay", block(288)).coats[0])


def test_a_dash_bond_fills_no_joints() -> None:
    zone = Zone("main", "block", 96 * SQ_FT, (Coat("dash-bond", Fraction(1, 8) * IN, "dash"), BASE), struck=True)
    dash, base = laid("bay", zone).coats
    assert "joints" not in lines(dash)
    assert "joints" in lines(base)
    assert shown(dash.net) == pytest.approx(1)


@pytest.mark.parametrize(
    ("out", "expected"),
    [
        ("1/4", 288 / 8 / 12),  # half of 1/4 in. over the face, more than a tenth of 3/8 in.
        ("5/8", 288 * 5 / 16 / 12),
        ("1/16", 0.9),  # half of it is less than a tenth of 3/8 in.: the firm's share stands
        ("0", 0.9),
    ],
)
def test_measured_unevenness_replaces_the_share_where_it_is_more(out: str, expected: float) -> None:
    base, finish = laid("bay", block(out_of_plane=Fraction(out) * IN)).coats
    assert lines(base)["spread"] == pytest.approx(expected)
    assert lines(finish)["spread"] == pytest.approx(0.3)


def test_what_the_build_up_knows_of_least_and_most_comes_before_out_of_plane() -> None:
    """Laid half up and half down the mean is nominal: nothing more than the firm's share is due."""
    even = Coat("base", Fraction(1, 2) * IN, "base", levels=True, least=Fraction(3, 8) * IN, most=Fraction(5, 8) * IN)
    deep = Coat("base", Fraction(1, 2) * IN, "base", levels=True, least=Fraction(1, 2) * IN, most=Fraction(1) * IN)
    for coat, expected in ((even, 1.2), (deep, 288 / 4 / 12)):
        zone = Zone("main", "block", 288 * SQ_FT, (coat,), out_of_plane=Fraction(5, 8) * IN)
        assert lines(laid("bay", zone).coats[0])["spread"] == pytest.approx(expected)


def test_the_coat_that_levels_takes_it_and_the_thickest_does_where_none_says_so() -> None:
    scratch, brown, finish = laid("crew", frame(900, out_of_plane=Fraction(1, 2) * IN)).coats
    assert lines(brown)["spread"] == pytest.approx(900 / 4 / 12)
    assert lines(scratch)["spread"] == pytest.approx(float(scratch.net) / float(CU_FT) / 10)
    assert lines(finish)["spread"] == pytest.approx(float(finish.net) / float(CU_FT) / 10)


def test_a_firm_that_says_nothing_gets_the_books_shares_and_is_told() -> None:
    answer, working = volumes(VolumesAsk("bay", (block(),)))
    assert lines(answer.coats[0]) == pytest.approx({"spread": 0.9, "waste": 0.9})
    assert {n.code for n in working.notes} >= {"quantities.assumed.spread", "quantities.assumed.waste"}
    book = default()
    wasteful = Book(book.figures.values(), book.sources, follows={"allow.waste": "civil-at-work"})
    assert lines(laid("bay", block(), allow=Allowances(), book=wasteful).coats[0])["waste"] == pytest.approx(1.35)


def test_mortar_adds_up_by_mix() -> None:
    answer = laid("crew", frame(), replace(block(50), id="hollow"))
    for m in answer.by_mix:
        assert float(m.volume) == pytest.approx(sum(float(c.total) for c in answer.coats if c.mix == m.mix))
    assert [m.mix for m in answer.by_mix] == ["base", "finish"]


def test_every_number_is_a_step_with_a_key_of_its_own_place() -> None:
    answer, working = volumes(VolumesAsk("bay", (block(),), allow=FIRM))
    for coat in answer.coats:
        for q in (coat.area, coat.net, coat.total, *(a.volume for a in coat.allowances)):
            assert working.steps[q.key].value == q.value
    assert working.steps["bay/main/base/volume"].after[0] == "bay/main/base/volume-net"
    assert working.steps["bay/main/base/volume"].formula == "net + spread + waste"


def test_weight_of_what_goes_on() -> None:
    """Half an inch at 142 lb/cu ft."""
    assert shown(laid("bay", block()).areas[0].weight) == pytest.approx(142 / 24)


shares = st.fractions(min_value=0, max_value=1, max_denominator=50)


@given(a=shares, b=shares, struck=st.booleans(), feet=st.integers(1, 2000))
def test_allowances_are_added_never_compounded(a: Fraction, b: Fraction, struck: bool, feet: int) -> None:
    base = laid("bay", block(feet, struck=struck), allow=Allowances(spread=a, waste=b)).coats[0]
    assert float(base.total) == pytest.approx(float(base.net) + sum(float(x.volume) for x in base.allowances))
    bare = laid("bay", block(feet, struck=struck), allow=NOTHING).coats[0]
    assert float(base.total) - float(bare.total) == pytest.approx(float(base.net) * float(a + b), abs=1e-12)


@given(feet=st.integers(1, 500), out=st.fractions(min_value=0, max_value=2, max_denominator=16))
def test_a_worse_wall_never_takes_less(feet: int, out: Fraction) -> None:
    flat = laid("bay", block(feet, out_of_plane=out * IN)).coats[0]
    worse = laid("bay", block(feet, out_of_plane=(out + Fraction(1, 16)) * IN)).coats[0]
    assert float(worse.total) >= float(flat.total) - 1e-12


def test_a_zone_without_coats_takes_nothing() -> None:
    answer = laid("bay", Zone("main", "block", 10 * FT**2, ()))
    assert answer.coats == answer.by_mix == ()
    assert answer.areas[0].weight is None


def test_finish_alone() -> None:
    answer = laid("bay", Zone("main", "block", 96 * SQ_FT, (FINISH,)))
    assert shown(answer.by_mix[0].volume) == pytest.approx(1.18)
