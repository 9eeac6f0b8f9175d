"""A newcomer's whole way: from the one box to a quote in hand, each tap, key, entry and screen counted.

Each of the five examples is entered by forms once, on a phone or a laptop, in one language or the other; all four ways
of each are walked in ``tests/proof``.
"""

import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser import LAPTOP, PHONE
from tests.desk.newcomers import WAYS, Counted, Step, head, is_the_example, rows
from tests.desk.reached import RULES

AXE = Axe()
DOCS = Path(__file__).parents[2] / "docs" / "accessibility.md"
WALKED = [
    ("garden-wall", "es", PHONE), ("chimney-soffit", "es", LAPTOP), ("window-patch", "en", PHONE),
    ("recoat", "es", PHONE), ("firehall", "en", LAPTOP),
]  # fmt: skip
BAY = {
    "name": "Bay", "length": "24'", "height": "12'", "facing": "south", "block": "dense", "out_of_plane": "1/4 in",
    "openings": "door 3068 at 1'-8\", reveal 4\"\nwindow 3040 at 10' up 3'",
}  # fmt: skip
WALL = (Step("", "wall", head("Alder Flat, a wall", "", "9 Mill Road") | rows("wall", BAY) | {"coats.paint": "false"}),)
SHIPPED = [("firehall", "firehall", "en", PHONE), ("recoat", "recoat", "es", LAPTOP)]
MOST = {"garden-wall": 25, "wall": 15}


@pytest.fixture(scope="module")
def newcomers(desk, browser):
    """A page a language and a width, made when it is asked for."""
    pages = {}

    def at(language, size):
        key = (language, size["width"])
        if key not in pages:
            page = browser.new_context(viewport=size, reduced_motion="reduce").new_page()
            page.set_default_timeout(20000)
            page.seen = []
            page.on("pageerror", lambda error: page.seen.append(str(error)))
            page.on("console", lambda said: page.seen.append(said.text) if "Content Security" in said.text else None)
            page.goto(desk.link(f"newcomer {language} {size['width']}", "owner", language=language))
            pages[key] = page
        return pages[key]

    yield at
    for page in pages.values():
        page.context.close()


def begun(desk, page):
    page.goto(desk.address)
    who = Counted(page)
    who.seen()
    return who


def told(name, who):
    """Print what it took, and hold the table of the docs to it."""
    took = {"entries": who.entries, "taps": who.taps, "keys": who.keys, "screens": len(who.screens)}
    print(f"\n{name}: {took}")
    row = re.search(rf"^\| `{name}` .*$", DOCS.read_text(encoding="utf-8"), re.MULTILINE)
    assert row, f"no row of {name} in {DOCS.name}"
    cells = [cell.strip() for cell in row[0].strip("| ").split("|")]
    assert [int(cells[n]) for n in (2, 5, 6, 7)] == list(took.values()), row[0]


@pytest.mark.parametrize(("name", "language", "size"), WALKED, ids=[name for name, _, _ in WALKED])
def test_an_example_by_its_forms_from_the_box_to_the_quote(desk, newcomers, name, language, size):
    who = begun(desk, newcomers(language, size))
    document = who.enter_job(WAYS[name](language))
    money = is_the_example(name, document)
    said, paper = who.quote()
    assert money in said and money in paper
    assert who.entries <= MOST.get(name, 100)
    assert not who.page.seen
    told(name, who)


def test_a_wall_with_two_openings_from_the_box_to_the_quote(desk, newcomers):
    who = begun(desk, newcomers("en", PHONE))
    (step,) = WALL
    who.step(Step("", "wall", {key: text for key, text in step.fields.items() if text}))
    money = re.search(r"[\d,]+\.\d\d", (said := who.quote())[0])
    assert money and money[0] in said[1]
    assert who.entries <= MOST["wall"]
    told("wall", who)


def test_what_the_box_was_told_is_in_the_form(desk, newcomers):
    page = newcomers("en", PHONE)
    who = begun(desk, page)
    line = "garden wall 60' x 6' x 8\", pilasters every 10', 16\" x 4\", dense block"
    page.locator("#q").fill(line)
    who.tap(page.locator('#found a[href^="/new/lines"]'))
    assert page.locator('[name="walls"]').input_value() == line
    who.enter("job.name", "By the box alone")
    who.tap(page.locator("form.fill button.go"))
    said, paper = who.quote()
    assert said.strip("$ ") in paper
    who = begun(desk, page)
    page.locator("#q").fill("60' x 6' x 2, 1/2 block")
    who.tap(page.locator('#found a[href^="/new/garden_wall"]'))
    assert page.locator('[name="garden_wall.0.length"]').input_value() == "60'"


@pytest.mark.parametrize(("document", "typed", "language", "size"), SHIPPED)
def test_a_shipped_job_by_its_name_to_its_quote(desk, newcomers, document, typed, language, size):
    who = begun(desk, newcomers(language, size))
    who.page.locator("#q").press_sequentially(typed)
    hit = who.page.locator(f'#found a[href^="/job/{document}/"]')
    hit.wait_for(timeout=15000)
    who.tap(hit)
    said, paper = who.quote()
    assert re.search(r"[\d,]+\.\d\d", said)[0] in paper
    assert who.taps <= 4
    assert len(who.screens) <= 3


def test_what_is_missing_is_said_with_the_way_to_where_it_is_written(desk, newcomers):
    """A price that nobody wrote, from the quote to the firm's form and back to the quote."""
    from darby.desk.kept import FIRM, saving
    from darby.job import dump

    firm = saving.tables(saving.firm_text())
    without = {**firm, "buys": [row for row in firm["buys"] if row["item"] != "lime"]}
    someone = desk.person("owner", "owner")
    page = newcomers("en", PHONE)
    try:
        saving.keep(FIRM, dump(without), someone, base=saving.latest(FIRM).number)
        who = begun(desk, page)
        who.step(Step("", "wall", {"job.name": "No price of lime", **rows("wall", {"length": "9'", "height": "8'"})}))
        who.tap(page.locator('nav.lead a[href$="/quote/"]'))
        assert page.locator(".sum-line").count() == 0
        assert page.get_by_text("nobody yet").is_visible()
        who.tap(page.get_by_role("link", name="Write the price of hydrated lime"))
        entry = page.locator("details.one[open]")
        assert entry.locator('[name$=".item"]').first.input_value() == "lime"
        entry.locator('[name$=".package"]').first.fill("50 lb bag")
        entry.locator('[name$=".price"]').first.fill("$14.20")
        who.tap(page.locator("form.fill button.go"))
        assert page.url.endswith("/quote/")
        assert "$" in page.locator(".sum-line .v").inner_text()
    finally:
        saving.keep(FIRM, dump(firm), someone, base=saving.latest(FIRM).number)


@pytest.mark.parametrize("shape", ["lines", "patch", "recoat"])
def test_the_new_forms_by_axe(desk, newcomers, shape):
    for language, size in (("en", PHONE), ("es", LAPTOP)):
        page = newcomers(language, size)
        page.goto(f"{desk.address}/new/{shape}")
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        found = AXE.run(page, options=RULES).response["violations"]
        assert not found, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found]


def test_a_line_that_cannot_be_read_is_told_and_nothing_is_lost(desk, newcomers):
    page = newcomers("es", PHONE)
    page.goto(f"{desk.address}/new/lines")
    page.locator('[name="job.name"]').fill("Mal escrita")
    page.locator('[name="walls"]').fill("muro 24' x 8', bloque\nmuto 3' x 4'")
    page.locator("form.fill button.go").click()
    assert page.locator(".fault").inner_text().startswith("Renglón 2:")
    assert page.locator('[name="walls"]').input_value().endswith("muto 3' x 4'")
    assert page.locator('[name="job.name"]').input_value() == "Mal escrita"


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
    follow('nav.lead a[href$="/quote/"]')
    to('a[href$="/paper/quote.pdf"]')
    context.close()
