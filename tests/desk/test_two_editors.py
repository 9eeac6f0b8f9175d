"""Two browsers on one job: both changes stand where they do not meet; where they do, only the second is told."""

import re

import pytest

from tests.browser import LAPTOP, PHONE

DONE = re.compile("What changed|No answer changed")


@pytest.fixture(scope="module")
def two(desk, browser):
    pages = []
    for name, size in (("first editor", LAPTOP), ("second editor", PHONE)):
        page = browser.new_context(viewport=size).new_page()
        page.goto(desk.link(name, "owner"))
        pages.append(page)
    yield pages
    for page in pages:
        page.context.close()


@pytest.fixture
def shared_job(desk, request):
    """A copy of an example that only these two know."""
    from darby.desk.kept import saving

    id = f"shared-{request.node.name.removeprefix('test_').replace('_', '-')}"[:60].rstrip("-")
    saving.keep(id, saving.latest("chimney-soffit").text, desk.person("first editor", "owner"))
    return id


def opened(desk, page, document, key):
    page.goto(f"{desk.address}/document/{document}/section/{key}")
    for rest in page.locator("form.fill details.rest > summary").all():
        if rest.is_visible():
            rest.click()


def kept(page):
    page.get_by_role("button", name="Keep it").click()
    page.wait_for_load_state()


def tables(document):
    from darby.desk.kept import saving

    return saving.tables(saving.latest(document).text)


def test_what_does_not_meet_is_kept_both(desk, two, shared_job):
    first, second = two
    opened(desk, first, shared_job, "job")
    opened(desk, second, shared_job, "job")
    first.locator('[name="job.customer"]').fill("the Grange")
    second.locator('[name="job.address"]').fill("11 Mill Road")
    for page in (first, second):
        kept(page)
        page.get_by_role("heading", name=DONE).wait_for()
        assert page.get_by_text("Somebody else changed the same thing.").count() == 0
    head = tables(shared_job)["job"]
    assert (head["customer"], head["address"]) == ("the Grange", "11 Mill Road")


def test_what_meets_is_told_and_loses_nothing(desk, two, shared_job):
    first, second = two
    for page in two:
        opened(desk, page, shared_job, "job")
    first.locator('[name="job.customer"]').fill("the Grange")
    second.locator('[name="job.customer"]').fill("the School")
    kept(first)
    first.get_by_role("heading", name=DONE).wait_for()
    kept(second)
    second.get_by_text("Somebody else changed the same thing.").wait_for(timeout=10000)
    assert second.get_by_text("first editor changed it while you wrote.").is_visible()
    assert second.locator('[name="job.customer"]').input_value() == "the School"
    assert tables(shared_job)["job"]["customer"] == "the Grange"
    kept(second)
    second.get_by_role("heading", name=DONE).wait_for()
    assert tables(shared_job)["job"]["customer"] == "the School"


OPENINGS = """
openings = [
  "door 3068 at 2'",           # hung last year
  "window 3040 at 10', up 3'",
]
"""
SHED = f'''
darby = 1
[job]
name = "Two at one wall"
as_of = 2026-09-30
[[wall]]
id = "south"
length = "20'"
height = "10'"
base = "block"
block = "dense"
joints = "flush"{OPENINGS}
[coats]
finish = "float"
'''


@pytest.fixture
def shed(desk, request):
    from darby.desk.kept import saving

    id = f"shed-{request.node.name.removeprefix('test_').replace('_', '-')}"[:60].rstrip("-")
    saving.keep(id, SHED, desk.person("first editor", "owner"))
    return id


def by_list(desk, page, document, **fields):
    page.goto(f"{desk.address}/job/{document}/wall/?at=south")
    for name, text in fields.items():
        page.locator(f'#sketch-list [name="{name}"]').fill(text)


def send(page):
    with page.expect_response(lambda r: r.request.method == "POST" and "/sketch" in r.url) as got:
        page.locator("#sketch-list button.go").click()
    got.value.finished()
    page.wait_for_function("() => !document.querySelector('.htmx-request, .htmx-swapping, .htmx-settling')")
    return got.value.status


def text(document):
    from darby.desk.kept import saving

    return saving.latest(document).text


def test_two_openings_of_one_wall_are_both_moved(desk, two, shed):
    first, second = two
    by_list(desk, first, shed, **{"o.0.at": "3'"})
    by_list(desk, second, shed, **{"o.1.at": "12'"})
    assert [send(page) for page in two] == [200, 200]
    assert "Somebody else" not in second.locator("#sketch-list").inner_text()
    wanted = OPENINGS.replace("at 2'\",           #", "at 3'\",           #").replace("at 10', up 3'", "at 12', up 3'")
    assert wanted in text(shed), text(shed)
    second.get_by_role("heading", name=DONE).wait_for()


def test_who_moves_the_same_opening_is_told(desk, two, shed):
    first, second = two
    by_list(desk, first, shed, **{"o.0.at": "3'", "o.1.at": "11'"})
    by_list(desk, second, shed, **{"o.0.at": "4'"})
    assert [send(page) for page in two] == [200, 409]
    said = second.locator("#sketch-list")
    assert "Somebody else changed the same thing." in said.inner_text()
    assert "wall/south/openings/1" in said.inner_text()
    fields = [said.locator(f'[name="{name}"]').input_value() for name in ("o.0.at", "o.1.at")]
    assert fields == ["4'", "11'"], "his own, and beside it what the other kept"
    assert "door 3068 at 3'" in text(shed)
    assert send(second) == 200
    assert tables(shed)["wall"][0]["openings"] == ["door 3068 at 4'", "window 3040 at 11', up 3'"]
    assert "# hung last year" in text(shed)
