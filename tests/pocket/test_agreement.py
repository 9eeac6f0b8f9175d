"""Five hundred random walls through the sheet in a real browser and, as the job file it exports, through the core."""

from datetime import date

import pytest

from darby.answers import answer
from darby.job import loads
from tests.answers.jobs import EXAMPLES
from tests.browser import opened
from tests.pocket.core import Printed, unlike
from tests.pocket.walls import job

JOBS, WALLS = 50, 10
ASK = """(jobs) => jobs.map((job) => ({ printed: darby.printed(job), text: darby.jobFile(job) }))"""


def asked(browser, sheet, jobs, language="en", system="us"):
    """All jobs in one call: what the sheet prints and what it exports."""
    page = opened(browser, sheet.as_uri())
    page.evaluate("([language, system]) => darby.change({ language, system })", [language, system])
    told = page.evaluate(ASK, jobs)
    page.context.close()
    return told


def answered(told, folder=EXAMPLES):
    """The core's answers to what was exported."""
    return [answer(loads(each["text"], folder=folder)) for each in told]


def compared(told, answers, language="en", system="us"):
    """Differences, and how many texts and walls were compared."""
    differences, texts, walls = [], 0, 0
    for number, (each, core_answers) in enumerate(zip(told, answers, strict=True)):
        sheet = each["printed"]
        core = Printed(core_answers, language, system).everything(sheet["order"])
        for wall in sheet["walls"]:
            wall["cautions"] = sorted(set(wall["cautions"]))
        sheet["dangers"].sort()
        found, count = unlike(sheet, core, f"job {number}")
        differences, texts, walls = differences + found, texts + count, walls + len(core["walls"])
    return differences, texts, walls


@pytest.fixture(scope="module")
def told(browser, firm_sheet):
    return asked(browser, firm_sheet, [job(seed, WALLS) for seed in range(JOBS)])


@pytest.fixture(scope="module")
def answers(told):
    return answered(told)


def test_five_hundred_walls_agree_to_the_printed_digit(told, answers):
    differences, texts, walls = compared(told, answers)
    assert differences == []
    assert walls > 400, "what does not fit on its wall is refused; that may not be most of them"
    assert texts > 20_000


def test_a_wall_is_left_out_only_because_its_openings_do_not_fit(told):
    for each in told:
        left_out = {tuple(fault["at"][:2]) for fault in each["printed"]["faults"]}
        assert len(left_out) + len(each["printed"]["walls"]) == WALLS
        assert {fault["code"] for fault in each["printed"]["faults"]} <= {"pocket.no-room"}


def test_the_job_file_answers_without_anything_left_open(answers):
    assert [each.unanswered() for each in answers if each.unanswered()] == []


@pytest.mark.parametrize(("language", "system"), [("es", "us"), ("en", "metric"), ("es", "metric")])
def test_in_the_other_language_and_system(browser, firm_sheet, language, system):
    told = asked(browser, firm_sheet, [job(seed, WALLS) for seed in range(1000, 1003)], language, system)
    differences, texts, _ = compared(told, answered(told), language, system)
    assert differences == []
    assert texts > 1000


def test_without_a_firm_the_book_s_own_mixes_and_shares(browser, lone_sheet):
    told = asked(browser, lone_sheet, [job(seed, WALLS) for seed in range(2000, 2006)])
    differences, texts, _ = compared(told, answered(told, folder=None))
    assert differences == []
    assert texts > 2000


# --- dates ------------------------------------------------------------------------------------------------


def test_waits_are_counted_in_days_as_the_core_counts_them(told, answers):
    """From the core's own last day of a coat to the first on which the next may go on, and to the last damp one."""
    counted = 0
    for each, core_answers in zip(told, answers, strict=True):
        days = {(c.at, c.coat): c for c in core_answers.of("days").coats}
        for wall in each["printed"]["walls"]:
            for n, coat in enumerate(wall["coats"], 1):
                core, (after, damp) = days[f"{wall['id']}/rest", coat["name"]], coat["days"]
                if n < len(wall["coats"]):
                    assert (core.next_from - core.last).days == after
                else:
                    assert ((core.damp_until - core.last).days if core.damp_until else 0) == damp
                counted += 1
    assert counted > 800


def test_a_small_wall_goes_on_when_the_core_says(browser, firm_sheet):
    """One wall whose every coat fits a day: the core's plan has the sheet's days."""
    small = {"size": "12' x 8'", "openings": [], "gable": "", "faces": "1", "old": ""}
    jobs = [{**job(seed, 1), "allow": {}} for seed in range(3000, 3040)]
    for made in jobs:
        made["walls"] = [made["walls"][0] | small]
    told = asked(browser, firm_sheet, jobs)
    counted = 0
    for made, each, core in zip(jobs, told, answered(told), strict=True):
        days = core.of("days")
        if any(c.first != c.last for c in days.coats) or days.coats[0].first.isoformat() != made["day"]:
            continue
        plan = {c.coat: c.first for c in days.coats}
        wall = each["printed"]["walls"][0]
        for coat, (on, _, damp) in zip(wall["coats"], each["printed"]["dates"]["wall-1"], strict=True):
            assert date.fromisoformat(on) == plan[coat["name"]]
            assert damp is None or date.fromisoformat(damp) >= plan[coat["name"]]
            counted += 1
    assert counted > 40
