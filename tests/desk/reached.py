"""Every page of the desk, with what no address reaches: a form refused, a clash, a reading typed, a sketch by hand.

What axe is told, what is too low for a finger, what is cut off or lies over something else.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

import darby.desk
from tests.browser import LAPTOP, PHONE
from tests.desk.running import Desk

os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"  # Playwright runs an event loop in this thread
AXE = Axe()
HOUSE = Path(darby.desk.__file__).parent
RULES = {"resultTypes": ["violations"]}
COLORS = {"runOnly": ["color-contrast"], "resultTypes": ["violations"]}
ZOOMED = {"width": 640, "height": 400}  # a laptop's 1280 px at 200 %
SHEET = {"width": 720, "height": 960}  # what stays of a letter's 8 1/2 in. between its margins
WIDER = "document.documentElement.scrollWidth > innerWidth"
LOW = """
[...document.querySelectorAll("button, .rod a, .stages a, .joblist a, .box input, .field input, summary")]
.filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5).map(e => e.outerHTML.slice(0, 120))
"""
MOVING = """
[...document.querySelectorAll("*")].filter(e => {
  const s = getComputedStyle(e);
  const long = text => text.split(",").some(t => parseFloat(t) > 0.01);
  return (s.animationName !== "none" && long(s.animationDuration)) || long(s.transitionDuration);
}).map(e => e.outerHTML.slice(0, 100))
"""
CUT_OFF = """
(() => {
  const aside = ".vh, .skip, svg, .rod, textarea, select";
  const all = [...document.querySelectorAll("#desk *")];
  const hidden = all.filter(e => getComputedStyle(e).clipPath.startsWith("inset"));
  const heard_only = e => hidden.some(h => h.contains(e));
  const seen = e => e.checkVisibility({visibilityProperty: true}) && !e.closest(aside) && !heard_only(e);
  const cut = all.filter(e => {
    const s = getComputedStyle(e);
    return seen(e) && s.overflowX === "hidden" && e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 2;
  });
  const said = [];
  const walk = document.createTreeWalker(document.querySelector("#desk"), NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const text = walk.currentNode;
    if (!text.data.trim() || !seen(text.parentElement)) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    for (const r of range.getClientRects()) {
      const in_a_line = r.height / 4;
      if (r.width > 1) said.push([r.left + 1, r.top + in_a_line, r.right - 1, r.bottom - in_a_line, text.data.trim()]);
    }
  }
  const over = [];
  said.sort((a, b) => a[1] - b[1]);
  for (let i = 0; i < said.length; i += 1) {
    for (let k = i + 1; k < said.length && said[k][1] < said[i][3]; k += 1) {
      const [a, b] = [said[i], said[k]];
      if (a[0] < b[2] - 1 && b[0] < a[2] - 1) over.push(`${a[4].slice(0, 40)} | ${b[4].slice(0, 40)}`);
    }
  }
  return [...cut.map(e => e.outerHTML.slice(0, 120)), ...over];
})()
"""
SHUT = """
[...document.querySelectorAll("main details:not([open])")]
.filter(d => !d.closest(".fill, .by-list, .by-line, .one") && d.getBoundingClientRect().height > 0)
.filter(d => [...d.children].some(e => e.tagName !== "SUMMARY" && getComputedStyle(e).display !== "none"
  && e.textContent.trim() && e.getBoundingClientRect().height === 0))
.map(d => d.outerHTML.slice(0, 120))
"""
PAGES = (
    "/", "/?q=60%27+x+6%27+x+2,+1/2+block", "/?q=how+long+damp", "/me", "/people", "/firm", "/new", "/new/wall",
    "/document/firehall/section/wall", "/document/firehall/text", "/document/firehall/history",
    "/document/firehall/history/1", "/sign-in-as-a-stranger",
)  # fmt: skip
State = Callable[[Page, Desk], None]


def stage_addresses() -> list[str]:
    """The page of every stage, of the example that has most of them."""
    return [f"/job/firehall/{p.parent.name.replace('_', '-')}/" for p in sorted((HOUSE / "stages").glob("*/page.py"))]


def section_addresses() -> list[str]:
    """The form of every section of the job and the firm file, and of every new shape."""
    from darby.desk.forms import sections
    from darby.desk.kept import FIRM
    from darby.desk.starting import SHAPES

    forms = [f"/document/{document}/section/{key}" for document in ("firehall", FIRM) for key in sections(document)]
    return [*forms, *(f"/new/{shape}" for shape in SHAPES)]


def at(address: str) -> State:
    """The page of an address."""

    def go(page: Page, desk: Desk) -> None:
        page.goto(desk.address + address)

    return go


def refused(page: Page, desk: Desk) -> None:
    """A form with what cannot be read, every fault at its field."""
    page.goto(f"{desk.address}/document/firehall/section/wall")
    page.locator("details.one > summary").first.click()
    page.locator('[name="wall.0.length"]').fill("about twenty")
    page.locator('[name="wall.0.out_of_plane"]').fill("much")
    page.locator("form.fill button.go").click()
    page.locator(".field.wrong").nth(1).wait_for()


def clash(page: Page, desk: Desk) -> None:
    """What another kept meanwhile, told to who comes second."""
    from darby.desk.kept import saving

    page.goto(f"{desk.address}/document/recoat/section/job")
    now = saving.latest("recoat")
    assert now is not None
    line = next(text for text in now.text.splitlines() if text.startswith("address = "))
    theirs = now.text.replace(line, f'address = "{27 + now.number} Orchard Street"', 1)
    saving.keep("recoat", theirs, desk.person("another", "owner"), base=now.number)
    page.locator('[name="job.address"]').fill(f"{500 + now.number} Orchard Street")
    page.locator("form.fill button.go").click()
    page.locator("main .warn").first.wait_for()


def reading(page: Page, desk: Desk) -> None:
    """A reading that cannot be read, sent."""
    page.goto(f"{desk.address}/job/firehall/grounds/")
    for name, text in (("u", "2'"), ("v", "3'"), ("out", "1/8 in")):
        page.locator(f"#r-{name}").fill(text)


def by_hand(page: Page, desk: Desk) -> None:
    """A sketch with its handles on, its corners listed and one of them in hand."""
    page.goto(f"{desk.address}/job/firehall/wall/")
    if page.locator("[data-by-hand]").get_attribute("aria-pressed") == "false":
        page.locator("[data-by-hand]").click()
    page.locator(".h-mark").first.wait_for(state="attached")
    page.locator("details.corners > summary").click()
    page.locator("details.corners input").first.focus()


def signing_in(page: Page, desk: Desk) -> None:
    """The door, of somebody who is not in, with a name that is wrong."""
    page.goto(f"{desk.address}/sign-in")


STATES: dict[str, State] = {"refused": refused, "clash": clash, "reading": reading, "by hand": by_hand}


def everything() -> Iterator[tuple[str, State]]:
    """Every page and state, by name."""
    for address in [*PAGES, *stage_addresses(), *section_addresses()]:
        yield address, at(address)
    yield from STATES.items()


def judged(page: Page, options: dict[str, Any] = RULES) -> list[Any]:
    """What axe finds against the page as it stands."""
    found = AXE.run(page, options=options).response["violations"]
    return [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found]


__all__ = [
    "COLORS", "CUT_OFF", "HOUSE", "LAPTOP", "LOW", "MOVING", "PAGES", "PHONE", "RULES", "SHEET", "SHUT", "STATES",
    "WIDER", "ZOOMED", "at", "everything", "judged", "section_addresses", "signing_in", "stage_addresses",
]  # fmt: skip
