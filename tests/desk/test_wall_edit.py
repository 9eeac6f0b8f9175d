"""The wall by hand: dragged, typed on the spot, by the list, by one line; one step back; never half kept."""

from __future__ import annotations

import tomllib

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser import LAPTOP, PHONE

AXE = Axe()
RULES = {"resultTypes": ["violations"]}
LOW = """
[...document.querySelectorAll("button, .cell input, .one-line input[name=line], summary")]
.filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5).map(e => e.outerHTML.slice(0, 120))
"""
SHED = """
darby = 1
[job]
name = "Shed"
as_of = 2026-09-30
[[wall]]
id = "south"
name = "Shed, south"
length = "20'"
height = "10'"
base = "block"
block = "dense"
joints = "flush"
out_of_plane = "1/4 in"
facing = "south"
openings = ["door 3068 at 2', reveal 4\\"", "window 3040 at 10', up 3', reveal 4\\""]
[[wall]]
id = "north"
name = "Shed, north"
length = "20'"
height = "10'"
base = "block"
block = "dense"
joints = "flush"
out_of_plane = "1/4 in"
facing = "north"
[coats]
finish = "float"
"""


@pytest.fixture(scope="module")
def made(desk):
    """Makes a shed under a name of its own, so that no test stands on another's."""
    from darby.desk.kept import saving

    who = desk.person("mason", "owner")
    count = iter(range(1000))

    def shed() -> str:
        document = f"shed-{next(count)}"
        saving.keep(document, SHED, who)
        return document

    return shed


@pytest.fixture(scope="module")
def sheets(desk, browser):
    """A phone and a laptop, signed in, with the hand switched on."""
    pages = {}
    for name, size in (("phone", PHONE), ("laptop", LAPTOP)):
        touch = {"has_touch": True} if name == "phone" else {}
        page = browser.new_context(viewport=size, reduced_motion="reduce", service_workers="block", **touch).new_page()
        page.said = []
        page.on("console", lambda m, p=page: p.said.append(m.text) if m.type in ("error", "warning") else None)
        page.on("pageerror", lambda error, p=page: p.said.append(str(error)))
        page.goto(desk.link("mason", "owner"))
        page.evaluate("sessionStorage.setItem('darby-by-hand', '1')")
        pages[name] = page
    yield pages
    for page in pages.values():
        page.context.close()


def wall(document: str, id: str = "south") -> dict:
    from darby.desk.kept import saving

    tables = tomllib.loads(saving.latest(document).text)
    return next(w for w in tables["wall"] if w["id"] == id)


def revisions(document: str) -> int:
    from darby.desk.kept import saving

    return saving.latest(document).number


def opened(page, desk, document: str, at: str = "south"):
    page.goto(f"{desk.address}/job/{document}/wall/?at={at}")
    page.locator(".h-mark:visible").first.wait_for()
    return page


def answered(page, act) -> None:
    """Do it, and wait until the page that comes of it stands."""
    with page.expect_response(lambda r: r.request.method == "POST" and "/job/" in r.url) as got:
        act()
    got.value.finished()
    page.wait_for_function("() => !document.querySelector('.htmx-request, .htmx-swapping, .htmx-settling')")


def drag(page, name: str, feet_right: float, feet_up: float) -> None:
    """A handle, so many feet of wall."""
    grip = page.locator(f'[data-grip="{name}"]:visible')
    grip.scroll_into_view_if_needed()
    box = grip.bounding_box()
    told = page.evaluate("JSON.parse(document.querySelector('[data-sketch]').dataset.sketch)")
    sheet = told["narrow" if page.viewport_size["width"] < 700 else "wide"]
    svg = page.locator("svg.drawing:visible").first
    shrunk = svg.bounding_box()["width"] / svg.evaluate("s => s.viewBox.baseVal.width")
    foot = sheet["scale"] * 0.3048 * shrunk
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + feet_right * foot / 2, y - feet_up * foot / 2)
    page.mouse.move(x + feet_right * foot, y - feet_up * foot)
    answered(page, page.mouse.up)


def feet(text: str) -> float:
    from darby.measure import length
    from darby.measure.units import FT

    return float(length(text) / FT)


# --- dragged -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["phone", "laptop"])
def test_a_corner_dragged_off_the_rectangle_makes_an_outline(desk, sheets, made, name):
    """The upper right corner of 20' x 10' goes down three feet: a lean-to, 20 x (10 + 7) / 2 = 170 sq ft by hand."""
    document = made()
    page = opened(sheets[name], desk, document)
    drag(page, "c.2", 0, -3)
    now = wall(document)
    assert "gable" not in now
    corners = [[feet(x) for x in corner.split(", ")] for corner in now["outline"]]
    assert [c[0] for c in corners] == [0, 20, 20, 0]
    assert corners[2][1] == pytest.approx(7, abs=0.2)
    assert (corners[2][1] * 24).is_integer()  # half inches
    assert corners[3][1] == 10
    area = 20 * (10 + corners[2][1]) / 2
    assert area == pytest.approx(170, abs=2)
    said = page.locator(".changed").inner_text()
    assert f"{round(area - 20 - 12)} sq ft" in said  # the door 3' x 6'-8" and the window 3' x 4' are taken off


@pytest.mark.parametrize("name", ["phone", "laptop"])
def test_a_side_dragged_makes_it_longer_and_catches_half_inches(desk, sheets, made, name):
    document = made()
    drag(opened(sheets[name], desk, document), "length", 2, 0.3)
    now = wall(document)
    long = feet(now["length"])
    assert long == pytest.approx(22, abs=0.3)
    assert (long * 24).is_integer()
    assert now["height"] == "10'"
    assert "outline" not in now
    assert wall(document, "north")["length"] == "20'"


def test_an_opening_is_dragged_along_and_stands_on_the_base(desk, sheets, made):
    document = made()
    drag(opened(sheets["laptop"], desk, document), "o.0", 3, 0.1)
    line = wall(document)["openings"][0]
    assert line.startswith("door 3068 at ")
    assert line.endswith(', reveal 4"')
    assert feet(line.split(" at ")[1].split(",")[0]) == pytest.approx(5, abs=0.3)


def test_an_opening_made_wider_leaves_the_other_one_as_it_was(desk, sheets, made):
    document = made()
    drag(opened(sheets["laptop"], desk, document), "o.1.width", 1, 0)
    door, window = wall(document)["openings"]
    assert door == "door 3068 at 2', reveal 4\""
    assert window.startswith("window 4' x 4' at 10'")


def test_what_trembles_is_no_drag(desk, sheets, made):
    document = made()
    page = opened(sheets["phone"], desk, document)
    grip = page.locator('[data-grip="c.2"]:visible').bounding_box()
    page.mouse.move(grip["x"] + 22, grip["y"] + 22)
    page.mouse.down()
    page.mouse.move(grip["x"] + 23, grip["y"] + 23)
    page.mouse.up()
    assert page.locator(".h-ghost").count() == 0
    assert revisions(document) == 1


# --- typed on the spot -------------------------------------------------------------------------------


def tap(page, what: str, text: str) -> None:
    page.locator(f'[data-tap="{what}"]:visible').click()
    spot = page.locator("#on-the-spot")
    spot.fill(text)
    answered(page, lambda: spot.press("Enter"))


@pytest.mark.parametrize("name", ["phone", "laptop"])
def test_a_size_is_tapped_and_typed(desk, sheets, made, name):
    document = made()
    page = opened(sheets[name], desk, document)
    page.locator('[data-tap="length"]:visible').click()
    assert page.locator("#on-the-spot").input_value() == "20'"
    page.keyboard.press("Escape")
    assert page.locator("#on-the-spot").count() == 0
    tap(page, "length", "21' 4 1/4\"")
    assert wall(document)["length"] == "21' 4 1/4\""


def test_a_gap_that_is_typed_moves_the_opening(desk, sheets, made):
    """The door ends at 5'; six feet on, the window begins at 11'. Two feet from the right end: 20 - 2 - 3 = 15'."""
    document = made()
    page = opened(sheets["laptop"], desk, document)
    tap(page, "o.1.gap", "6'")
    assert "at 11'" in wall(document)["openings"][1]
    tap(page, "o.1.rest", "2'")
    assert "at 15'" in wall(document)["openings"][1]


def test_what_is_tapped_and_cannot_be_read_is_said_at_its_place(desk, sheets, made):
    document = made()
    page = opened(sheets["laptop"], desk, document)
    tap(page, "length", "20 furlongs")
    assert "furlongs" in page.locator("#e-length").inner_text()
    assert revisions(document) == 1


# --- by the list -------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["phone", "laptop"])
def test_the_list_does_it_all_by_keyboard(desk, sheets, made, name):
    document = made()
    page = opened(sheets[name], desk, document)
    page.locator("#s-length").focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("22'")
    for field in ("height", "gable", "o.0.at", "o.0.up", "o.0.width"):
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.name") == field
    page.keyboard.press("Control+A")
    page.keyboard.type("3' 6\"")
    answered(page, lambda: page.keyboard.press("Enter"))
    now = wall(document)
    assert now["length"] == "22'"
    assert now["openings"][0] == "door 3' 6\" x 6' 8\" at 2', reveal 4\""
    assert now["openings"][1] == "window 3040 at 10', up 3', reveal 4\""
    page.locator(".corners summary").click()
    page.locator("#s-c\\.new\\.u").fill("11'")
    page.locator("#s-c\\.new\\.v").fill("13'")
    answered(page, lambda: page.keyboard.press("Enter"))
    now = wall(document)
    assert (now["height"], now["gable"]) == ("10'", "3'")  # in the middle of 22': a gable, and no outline
    assert "outline" not in now


def test_a_corner_is_taken_out_and_an_opening(desk, sheets, made):
    document = made()
    page = opened(sheets["laptop"], desk, document)
    page.locator("#s-gable").fill("2'")
    answered(page, lambda: page.keyboard.press("Enter"))
    page.locator(".corners summary").click()
    page.get_by_label("Take out Corner 4").check()
    page.get_by_label("Take out door").check()
    answered(page, lambda: page.locator("#sketch-list button.go").click())
    now = wall(document)
    assert "gable" not in now
    assert now["openings"] == ["window 3040 at 10', up 3', reveal 4\""]


# --- one step back -----------------------------------------------------------------------------------


def test_back_and_forward_by_keys_and_by_buttons(desk, sheets, made):
    document = made()
    page = opened(sheets["laptop"], desk, document)
    for long in ("21'", "22'", "23'"):
        tap(page, "length", long)
    page.locator("h1").click()
    lengths = []
    for key in ("Control+z", "Control+z", "Control+Shift+z", "Control+z"):
        answered(page, lambda key=key: page.keyboard.press(key))
        lengths.append(wall(document)["length"])
    assert lengths == ["22'", "21'", "22'", "21'"]
    answered(page, lambda: page.get_by_role("button", name="Put it on again").click())
    assert wall(document)["length"] == "22'"
    answered(page, lambda: page.get_by_role("button", name="Take it back").click())
    tap(page, "height", "9'")  # a new change: what was undone is gone
    assert page.get_by_role("button", name="Put it on again").is_disabled()
    assert revisions(document) == 11  # nothing was ever taken away
    for _ in range(2):
        answered(page, lambda: page.get_by_role("button", name="Take it back").click())
    assert (wall(document)["length"], wall(document)["height"]) == ("20'", "10'")
    assert page.get_by_role("button", name="Take it back").is_disabled()


def test_ctrl_z_in_a_field_that_was_written_in_is_the_fields_own(desk, sheets, made):
    document = made()
    page = opened(sheets["laptop"], desk, document)
    tap(page, "length", "21'")
    page.locator("#s-height").fill("9'")
    page.keyboard.press("Control+z")
    assert revisions(document) == 2


def test_one_step_back_is_not_over_what_somebody_else_did(desk, owner, made):
    from darby.desk.kept import saving

    document = made()
    form = f"/job/{document}/wall/?at=south"
    owner.post(f"/job/{document}/sketch?at=south", _form=form, base="1", length="21'")
    text = saving.latest(document).text.replace('height = "10\'"', 'height = "11\'"')
    saving.keep(document, text, desk.person("other", "owner"), base=2)
    reply = owner.post(f"/job/{document}/step?at=south", _form=form, base="2", page="wall", way="back")
    assert reply.status == 409
    assert "other" in reply.text
    assert wall(document)["height"] == "11'"


def test_the_steps_of_a_history():
    from darby.desk.kept.undoing import Steps, walked

    assert walked([]) == Steps(0, None, None)
    assert walked([(1, "")]) == Steps(1, None, None)
    assert walked([(1, ""), (2, ""), (3, "back:1")]) == Steps(3, None, 2)
    assert walked([(1, ""), (2, ""), (3, ""), (4, "back:2"), (5, "back:1")]) == Steps(5, None, 2)
    assert walked([(1, ""), (2, ""), (3, ""), (4, "back:2"), (5, "back:3")]) == Steps(5, 2, None)
    assert walked([(1, ""), (2, ""), (3, ""), (4, "back:2"), (5, "")]) == Steps(5, 2, None)
    far = [(1, ""), (2, ""), (3, ""), (4, ""), (5, "back:1")]
    assert walked(far) == Steps(5, 4, None)  # from the history itself, over several: that is a change of its own


# --- one line ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["phone", "laptop"])
def test_a_wall_and_an_opening_by_one_line(desk, sheets, made, name):
    from darby.desk.kept import saving

    document = made()
    page = opened(sheets[name], desk, document)
    page.locator("#w-opening").fill("window 3040 at 15', sill 3'")
    answered(page, lambda: page.keyboard.press("Enter"))
    assert wall(document)["openings"][-1] == "window 3040 at 15', up 3'"
    page.locator("#w-line").fill("garden wall 60' x 6' x 8\", pilasters every 10', 16\" x 4\", cap drip")
    answered(page, lambda: page.keyboard.press("Enter"))
    tables = tomllib.loads(saving.latest(document).text)
    assert tables["garden_wall"] == [{
        "id": "garden-wall", "length": "60'", "height": "6'", "thick": '8"', "cap": "drip", "base": "block",
        "block": "dense", "joints": "flush", "pilasters": {"every": "10'", "width": '16"', "out": '4"'},
    }]  # fmt: skip
    assert "so as at Shed, north" in page.locator(".changed").inner_text()
    assert page.get_by_role("link", name="garden-wall, front", exact=True).get_attribute("aria-current") == "true"
    assert page.url.endswith("?at=garden-wall-front")


def test_a_line_that_cannot_be_read_is_marked_where_it_is_wrong(desk, sheets, made):
    document = made()
    page = opened(sheets["laptop"], desk, document)
    page.locator("#w-line").fill("wall 24' x 8', blok, facing south")
    answered(page, lambda: page.keyboard.press("Enter"))
    assert page.locator(".as-written mark").inner_text() == "blok"
    assert "block" in page.locator("#e-line").inner_text()
    assert page.locator("#w-line").input_value() == "wall 24' x 8', blok, facing south"
    page.locator("#w-opening").fill("3068 at 19'")
    answered(page, lambda: page.keyboard.press("Enter"))
    assert "past the wall" in page.locator("#e-opening").inner_text()
    assert revisions(document) == 1


# --- without script, and together --------------------------------------------------------------------


def test_without_script_all_of_it_is_forms(desk, browser, made):
    document = made()
    page = browser.new_context(viewport=PHONE, java_script_enabled=False).new_page()
    page.goto(desk.link("mason", "owner"))
    page.goto(f"{desk.address}/job/{document}/wall/?at=south")
    assert page.get_by_role("button", name="Drag and type").count() == 0
    page.fill("#s-length", "21'")
    page.locator("#sketch-list button.go").click()
    assert page.get_by_role("heading", name="What changed").count() == 1
    page.fill("#s-o\\.1\\.at", "30'")
    page.locator("#sketch-list button.go").click()
    assert "Nothing was kept" in page.locator(".by-list [role=alert]").first.inner_text()
    assert page.locator("#e-o\\.1\\.at").is_visible()
    assert page.input_value("#s-o\\.1\\.at") == "30'"
    page.goto(f"{desk.address}/job/{document}/wall/?at=south")
    page.fill("#w-opening", "3068 at 15'")
    page.get_by_role("button", name="Open it").click()
    page.get_by_role("button", name="Take it back").click()
    assert (wall(document)["length"], len(wall(document)["openings"])) == ("21'", 2)
    page.context.close()


def test_two_who_change_different_things_both_stand_and_the_same_thing_is_told(desk, owner, made):
    from darby.desk.kept import saving

    document = made()
    form = f"/job/{document}/wall/?at=south"
    where = f"/job/{document}/sketch?at=south"
    text = saving.latest(document).text.replace('height = "10\'"', 'height = "11\'"', 1)
    saving.keep(document, text, desk.person("other", "owner"), base=1)
    both = owner.post(where, _form=form, base="1", length="21'")
    assert both.status == 200
    assert "wall/south/height" in both.text
    assert (wall(document)["length"], wall(document)["height"]) == ("21'", "11'")
    same = owner.post(where, _form=form, base="1", height="12'")
    assert same.status == 409
    assert "other" in same.text
    assert 'value="12&#x27;"' in same.text
    assert wall(document)["height"] == "11'"
    again = owner.post(where, _form=form, base="3", height="12'")
    assert (again.status, wall(document)["height"]) == (200, "12'")


def test_walls_of_a_house_and_of_a_garden_change_where_they_are_written(desk, owner):
    from darby.desk.examples import jobs
    from darby.desk.kept import saving

    who = desk.person("mason", "owner")
    for example in ("firehall", "garden-wall"):
        saving.keep(f"{example}-sketched", jobs()[example], who)
    at = "/job/firehall-sketched/sketch?at=crew-2"
    form = "/job/firehall-sketched/wall/?at=crew-2"
    assert owner.post(at, _form=form, base="1", **{"length": "13'", "o.0.at": "5'"}).status == 200
    house = tomllib.loads(saving.latest("firehall-sketched").text)["house"][0]
    assert house["walls"] == ["14'", "13'", "14'"]
    assert house["openings"]["2"] == ["window 4' x 4' at 5', up 3'"]
    at, form = "/job/garden-wall-sketched/sketch?at=wall-front", "/job/garden-wall-sketched/wall/?at=wall-front"
    assert owner.post(at, _form=form, base="1", height="7'").status == 200
    assert tomllib.loads(saving.latest("garden-wall-sketched").text)["garden_wall"][0]["height"] == "7'"
    assert owner.get("/job/garden-wall-sketched/wall/?at=wall-back").status == 200
    assert owner.post("/job/garden-wall-sketched/sketch?at=wall-back", _form=form, base="1").status == 404


def test_a_page_that_was_answered_comes_back_to_itself(owner, made):
    """The evening look, and whoever opens the address of a form, lead to the page and not to nothing."""
    document = made()
    where = f"/job/{document}/sketch?at=north"
    reply = owner.post(where, _form=f"/job/{document}/wall/?at=north", base="1", length="21'")
    assert f'name="back" value="/job/{document}/wall/?at=north"' in reply.text
    for form in ("sketch", "sketch/line", "sketch/opening", "step"):
        looked = owner.get(f"/job/{document}/{form}?at=north")
        assert (looked.status, looked.address) == (302, f"/job/{document}/wall/?at=north")


def test_the_crew_looks_and_changes_nothing(crew, made):
    document = made()
    page = crew.get(f"/job/{document}/wall/?at=south")
    assert page.status == 200
    assert "sketch-list" not in page.text
    for where in ("sketch", "sketch/line", "sketch/opening", "step"):
        assert crew.post(f"/job/{document}/{where}?at=south", base="1", length="9'", line="3068 at 1'").status == 403
    assert revisions(document) == 1


@pytest.mark.parametrize(("language", "size"), [("en", PHONE), ("es", LAPTOP)])
def test_it_reads_well_with_the_hand_on_and_with_faults(desk, browser, made, language, size):
    document = made()
    page = browser.new_context(viewport=size, reduced_motion="reduce", service_workers="block").new_page()
    system = "us" if language == "en" else "metric"
    page.goto(desk.link(f"mason {language}", "owner", language=language, system=system))
    page.evaluate("sessionStorage.setItem('darby-by-hand', '1')")
    opened(page, desk, document)
    page.locator(".corners summary").click()
    page.locator("#s-length").fill("20 furlongs")
    answered(page, lambda page=page: page.keyboard.press("Enter"))
    page.locator("#e-length").wait_for()
    found = AXE.run(page, options=RULES).response["violations"]
    assert not found, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found]
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    if size == PHONE:
        assert not page.evaluate(LOW)
    page.context.close()


def test_nothing_was_said_on_the_console(sheets):
    for name, page in sheets.items():
        assert [s for s in page.said if not any(x in s for x in ("422", "409", "Service Worker"))] == [], name
