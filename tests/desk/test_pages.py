"""Every page in a browser: on a phone and a laptop, in both languages, by axe, and nothing wider than the screen."""

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe

import darby.desk
from tests.browser import LAPTOP, PHONE

AXE = Axe()
LOW = """
[...document.querySelectorAll("button, .rod a, .stages a, .joblist a, .box input, .field input, summary")]
.filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5).map(e => e.outerHTML.slice(0, 120))
"""
RULES = {"resultTypes": ["violations"]}
ZOOMED = {"width": 640, "height": 400}  # a laptop's 1280 px at 200 %
BOTH = ("/", "/new/wall", "/job/firehall/wall/", "/job/firehall/joints/", "/job/firehall/price/")
MOVING = """
[...document.querySelectorAll("*")].filter(e => {
  const s = getComputedStyle(e);
  const long = text => text.split(",").some(t => parseFloat(t) > 0.01);
  return (s.animationName !== "none" && long(s.animationDuration)) || long(s.transitionDuration);
}).map(e => e.outerHTML.slice(0, 100))
"""
PAGES = (
    "/", "/?q=60%27+x+6%27+x+2,+1/2+block", "/?q=how+long+damp", "/me", "/people", "/firm", "/new", "/new/wall",
    "/document/firehall/section/wall", "/document/firehall/text", "/document/firehall/history",
    "/document/firehall/history/1", "/sign-in-as-a-stranger",
)  # fmt: skip


HOUSE = Path(darby.desk.__file__).parent
WIDEST = 160  # signs of a template's line; it is meant to be read


def stage_addresses():
    return [f"/job/firehall/{p.parent.name.replace('_', '-')}/" for p in sorted((HOUSE / "stages").glob("*/page.py"))]


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
    judged = LAPTOP if language == "es" else PHONE
    for size in (PHONE, ZOOMED, LAPTOP):
        page.set_viewport_size(size)
        where = f"{address} {size['width']} {language}"
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), where
        if size == PHONE:
            low = page.evaluate(LOW)
            assert not low, (where, low[:3])
        if size == judged or (size != ZOOMED and address in BOTH):
            found = AXE.run(page, options=RULES).response["violations"]
            assert not found, (where, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found])
    said, page.said[:] = list(page.said), []
    assert not said, (address, language, said)


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
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), language
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
        assert not AXE.run(page, options=RULES).response["violations"], address
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
