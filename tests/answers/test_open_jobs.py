"""The list over all open jobs: dates worked by hand on a calendar of 2026."""

from dataclasses import replace
from datetime import date

import pytest

from darby import answer
from darby.answers.open_jobs import open_jobs
from darby.job import loads
from tests.answers.jobs import FIRM, HEAD, WALL, changed, firehall, without_firm

START = date(2026, 3, 2)  # a Monday; the jobs are worked out for it
TWO_COAT = WALL.format(n=0, length=20) + '\n[[coats.on]]\nsurface = "wall-0"\nchoose = "two-coat"\n'


def job_of(*more, text=TWO_COAT, firm=FIRM):
    return answer(loads(HEAD + text + "".join(more), firm=firm))


def done(coat, on, surface="wall-0"):
    return f'\n[[done]]\nsurface = "{surface}"\ncoat = "{coat}"\non = {on}\n'


def waits(answers):
    """[days] that each coat waits, by name."""
    (surface,) = answers.kept[("days", "job")].ask.surfaces
    return {c.coat: float(c.wait_least) / 86_400 for c in surface.coats}


def only(answers, on=START):
    (found,) = open_jobs({"one": answers}, on)
    return found


def test_a_job_that_is_not_begun_is_ready_from_its_own_date():
    found = only(job_of())
    assert (found.name, found.title, found.do, found.ready_from) == ("one", "Walls", "begin", START)
    assert (found.must_by, found.by, found.after) == (None, "", "")
    assert found.trips > 0


def test_the_next_coat_waits_from_the_day_the_last_was_done():
    answers = job_of(done("base", "2026-03-04"))  # a Wednesday
    assert waits(answers)["base"] == 7
    found = only(answers, date(2026, 3, 6))
    assert (found.coat, found.at, found.after, found.after_on) == ("finish", ("wall-0/rest",), "base", date(2026, 3, 4))
    assert found.ready_from == date(2026, 3, 11)
    assert found.wait is not None and found.wait.value == 7 * 86_400
    # kept damp for two days, Friday the last of them
    assert (found.do, found.damp_until) == ("damp", date(2026, 3, 6))
    assert only(answers, date(2026, 3, 9)).do == "wait"
    assert only(answers, date(2026, 3, 11)).do == "go"


def test_ready_from_is_a_day_of_work():
    found = only(job_of(done("base", "2026-03-01"), "\n[days]\nholidays = [2026-03-09]\n"))
    assert found.ready_from == date(2026, 3, 10)  # a Sunday, then a holiday


def test_a_promise_is_worked_backward_over_the_waits_and_the_week():
    """Base and finish fit a day each and a week lies between: finish on Friday the 20th, base on Friday the 13th."""
    promised = "\n[days]\npromised = 2026-03-20\n"
    beads_done = done("beads", "2026-03-02")
    found = only(job_of(beads_done, promised))
    assert (found.coat, found.must_by, found.by, found.by_date) == (
        "base", date(2026, 3, 13), "promised", date(2026, 3, 20),
    )  # fmt: skip
    # promised for a Sunday is promised for the Friday before
    assert only(job_of(beads_done, promised.replace("20", "22", 2).replace("2226", "2026"))).must_by == date(
        2026, 3, 13
    )
    assert only(job_of(beads_done, promised), date(2026, 3, 16)).do == "late"


def test_hired_access_sets_a_last_day_only_where_it_is_needed():
    until = "\n[days]\nhired_until = 2026-03-20\n"
    high = TWO_COAT.replace('height = "8\'"', 'height = "20\'"')
    low = TWO_COAT.replace('height = "8\'"', 'height = "5\'"')
    assert only(job_of(until, text=low)).must_by is None
    found = only(job_of(until, text=high))
    assert (found.by, found.by_date) == ("hired", date(2026, 3, 20))
    assert found.must_by is not None and found.must_by < date(2026, 3, 14)


def test_a_double_back_must_come_the_same_day():
    frame = TWO_COAT.replace(
        'base = "block"\nblock = "dense"\njoints = "flush"', 'base = "frame"\nsheathing = "wood"\nstuds = "16 in"'
    )
    text = frame.replace("two-coat", "double-back")
    found = only(job_of(done("scratch", "2026-03-03"), text=text), date(2026, 3, 4))
    assert (found.coat, found.by, found.must_by, found.do) == ("brown", "double-back", date(2026, 3, 3), "late")


def test_sorted_by_last_day_then_by_first_and_what_cannot_be_planned_last():
    by_name = {
        "no-firm": answer(without_firm()),
        "late-start": job_of(done("base", "2026-03-04")),
        "free": job_of(),
        "promised": job_of("\n[days]\npromised = 2026-04-20\n"),
    }
    found = open_jobs(by_name, START)
    assert [j.name for j in found] == ["promised", "free", "late-start", "no-firm"]
    assert found[-1].do == "ask" and "answers.lacks.crew" in found[-1].lacks


def test_a_job_with_every_coat_on_is_not_open():
    assert open_jobs({"one": job_of(done("base", "2026-03-03"), done("finish", "2026-03-11"))}, START) == ()


def test_walls_that_are_ready_together_stand_together_and_a_house_is_its_walls():
    text = '\n[[done]]\nsurface = "crew"\ncoat = "brown"\non = 2026-10-05\n\n[price]'
    job = firehall(("\n[price]", text))
    assert {(d.surface, d.coat, d.on) for d in job.done} == {
        (f"crew-{n}", "brown", date(2026, 10, 5)) for n in (1, 2, 3)
    }
    found = only(answer(job), date(2026, 10, 6))
    assert found.do == "go" and len(found.at) > 1
    assert found.damp_at == ("crew-1/rest", "crew-2/rest", "crew-3/rest")


def test_the_price_is_that_of_the_whole_job():
    whole, begun = job_of(), job_of(done("base", "2026-03-03"))
    assert {w.coat: w.hours.value for w in whole.of("days").coats} == {
        w.coat: w.hours.value for w in begun.of("days").coats
    }
    assert begun.of("price").total.value == whole.of("price").total.value


def test_a_coat_that_the_build_up_does_not_have_is_said_and_counts_for_nothing():
    answers = job_of(done("dash-bond", "2026-03-03"))
    assert [n.at for n in answers.notes if n.code == "days.done-nowhere"] == ["wall-0"]
    assert only(answers).do == "begin"


@pytest.mark.parametrize(
    ("text", "code"),
    [('surface = "wall-9"\ncoat = "base"', "job.no-such-surface"),
     ('surface = "wall-0"\ncoat = "bass"', "job.not-one-of"),
     ('surface = "wall-0"\nzone = "attic"\ncoat = "base"', "job.no-such-zone")],
)  # fmt: skip
def test_what_was_written_wrongly_is_a_fault(text, code):
    from darby.job import JobError

    with pytest.raises(JobError) as refused:
        loads(HEAD + TWO_COAT + f"\n[[done]]\n{text}\non = 2026-03-03\n", firm=FIRM)
    assert [f.code for f in refused.value.faults] == [code]


def test_the_later_of_two_days_counts():
    found = only(job_of(done("base", "2026-03-04"), done("base", "2026-03-03")))
    assert found.after_on == date(2026, 3, 4)
    assert changed("a", ("a", "b")) == "b" and replace(found, name="x").name == "x"
