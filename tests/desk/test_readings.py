"""Readings of a bare wall: tapped, typed, kept in the log, taken into the job; the map and the high spots follow."""

from __future__ import annotations

import tomllib

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser import LAPTOP, PHONE

AXE = Axe()
SHED = """
darby = 1
[job]
name = "Bare wall"
as_of = 2026-09-30
[[wall]]
id = "south"
name = "Bare, south"
length = "10'"
height = "8'"
base = "block"
block = "dense"
joints = "flush"
out_of_plane = "1/4 in"
facing = "south"
[coats]
finish = "float"
"""
FOUR = [("1'", "1'", "0 in"), ("9'", "1'", "0 in"), ("1'", "7'", "0 in"), ("9'", "7'", "0 in")]


@pytest.fixture(scope="module")
def bare(desk):
    from darby.desk.kept import saving

    who = desk.person("mason", "owner")
    count = iter(range(100))

    def made() -> str:
        document = f"bare-{next(count)}"
        saving.keep(document, SHED, who)
        return document

    return made


def latest(document: str) -> dict:
    from darby.desk.kept import saving

    return tomllib.loads(saving.latest(document).text)


def log(document: str) -> list[dict]:
    from darby.desk.kept import saving

    return [{"kind": e.kind, "at": e.at, **e.said} for e in saving.log(document)]


def write_down(who, document: str, u: str, v: str, out: str):
    from uuid import uuid4

    where = f"/job/{document}/grounds/?at=south"
    return who.post(f"/job/{document}/readings?at=south", _form=where, id=str(uuid4()), at="south", u=u, v=v, out=out)


def take_all(owner, document: str):
    import re

    where = f"/job/{document}/grounds/?at=south"
    page = owner.get(where).text
    ids = re.findall(r'name="take" value="([\w-]+)"', page)
    from urllib.parse import urlencode
    from urllib.request import Request

    token = re.search(r'csrfmiddlewaretoken" value="(\w+)"', page)[1]
    base = re.search(r'name="base" value="(\d+)"', page)[1]
    body = urlencode([("csrfmiddlewaretoken", token), ("base", base), *(("take", i) for i in ids)]).encode()
    address = f"{owner.address}/job/{document}/readings/take?at=south"
    return owner._open(Request(address, body, {"Referer": address}))


def test_the_crew_writes_down_and_the_owner_takes_in(crew, owner, bare):
    """Without script: four readings of a true wall, and a high spot in its middle; it costs money, and says so."""
    document = bare()
    for reading in [*FOUR, ("5'", "4'", "3/4 in")]:
        reply = write_down(crew, document, *reading)
        assert (reply.status, reply.address) == (302, f"/job/{document}/grounds/?at=south")
    assert len(log(document)) == 5
    assert "readings" not in latest(document)
    shown = crew.get(f"/job/{document}/grounds/?at=south")
    assert "5&#x27; along, 4&#x27; up: 3/4 in" in shown.text
    assert "Take them into the job" not in shown.text
    taken = take_all(owner, document)
    assert taken.status == 200
    points = latest(document)["readings"][0]["points"]
    assert sorted(map(tuple, points)) == sorted([*FOUR, ("5'", "4'", "3/4 in")])
    assert "High spot, reading" in taken.text
    assert "What changed" in taken.text
    assert "Nothing was read that the job does not know." in owner.get(f"/job/{document}/grounds/?at=south").text


def test_a_place_that_is_read_again_says_what_was_read_last(crew, owner, bare):
    document = bare()
    for reading in FOUR:
        write_down(crew, document, *reading)
    take_all(owner, document)
    write_down(crew, document, "12 in", '12"', "1/8 in")
    take_all(owner, document)
    points = latest(document)["readings"][0]["points"]
    assert len(points) == 4
    assert ["12 in", '12"', "1/8 in"] in points


def test_what_is_no_length_is_said_in_its_place_and_not_kept(crew, bare):
    document = bare()
    reply = write_down(crew, document, "1'", "2'", "a hair")
    assert reply.status == 422
    assert "a hair" in reply.text
    assert log(document) == []


def test_too_few_readings_are_said_and_nothing_is_taken(crew, owner, bare):
    document = bare()
    write_down(crew, document, "1'", "1'", "0 in")
    reply = take_all(owner, document)
    assert reply.status == 422
    assert "readings" not in latest(document)
    assert len(log(document)) == 1


def test_readings_measured_back_from_a_line_are_turned_as_the_job_has_them(crew, owner, bare, desk):
    from darby.desk.kept import saving

    document = bare()
    text = saving.latest(document).text
    rows = ", ".join(f'["{u}", "{v}", "1 in"]' for u, v, _ in FOUR)
    more = f'[[readings]]\nsurface = "south"\nmeasured = "back"\npoints = [{rows}]\n'
    saving.keep(document, text + more, desk.person("mason", "owner"), base=1)
    write_down(crew, document, "5'", "4'", "-3/4 in")
    take_all(owner, document)
    assert latest(document)["readings"][0]["points"][-1][2] == '3/4"'


@pytest.mark.parametrize("name", ["phone", "laptop"])
def test_a_tap_on_the_wall_says_where_and_the_line_goes_by_the_queue(desk, browser, bare, name):
    document = bare()
    page = browser.new_context(
        viewport=PHONE if name == "phone" else LAPTOP, service_workers="block", reduced_motion="reduce"
    ).new_page()
    page.goto(desk.link("reader", "crew"))
    page.goto(f"{desk.address}/job/{document}/grounds/?at=south")
    svg = page.locator(".picking .narrow svg, .picking .wide svg").locator("visible=true").first
    svg.scroll_into_view_if_needed()
    box = svg.bounding_box()
    told = page.evaluate("JSON.parse(document.querySelector('[data-pick]').dataset.pick)")
    sheet = told["narrow" if name == "phone" else "wide"]
    shrunk = box["width"] / svg.evaluate("s => s.viewBox.baseVal.width")
    x, y = sheet["left"] + 5 * 0.3048 * sheet["scale"], sheet["top"] - 4 * 0.3048 * sheet["scale"]
    svg.click(position={"x": x * shrunk, "y": y * shrunk})
    from darby.measure import length
    from darby.measure.units import FT

    across, up = (float(length(page.input_value(f"#r-{key}")) / FT) for key in ("u", "v"))
    assert (across, up) == (pytest.approx(5, abs=0.1), pytest.approx(4, abs=0.1))
    assert page.evaluate("document.activeElement.id") == "r-out"
    page.keyboard.type("1/8 in")
    page.keyboard.press("Enter")
    page.locator("#kept-lines li[data-state=sent]").wait_for()
    assert page.locator(".h-said:visible").text_content() == "1/8 in"
    line = log(document)[0]
    assert (line["kind"], line["at"], line["out"]) == ("reading", "south", "1/8 in")
    assert float(length(line["u"]) / FT) == across
    page.reload()
    assert page.locator(".picking").get_by_text("+1/8").count() >= 1
    page.context.close()


def test_a_reading_without_a_signal_waits_and_is_sent_once(desk, browser, bare):
    document = bare()
    context = browser.new_context(viewport=PHONE, service_workers="block")
    page = context.new_page()
    page.goto(desk.link("reader", "crew"))
    page.goto(f"{desk.address}/job/{document}/grounds/?at=south")
    context.set_offline(True)
    for key, text in (("u", "2'"), ("v", "3'"), ("out", "-1/4 in")):
        page.fill(f"#r-{key}", text)
    page.keyboard.press("Enter")
    page.locator("#kept-lines li[data-state=kept], #kept-lines li[data-state=here]").first.wait_for()
    assert "2' , 3': -1/4 in" in page.locator("#kept-lines").inner_text()
    assert log(document) == []
    context.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    page.locator("#kept-lines li[data-state=sent]").first.wait_for()
    assert log(document) == [{"kind": "reading", "at": "south", "u": "2'", "v": "3'", "out": "-1/4 in"}]
    context.close()


@pytest.mark.parametrize(("language", "size"), [("en", PHONE), ("es", LAPTOP)])
def test_it_reads_well(desk, browser, owner, crew, bare, language, size):
    document = bare()
    for reading in [*FOUR, ("5'", "4'", "3/4 in")]:
        write_down(crew, document, *reading)
    take_all(owner, document)
    write_down(crew, document, "3'", "3'", "1/16 in")
    page = browser.new_context(viewport=size, reduced_motion="reduce", service_workers="block").new_page()
    page.goto(desk.link(f"mason {language}", "owner", language=language))
    page.goto(f"{desk.address}/job/{document}/grounds/?at=south")
    found = AXE.run(page, options={"resultTypes": ["violations"]}).response["violations"]
    assert not found, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found]
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.context.close()
