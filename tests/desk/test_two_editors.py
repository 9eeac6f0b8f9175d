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
