"""An old wall on the desk: findings tapped on it, the list by keyboard, the sounding grid, what each asks for."""

from __future__ import annotations

import tomllib

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser import LAPTOP, PHONE

AXE = Axe()
OLD = """
darby = 1
[job]
name = "Old wall"
as_of = 2026-09-30
[[wall]]
id = "south"
name = "Old, south"
length = "10'"
height = "8'"
base = "concrete"
out_of_plane = "1/4 in"
facing = "south"
[coats]
finish = "float"
"""
FOUND = """
[[survey]]
surface = "south"
grid = "1'"
[[survey.hollow]]
size = "2' x 3'"
at = "1'"
up = "1'"
push = "gives"
[[survey.crack]]
line = ["8', 8'", "7', 5'"]
width = "1/32 in"
"""


@pytest.fixture(scope="module")
def old(desk):
    from darby.desk.kept import saving

    who = desk.person("mason", "owner")
    count = iter(range(100))

    def made(more: str = "") -> str:
        document = f"old-wall-{next(count)}"
        saving.keep(document, OLD + more, who)
        return document

    return made


@pytest.fixture(scope="module")
def sheets(desk, browser):
    pages = {}
    for name, size in (("phone", PHONE), ("laptop", LAPTOP)):
        page = browser.new_context(viewport=size, reduced_motion="reduce", service_workers="block").new_page()
        page.goto(desk.link("mason", "owner"))
        pages[name] = page
    yield pages
    for page in pages.values():
        page.context.close()


def survey(document: str) -> list[dict]:
    from darby.desk.kept import saving

    return tomllib.loads(saving.latest(document).text).get("survey", [])


def tap(page, u: float, v: float) -> None:
    """A place of the wall, in feet."""
    svg = page.locator(".picking .narrow svg, .picking .wide svg").locator("visible=true").first
    told = page.evaluate("JSON.parse(document.querySelector('[data-pick]').dataset.pick)")
    sheet = told["narrow" if page.viewport_size["width"] < 700 else "wide"]
    shrunk = svg.bounding_box()["width"] / svg.evaluate("s => s.viewBox.baseVal.width")
    foot = sheet["scale"] * 0.3048
    at = ((sheet["left"] + u * foot) * shrunk, (sheet["top"] - v * foot) * shrunk)
    svg.click(position={"x": at[0], "y": at[1]})


def answered(page, act) -> None:
    with page.expect_response(lambda r: r.request.method == "POST" and "/survey/" in r.url) as got:
        act()
    got.value.finished()
    page.wait_for_function("() => !document.querySelector('.htmx-request, .htmx-swapping, .htmx-settling')")


@pytest.mark.parametrize("name", ["phone", "laptop"])
def test_a_hollow_area_is_tapped_and_the_wall_says_what_it_asks(desk, sheets, old, name):
    from darby.measure import length
    from darby.measure.units import FT

    document = old()
    page = sheets[name]
    page.goto(f"{desk.address}/job/{document}/survey/?at=south")
    for corner in ((2, 2), (5, 2), (5, 4), (2, 4)):
        tap(page, *corner)
    assert page.locator("polygon.picked:visible").count() == 1
    page.locator("#n-push").select_option("gives")
    answered(page, lambda: page.get_by_role("button", name="Put it on the wall").click())
    entry = survey(document)[0]
    assert entry["surface"] == "south"
    hollow = entry["hollow"][0]
    assert hollow["push"] == "gives"
    feet = [[float(length(x) / FT) for x in corner.split(", ")] for corner in hollow["outline"]]
    assert feet == [pytest.approx(c, abs=0.1) for c in ((2, 2), (5, 2), (5, 4), (2, 4))]
    assert "it gives when pushed" in page.locator(".warn").all_inner_texts()[0]
    assert page.locator("#s-hollow\\.0\\.points").input_value() == "\n".join(hollow["outline"])


def test_a_crack_is_tapped_along_and_drawn(desk, sheets, old):
    document = old()
    page = sheets["laptop"]
    page.goto(f"{desk.address}/job/{document}/survey/?at=south")
    page.locator("#n-kind").select_option("crack")
    for point in ((8, 7), (7, 5), (7.5, 3)):
        tap(page, *point)
    assert page.locator("polyline.picked:visible").count() == 1
    page.locator("#n-width").fill("3/32 in")
    answered(page, lambda: page.get_by_role("button", name="Put it on the wall").click())
    assert len(survey(document)[0]["crack"][0]["line"]) == 3
    assert page.locator(".wide svg").get_by_text("3/32 in.").count() == 1


def test_the_list_changes_and_takes_out_by_keyboard(desk, sheets, old):
    document = old(FOUND)
    page = sheets["laptop"]
    page.goto(f"{desk.address}/job/{document}/survey/?at=south")
    page.locator("#s-hollow\\.0\\.points").fill("1', 1'\n4', 1'\n4', 4'\n1', 4'")
    page.get_by_label("Crack 1: take it out").check()
    answered(page, lambda: page.locator("#findings button.go").press("Enter"))
    entry = survey(document)[0]
    assert entry["hollow"] == [{"push": "gives", "outline": ["1', 1'", "4', 1'", "4', 4'", "1', 4'"]}]
    assert "crack" not in entry
    assert "9 sq ft" in page.locator(".warn").first.inner_text()  # 3' x 3'


def test_the_grid_is_drawn_and_tapped(desk, sheets, old):
    document = old(FOUND)
    page = sheets["laptop"]
    page.goto(f"{desk.address}/job/{document}/survey/?at=south")
    assert page.locator('[data-ref^="south/tap-"], [id*="south.tap-"]').count() >= 80
    page.get_by_role("button", name="Tap the grid on the wall").click()
    tap(page, 0.5, 7.5)
    for _ in range(2):
        tap(page, 9.5, 0.5)
    rows = page.locator("#s-taps").input_value().split("\n")
    assert (len(rows), {len(row) for row in rows}) == (8, {10})
    assert (rows[0][0], rows[-1][-1]) == ("s", "h")
    answered(page, lambda: page.locator("#findings button.go").click())
    assert survey(document)[0]["taps"] == rows


def test_what_lies_off_the_wall_is_said_at_its_points_and_not_kept(desk, owner, old):
    document = old(FOUND)
    form = f"/job/{document}/survey/?at=south"
    add = f"/job/{document}/survey/add?at=south"
    reply = owner.post(add, _form=form, base="1", kind="hollow", points="9', 1'\n12', 1'\n12', 3'")
    assert reply.status == 422
    assert 'id="e-points"' in reply.text
    assert "12&#x27;, 3&#x27;" in reply.text
    reply = owner.post(add, _form=form, base="1", kind="hollow", points="9', 1'", push="gives")
    assert reply.status == 422
    assert '<option value="gives" selected>' in reply.text.split("n-push")[2]
    reply = owner.post(add, _form=form, base="1", kind="crack", points="9', 1'\n8', 2'", width="thin")
    assert reply.status == 422
    keep = f"/job/{document}/survey/keep?at=south"
    reply = owner.post(keep, _form=form, base="1", **{"crack.0.points": "8', 8'", "crack.0.width": "1/32 in"})
    assert reply.status == 422
    assert len(survey(document)) == 1
    assert "outline" not in survey(document)[0]["hollow"][0]


def test_without_script_it_is_a_form(desk, browser, old):
    document = old()
    page = browser.new_context(viewport=PHONE, java_script_enabled=False).new_page()
    page.goto(desk.link("mason", "owner"))
    page.goto(f"{desk.address}/job/{document}/survey/?at=south")
    page.locator("#n-kind").select_option("loose")
    page.fill("#n-points", "1', 1'\n3', 1'\n3', 2'\n1', 2'")
    page.get_by_role("button", name="Put it on the wall").click()
    assert page.get_by_role("heading", name="What was found on this wall").count() == 1
    page.get_by_label("Loose paint 1: take it out").check()
    page.locator("#findings button.go").click()
    assert survey(document) == []
    page.context.close()


def test_the_crew_sees_it_and_puts_nothing_on(crew, old):
    document = old(FOUND)
    shown = crew.get(f"/job/{document}/survey/?at=south")
    assert shown.status == 200
    assert 'id="finding"' not in shown.text
    assert "data-pick" not in shown.text
    for where in ("add", "keep"):
        assert crew.post(f"/job/{document}/survey/{where}?at=south", base="1", kind="loose").status == 403


@pytest.mark.parametrize(("language", "size"), [("en", PHONE), ("es", LAPTOP)])
def test_it_reads_well(desk, browser, old, language, size):
    document = old(FOUND)
    page = browser.new_context(viewport=size, reduced_motion="reduce", service_workers="block").new_page()
    page.goto(desk.link(f"mason {language}", "owner", language=language))
    page.goto(f"{desk.address}/job/{document}/survey/?at=south")
    found = AXE.run(page, options={"resultTypes": ["violations"]}).response["violations"]
    assert not found, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found]
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.context.close()
