"""With a job open the wall's own numbers stand in the answer, each one that a stage answered."""

import re
from datetime import date, timedelta
from pathlib import Path

import pytest

import darby
from darby.answers.asked import PATHS, SUMS, ask, say
from darby.words import catalogue, day, written
from darby.words.asking import Question, entries, typed_in
from tests.answers.jobs import firehall, walls, without_firm

ROOT = Path(__file__).parents[2]
UNREAD = {"3 ft", "20 x 8", "-5 sq ft", "0 sq ft", "sq ft", "area 51", "3/8 on block", ""}


@pytest.fixture(scope="module")
def answers():
    return darby.answer(firehall())


@pytest.fixture(scope="module")
def wall():
    return darby.answer(walls(1))


def test_every_path_and_sum_that_is_asked_for_is_there():
    questions = [e for e in entries() if isinstance(e, Question)]
    assert {q.wall for q in questions} - {""} == set(PATHS)
    assert {q.sum for q in questions} - {""} == set(SUMS)


def test_notes_that_are_asked_for_have_sentences():
    codes = catalogue("en")
    for entry in entries():
        for code in entry.notes:
            assert any(re.fullmatch(code.replace(".", r"\.").replace("*", ".*"), c) for c in codes), code


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_entry_is_told_of_a_job(answers, language):
    for entry in entries():
        told = say(entry.id, answers=answers, language=language)
        texts = [row.says for row in (*told.here, *told.on_day)] + [told.reckoned]
        assert not any(re.search(r"[{}]|\.\.|Fraction|Quantity", text) for text in texts), entry.id
        asks = isinstance(entry, Question) and bool(entry.wall)
        assert (bool(told.here) or told.lacking) == asks, entry.id


def test_thickness_is_that_of_each_wall(answers):
    told = ask("how thick is it", answers=answers)
    built = dict(answers.of("coats", "parapet").zones)["rest"].chosen
    (row,) = [r for r in told.here if r.at == "parapet/rest"]
    assert row.says.startswith(f"{written(built.nominal)} in all: ")
    assert [written(c.nominal) in row.says for c in built.coats] == [True] * len(built.coats)
    assert len(told.here) == sum(len(c.zones) for c in answers.good("coats").values())


def test_bags_are_those_of_the_order(answers):
    told = ask("how many bags", answers=answers)
    line = answers.of("order").line("portland")
    assert f"{line.name}: {written(line.needed)}; buy {written(line.packages)}" in told.here[0].says
    sand = answers.of("order").line("sand")
    assert any(row.says.endswith(f"buy {written(sand.packages)} {sand.written}.") for row in told.here)


def test_set_back_is_what_the_mason_is_told(answers):
    told = ask("will it be flush with the old wall", answers=answers)
    assert [note.code for note in told.notes] == ["buildup.set-back-forward"]
    assert told.filled is not None and told.filled.id == "set-back"


def test_waits_have_the_dates_of_the_plan(answers):
    told = ask("how long between coats", answers=answers)
    plan = {(c.at, c.first): c for c in answers.of("days").coats if c.next_from is not None}
    assert told.here
    for row in told.here:
        match = [c for (at, _), c in plan.items() if at == row.at and day(c.next_from) in row.says]
        assert match, row


def test_a_named_day_is_held_against_the_finish(wall):
    finish = max(c.last for c in wall.of("days").coats)
    later = ask("can i paint it friday", answers=wall)
    named = wall.job.as_of + timedelta((4 - wall.job.as_of.weekday()) % 7)
    (row,) = later.on_day
    assert day(named) in row.says
    assert ("not on yet" in row.says) == (named < finish)
    label = finish + timedelta(days=28)
    assert day(label) in later.here[0].says


def test_a_day_after_the_finish_says_how_old_it_is():
    told = ask("paint monday", answers=darby.answer(walls(1)), at="wall-0")
    assert [row.at for row in told.on_day] == ["wall-0/rest"]
    assert ask("pintar el lunes", answers=darby.answer(walls(1))).language == "es"


def test_only_the_wall_that_was_named(answers):
    told = ask("how thick", answers=answers, at="parapet")
    assert {row.at for row in told.here} == {"parapet/rest"}
    assert {note.at for note in told.notes} <= {"parapet/rest", "parapet", "job"}
    with pytest.raises(KeyError):
        ask("how thick", answers=answers, at="no-such-wall")


def test_a_job_that_cannot_say_says_so():
    answers = darby.answer(without_firm())
    told = ask("when can the next coat go on", answers=answers)
    assert told.lacking
    assert told.here == ()
    assert not ask("why lath", answers=answers).lacking


def test_the_jobs_own_rules_rule():
    rule = '[[rule]]\nsubject = "cure.paint-ph"\nvalue = "9"\nwhy = "our painter asks it"\n\n[coats]\n'
    told = ask("when can i paint", answers=darby.answer(firehall(("[coats]\n", rule))))
    assert told.filled is not None
    assert "pH 9 or below" in told.filled.answer
    assert [t.figure.why for t in told.filled.told if t.figure.why] == ["our painter asks it"]


def test_answers_do_not_change_by_being_asked(answers):
    before = answers.to_json()
    ask("paint friday", answers=answers)
    assert answers.to_json() == before


# --- what is typed beside the words -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "feet"),
    [
        ("how many bags 400 sqft", 400), ("400 sq. ft.", 400), ("1200 square feet", 1200), ("20' x 8'", 160),
        ("400 pies cuadrados", 400), ("wall is 10 ft by 12 ft", 120), ("90sf", 90),
    ],
)  # fmt: skip
def test_an_area_is_read(typed, feet):
    assert float(typed_in(typed).area) == pytest.approx(feet * 0.3048**2)


def test_metres_and_yards():
    assert float(typed_in("40 m2 de muro").area) == pytest.approx(40)
    assert float(typed_in("10 sq yd").area) == pytest.approx(10 * 0.9144**2)


@pytest.mark.parametrize("typed", sorted(UNREAD))
def test_what_says_no_area_is_not_read(typed):
    assert typed_in(typed).area is None


def test_an_area_that_can_be_two_things_is_asked_again():
    assert typed_in("how many bags 1,200 sqft").unread == "1,200 sqft"
    assert ask("how many bags 1,200 sqft").reckoned == "1,200 sqft can be read in two ways: type it without the comma."


def test_the_named_day_is_today_or_the_next():
    friday = typed_in("paint friday")
    assert friday.day_from(date(2026, 10, 2)) == date(2026, 10, 2)
    assert friday.day_from(date(2026, 10, 3)) == date(2026, 10, 9)
    assert typed_in("pintar el miércoles").weekday == 2
    assert typed_in("paint").day_from(date(2026, 10, 2)) is None


def test_without_an_area_a_hundred_feet_are_reckoned():
    assert ask("how many bags").reckoned.startswith("100 sq ft at 1/2 in.: ")
    assert ask("how thick").reckoned == ""


def test_the_page_for_programs_runs(monkeypatch):
    monkeypatch.chdir(ROOT)
    page = (ROOT / "docs" / "questions.md").read_text(encoding="utf-8")
    (code,) = re.findall(r"```python\n(.*?)```", page, re.DOTALL)
    told = {}
    exec(code, told)
    assert told["told"].filled.id == "how-thick"


def test_the_page_counts_right():
    page = (ROOT / "docs" / "questions.md").read_text(encoding="utf-8")
    questions = sum(isinstance(e, Question) for e in entries())
    assert f"({questions} questions)" in page
    assert f"({len(entries()) - questions} faults)" in page
    assert f"`{'`, `'.join(PATHS)}`" in " ".join(page.split())
