"""Paint, skim and lath side by side: what his tests forbid, what each adds, and that every number is a whole job's."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

import darby
from darby.answers import Answers
from darby.answers.ladder import CURES, LEAVES, WAYS, Rung, ladder
from darby.job import loads
from darby.measure.units import IN
from darby.tables.pages import page_of
from darby.tables.setting import Setting
from darby.words import LANGUAGES, catalogue, written

EXAMPLE = Path(__file__).parents[2] / "examples" / "recoat.toml"
TESTS = 'tests = { scrape = "holds", water = "beads", tap = "sound", pull = "held" }\n'


@cache
def answered(*edits: tuple[str, str]) -> Answers:
    text = EXAMPLE.read_text(encoding="utf-8")
    for old, new in edits:
        assert old in text, old
        text = text.replace(old, new)
    return darby.answer(loads(text, folder=EXAMPLE.parent))


@cache
def rungs(*edits: tuple[str, str]) -> dict[str, Rung]:
    return {rung.code: rung for rung in ladder(answered(*edits))}


def test_three_rungs_the_least_work_first() -> None:
    assert list(rungs()) == ["paint", "skim", "lath"]
    assert [rung.code for rung in rungs().values() if rung.chosen] == ["skim"]


def test_what_each_adds_is_what_its_coats_add() -> None:
    """Nothing; the skim's 1/4 in.; 7/8 in. of three coats on lath, as C926 has it."""
    added = {code: rung.added.value / float(IN) for code, rung in rungs().items() if rung.added is not None}
    assert added == pytest.approx({"paint": 0, "skim": 1 / 4, "lath": 7 / 8})


def test_paint_fits_everywhere_and_lath_hangs_screeds_of_its_own() -> None:
    found = rungs()
    assert found["paint"].short == ()
    assert [(c.at, c.kind) for c in found["skim"].short] == [("house-1/vent-at-3", "vent")]
    # 7/8 in. over noses that stand out 3/8 in.: buried, and the lath hangs its own
    feet = {f"house-{n}/base" for n in (1, 2, 3, 4)}
    assert {c.at: c.left.value / float(IN) for c in found["lath"].checks if c.renewed and c.left is not None} == (
        pytest.approx(dict.fromkeys(feet, -1 / 2))
    )
    assert {c.at for c in found["lath"].checks} - {c.at for c in found["lath"].short} - feet == {
        "house-3/door-1", "house-3/vent-at-2",
    }  # fmt: skip


def test_every_place_is_checked_on_every_rung() -> None:
    places = [[(c.at, c.kind) for c in rung.checks] for rung in rungs().values()]
    assert places[0] == places[1] == places[2]
    # 8 openings, 4 feet, 3 sorts of vent, the frieze on 4 walls
    assert len(places[0]) == 8 + 4 + 3 + 4


def test_the_rung_that_stands_is_the_job_itself() -> None:
    answers, skim = answered(), rungs()["skim"]
    assert skim.total is not None and skim.total.value == answers.of("price").total.value
    assert skim.hours is not None and skim.hours.value == pytest.approx(answers.of("days").hours.value)
    assert skim.checks == answers.of("recoat").checks


def test_a_rung_is_what_the_job_says_when_it_is_chosen() -> None:
    lath = answered(('choose = "heavy-skim"', 'choose = "lath-three-coat"'))
    total = rungs()["lath"].total
    assert total is not None and total.value == lath.of("price").total.value


def test_paint_alone_is_plastered_with_nothing_and_still_stands_on_something() -> None:
    """Two coats and a primer over four walls cost more trips of scaffold than no scaffold at all."""
    paint = rungs()["paint"]
    assert paint.total is not None and paint.trips is not None and paint.trips.value > 1
    assert paint.total.value > Decimal(3751)  # the scaffold's line of the example's own price
    assert paint.paint_trips is None  # the painting is among its trips


BARRED = {
    ("scrape", "comes off"): {"paint": "paint-comes-off", "skim": "comes-off"},
    ("pull", "let go"): {"skim": "let-go"},
    ("tap", "hollow"): {"skim": "hollow"},
}


@pytest.mark.parametrize(("test", "expected"), BARRED.items(), ids=str)
def test_what_his_tests_forbid_has_no_numbers_and_says_why(test: tuple[str, str], expected: dict[str, str]) -> None:
    tried = {"scrape": "holds", "water": "beads", "tap": "sound", "pull": "held"} | dict([test])
    line = ", ".join(f'{name} = "{how}"' for name, how in tried.items())
    found = rungs((TESTS, f"tests = {{ {line} }}\n"), ('choose = "heavy-skim"\n', ""))
    walls = tuple(f"house-{n}" for n in (1, 2, 3, 4))
    assert {code: [(b.code, b.surfaces) for b in r.barred] for code, r in found.items() if r.barred} == {
        code: [(why, walls)] for code, why in expected.items()
    }
    for code in expected:
        assert (found[code].total, found[code].trips, found[code].added, found[code].checks) == (None, None, None, ())
    assert found["lath"].total is not None


def test_untried_walls_are_tried_first() -> None:
    found = rungs((TESTS, ""), ('choose = "heavy-skim"\n', ""))
    assert found["skim"].first == ("scrape", "water", "tap", "pull")
    assert found["paint"].first == ("scrape", "tap")
    assert found["lath"].first == ("tap", "studs")


def test_a_thrown_finish_takes_two_coats_where_a_skim_cannot_carry_it() -> None:
    found = rungs(('finish = "float"\ncolored = true', 'finish = "wet dash"'), ('choose = "heavy-skim"\n', ""))
    added = found["skim"].added
    assert added is not None and added.value > float(IN) / 4
    assert not found["skim"].barred


def test_no_years_are_promised() -> None:
    for language in LANGUAGES:
        said = [s for code, s in catalogue(language).items() if code.startswith(("answers.cures", "answers.leaves"))]
        assert said and not any("year" in s or "año" in s or any(c.isdigit() for c in s) for s in said)


def test_every_code_has_its_sentences() -> None:
    codes = [f"answers.rung.{code}" for code in WAYS] + [f"answers.rung-short.{code}" for code in WAYS]
    codes += [f"answers.cures.{c}" for several in CURES.values() for c in several]
    codes += [f"answers.leaves.{c}" for several in LEAVES.values() for c in several]
    codes += [f"answers.first.{c}" for c in ("scrape", "water", "tap", "pull", "studs")]
    barred = {why for several in BARRED.values() for why in several.values()} | {"not-open", "bare-frame"}
    codes += [f"answers.barred.{c}" for c in barred]
    for language in LANGUAGES:
        assert not [code for code in codes if code not in catalogue(language)]


def test_without_a_recoat_there_is_no_ladder() -> None:
    assert ladder(darby.answer(replace(answered().job, recoat=None))) == ()


def test_work_that_he_wrote_down_himself_is_not_counted_twice() -> None:
    own = answered(("[price]\n", '[[also]]\nwhat = "mask"\nsays = "all of it"\nhours = "9 h"\n\n[price]\n'))
    lines = [line.what for line in own.of("price").quote if line.kind == "also"]
    assert lines.count("mask") == 1
    assert {"wash", "roughen", "take off and put back"} <= set(lines)


def test_hollow_plaster_comes_off_before_lath_and_says_that_its_depth_decides() -> None:
    hollow = (TESTS, TESTS.replace('tap = "sound"', 'tap = "hollow"'))
    lath = rungs(hollow, ('choose = "heavy-skim"\n', ""))["lath"]
    assert lath.off and lath.added is None and lath.checks == ()
    assert lath.total is not None
    assert not rungs()["lath"].off


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_command_line_has_both_tables_with_the_ladders_numbers(language: str) -> None:
    fits, side_by_side = page_of("recoat", answered(), Setting(language, "us"))  # type: ignore[arg-type]
    assert len(fits.rows) == len(answered().of("recoat").checks)
    # a place that is short has its shortness in the last column, and no other has
    assert [bool(row[-1]) for row in fits.rows] == [c.short is not None for c in answered().of("recoat").checks]
    prices = [written(rung.total, language) for rung in rungs().values()]  # type: ignore[arg-type]
    assert [row[-1] for row in side_by_side.rows] == prices


def test_bare_masonry_has_its_ways_at_the_command_line() -> None:
    hall = darby.answer(darby.load(EXAMPLE.with_name("firehall.toml")))
    *_, ways = page_of("price", hall, Setting("en", "us"))
    assert [row[0] for row in ways.rows] == [
        catalogue("en")[f"answers.way.{w}"] for w in ("one-coat", "float", "dash", "wet-dash")
    ]
    assert written(hall.of("price").total) in {row[-1] for row in ways.rows}  # one of them is the job as it stands
