"""Every page in a browser: on a phone and a laptop, in both languages, by axe, and nothing wider than the screen."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser import LAPTOP, PHONE

AXE = Axe()
LOW = """
[...document.querySelectorAll("button, .rod a, .stages a, .joblist a, .box input, .field input, summary")]
.filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5).map(e => e.outerHTML.slice(0, 120))
"""
RULES = {"resultTypes": ["violations"]}
PAGES = (
    "/", "/?q=60%27+x+6%27+x+2,+1/2+block", "/?q=how+long+damp", "/me", "/people", "/firm", "/new", "/new/wall",
    "/document/firehall/section/wall", "/document/firehall/text", "/document/firehall/history",
    "/document/firehall/history/1", "/sign-in-as-a-stranger",
)  # fmt: skip


def stage_addresses():
    from pathlib import Path

    import darby.desk

    folder = Path(darby.desk.__file__).parent / "stages"
    return [f"/job/firehall/{p.parent.name.replace('_', '-')}/" for p in sorted(folder.glob("*/page.py"))]


@pytest.fixture(scope="module", params=["en", "es"])
def spoken(request, desk, browser):
    language = request.param
    state = browser.new_context()
    page = state.new_page()
    page.goto(desk.link(f"owner {language}", "owner", language=language))
    cookies = state.storage_state()
    state.close()
    contexts = {name: browser.new_context(viewport=size, storage_state=cookies, reduced_motion="reduce")
                for name, size in (("phone", PHONE), ("laptop", LAPTOP))}  # fmt: skip
    yield language, {name: context.new_page() for name, context in contexts.items()}
    for context in contexts.values():
        context.close()


@pytest.mark.parametrize("address", [*PAGES, *stage_addresses()])
def test_a_page_reads_well(desk, spoken, address):
    language, pages = spoken
    for name, page in pages.items():
        said: list[str] = []

        def hear(message, said=said):
            if message.type in ("error", "warning") and "404" not in message.text:
                said.append(message.text)

        page.on("console", hear)
        page.on("pageerror", lambda error, said=said: said.append(str(error)))
        page.goto(desk.address + address)
        where = f"{address} {name} {language}"
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), where
        assert page.locator("html").get_attribute("lang") == language
        found = AXE.run(page, options=RULES).response["violations"]
        assert not found, (where, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found])
        if name == "phone":
            low = page.evaluate(LOW)
            assert not low, (where, low[:3])
        page.remove_listener("console", hear)
        assert not said, (where, said)


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
    page.locator("#found").get_by_text("Alder Flat fire hall").wait_for(timeout=5000)


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
    page.get_by_text("Everything else that can be said").first.click()
    page.locator('[name="price.stands_days"]').fill("33")
    page.get_by_role("button", name="Keep it").click()
    assert page.get_by_role("heading", name="No answer changed.").count() + page.locator(".changes").count() == 1
