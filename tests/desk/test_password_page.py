"""A password is looked at while it is typed, and the page says how strong a new one is."""

from uuid import uuid4

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser import PHONE

SAYS = {
    "": "", "hod": "Too short: twelve signs at least.", "aaaaaaaaaaaaaaaa": "Weak: easily guessed.",
    "1029384756473829": "Weak: easily guessed.", "lath and paper": "Fair. Longer is stronger.",
    "lath and paper 42 hods": "Strong.",
}  # fmt: skip


@pytest.fixture(scope="module")
def page(browser, desk):
    made = browser.new_context(viewport=PHONE).new_page()
    made.goto(desk.link(f"typing {uuid4().hex[:6]}", "owner"))
    yield made
    made.context.close()


def test_how_strong_it_is_is_said_in_words(page, desk):
    page.goto(f"{desk.address}/me")
    said = page.locator("[data-strength]")
    for typed, words in SAYS.items():
        page.fill("#password", typed)
        assert said.inner_text() == words, typed
    page.fill("#password", f"{page.input_value('#name')} 42 hods")
    assert said.inner_text() == "Weak: easily guessed.", "his own name stands in it"


def test_it_can_be_looked_at_and_is_hidden_again_when_sent(page, desk):
    page.goto(f"{desk.address}/me")
    page.fill("#password", "lath and paper 42 hods")
    look = page.locator("[data-look-at=password]")
    assert page.get_attribute("#password", "type") == "password"
    look.click()
    assert page.get_attribute("#password", "type") == "text" and look.get_attribute("aria-pressed") == "true"
    look.click()
    assert page.get_attribute("#password", "type") == "password"
    page.get_by_role("button", name="Keep it").click()
    page.locator("#password-now").wait_for()


def test_the_page_that_asks_again_is_whole_and_does_what_was_asked(page, desk):
    name = f"partner {uuid4().hex[:6]}"
    page.goto(f"{desk.address}/people")
    page.fill("#name", name)
    page.select_option("#role", "owner")
    page.get_by_role("button", name="Make a link").click()
    page.locator("#password-now").wait_for()
    assert page.locator("h1").inner_text() == "Is it you?"
    assert Axe().run(page).response["violations"] == []
    assert page.locator(".look-at").bounding_box()["height"] >= 44
    page.fill("#password-now", "lath and paper 42 hods")
    page.get_by_role("button", name="Do it").click()
    page.locator("code.link").wait_for()
    assert name in page.inner_text("table.people")
