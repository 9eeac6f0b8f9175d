"""The quick sum, and the dry-volume custom by name."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure.units import FT, IN, LB, YD, unit
from darby.quantities import Allowances, by_dry_volume, quick_sum
from darby.working import Quantity, Working
from tests.quantities.asks import BAGGED, FIRM, NOTHING, SITE, SQ_FT, shown


def test_a_garden_wall_in_one_line() -> None:
    """60' x 6' x 2 at 1/2 in.: 720 sq ft, 30 cu ft net; a foot covers 24 sq ft; with 18 % it is 35.4."""
    found, working = quick_sum(720 * SQ_FT, Fraction(1, 2) * IN, mortar=SITE, parts=(1, Fraction(3, 4), 5), allow=FIRM)
    assert shown(found.area) == pytest.approx(720)
    assert shown(found.cover) == pytest.approx(24)
    assert shown(found.net) == pytest.approx(30)
    assert shown(found.volume) == pytest.approx(35.4)
    assert float(found.bags) == pytest.approx(300 * 35.4 * float(FT**3) / (94 * float(LB)))  # type: ignore[arg-type]
    assert shown(found.whole_bags) == 8
    assert shown(found.sand) == pytest.approx(35.4 / 27)
    assert shown(found.sand_by_rule) == pytest.approx(30)
    assert found.rule is not None
    assert shown(found.rule.bags) == pytest.approx(30 * float(FT**3) * 1.33 / 6.75 * 1440 / (94 * float(LB)))
    assert {q.key for q in (found.area, found.net, found.volume, found.cover)} <= set(working.steps)


def test_the_sack_may_be_his_own() -> None:
    sack = Quantity(Fraction(40), unit("kg"))
    found, _ = quick_sum(YD**2, IN, mortar=SITE, parts=(1, 4), allow=NOTHING, package=sack)
    assert float(found.bags) == pytest.approx(300 * float(YD**2 * IN) / 40)  # type: ignore[arg-type]
    assert float(found.rule.bags) == pytest.approx(float(YD**2 * IN) * 1.33 / 5 * 1440 / 40)  # type: ignore[union-attr]


def test_a_bagged_mix_and_no_mix_at_all() -> None:
    bagged, _ = quick_sum(288 * SQ_FT, Fraction(1, 8) * IN, mortar=BAGGED, allow=NOTHING)
    assert shown(bagged.bags) == pytest.approx(4)
    assert shown(bagged.whole_bags) == 4
    assert bagged.sand is None
    bare, _ = quick_sum(288 * SQ_FT, Fraction(1, 8) * IN)
    assert (bare.bags, bare.sand, bare.rule) == (None, None, None)
    assert shown(bare.net) == pytest.approx(3)


def test_lath_and_struck_joints_are_lines_here_too() -> None:
    lathed, _ = quick_sum(900 * SQ_FT, IN, lathed=True, allow=NOTHING)
    assert {a.name: shown(a.volume) for a in lathed.allowances}["keys"] == pytest.approx(8)
    struck, _ = quick_sum(900 * SQ_FT, IN, struck=True, allow=NOTHING)
    assert [a.name for a in struck.allowances] == ["joints", "spread", "waste"]


@given(
    wet=st.floats(0.001, 100),
    factor=st.floats(1, 2),
    parts=st.lists(st.integers(1, 9), min_size=2, max_size=4),
    extra=st.lists(st.floats(0, 0.5), max_size=3),
)
def test_dry_volume_identities(wet: float, factor: float, parts: list[int], extra: list[float]) -> None:
    """Shares add up to the dry volume; added never exceeds compounded; before or after makes no odds."""
    one = by_dry_volume(wet, factor, parts, before=extra)
    assert sum(float(s) for s in one.shares) == pytest.approx(float(one.dry))
    assert float(by_dry_volume(wet, factor, parts, after=extra).dry) == pytest.approx(float(one.dry))
    added = by_dry_volume(wet, factor, parts, before=extra, how="added")
    assert float(added.dry) == pytest.approx(wet * (factor + sum(extra)))
    assert float(added.dry) <= float(one.dry) * (1 + 1e-9)
    assert shown(one.whole_bags) >= float(one.bags) - 1e-6


def test_dry_volume_keeps_its_lines() -> None:
    working = Working()
    found = by_dry_volume(1, None, (1, 4), working=working, at="rule")
    assert float(found.dry) == pytest.approx(1.33)
    assert working.steps["rule/dry-1"].rules == ("dry-volume.factor.civil-at-work",)  # type: ignore[union-attr]
    assert shown(found.bags) == pytest.approx(1.33 / 5 * 1440 / 50)


def test_a_silent_firm_gets_the_books_allowances() -> None:
    found, working = quick_sum(720 * SQ_FT, Fraction(1, 2) * IN, allow=Allowances())
    assert shown(found.volume) == pytest.approx(36)
    assert {n.code for n in working.notes} == {"quantities.assumed.spread", "quantities.assumed.waste"}
