"""Day: coats and waits are drawn, what is done goes from the crew's phone into the job by the owner's one button."""

from __future__ import annotations

import re
import tomllib
from datetime import date
from pathlib import Path
from uuid import uuid4

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser import LAPTOP, PHONE

EXAMPLES = Path(__file__).parents[2] / "examples"
FIREHALL = (EXAMPLES / "firehall.toml").read_text(encoding="utf-8")
WEEK = "?week=2026-10-05"


@pytest.fixture(scope="module")
def who(desk):
    return desk.person("day", "owner")


@pytest.fixture
def job(who):
    from darby.desk.kept import saving

    name = f"day-{uuid4().hex[:8]}"
    saving.keep(name, FIREHALL, who)
    return name


def done_of(job):
    from darby.desk.kept import saving

    return tomllib.loads(saving.latest(job).text).get("done", [])


def put_down(crew, job, **other):
    said = {"id": str(uuid4()), "at": "bay-north/rest", "coat": "dash-bond", "on": "2026-10-01"} | other
    return crew.post(f"/job/{job}/days/down", **said)


def lines_that_wait(page):
    return re.findall(r'name="line" value="([\w-]+)"', page)


# --- the drawing --------------------------------------------------------------------------------------


def test_the_week_is_drawn_from_the_dates_that_were_answered(owner):
    """Base on Oct 7, damp through Oct 9, the finish from Oct 14 (our own answers, checked in tests/days)."""
    page = owner.get(f"/job/firehall/days/{WEEK}").text
    week = re.search(r'<svg [^>]*aria-label="Coats and waits in the week of October 5, 2026".*?</svg>', page)[0]
    assert re.findall(r'class="k-name[^"]*"[^>]*>([^<]+)<', week) == [
        "Mon 5", "Tue 6", "Wed 7", "Thu 8", "Fri 9", "Sat 10", "Sun 11",
    ]  # fmt: skip
    column = (1044 - 158) / 7
    boxes = [
        (float(x), float(wide)) for x, wide in re.findall(r'k-damp" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', week)
    ]
    assert boxes
    ends = {round((x + wide - 158) / column, 2) for x, wide in boxes}
    assert ends == {3.0, 4.0, 5.0}, "damp through the 7th, the 8th, the 9th"
    assert "finish from Wed 14" in week
    assert len(re.findall('class="k-off"', week)) == 2, "Saturday and Sunday are not worked"


def test_every_box_lies_in_its_day(owner):
    from darby.desk.reading import read

    answers = read("firehall").answers
    page = owner.get(f"/job/firehall/days/{WEEK}").text
    week = re.search(r'<svg [^>]*aria-label="Coats and waits in the week.*?</svg>', page)[0]
    column = (1044 - 158) / 7
    counts: dict[int, int] = {}
    for x, wide in re.findall(r'class="k-work" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', week):
        start = (float(x) - 158) / column
        day = int(start)
        counts[day] = counts.get(day, 0) + 1
        assert start + float(wide) / column <= day + 1.05
    trips = [t for t in answers.of("days").trips if date(2026, 10, 5) <= t.day <= date(2026, 10, 11)]
    assert counts == {(t.day - date(2026, 10, 5)).days: len(t.pieces) for t in trips}


def test_weeks_lead_on_to_each_other_and_nonsense_leads_to_the_first(owner):
    first = owner.get("/job/firehall/days/?week=yesterday").text
    assert "September 28" in first
    assert re.findall(r'href="\?week=([\d-]+)" rel="(\w+)"', first) == [("2026-10-05", "next")]
    second = owner.get(f"/job/firehall/days/{WEEK}").text
    assert re.findall(r'href="\?week=([\d-]+)" rel="(\w+)"', second) == [("2026-09-28", "prev"), ("2026-10-12", "next")]
    last = owner.get("/job/firehall/days/?week=2026-10-20").text
    assert re.findall(r'href="\?week=([\d-]+)" rel="(\w+)"', last) == [("2026-10-12", "prev")]


def test_the_drawing_stands_as_a_table_too(owner):
    page = owner.get(f"/job/firehall/days/{WEEK}").text
    table = page[page.index("The same as a table") :]
    row = re.search(r"<tr><th[^>]*>Engine bay, east wall</th>(.*?)</tr>", table)[1]
    assert re.findall(r">([^<]+)</td>", row) == [
        "Base", "Tuesday, October 6", "Thursday, October 8", "Tuesday, October 13",
    ]  # fmt: skip


def test_what_comes_next_is_what_the_open_jobs_say(owner):
    from darby.answers.open_jobs import next_coats, open_jobs
    from darby.desk.reading import read

    answers = read("firehall").answers
    on = date(2026, 10, 6)
    heads = next_coats(answers, on)
    (job,) = open_jobs({"firehall": answers}, on)
    assert (heads[0].coat, heads[0].ready_from, heads[0].must_by) == (job.coat, job.ready_from, job.must_by)
    assert {head.at for head in heads} == {(s.at,) for s in answers.kept[("days", "job")].ask.surfaces}


# --- from the phone into the job ----------------------------------------------------------------------


def test_done_goes_from_the_crew_into_the_job(owner, crew, job):
    before = owner.get(f"/job/{job}/days/").text
    assert lines_that_wait(before) == []
    assert put_down(crew, job, remark="two bags over").status == 302
    page = owner.get(f"/job/{job}/days/").text
    (id,) = lines_that_wait(page)
    assert "Dash bond is on: Engine bay, north wall, Thursday, October 1." in page
    assert "two bags over" in page
    assert done_of(job) == [], "the crew writes no job"
    reply = owner.post(f"/job/{job}/days/take", _form=f"/job/{job}/days/", line=id, do="take")
    assert reply.status == 200
    assert "What changed" in reply.text
    assert done_of(job) == [{"surface": "bay-north", "zone": "rest", "coat": "dash-bond", "on": date(2026, 10, 1)}]
    assert lines_that_wait(owner.get(f"/job/{job}/days/").text) == []


def test_the_days_count_from_what_was_done(owner, crew, job):
    from darby.desk.reading import read

    put_down(crew, job, at="bay-east/rest", coat="base", on="2026-10-08")
    (id,) = lines_that_wait(owner.get(f"/job/{job}/days/").text)
    owner.post(f"/job/{job}/days/take", _form=f"/job/{job}/days/", line=id, do="take")
    (base,) = [c for c in read(job).answers.of("days").coats if (c.at, c.coat) == ("bay-east/rest", "base")]
    assert base.last == date(2026, 10, 8)
    page = owner.get(f"/job/{job}/days/{WEEK}").text
    assert 'class="k-work k-done"' in page


def test_left_out_it_stays_in_the_log_and_out_of_the_job(owner, crew, job):
    from darby.desk.kept import saving

    put_down(crew, job)
    (id,) = lines_that_wait(owner.get(f"/job/{job}/days/").text)
    owner.post(f"/job/{job}/days/take", _form=f"/job/{job}/days/", line=id, do="leave")
    assert lines_that_wait(owner.get(f"/job/{job}/days/").text) == []
    assert done_of(job) == []
    assert [str(e.id) for e in saving.log(job) if e.kind == "done"] == [id]


def test_taken_twice_it_is_in_the_job_once(owner, crew, job):
    from darby.desk.onsite import lines
    from darby.desk.reading import read

    put_down(crew, job)
    (id,) = lines_that_wait(owner.get(f"/job/{job}/days/").text)
    for _ in range(2):
        lines.take(read(job), [id], read(job).revision.who)
    assert len(done_of(job)) == 1


def test_what_the_job_cannot_read_is_said_and_waits_on(owner, crew, job):
    assert put_down(crew, job, at="no-such-wall").status == 302
    page = owner.get(f"/job/{job}/days/").text
    (id,) = lines_that_wait(page)
    reply = owner.post(f"/job/{job}/days/take", _form=f"/job/{job}/days/", line=id, do="take")
    assert reply.status == 422
    assert 'role="alert"' in reply.text
    assert lines_that_wait(reply.text) == [id]
    assert done_of(job) == []


@pytest.mark.parametrize("wrong", [{"coat": "icing"}, {"on": "last week"}, {"on": ""}, {"id": "none"}])
def test_a_line_without_a_coat_or_a_day_is_refused(crew, job, wrong):
    from darby.desk.kept import saving

    assert put_down(crew, job, **wrong).status == 400
    assert saving.log(job) == []


def test_readings_wait_until_the_job_says_the_same(owner, who, job):
    from darby.desk.kept import saving

    read = {"u": "2'", "v": "3'", "out": "1/8 in"}
    saving.note_down(uuid4(), job, "reading", who, said=read, at="bay-north")
    page = owner.get(f"/job/{job}/days/").text
    assert "Readings that wait at their wall: 1" in page
    points = '[["2 ft", "36 in", "1/8 in"], ["6\'", "3\'", "0 in"], ["6\'", "7\'", "1/4 in"], ["2\'", "7\'", "0 in"]]'
    text = saving.latest(job).text + f'\n[[readings]]\nsurface = "bay-north"\npoints = {points}\n'
    saving.keep(job, text, who, base=1)
    assert "Readings that wait" not in owner.get(f"/job/{job}/days/").text


# --- the crew -----------------------------------------------------------------------------------------


def test_the_crew_sees_the_days_without_money_and_takes_nothing(crew, job):
    page = crew.get(f"/job/{job}/days/")
    assert page.status == 200
    assert "$" not in page.text
    put_down(crew, job)
    page = crew.get(f"/job/{job}/days/").text
    assert "Dash bond is on" in page
    assert lines_that_wait(page) == []
    assert crew.post(f"/job/{job}/days/take", do="take").status == 403


# --- in a browser -------------------------------------------------------------------------------------


@pytest.fixture(scope="module", params=["en", "es"])
def pages(request, desk, browser):
    language = request.param
    made = {}
    for role, sizes in (("owner", ("phone", "laptop")), ("crew", ("phone",))):
        state = browser.new_context()
        page = state.new_page()
        page.goto(desk.link(f"{role} {language}", role, language=language))
        cookies = state.storage_state()
        state.close()
        for name in sizes:
            size = PHONE if name == "phone" else LAPTOP
            context = browser.new_context(
                viewport=size, storage_state=cookies, reduced_motion="reduce", service_workers="block"
            )
            made[role, name] = context.new_page()
    yield language, made
    for page in made.values():
        page.context.close()


def test_it_reads_well_at_both_widths(desk, pages, job, crew):
    put_down(crew, job)
    language, made = pages
    for (role, name), page in made.items():
        page.goto(f"{desk.address}/job/{job}/days/{WEEK}")
        where = (role, name, language)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), where
        found = Axe().run(page, options={"resultTypes": ["violations"]}).response["violations"]
        assert not found, (where, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found])
        assert page.locator(".across svg").is_visible() == (name == "laptop")
        assert page.locator(".day-choice").is_visible() == (name == "phone")
        if name == "phone":
            low = page.evaluate(
                "[...document.querySelectorAll('.day-choice label, .ticks label, .row-link, .week .begin a')]"
                ".filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5).map(e => e.outerHTML)"
            )
            assert not low, (where, low)


def test_a_day_at_a_time_on_a_phone_by_key(desk, pages):
    _, made = pages
    page = made["crew", "phone"]
    page.goto(f"{desk.address}/job/firehall/days/{WEEK}")
    shown = page.locator(".a-day:visible")
    assert shown.count() == 1
    first = shown.locator("h3").inner_text()
    page.locator(".day-choice input:checked").focus()
    page.keyboard.press("ArrowRight")
    assert shown.count() == 1
    assert shown.locator("h3").inner_text() != first


def test_a_coat_put_down_in_a_browser_is_in_the_log_in_words(desk, pages, job):
    from darby.desk.kept import saving

    _, made = pages
    page = made["crew", "phone"]
    page.goto(f"{desk.address}/job/{job}/days/")
    called = page.locator("#done-coat option[value=base]").inner_text()
    page.select_option("#done-at", "bay-east/rest")
    page.select_option("#done-coat", "base")
    page.fill("#done-on", "2026-10-06")
    page.locator("form[data-queue=done] button").click()
    page.locator("#kept-lines li[data-state=sent]").first.wait_for()
    (entry,) = [e for e in saving.log(job) if e.kind == "done"]
    assert (entry.at, entry.said["coat"], entry.said["on"]) == ("bay-east/rest", "base", "2026-10-06")
    assert entry.said["text"].startswith(called)
    assert "2026-10-06" in page.locator("#kept-lines li").first.inner_text()
