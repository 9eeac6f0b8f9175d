"""Whether new plaster fits at what stays on an old wall: place by place, to the last sixteenth."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.condition.recoat import recoat
from darby.condition.recoat_model import Off, Recoat, RecoatAsk, RecoatWall, Spot
from darby.measure.units import IN, unit
from darby.rulebook import default
from darby.words import LANGUAGES, catalogue
from darby.working import Quantity

BOOK = default()
FT, SQ_FT, HOUR = (Fraction(unit(name).to_si(1)) for name in ("ft", "sq ft", "h"))
KEPT = {
    "frame": Fraction(1, 4),
    "return": Fraction(1, 2),
    "weep": Fraction(0),
    "vent": Fraction(1, 8),
    "eave": Fraction(1),
}
"""What has to be left at each kind of place [in]: common practice, no source, as the rule book says."""

sixteenths = st.integers(0, 64).map(lambda n: Fraction(n, 16))


def inches(value: Fraction) -> Quantity:
    return Quantity(value * IN, unit("in"))


def one(kind: str, room: Fraction | None, added: Fraction, count: int = 1) -> Recoat:
    spot = Spot(kind, "wall/place", room * IN if room is not None else None, "hood", count)  # type: ignore[arg-type]
    return recoat(RecoatAsk(BOOK, (RecoatWall("wall", inches(added), (spot,)),)))[0]


@pytest.mark.parametrize("kind", KEPT)
def test_just_enough_is_enough(kind: str) -> None:
    keep = KEPT[kind]
    (check,) = one(kind, Fraction(1, 4) + keep, Fraction(1, 4)).checks
    assert check.short is None
    assert float(check.keep) == pytest.approx(float(keep * IN))
    assert check.left is not None and check.left.value == pytest.approx(float(keep * IN))


@pytest.mark.parametrize("kind", KEPT)
def test_a_sixteenth_less_is_short_by_a_sixteenth(kind: str) -> None:
    got = one(kind, Fraction(3, 16) + KEPT[kind], Fraction(1, 4))
    (check,) = got.checks
    assert got.short == (check,)
    assert check.short is not None and check.short.value == pytest.approx(float(Fraction(1, 16) * IN))


@given(st.sampled_from(sorted(KEPT)), sixteenths, sixteenths)
def test_short_and_left_make_what_is_kept(kind: str, room: Fraction, added: Fraction) -> None:
    (check,) = one(kind, room, added).checks
    left = room - added
    assert (check.short is not None) == (left < KEPT[kind])
    assert check.left is not None and check.left.value == pytest.approx(float(left * IN), abs=1e-12)
    if check.short is not None:
        assert check.left.value + check.short.value == pytest.approx(float(KEPT[kind] * IN), abs=1e-12)


@given(st.sampled_from(sorted(KEPT)), sixteenths, sixteenths, sixteenths)
def test_more_plaster_never_fits_better(kind: str, room: Fraction, added: Fraction, more: Fraction) -> None:
    thin, thick = one(kind, room, added).checks[0], one(kind, room, added + more).checks[0]
    assert thin.short is None or (thick.short is not None and thick.short.value >= thin.short.value - 1e-12)


def test_what_nobody_measured_is_asked_for_and_neither_good_nor_short() -> None:
    spot = Spot("weep", "wall/base", None)
    got, working = recoat(RecoatAsk(BOOK, (RecoatWall("wall", inches(Fraction(1)), (spot,)),)))
    (check,) = got.checks
    assert (check.room, check.left, check.short) == (None, None, None)
    assert [(n.code, n.grade, n.at) for n in working.notes] == [
        ("condition.recoat.unmeasured.weep", "assumed", "wall/base")
    ]
    assert not working.steps


def test_every_short_place_is_a_caution_with_its_rule() -> None:
    spots = tuple(Spot(kind, f"wall/{kind}", 0, "hood") for kind in KEPT)  # type: ignore[arg-type]
    _, working = recoat(RecoatAsk(BOOK, (RecoatWall("wall", inches(Fraction(7, 8)), spots),)))
    assert [n.code for n in working.notes] == [f"condition.recoat.short.{kind}" for kind in KEPT]
    assert {n.grade for n in working.notes} == {"caution"}
    assert [n.rules for n in working.notes] == [(f"recoat.keep.{kind}.practice",) for kind in KEPT]


def test_every_code_has_a_sentence() -> None:
    for language in LANGUAGES:
        words = catalogue(language)
        for kind in KEPT:
            assert f"condition.recoat.short.{kind}" in words and f"condition.recoat.unmeasured.{kind}" in words


def test_masking_washing_and_what_comes_off_by_pencil() -> None:
    """40 ft of edge at 60 ft/h, 200 sq ft at 400 sq ft/h, four lamps of half an hour and two plates of ten minutes."""
    wall = RecoatWall(
        "wall", inches(Fraction(1, 4)), edges=(30 * FT, 10 * FT), covered=(12 * SQ_FT,), area=200 * SQ_FT,
        rough=180 * SQ_FT,
    )  # fmt: skip
    got, working = recoat(
        RecoatAsk(
            BOOK,
            (wall,),
            (Off("lamp", 4, HOUR / 2), Off("plate", 2, HOUR / 6), Off("sign", 1, None)),
            mask=Quantity(60 * FT / HOUR, unit("ft/h")),
            wash=Quantity(400 * SQ_FT / HOUR, unit("sq ft/h")),
        )
    )
    assert got.mask is not None and got.mask.value == pytest.approx(float(40 * FT))
    assert got.cover is not None and got.cover.value == pytest.approx(float(12 * SQ_FT))
    assert got.mask_hours is not None and got.mask_hours.value == pytest.approx(float(HOUR * 2 / 3))
    assert got.wash_hours is not None and got.wash_hours.value == pytest.approx(float(HOUR / 2))
    assert got.off_hours is not None and got.off_hours.value == pytest.approx(float(HOUR * 7 / 3))
    assert got.rough is not None and got.rough_hours is None
    assert {n.code for n in working.notes} == {"condition.recoat.no-pace.rough", "condition.recoat.no-time"}


def test_nothing_to_coat_is_nothing_said() -> None:
    got, working = recoat(RecoatAsk(BOOK, off=(Off("lamp", 4, HOUR),)))
    assert got == Recoat()
    assert not working.steps and not working.notes


def test_his_own_word_on_what_is_added_is_noted() -> None:
    wall = RecoatWall("wall", inches(Fraction(1, 2)))
    _, working = recoat(RecoatAsk(BOOK, (wall,), own=True))
    assert [(n.code, n.grade) for n in working.notes] == [("condition.recoat.own-adds", "assumed")]


def test_where_old_plaster_comes_off_its_depth_decides_and_the_rest_is_still_done() -> None:
    wall = RecoatWall("wall", None, (Spot("frame", "wall/window-1", IN, "window-1"),), edges=(10 * FT,))
    got, working = recoat(RecoatAsk(BOOK, (wall,), mask=Quantity(60 * FT / HOUR, unit("ft/h"))))
    assert (got.added, got.checks) == ((), ())
    assert got.mask_hours is not None and got.mask_hours.value == pytest.approx(float(HOUR / 6))
    assert [(n.code, n.grade, n.at) for n in working.notes] == [("condition.recoat.comes-off", "assumed", "wall")]
