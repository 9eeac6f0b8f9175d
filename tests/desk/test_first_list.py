"""The first page's list: open jobs by "must by" and "ready from", put away and brought back, and quick."""

from __future__ import annotations

import re
import time
from datetime import date, timedelta
from pathlib import Path
from uuid import uuid4

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
WALL = """
darby = 1
[job]
name = "{name}"
as_of = {as_of}
firm = "firm.toml"
[[wall]]
id = "front"
length = "24'"
height = "8'"
base = "concrete"
{more}
"""


@pytest.fixture(scope="module")
def who(desk):
    return desk.person("lister", "owner")


@pytest.fixture
def made(who):
    """Makes a job of one wall; puts them all away in the end, so that the list stays what it was."""
    from darby.desk.kept import saving

    names = []

    def make(as_of, more=""):
        name = f"list-{uuid4().hex[:8]}"
        saving.keep(name, WALL.format(name=name, as_of=as_of, more=more), who)
        names.append(name)
        return name

    yield make
    for name in names:
        saving.note_down(uuid4(), name, "closed", who)


def listed(page):
    """The names of the open jobs, in their order."""
    section = page[page.index("Open jobs") :].partition("</section>")[0]
    return re.findall(r"<b>([^<]+)</b>", section)


def row(page, name):
    return next(part for part in page.split("<li ") if f"<b>{name}</b>" in part)


def test_by_must_by_then_by_ready_from(owner, made):
    late = made("2027-03-01")
    promised = made("2027-04-01", '[days]\npromised = "2027-05-28"')
    soon = made("2027-01-04")
    names = [name for name in listed(owner.get("/").text) if name.startswith("list-")]
    assert names == [promised, soon, late]


def test_the_row_says_what_the_open_jobs_say(owner, made):
    from darby.answers.open_jobs import open_jobs
    from darby.desk.reading import read

    name = made("2027-04-01", '[days]\npromised = "2027-05-28"')
    (job,) = open_jobs({name: read(name).answers}, date.today())
    said = row(owner.get("/").text, name)
    assert f"from Apr {job.ready_from.day}" in said
    assert f"by May {job.must_by.day}" in said
    assert "Promised for Friday, May 28." in said


def test_where_every_coat_is_on_it_is_no_open_job(owner, made):
    from darby.desk.reading import read

    name = made("2026-03-02")
    (surface,) = read(name).answers.kept[("days", "job")].ask.surfaces
    done = "".join(f'[[done]]\nsurface = "front"\ncoat = "{c.coat}"\non = 2026-03-{2 + 9 * n:02}\n'
                   for n, c in enumerate(surface.coats))  # fmt: skip
    whole = made("2026-03-02", done)
    page = owner.get("/").text
    assert name in listed(page)
    assert whole not in listed(page)
    assert "every coat is on" in row(page, whole)


def test_put_away_and_brought_back(owner, crew, made):
    name = made("2027-03-01")
    assert name in listed(owner.get("/").text)
    assert crew.post(f"/job/{name}/away").status == 403
    assert owner.post(f"/job/{name}/away", _form="/").status == 302
    page = owner.get("/").text
    assert name not in listed(page)
    assert f"Bring it back: {name}" in page
    assert owner.get(f"/job/{name}/wall/").status == 200, "nothing of it is lost"
    owner.post(f"/job/{name}/away", _form="/", do="bring-back")
    assert name in listed(owner.get("/").text)
    assert owner.post("/job/no-such-job/away", _form="/").status == 404


def test_a_line_is_made_anew_on_the_day_on_which_something_else_is_to_be_said(made):
    from darby.desk.kept import saving
    from darby.desk.views import first

    name = made("2027-03-01", '[[done]]\nsurface = "front"\ncoat = "base"\non = 2027-03-01\n')
    revision, firm = saving.latest(name), saving.firm_text()
    says = {}
    day = date(2027, 3, 1)
    for _ in range(20):
        line = first._job_line(revision, firm, day)
        fresh = first._made_line(first.read_revision(revision, firm), day)
        assert line.says == fresh.says, day
        says.setdefault(line.says["en us"], day)
        day += timedelta(days=1)
    assert len(says) >= 2, says


def test_ten_jobs_are_listed_at_once(owner, made):
    for n in range(10):
        made(f"2027-02-{n + 1:02}")
    owner.get("/")
    begun = time.perf_counter()
    page = owner.get("/").text
    took = time.perf_counter() - begun
    assert len([name for name in listed(page) if name.startswith("list-")]) == 10
    assert took < 2, took  # 0.1 s on a quiet machine


def test_the_crew_has_the_list_without_money_and_puts_nothing_away(crew, made):
    name = made("2027-03-01")
    page = crew.get("/").text
    assert name in listed(page)
    assert "$" not in page
    assert "/away" not in page


def test_of_many_jobs_of_one_name_the_short_name_finds_one_and_the_rest_are_counted(desk):
    from darby.desk.views.first import MOST_FOUND, JobLine, matching

    many = [JobLine(f"hall-{n}", "Fire hall", "Mill Road", None, None, "open", {}, True, None) for n in range(12)]
    assert len(matching("fire hall", many)) == 12 > MOST_FOUND
    assert [j.id for j in matching("Hall-7", many)][:1] == ["hall-7"]
    assert matching("hall-", many) == []


def test_what_is_found_beyond_the_first_few_is_counted(owner, made):
    names = [made(f"2027-03-{n + 1:02}") for n in range(10)]
    assert not re.search(r"And \d+ more", owner.get(f"/?q={names[0]}").text)
    found = owner.get("/?q=list-").text
    assert int(re.search(r"And (\d+) more: type more of the name", found)[1]) >= 2
