"""The cut lists of a whole job: profiles, lines of working, notes in both languages, faults that stop one profile."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

import darby.quantities.cutting as room
from darby.measure.units import FT, IN
from darby.quantities import CutAsk, Offcut, Piece, Profile, Splice, Stock, cut_lists
from darby.rulebook import default
from darby.words import LANGUAGES, Language, catalogue, say
from darby.working import Amount, Found, Quantity, Working, line
from tests.quantities.test_cut_list import HARD

PRICED = (Stock(8 * FT, Decimal("4.10")), Stock(10 * FT, Decimal("5.05")))
DOORS = (
    Piece("bay/door/left", 80 * IN, 2),
    Piece("bay/door/head", 36 * IN),
    Piece("crew/window/left", Fraction(99, 2) * IN, 4),
    Piece("crew/window/head", Fraction(291, 8) * IN, 2),
    Piece("bay/base", 34 * FT),
)
BAD_FIRST_FIT = Profile(
    "drip screed",
    tuple(Piece(str(n), length * IN, count) for n, (length, count) in enumerate([(51, 6), (27, 6), (26, 6), (23, 12)])),
    (Stock(100 * IN, Decimal("3.00")),),
)
TOO_HARD = Profile(
    "trim",
    tuple(Piece(str(n), length * IN, count) for n, (length, count) in enumerate(HARD)),
    (Stock(36 * IN, Decimal(14)), Stock(31 * IN, Decimal(14))),
)
"""Six bars of 36 in. hold it in length; that they cannot be sawn takes the linear programme, and more."""

JOB = CutAsk(
    (
        Profile("casing bead", DOORS, PRICED, (Offcut(5 * FT, 2),), Splice()),
        Profile("corner bead", (Piece("tower/left", 12 * FT),), (Stock(10 * FT, Decimal(6)),)),
        Profile("weep screed", (Piece("crew/base", 9 * FT), Piece("bay/base", FT)), (Stock(10 * FT),)),
        BAD_FIRST_FIT,
    )
)


def test_profiles_stand_by_name_and_one_bad_one_stops_none() -> None:
    found, _ = cut_lists(JOB)
    assert [x.item for x in found.lists] == ["casing bead", "corner bead", "drip screed", "weep screed"]
    broken = found.of("corner bead")
    assert broken is not None
    assert broken.cuts is None
    assert broken.fault is not None
    assert broken.fault.code == "cutting.too-long"
    assert found.of("nothing") is None


def test_money_is_worked_out_line_by_line_and_adds_up() -> None:
    found, working = cut_lists(JOB)
    drip = found.of("drip screed")
    assert drip is not None
    assert isinstance(drip.cost, Amount)
    assert line(working.steps["job/cut-list/drip-screed/cost"]) == "9 pieces × $3.00 = $27.00"
    assert line(working.steps["job/cut-list/drip-screed/first-fit"]) == "11 pieces × $3.00 = $33.00"
    assert line(working.steps["job/cut-list/drip-screed/saved"]) == "$33.00 − $27.00 = $6.00"
    casing = found.of("casing bead")
    assert casing is not None
    assert isinstance(casing.cost, Amount)
    assert found.cost is not None
    assert found.cost.value == drip.cost.value + casing.cost.value
    assert found.saved is not None
    assert found.saved.value >= 6
    assert casing.cuts is not None
    assert casing.cost.value == casing.cuts.cost


def test_without_prices_the_working_is_in_feet() -> None:
    found, working = cut_lists(JOB)
    weep = found.of("weep screed")
    assert weep is not None
    assert isinstance(weep.cost, Quantity)
    assert weep.cost.value == pytest.approx(float(10 * FT))
    assert line(working.steps["job/cut-list/weep-screed/waste"]) == "(10 ft − 10 ft) / 10 ft × 100 = 0 %"
    assert found.cost is not None  # over the others


def test_waste_is_a_share_of_what_is_bought() -> None:
    """Jambs of 6 ft one by one out of bars of 10 ft: 16 of 40 ft are left."""
    _, working = cut_lists(CutAsk((Profile("casing bead", (Piece("jamb", 6 * FT, 4),), (Stock(10 * FT),)),)))
    step = working.steps["job/cut-list/casing-bead/waste"]
    assert line(step) == "(40 ft − 24 ft) / 40 ft × 100 = 40 %"


def test_the_bound_enters_with_its_proof() -> None:
    _, working = cut_lists(JOB)
    step = working.steps["job/cut-list/drip-screed/bound"]
    assert isinstance(step, Found)
    assert step.method == "cutting.method.proved"
    assert step.value == 27
    # 6 x 51 + 6 x 27 + 6 x 26 + 12 x 23 = 900 in. in bars of 100 in.: nine bars
    assert step.proof == ("Σ W = 75'", "W: 8' 4\" ≤ 8' 4\"", "≥ $27.00")
    assert step.after == ("job/cut-list/drip-screed/cost",)


def test_a_proof_by_weights_is_in_small_whole_numbers() -> None:
    """Three pieces of 6 ft in bars of 10 ft: no two go together, whatever their lengths add up to."""
    pieces = (Piece("jamb", 6 * FT, 3), Piece("head", 3 * FT, 3))
    _, working = cut_lists(CutAsk((Profile("casing bead", pieces, (Stock(10 * FT, Decimal(5)),)),)))
    step = working.steps["job/cut-list/casing-bead/bound"]
    assert isinstance(step, Found)
    assert step.proof[-1] == "≥ $15.00"
    tall = (Piece("jamb", 6 * FT, 3),)
    _, working = cut_lists(
        CutAsk((Profile("casing bead", tall, (Stock(10 * FT, Decimal(5)), Stock(8 * FT, Decimal(5)))),))
    )
    step = working.steps["job/cut-list/casing-bead/bound"]
    assert isinstance(step, Found)
    assert step.proof == ("Σ W = 18'", "W: 8' ≤ 6'", "≥ $15.00")
    mixed = (Piece("jamb", 61 * IN, 2), Piece("head", 60 * IN, 1))
    _, working = cut_lists(CutAsk((Profile("casing bead", mixed, (Stock(10 * FT, Decimal(5)),)),)))
    step = working.steps["job/cut-list/casing-bead/bound"]
    assert isinstance(step, Found)
    assert step.value == 15


def test_splices_take_the_books_least_and_say_so() -> None:
    found, working = cut_lists(JOB)
    least = default().number("cutting.splice.least")
    assert least.number == pytest.approx(0.3048)
    noted = [n for n in working.notes if n.code == "cutting.assumed.splice"]
    assert [n.rules for n in noted] == [(least.id,)]
    casing = found.of("casing bead")
    assert casing is not None
    assert casing.cuts is not None
    base = next(p for p in casing.cuts.by_piece if p.piece == "bay/base")
    assert [length for _, length in base.bars] == [10 * FT, 10 * FT, 10 * FT, 4 * FT]
    short = Profile("weep screed", (Piece("base", 10 * FT + 2 * IN),), (Stock(10 * FT, Decimal(5)),), (), Splice())
    (cut,) = cut_lists(CutAsk((short,)))[0].lists
    assert cut.cuts is not None
    assert sorted(length for p in cut.cuts.by_piece for _, length in p.bars) == [12 * IN, 110 * IN]


def test_equal_asks_are_equal_and_a_blade_is_not_called_snips() -> None:
    assert CutAsk((BAD_FIRST_FIT,)) == CutAsk((BAD_FIRST_FIT,))
    assert hash(CutAsk((BAD_FIRST_FIT,))) == hash(CutAsk((BAD_FIRST_FIT,)))
    codes = {n.code for n in cut_lists(JOB)[1].notes}
    assert "cutting.snips" in codes
    blade = CutAsk((BAD_FIRST_FIT,), kerf=IN / 8)
    found, working = cut_lists(blade)
    assert "cutting.snips" not in {n.code for n in working.notes}
    assert found.lists[0].cuts is not None
    assert found.lists[0].cuts.kerf == IN / 8


def test_no_profiles_no_lists() -> None:
    found, working = cut_lists(CutAsk(()))
    assert found.lists == ()
    assert found.cost is None
    assert not working.steps


def test_out_of_time_is_a_caution_with_the_gap() -> None:
    found, working = cut_lists(CutAsk((TOO_HARD,), seconds=0))
    assert found.lists[0].cuts is not None
    assert not found.lists[0].cuts.proved_best
    (caution,) = [n for n in working.notes if n.code == "cutting.gap"]
    assert dict(caution.values)["gap"] == Amount(found.lists[0].cuts.gap)  # type: ignore[arg-type]
    step = working.steps["job/cut-list/trim/bound"]
    assert isinstance(step, Found)
    assert step.method == "cutting.method.best-found"


# --- words -------------------------------------------------------------------------------------


def codes() -> Iterator[str]:
    for path in Path(room.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.startswith("cutting."):
                yield node.value


@pytest.mark.parametrize("language", LANGUAGES)
def test_codes_in_the_room_are_sentences(language: Language) -> None:
    plain = {c for c in codes() if not c.endswith((".", "-")) and c != "cutting.splice.least"}
    assert len(plain) > 20
    assert plain <= set(catalogue(language))
    assert {"cutting.all-cost", "cutting.all-saved"} <= set(catalogue(language))


def everything() -> Working:
    every = Working()
    every.add(cut_lists(JOB)[1])
    wrong = [
        Profile("a", (), PRICED), Profile("b", DOORS, ()), Profile("c", (Piece("x", Fraction(0)),), PRICED),
        Profile("d", (Piece("x", FT, 0),), PRICED), Profile("e", (Piece("x", FT),), (Stock(FT, Decimal(0)),)),
        Profile("f", (Piece("x", FT),), (Stock(FT, Decimal(1)), Stock(2 * FT))),
        Profile("g", (Piece("x", 11 * FT),), PRICED, (), Splice(6 * FT)),
    ]  # fmt: skip
    every.notes.extend(cut_lists(CutAsk((TOO_HARD, *wrong), seconds=0))[1].notes)
    every.notes.extend(cut_lists(CutAsk((BAD_FIRST_FIT,), kerf=-IN))[1].notes)
    return every


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_note_can_be_said_and_every_step_has_a_title(language: Language, system: str) -> None:
    working = everything()
    said_codes = {n.code for n in working.notes}
    assert len(said_codes) >= 14
    for n in working.notes:
        said = say(n.code, n.values, language, system)  # type: ignore[arg-type]
        assert "{" not in said
        assert "cutting." not in said
        assert "quantities." not in said
    for step in working.steps.values():
        assert "{" not in say(step.says, (), language)
        if isinstance(step, Found):
            assert say(step.method, (), language)


def test_pieces_of_one_edge_that_are_apart_are_no_splice() -> None:
    """An edge on both sides of a door is two pieces: each is cut and numbered by itself."""
    apart = Profile("casing bead", (Piece("bay/base", 5 * FT), Piece("bay/base", 3 * FT, 2)), PRICED, splice=Splice())
    found, working = cut_lists(CutAsk((apart,)))
    cuts = found.lists[0].cuts
    assert cuts is not None
    assert [(p.n, p.of, p.length, len(p.bars)) for p in cuts.by_piece] == [
        (1, 3, 5 * FT, 1), (2, 3, 3 * FT, 1), (3, 3, 3 * FT, 1)
    ]  # fmt: skip
    assert "cutting.spliced" not in [n.code for n in working.notes]
