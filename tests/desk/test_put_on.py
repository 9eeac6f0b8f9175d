"""Put on: joints pinned, forbidden and moved by pointer, by keyboard, without script; own measures; boards."""

from __future__ import annotations

import re
import tomllib
from fractions import Fraction
from pathlib import Path
from uuid import uuid4

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser import LAPTOP, PHONE

EXAMPLES = Path(__file__).parents[2] / "examples"
SOFFIT, FIREHALL = ((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8") for name in ("chimney-soffit", "firehall"))
FOOT = Fraction(3048, 10000)


@pytest.fixture(scope="module")
def who(desk):
    return desk.person("put on", "owner")


def document(text, who, more=""):
    from darby.desk.kept import saving

    name = f"put-on-{uuid4().hex[:8]}"
    saving.keep(name, text + more, who)
    return name


def tables(name):
    from darby.desk.kept import saving

    return tomllib.loads(saving.latest(name).text)


def joints(name, surface="eave"):
    return next((e for e in tables(name).get("joints", ()) if e.get("surface") == surface), {})


@pytest.fixture(scope="module")
def pages(desk, browser):
    """A phone and a laptop, signed in, with script; and a phone without."""
    first = browser.new_context()
    first.new_page().goto(desk.link("put on", "owner"))
    state = first.storage_state()
    first.close()
    made = {
        "phone": browser.new_context(viewport=PHONE, storage_state=state, reduced_motion="reduce"),
        "laptop": browser.new_context(viewport=LAPTOP, storage_state=state, reduced_motion="reduce"),
        "plain": browser.new_context(viewport=PHONE, storage_state=state, java_script_enabled=False),
    }
    yield {name: context.new_page() for name, context in made.items()}
    for context in made.values():
        context.close()


# --- joints ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("size", "sheet"), [("phone", ".narrow"), ("laptop", ".wide")])
def test_a_line_is_dragged_and_the_limits_answer_while_it_is(desk, pages, who, size, sheet):
    name, page = document(SOFFIT, who), pages[size]
    page.goto(f"{desk.address}/job/{name}/joints/?at=eave")
    grip = page.locator(f".lines-of {sheet} .grip").nth(2)
    box = grip.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    asked = f"/job/{name}/joints/try"
    page.mouse.move(x, y)
    page.mouse.down()
    with page.expect_response(lambda reply: asked in reply.url):
        page.mouse.move(x + 12, y, steps=3)
    page.get_by_text("As the line lies now, not kept yet").wait_for()
    assert joints(name) == {}, "a line that is still held is not kept"
    page.mouse.move(x + 16, y, steps=2)
    page.mouse.up()
    page.get_by_role("heading", name="What changed").wait_for()
    (kept,) = joints(name)["upright"]
    from darby.measure import length

    assert 13 * FOOT < length(kept) < 16 * FOOT, kept
    assert page.locator(".lines-of .d-pin:visible").count() >= 2
    assert page.locator("li.line.pinned input[name^='place.']").input_value() == kept


def test_a_line_that_is_let_go_by_escape_stays(desk, pages, who):
    name, page = document(SOFFIT, who), pages["laptop"]
    page.goto(f"{desk.address}/job/{name}/joints/?at=eave")
    before = page.locator("[name='place.0']").input_value()
    box = page.locator(".lines-of .wide .grip").first.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 30, y, steps=3)
    assert page.locator("[name='place.0']").input_value() != before
    page.keyboard.press("Escape")
    page.mouse.up()
    assert page.locator("[name='place.0']").input_value() == before
    assert page.locator("[name='state.0']").input_value() == "free"
    assert joints(name) == {}


def test_lines_are_pinned_forbidden_and_moved_from_the_list_by_keyboard(desk, pages, who):
    name, page = document(SOFFIT, who), pages["laptop"]
    page.goto(f"{desk.address}/job/{name}/joints/?at=eave")
    place = page.get_by_label("Place of A, upright")
    was = place.input_value()
    place.focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("4'")
    page.keyboard.press("Tab")
    page.get_by_role("heading", name="What changed").wait_for()
    assert joints(name)["upright"] == ["4'"] != [was], "what is moved is pinned there"
    assert page.evaluate("document.activeElement.name || ''").startswith(("place.", "state.")), "the focus stays"
    state = page.locator("li.line.free select[name^='state.']").first
    row = state.evaluate("e => e.closest('li').querySelector('[name^=place]').value")
    state.focus()
    page.keyboard.type("no joint")
    page.locator("li.line.forbidden").wait_for()
    assert joints(name) == {"surface": "eave", "upright": ["4'"], "not_upright": [row]}
    assert page.locator(".lines-of .wide .d-no-joint").count() == 1
    page.locator("li.line.forbidden select").select_option("free")
    page.locator("li.line.forbidden").wait_for(state="detached")
    assert "not_upright" not in joints(name)


def test_without_script_the_form_does_the_same(desk, pages, who):
    name, page = document(SOFFIT, who), pages["plain"]
    page.goto(f"{desk.address}/job/{name}/joints/?at=eave")
    page.locator("[name='place.new']").fill("10' 6\"")
    page.get_by_role("button", name="Keep it").click()
    assert joints(name)["upright"] == ["10' 6\""]
    assert page.get_by_role("heading", name="What changed").count() == 1
    page.locator("li.pinned select").select_option("forbidden")
    page.get_by_role("button", name="Keep it").click()
    assert joints(name) == {"surface": "eave", "not_upright": ["10' 6\""]}
    page.get_by_role("button", name=re.compile("^Take it: ")).first.click()
    assert joints(name)["choose"] in ("fewest", "through", "smaller")
    assert page.locator(".one-way.chosen h3").inner_text().startswith("Taken")


def test_the_limit_that_fails_is_named_with_what_mends_it(desk, pages, owner, who):
    name = document(SOFFIT, who, '\n[[joints]]\nsurface = "eave"\nnot_upright = ["1\' to 31\'"]\n')
    page = pages["phone"]
    page.goto(f"{desk.address}/job/{name}/joints/?at=eave")
    said = page.locator(".cautions").text_content()
    assert "No way to part it holds" in said
    assert "It would hold with a joint where you want none" in said
    assert "past it" in page.locator("#limits").inner_text()
    tried = owner.post(
        f"/job/{name}/joints/try", at="eave", **{"place.0": "1' to 31'", "state.0": "free", "way.0": "upright"}
    )
    assert tried.status == 200
    assert "past it" not in tried.text
    assert joints(name)["not_upright"], "what is tried is not kept"


def test_what_cannot_be_is_refused_where_it_stands(owner, who):
    name = document(SOFFIT, who)
    sent = {"place.new": "40'", "state.new": "pinned", "way.new": "upright"}
    reply = owner.post(f"/job/{name}/joints/keep", at="eave", base="1", **sent)
    assert reply.status == 422
    assert "A joint is wanted at 40&#x27;" in reply.text
    assert re.search(r'name="place\.\d+" value="40&#x27;"', reply.text), "it stands as it was filled in"
    assert joints(name) == {}


def test_a_clash_with_what_another_kept_is_told(owner, who):
    name = document(SOFFIT, who)
    one = {"place.new": "10'", "state.new": "pinned", "way.new": "upright"}
    assert owner.post(f"/job/{name}/joints/keep", at="eave", base="1", **one).status == 200
    other = owner.post(f"/job/{name}/joints/keep", at="eave", base="1", **(one | {"place.new": "12'"}))
    assert other.status == 409
    assert joints(name)["upright"] == ["10'"]


def test_a_wall_of_a_house_says_its_own_and_keeps_the_rest_of_its_house():
    from darby.desk.put_on.lines import said

    before = {"joints": [{"surface": "crew", "floors": ["9'"], "upright": ["4'"], "gap": {"swing": "130 F"}}]}
    posted = {"place.0": "4'", "was.0": "4'", "had.0": "pinned", "state.0": "forbidden", "way.0": "upright"}
    made = said(before, "crew-2", posted)["joints"]
    assert made[0] == before["joints"][0]
    assert made[1] == {"surface": "crew-2", "floors": ["9'"], "not_upright": ["4'"]}
    free = said({"joints": made}, "crew-2", posted | {"state.0": "free", "had.0": "forbidden"})["joints"]
    assert free[1] == {"surface": "crew-2", "floors": ["9'"]}


@pytest.mark.parametrize("language", ["en", "es"])
def test_lines_in_every_state_read_well(desk, browser, who, language):
    more = '\n[[joints]]\nsurface = "eave"\nupright = ["9\' 3\\""]\nnot_upright = ["20\' to 21\'"]\n'
    name = document(SOFFIT, who, more)
    for size in (PHONE, LAPTOP):
        context = browser.new_context(viewport=size)
        page = context.new_page()
        page.goto(desk.link(f"put on {language}", "owner", language=language))
        page.goto(f"{desk.address}/job/{name}/joints/?at=eave")
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        assert page.locator("li.line.pinned").count() == page.locator("li.line.forbidden").count() == 1
        found = Axe().run(page, options={"resultTypes": ["violations"]}).response["violations"]
        assert not found, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found]
        context.close()


# --- own measures ----------------------------------------------------------------------------------------


def sand(page):
    """Buckets of sand of every ticket."""
    return re.findall(r"<b>damp sand</b>.*?<td class=\"r\">([^<]*)</td>", page, re.DOTALL)


def test_a_bucket_that_is_gauged_changes_the_tickets(owner, crew, who):
    from darby.desk.kept import FIRM, saving

    name = document(FIREHALL, who)
    before = owner.get(f"/job/{name}/mixes/")
    base = re.search(r'name="base" value="(\d+)"', before.text)[1]
    filled = {"gauge": "bucket", "box": "16 in x 18 in x 18 in", "count": "3 1/3"}
    try:
        after = owner.post(f"/job/{name}/mixes/measure", base=base, **filled)
        assert after.status == 200, after.text[:400]
        assert tomllib.loads(saving.firm_text())["measures"]["bucket"] == "9/10 cu ft"  # 3 cu ft / 3 1/3
        assert "What changed" in after.text
        more, less = sand(before.text), sand(after.text)
        assert len(more) == len(less) > 1
        assert all(int(a.split()[0]) > int(b.split()[0]) for a, b in zip(more, less, strict=True))
        assert sand(crew.get(f"/job/{name}/mixes/").text) == less
        wrong = owner.post(f"/job/{name}/mixes/measure", gauge="bucket", box="a crate", count="2")
        assert wrong.status == 422
        assert 'value="a crate"' in wrong.text
        none = owner.post(f"/job/{name}/mixes/measure", gauge="bucket", box="1 cu ft", count="0")
        assert none.status == 422
    finally:
        owner.post(f"/job/{name}/mixes/measure", gauge="bucket", holds="0.70 cu ft")
    assert tomllib.loads(saving.latest(FIRM).text)["measures"]["bucket"] == "0.70 cu ft"


@pytest.mark.parametrize(
    ("box", "count", "system", "holds"),
    [("1 cu ft", "2", "us", "1/2 cu ft"), ("1 cu ft", "3 1/2", "us", "2/7 cu ft"), ("12 in x 24 in x 12 in", "1", "us",
     "2 cu ft"), ("20 L", "1", "metric", "20 L"), ("3 cu ft", "2", "us", "1 1/2 cu ft")],
)  # fmt: skip
def test_what_a_bucket_holds_is_the_box_by_the_count(box, count, system, holds):
    from darby.desk.put_on.measures import measured
    from darby.measure import volume

    made = measured({}, {"gauge": "bucket", "box": box, "count": count}, system)["measures"]
    assert made == {"gauge": "bucket", "bucket": holds}
    assert float(volume(holds)) > 0


# --- coats, boards, the rest -----------------------------------------------------------------------------


def test_another_way_to_build_it_up_is_taken_with_one_press(owner, who):
    name = document(FIREHALL, who)
    page = owner.get(f"/job/{name}/coats/").text
    assert 'value="three-coat"' in page
    reply = owner.post(f"/job/{name}/coats/take", at="bay-east", way="three-coat", base="1")
    assert reply.status == 200
    assert "What changed" in reply.text
    on = {e["surface"]: e for e in tables(name)["coats"]["on"]}
    assert on["bay-east"]["choose"] == "three-coat"
    again = owner.post(f"/job/{name}/coats/take", at="bay-north", way="one-coat", base="2")
    assert again.status == 200
    on = {e["surface"]: e for e in tables(name)["coats"]["on"]}
    assert (on["bay-north"]["choose"], on["bay-north"]["suction"]) == ("one-coat", "low"), "the rest of it stays"


def test_sieves_depths_and_who_signed_are_entered(desk, pages, who):
    name, page = document(FIREHALL, who), pages["phone"]
    page.goto(f"{desk.address}/job/{name}/match/")
    page.get_by_label("Who signs").fill("M. Ortega")
    page.get_by_label("Board", exact=True).select_option("2")
    page.get_by_label("On which day").fill("2026-10-02")
    page.locator(".signing button").click()
    assert tables(name)["match"][0]["signed"]["by"] == "M. Ortega"
    assert page.locator(".board.signed").inner_text().startswith("2.")
    assert "M. Ortega" in page.locator(".board.signed").inner_text()
    reading = page.locator(".reading").first
    reading.get_by_label("How much, 3").fill("5.0 g")
    reading.get_by_label("Depths").fill("0.1 in\n0.12 in")
    reading.get_by_role("button").click()
    entry = tables(name)["match"][0]
    assert entry["retained"][2] == ["No. 16", "5.0 g"]
    assert entry["depths"] == ["0.1 in", "0.12 in"]
    assert entry["looks"] == "dash", "what the form has not stays"
    assert page.get_by_role("heading", name="What changed").count() == 1


def test_the_crew_sees_it_without_money_and_changes_nothing(crew, who):
    from darby.desk.money import MONEY

    name = document(SOFFIT, who)
    for stage in ("joints", "lath", "mixes", "match", "patch", "cautions"):
        page = crew.get(f"/job/{name}/{stage}/")
        assert page.status == 200, stage
        assert not MONEY.search(page.text), stage
        assert f"/job/{name}/joints/keep" not in page.text
    assert "4&#x27; 6 7/8" in crew.get(f"/job/{name}/joints/?at=eave").text
    assert crew.post(f"/job/{name}/joints/keep", at="eave", **{"place.new": "10'"}).status == 403
    assert crew.post(f"/job/{name}/mixes/measure", gauge="bucket", holds="1 cu ft").status == 403
    assert crew.get(f"/job/{name}/recoat/").status == 403
    assert crew.get("/job/firehall/paper/boards.pdf").status == 200
    assert joints(name) == {}


def test_every_stage_has_its_page(desk):
    from darby.answers.stages import STAGES
    from darby.desk.places import stage_pages

    shown = {stage for page in stage_pages().values() for stage in page.stages}
    assert {stage.name for stage in STAGES} <= shown
