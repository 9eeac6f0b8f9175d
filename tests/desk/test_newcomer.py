"""A newcomer's whole way: from the one box to a printed quote, each tap, key, entry and screen counted.

An entry is a field that is filled or chosen. Keys are the characters typed, and Enter. A screen is a page that loads.
"""

import io
import re
from dataclasses import dataclass, field

import pytest
from pypdf import PdfReader

from tests.browser import LAPTOP, PHONE

WAYS = [("en", PHONE), ("es", PHONE), ("en", LAPTOP), ("es", LAPTOP)]
NAMES = [f"{language}-{size['width']}" for language, size in WAYS]
HEAD = {"job.name": "Alder Flat, {shape}", "job.customer": "the Alder Flat Grange", "job.address": "9 Mill Road"}
GARDEN_WALL = {
    "length": "60'", "height": "6'", "facing": "south", "block": "dense", "out_of_plane": "1/4 in",
    "pilasters.every": "10'", "pilasters.width": "16 in", "pilasters.out": "4 in", "sprinklers": "true",
}  # fmt: skip
WALL = {
    "name": "Bay", "length": "24'", "height": "12'", "facing": "south", "block": "dense", "out_of_plane": "1/4 in",
    "openings": "door 3068 at 1'-8\", reveal 4\"\nwindow 3040 at 10' up 3'",
}  # fmt: skip
SHAPES = {"garden_wall": (GARDEN_WALL, 25), "wall": (WALL, 15)}
SHIPPED = {
    "firehall": "fire hall", "window-patch": "window", "recoat": "27 orchard", "chimney-soffit": "chimney",
    "garden-wall": "garden wall",
}  # fmt: skip


@dataclass
class Counted:
    """Somebody at a page, and what it took."""

    page: object
    taps: int = 0
    keys: int = 0
    entries: int = 0
    screens: set[str] = field(default_factory=set)

    def seen(self):
        self.screens.add(re.sub(r"\?.*|#.*", "", self.page.url))
        assert self.page.evaluate("document.documentElement.scrollWidth <= innerWidth"), self.page.url

    def tap(self, what):
        what.click()
        self.page.wait_for_load_state()
        self.taps += 1
        self.seen()

    def enter(self, name, text):
        at = self.page.locator(f'[name="{name}"]')
        if at.evaluate("e => e.tagName") == "SELECT":
            at.select_option(text)
            self.taps += 2
        else:
            at.fill(text)
            self.taps += 1
            self.keys += len(text)
        self.entries += 1

    def quote(self):
        """From the job's page to the paper: Money, Quote, the PDF. What the page and the paper say."""
        self.tap(self.page.locator(".rod > ol > li.place > a").last)
        self.tap(self.page.locator('a[href$="/quote/"]:visible').first)
        said = self.page.locator(".sum-line .v").first.inner_text()
        link = self.page.locator('a[href$="/paper/quote.pdf"]').first
        assert link.is_visible()
        got = self.page.request.get(link.evaluate("e => e.href"))
        self.taps += 1
        assert got.headers["content-type"] == "application/pdf"
        text = " ".join(p.extract_text() for p in PdfReader(io.BytesIO(got.body())).pages)
        return said, text


@pytest.fixture(scope="module")
def newcomers(desk, browser):
    """One browser a language and a width."""
    contexts = {}
    for name, (language, size) in zip(NAMES, WAYS, strict=True):
        context = browser.new_context(viewport=size)
        page = context.new_page()
        page.set_default_timeout(15000)
        page.goto(desk.link(f"newcomer {name}", "owner", language=language))
        contexts[name] = page
    yield contexts
    for page in contexts.values():
        page.context.close()


def begun(desk, page):
    page.goto(desk.address)
    who = Counted(page)
    who.seen()
    return who


def total_is_on(said, text):
    money = re.search(r"[\d,]+\.\d\d", said)
    assert money, said
    assert money[0] in text
    assert float(money[0].replace(",", "")) > 100


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("name", NAMES)
def test_from_the_box_to_a_quote(desk, newcomers, name, shape, record_property):
    asked, most = SHAPES[shape]
    who = begun(desk, newcomers[name])
    who.tap(who.page.locator('nav.lead a[href="/new"]'))
    who.tap(who.page.locator(f'a[href="/new/{shape}"]'))
    for key, text in HEAD.items():
        who.enter(key, text.format(shape=shape.replace("_", " ")))
    for key, text in asked.items():
        who.enter(f"{shape}.0.{key}", text)
    who.enter("coats.paint", "false")
    who.tap(who.page.locator("button.go"))
    assert "/job/" in who.page.url
    total_is_on(*who.quote())
    assert who.entries <= most
    for key in ("entries", "taps", "keys"):
        record_property(key, getattr(who, key))
    record_property("screens", len(who.screens))
    print(f"\n{shape} {name}: {who.entries} entries, {who.taps} taps, {who.keys} keys, {len(who.screens)} screens")
    assert len(who.screens) <= 6


@pytest.mark.parametrize("document", SHIPPED)
@pytest.mark.parametrize("name", NAMES)
def test_a_shipped_job_by_its_name_to_its_quote(desk, newcomers, name, document):
    who = begun(desk, newcomers[name])
    typed = SHIPPED[document]
    who.page.locator("#q").press_sequentially(typed)
    who.keys += len(typed)
    hit = who.page.locator(f'#found a[href^="/job/{document}/"]')
    hit.wait_for(timeout=15000)
    who.tap(hit)
    total_is_on(*who.quote())
    print(f"\n{document} {name}: {who.taps} taps, {who.keys} keys, {len(who.screens)} screens")
    assert who.taps <= 5
    assert len(who.screens) <= 4


def test_the_whole_way_without_a_pointer(desk, browser):
    """Tab, letters, Enter and the arrows only; the place where one is can always be seen."""
    context = browser.new_context(viewport=LAPTOP, reduced_motion="reduce")
    page = context.new_page()
    page.goto(desk.link("no pointer", "owner"))
    page.goto(desk.address)

    def to(selector):
        for _ in range(120):
            page.keyboard.press("Tab")
            if page.evaluate("s => document.activeElement.matches(s)", selector):
                look = page.evaluate("(e => getComputedStyle(e).outlineStyle + getComputedStyle(e).borderBottomWidth)"
                                     "(document.activeElement)")  # fmt: skip
                assert not look.startswith("none0px"), selector
                return
        pytest.fail(f"not reached: {selector}")

    def follow(selector):
        to(selector)
        with page.expect_navigation():
            page.keyboard.press("Enter")

    follow('a[href="/new"]')
    follow('a[href="/new/wall"]')
    for key, text in {"job.name": "By keys", "wall.0.length": "20'", "wall.0.height": "8'"}.items():
        to(f'[name="{key}"]')
        page.keyboard.type(text)
    to('[name="wall.0.block"]')
    page.keyboard.type("dense")
    follow("button.go")
    assert "/job/by-keys/" in page.url
    follow(".rod > ol > li.place:last-child > a")
    follow('.rod a[href$="/quote/"]')
    to('a[href$="/paper/quote.pdf"]')
    context.close()
