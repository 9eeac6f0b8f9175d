"""Every page in a browser: on a phone and a laptop, in both languages, by axe, and nothing wider than the screen."""

import re

import pytest

from tests.browser import LAPTOP, PHONE
from tests.desk.reached import (
    HOUSE,
    LOW,
    MOVING,
    PAGES,
    STATES,
    WIDER,
    ZOOMED,
    judged,
    signing_in,
    stage_addresses,
)  # fmt: skip

BOTH = ("/", "/new/wall", "/job/firehall/wall/", "/job/firehall/joints/", "/job/firehall/price/")
WIDEST = 160  # signs of a template's line; it is meant to be read


def test_every_template_is_set_out_to_be_read():
    templates = sorted(HOUSE.rglob("*.html"))
    assert len(templates) > 50
    long = [
        (str(t.relative_to(HOUSE)), number, len(line))
        for t in templates
        for number, line in enumerate(t.read_text(encoding="utf-8").splitlines(), 1)
        if len(line) > WIDEST
    ]
    assert not long


@pytest.fixture(scope="module", params=["en", "es"])
def spoken(request, desk, browser):
    language = request.param
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce")
    page = context.new_page()
    page.said = []

    def hear(message):
        if message.type in ("error", "warning") and "404" not in message.text:
            page.said.append(message.text)

    page.on("console", hear)
    page.on("pageerror", lambda error: page.said.append(str(error)))
    page.goto(desk.link(f"owner {language}", "owner", language=language))
    yield language, page
    context.close()


@pytest.mark.parametrize("address", [*PAGES, *stage_addresses()])
def test_a_page_reads_well(desk, spoken, address):
    """One visit a language, at both widths; axe judges the phone in English and the laptop in Spanish, and the pages
    with a drawing or a form also the other way round, for colors and names hang on words and widths alike."""
    language, page = spoken
    page.goto(desk.address + address)
    assert page.locator("html").get_attribute("lang") == language
    by_axe = LAPTOP if language == "es" else PHONE
    for size in (PHONE, ZOOMED, LAPTOP):
        page.set_viewport_size(size)
        where = f"{address} {size['width']} {language}"
        assert not page.evaluate(WIDER), where
        if size == PHONE:
            low = page.evaluate(LOW)
            assert not low, (where, low[:3])
        if size == by_axe or (size != ZOOMED and address in BOTH):
            assert not judged(page), where
    said, page.said[:] = list(page.said), []
    assert not said, (address, language, said)


@pytest.mark.parametrize("name", STATES)
def test_what_no_address_reaches_reads_well(desk, spoken, name):
    language, page = spoken
    page.set_viewport_size(PHONE)
    STATES[name](page, desk)
    assert not page.evaluate(WIDER), (name, language)
    if (language == "en") == (len(name) % 2 == 0):
        assert not judged(page), (name, language)
    page.said.clear()  # a form refused answers 422, a clash 409: the browser tells of both


def test_the_door_reads_well(desk, browser):
    context = browser.new_context(viewport=PHONE)
    page = context.new_page()
    signing_in(page, desk)
    assert not judged(page)
    context.close()


def test_on_paper_the_rod_is_gone_and_the_rows_stand_open(spoken, desk):
    language, page = spoken
    page.set_viewport_size(LAPTOP)
    page.goto(f"{desk.address}/job/firehall/price/")
    assert page.locator("nav.rod").first.is_visible()
    page.emulate_media(media="print")
    try:
        assert not page.locator("nav.rod").first.is_visible()
        assert not page.locator(".eve").first.is_visible()
        assert page.locator(".row:not([open]) .working").first.bounding_box()["height"] > 10
        assert not page.evaluate(WIDER), language
    finally:
        page.emulate_media(media="screen")


def test_nothing_moves_where_motion_is_unwanted(spoken, desk):
    _, page = spoken
    page.goto(f"{desk.address}/job/firehall/wall/")
    assert page.evaluate("matchMedia('(prefers-reduced-motion: reduce)').matches")
    assert page.evaluate(MOVING) == []


def test_in_the_evening_too(desk, browser):
    context = browser.new_context(viewport=PHONE)
    page = context.new_page()
    page.goto(desk.link("evening", "owner"))
    page.get_by_role("button", name="evening").click()
    for address in ("/", "/job/firehall/wall/", "/job/firehall/coats/"):
        page.goto(desk.address + address)
        assert page.locator("html.evening").count() == 1
        assert not judged(page), address
    context.close()


def test_what_is_typed_is_answered_as_it_is_typed(desk, browser):
    page = browser.new_context(viewport=PHONE).new_page()
    page.goto(desk.link("typist", "owner"))
    page.get_by_role("searchbox").fill("60' x 6' x 2, 1/2 block")
    page.get_by_text("720 sq ft").wait_for(timeout=5000)
    page.get_by_role("searchbox").fill("mill road")
    page.locator("#found").get_by_text("Alder Flat fire hall").first.wait_for(timeout=5000)


def test_a_section_opens_in_its_place_and_shows_what_changed(desk, browser):
    page = browser.new_context(viewport=LAPTOP).new_page()
    page.goto(desk.link("changer", "owner"))
    page.goto(f"{desk.address}/job/chimney-soffit/coats/")
    page.get_by_role("link", name="Change: Coats").click()
    page.get_by_label("Painted").first.select_option("true")
    page.get_by_role("button", name="Keep it").click()
    page.get_by_role("heading", name="What changed").wait_for(timeout=5000)
    assert page.locator(".changes tbody tr").count() > 2
    assert page.url.endswith("/job/chimney-soffit/coats/")


def test_a_change_is_said_to_who_only_hears_the_page(desk, browser):
    """The status line was there before and is filled with what the table says; the focus is where the answer stands."""
    page = browser.new_context(viewport=LAPTOP).new_page()
    page.goto(desk.link("hearer", "owner"))
    page.goto(f"{desk.address}/job/garden-wall/wall/")
    status = page.locator("#spoken[role=status]")
    assert status.text_content() == ""
    page.locator("#sketch-list fieldset.whole input").first.fill("61'")
    page.locator("#sketch-list button.go").press("Enter")
    page.get_by_role("heading", name="What changed").wait_for(timeout=8000)
    said = status.text_content()
    assert said.startswith("What changed. ") and "Was: " in said and "Now: " in said
    first = page.locator(".changes tbody tr").first
    assert first.locator("td").first.inner_text().strip() in said
    assert page.evaluate("document.activeElement !== document.body")


def test_a_page_is_heard_in_order(desk, browser):
    """Landmarks, one first heading, no level left out, everything to press by a name; of a page with most on it."""
    page = browser.new_context(viewport=LAPTOP).new_page()
    page.goto(desk.link("hearer", "owner"))
    for address in ("/", "/job/firehall/wall/", "/job/firehall/days/", "/job/firehall/quote/", "/job/firehall/joints/"):
        page.goto(desk.address + address)
        heard = page.locator("body").aria_snapshot()
        landmarks = [line.strip(" -:").split(" ")[0] for line in heard.splitlines() if line.startswith("- ")]
        assert landmarks.count("main") == 1 and "banner" in landmarks, (address, landmarks)
        levels = [int(n) for n in re.findall(r"heading .*\[level=(\d)\]", heard)]
        assert levels.count(1) == 1, (address, levels)
        assert all(b - a <= 1 for a, b in zip(levels[levels.index(1) :], levels[levels.index(1) + 1 :], strict=False))
        assert not re.findall(r"- (?:button|link|textbox|combobox|checkbox|radio)(?=:|$)", heard, re.M), address


def test_without_script_a_change_is_kept_as_well(desk, browser):
    page = browser.new_context(viewport=PHONE, java_script_enabled=False).new_page()
    page.goto(desk.link("plain", "owner"))
    page.goto(f"{desk.address}/job/chimney-soffit/price/")
    page.locator(".row summary").first.click()
    assert page.locator(".row[open] .working").first.is_visible()
    page.goto(f"{desk.address}/document/chimney-soffit/section/price?from=price")
    days = page.locator('[name="price.stands_days"]')
    if not days.is_visible():
        page.get_by_text("Everything else that can be said").first.click()
    days.fill("33")
    page.get_by_role("button", name="Keep it").click()
    assert page.get_by_role("heading", name="No answer changed.").count() + page.locator(".changes").count() == 1
