"""A wall rendered by a camera of our own, handed in, marked by taps and by typing, confirmed number by number."""

from __future__ import annotations

import io
import re
from uuid import uuid4

import numpy as np
import pytest
from axe_playwright_python.sync_playwright import Axe
from PIL import Image, ImageDraw

from darby import measure
from darby.desk.photographed.confirming import put_in, takes_openings
from darby.desk.photographed.sheet import Frame, Line, Mark, Sheet, kept, posted
from darby.desk.photographed.shot import drawn
from darby.desk.photographed.worked import work
from tests.browser import LAPTOP, PHONE
from tests.desk.reached import LOW, RULES
from tests.measure.camera import Camera, looking

AXE = Axe()
FT = 0.3048
SIZE = (2000, 1500)
WALL = "bay-east"  # 34' x 12', no openings
WIDE, HIGH = 34.0, 12.0
WINDOW = {"width": 4.0, "height": 4.0, "at": 10.0, "up": 3.0}  # [ft]
CORNERS = [(0.0, 0.0), (34.0, 0.0), (34.0, 12.0), (0.0, 12.0)]
PLACE = np.array([WIDE * FT * 0.4, 1.6, 9.6])
CAMERA = Camera(
    SIZE[0] * 0.78, np.array(SIZE) / 2, 0.02, 0.0, 0.0, 0.0,
    looking(PLACE, np.array([WIDE * FT / 2, HIGH * FT / 2, 0.0]), 0.02), PLACE,
)  # fmt: skip


def pixel(u: float, v: float) -> tuple[float, float]:
    x, y = CAMERA.picture(np.array([[u, v]]) * FT)[0]
    return float(x), float(y)


def rendered() -> bytes:
    """The wall with a dark window in it, as a JPEG."""
    image = Image.new("RGB", SIZE, (150, 175, 200))
    pen = ImageDraw.Draw(image)
    left, low = WINDOW["at"], WINDOW["up"]
    right, top = left + WINDOW["width"], low + WINDOW["height"]
    for corners, fill in (
        (CORNERS, (178, 172, 160)),
        ([(left, low), (right, low), (right, top), (left, top)], "black"),
    ):
        ends = np.array(corners)
        sides = [np.linspace(a, b, 20) for a, b in zip(ends, np.roll(ends, -1, axis=0), strict=True)]
        pen.polygon([tuple(p) for p in CAMERA.picture(np.vstack(sides) * FT)], fill=fill)
    out = io.BytesIO()
    image.save(out, "JPEG")
    return out.getvalue()


def sheet(marks=CORNERS, frames=(), lines=(), surface=WALL) -> Sheet:
    def at(u, v):
        return "{:.0f}, {:.0f}".format(*pixel(u, v))

    return Sheet(
        surface,
        tuple(Mark(*(f"{x:.0f}" for x in pixel(u, v)), f"{u:g}'", f"{v:g}'" if v else "0") for u, v in marks),
        tuple(Frame("k", (*(at(*c) for c in corners), *[""] * (4 - len(corners)))) for corners in frames),
        tuple(Line(at(*a), at(*b)) for a, b in lines),
    )


# --- without a browser ---------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def surface(desk):
    from darby.desk.reading import read

    return next(s for s in read("firehall").job.surfaces if s.id == WALL)


def test_openings_and_lengths_lie_inside_their_give(surface):
    worked = work(sheet(frames=[[(10, 3), (14, 7)]], lines=[((0, 6), (10, 6))]), SIZE, surface, "us")
    assert worked.straight is not None and not worked.faults
    for name, told in worked.frames[0].items():
        assert abs(float(told.value) - WINDOW[name] * FT) <= float(told.give), name
        assert measure.length(told.text) == told.value
    assert abs(float(worked.lines[0].value) - 10 * FT) <= float(worked.lines[0].give)
    assert 'class="wall-line"' in drawn(worked, SIZE, surface)


def test_a_door_tapped_a_hair_below_the_foot_of_the_wall_stands_on_it(surface):
    worked = work(sheet(frames=[[(10, -0.02), (13, 7)]]), SIZE, surface, "us")
    sill = worked.frames[0]["up"]
    assert sill.text == '0"' and float(sill.give) > 0.02 * FT
    deep = work(sheet(frames=[[(10, -1.5), (13, 7)]]), SIZE, surface, "us").frames[0]["up"]
    assert float(deep.value) + float(deep.give) < 0, "what is surely below it is told as it is"


def replaced(at: int, **more) -> Sheet:
    from dataclasses import replace

    whole = sheet([*CORNERS, (10, 3), (14, 7), (24, 9)])
    return replace(whole, marks=tuple(replace(m, **more) if n == at else m for n, m in enumerate(whole.marks)))


def few() -> Sheet:
    return sheet(CORNERS[:3])


@pytest.mark.parametrize(
    ("wrong", "place", "code"),
    [
        (few(), "marks", "measure.photograph-few"),
        (sheet([(10, 3), (14, 3), (14, 7), (10, 7)]), "marks", "measure.photograph-cover"),
        (sheet([(0, 0), (10, 0), (20, 0), (34, 0)]), "marks", "measure.photograph-line"),
        (replaced(5, u="16'"), "mark 5", "measure.photograph-misfit"),
        (replaced(1, u="34"), "mark 1", "measure.no-unit"),
        (replaced(1, u=""), "mark 1", "measure.not-a-length"),
        (replaced(2, x="2001"), "mark 2", "desk.photograph.no-pixel"),
        (replaced(2, y=""), "mark 2", "desk.photograph.no-pixel"),
        (sheet(frames=[[(10, 3)]]), "frame 0", "measure.photograph-points"),
        (
            sheet([(0, 0), (20, 0), (20, 12), (0, 12)], lines=[((2, 6), (33, 6))]),
            "line 0",
            "measure.photograph-outside",
        ),
    ],
)
def test_every_refusal_stands_at_its_place_in_both_languages(surface, wrong, place, code):
    from darby.desk.forms import fault_text
    from darby.tables.setting import Setting

    faults = work(wrong, SIZE, surface, "us").faults
    assert faults[place].code.startswith(code) or code == "measure.not-a-length", faults
    said = {fault_text(faults[place], Setting(language, "us")) for language in ("en", "es")}
    assert len(said) == 2


def test_a_wrong_mark_is_named_by_its_row_even_after_an_empty_one(surface):
    from dataclasses import replace

    wrong = replaced(5, u="16'")
    gap = replace(wrong, marks=(*wrong.marks[:2], Mark(), *wrong.marks[2:]))
    assert work(gap, SIZE, surface, "us").faults["mark 6"].place == "7"


def test_a_sheet_is_kept_without_its_empty_rows_and_comes_back():
    whole = sheet(frames=[[(10, 3), (14, 7)]], lines=[((0, 6), (10, 6))])
    assert kept(whole.with_room().said()) == whole
    fresh = Sheet(frames=(Frame("", ("1, 2", "3, 4", "", "")),)).said()
    assert len(fresh["frames"][0][0]) == 8


def test_the_roughest_point_sets_how_far_every_point_may_miss(surface):
    from dataclasses import replace

    whole = sheet(frames=[[(10, 3), (14, 7)]])
    marks = (replace(whole.marks[0], rough="11 0"), replace(whole.marks[1], rough="7 0"), *whole.marks[2:])
    rough = replace(whole, marks=marks)
    assert (whole.jog, rough.jog) == (0, 11)
    fine, coarse = (work(one, SIZE, surface, "us").frames[0]["width"].give for one in (whole, rough))
    assert coarse > fine * 2
    assert kept(rough.said()) == rough
    for nonsense in ("much 0", "-3", "", "9" * 30):
        assert 0 <= replace(whole, lines=(Line("1, 1", "2, 2", nonsense),)).jog <= 200


def test_a_form_is_held_to_a_few_rows():
    class Form(dict):
        def getlist(self, name):
            return self.get(name, [])

    long = posted(Form(x=["9" * 300] * 900, y=["1"] * 900), WALL)
    assert len(long.marks) == 40 and len(long.marks[0].x) == 40
    assert posted(Form(x=["", "1", ""], y=["", "2", ""], u=["", "", ""], v=["", "", ""]), WALL).marks[1:] == (
        Mark("1", "2"),
    )


def test_an_opening_goes_into_a_wall_and_a_wall_of_a_house_and_nowhere_else(desk):
    from darby.desk.kept import saving
    from darby.desk.reading import read
    from darby.job import dump, loads

    found = read("firehall")
    sizes = {name: measure.told(feet * FT, 0.01) for name, feet in WINDOW.items()}
    for at, list_of in (
        ("bay-east", lambda t: t["wall"][1]["openings"]),
        ("crew-2", lambda t: t["house"][0]["openings"]["2"]),
    ):
        wall = next(s for s in found.job.surfaces if s.id == at)
        sizes["at"] = measure.told(0.4 if at == "crew-2" else 3.0, 0.01)
        sizes["width"] = measure.told(0.5, 0.01)
        made, id = put_in(found.tables, wall, sizes, id="", kind="window", name="")
        assert id == "window-photo-1" and list_of(made)[-1]["id"] == id
        again, same = put_in(made, wall, sizes, id=id, kind="vent", name="louvre")
        assert same == id and len(list_of(again)) == len(list_of(made)) and list_of(again)[-1]["kind"] == "vent"
        job = loads(dump(again), firm=saving.firm_text())
        assert id in {o.id for s in job.surfaces if s.id == at for o in s.openings}
    assert not takes_openings(read("garden-wall").tables, "wall-front")


# --- in a browser --------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def picture_kept():
    """The photograph as the desk keeps it, looked at once for all."""
    from darby.desk.uploads import picture

    return picture(rendered())


def fire_hall(desk) -> str:
    """A fire hall of one test's own, without a photograph."""
    from darby.desk.kept import saving

    name = f"photo-{uuid4().hex[:6]}"
    saving.keep(name, saving.latest("firehall").text, desk.person("owner photo", "owner"))
    return name


def confirmed(desk, picture) -> str:
    """A fire hall of one test's own with a photograph, marks on it, and its window put into the job file."""
    from darby.desk.kept import saving
    from darby.desk.photographed.confirming import said
    from darby.desk.photographed.sheet import CONFIRMED, KIND
    from darby.desk.reading import read
    from darby.job import dump

    name, who = fire_hall(desk), desk.person("owner photo", "owner")
    size = f"{picture.width} x {picture.height}"
    entry, _ = saving.note_down(
        uuid4(), name, "photograph", who, said={"text": "East wall", "size": size}, at=WALL,
        photograph=(picture.data, picture.kind),
    )  # fmt: skip
    marked = sheet(frames=[[(10, 3), (14, 7)]], lines=[((0, 6), (10, 6))])
    marks, _ = saving.note_down(uuid4(), name, KIND, who, said=marked.said(), at=str(entry.photograph_id))
    found = read(name)
    wall = next(s for s in found.job.surfaces if s.id == WALL)
    told = work(marked, SIZE, wall, "us").frames[0]
    tables, id = put_in(found.tables, wall, told, id="", kind="window", name="")
    saving.keep(name, dump(tables), who, base=found.revision.number)
    says = {"key": "k", "letter": "A", "surface": WALL, "opening": id, "sheet": str(marks.id)} | said(told)
    saving.note_down(uuid4(), name, CONFIRMED, who, said=says, at=str(entry.photograph_id))
    return name


@pytest.fixture(scope="module")
def shown(desk, picture_kept):
    """One such job that nobody changes."""
    return confirmed(desk, picture_kept)


def opened(desk, browser, who: str, role: str, language: str, size=LAPTOP, **more):
    page = browser.new_context(viewport=size, reduced_motion="reduce", **more).new_page()
    page.seen = []
    page.on("pageerror", lambda error: page.seen.append(str(error)))
    page.on("console", lambda said: page.seen.append(said.text) if "Content Security" in said.text else None)
    page.goto(desk.link(who, role, language=language))
    return page


def hand_in(page, address: str, text: str) -> None:
    page.goto(address)
    if not page.locator("#photograph").is_visible():
        page.locator("details.rest > summary").last.click()
    page.locator("#photograph").set_input_files({"name": "wall.jpg", "mimeType": "image/jpeg", "buffer": rendered()})
    page.locator("#shown-at").select_option(WALL)
    page.locator("#shows").fill(text)
    page.locator("form[enctype] button.go").click()
    page.locator("#shot").wait_for()


def tap(page, u: float, v: float) -> None:
    x, y = pixel(u, v)
    page.locator("#shot").evaluate("shot => shot.scrollIntoView()")
    box = page.locator("#shot").bounding_box()
    by = box["width"] / SIZE[0]
    page.mouse.click(box["x"] + x * by, box["y"] + y * by)


def type_mark(page, n: int, u: float, v: float) -> None:
    row = page.locator('[data-rows="mark"] .pt').nth(n)
    x, y = pixel(u, v)
    for name, text in (("x", f"{x:.0f}"), ("y", f"{y:.0f}"), ("u", f"{u:g}'"), ("v", f"{v:g}'" if v else "0")):
        row.locator(f"[name={name}]").fill(text)
    row.locator("[name=v]").blur()


def order_of(document: str):
    from darby.desk.reading import read

    found = read(document)
    return found.revision.number, [(line.item, str(line)) for line in found.answers.good("order")["job"].lines]


def told_in(page) -> dict[str, tuple[float, float]]:
    """Width, height, at, up [m] with their ±, as they are read on the page."""
    texts = page.locator("#worked .num .v").all_inner_texts()
    pairs = [re.fullmatch(r"(.+?)\s*±\s*(.+)", text).groups() for text in texts]
    return {
        name: (float(measure.length(a)), float(measure.length(b))) for name, (a, b) in zip(WINDOW, pairs, strict=True)
    }


def test_taps_and_typing_measure_a_window_and_only_a_confirmed_one_changes_the_order(desk, browser):
    job = fire_hall(desk)
    page = opened(desk, browser, "photo taps", "owner", "en")
    hand_in(page, f"{desk.address}/job/{job}/photograph/", "East wall")
    before = order_of(job)
    for n, (u, v) in enumerate(CORNERS):
        tap(page, u, v)
        row = page.locator('[data-rows="mark"] .pt').nth(n)
        x, y = (float(row.locator(f"[name={name}]").input_value()) for name in "xy")
        assert np.hypot(x - pixel(u, v)[0], y - pixel(u, v)[1]) < 5, "a tap lands where it was meant"
        type_mark(page, n, u, v)
    page.get_by_text("Made straight.").wait_for()

    page.get_by_text("opening, 2 corners").click()
    tap(page, 10, 3)
    tap(page, 13, 7)  # a foot short: dragged to its corner below
    page.get_by_role("heading", name="Opening A").wait_for()
    grab = page.locator('#over .wide .grab[data-at="frame 0 1"]')
    grab.wait_for()
    page.locator("#shot").evaluate("shot => shot.scrollIntoView()")
    box = grab.bounding_box()
    by = page.locator("#shot").bounding_box()["width"] / SIZE[0]
    way = (np.array(pixel(14, 7)) - pixel(13, 7)) * by
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + way[0], y + way[1], steps=4)
    page.mouse.up()
    # the magnified part: arrow keys set it to the pixel
    wanted = [round(c) for c in pixel(14, 7)]
    page.locator("#loupe").focus()
    page.keyboard.press("ArrowRight")
    for _ in range(30):
        now = [int(part) for part in page.locator("[name=corner2]").first.input_value().split(",")]
        if now == wanted:
            break
        across = wanted[0] - now[0]
        page.keyboard.press(("ArrowRight" if across > 0 else "ArrowLeft") if across else
                            ("ArrowDown" if wanted[1] > now[1] else "ArrowUp"))  # fmt: skip
    assert now == wanted
    page.get_by_text("length", exact=True).click()
    tap(page, 0, 6)
    tap(page, 10, 9)
    page.locator('[data-rows="line"] .off.v:not(:empty)').wait_for()
    long, give = page.locator('[data-rows="line"] .off').first.inner_text().split("±")
    assert abs(float(measure.length(long.strip())) - np.hypot(10, 3) * FT) <= float(measure.length(give.strip()))
    # points that were only tapped count as rough; typed or set in the magnified part, the give is smaller
    assert page.locator(".rough").is_visible()
    tapped = told_in(page)
    for name, at in (("corner1", (10, 3)), ("start", (0, 6)), ("end", (10, 9))):
        field = page.locator(f"[name={name}]").first
        field.fill("{:.0f}, {:.0f}".format(*pixel(*at)))
        field.blur()
    page.locator(".rough").wait_for(state="detached")
    for name, (_, off) in told_in(page).items():
        assert off < tapped[name][1], name
    assert page.locator(".confirm").count() == 0, "marks that are not kept cannot be confirmed"
    assert order_of(job) == before

    page.get_by_role("button", name="Keep the marks").click()
    page.locator(".confirm").wait_for()
    for name, (value, off) in told_in(page).items():
        assert abs(value - WINDOW[name] * FT) <= off, name
    assert page.get_by_text("Not confirmed.").is_visible()
    assert order_of(job) == before

    for box in page.locator("[name=tick]").all()[:3]:
        box.check()
    page.locator("[name=kind]").select_option("window")
    page.get_by_role("button", name="Put it into the job file").click()
    page.locator(".confirm .fault").wait_for()
    assert page.locator("[name=tick]:checked").count() == 3
    assert order_of(job) == before

    page.locator("[name=tick]").last.check()
    page.get_by_role("button", name="Put it into the job file").click()
    page.get_by_role("heading", name="What changed").wait_for()
    assert page.get_by_text("Confirmed. It stands in the job file as window-photo-1.").is_visible()
    number, lines = order_of(job)
    assert number == before[0] + 1 and lines != before[1]
    assert not page.seen
    page.context.close()


def test_marks_moved_after_confirming_change_nothing_until_they_are_confirmed_again(desk, browser, picture_kept):
    from darby.desk.kept import saving

    job = confirmed(desk, picture_kept)
    page = opened(desk, browser, "photo taps", "owner", "en")
    page.goto(f"{desk.address}/job/{job}/photograph/")
    stands = saving.tables(saving.latest(job).text)["wall"][1]["openings"]
    corner = page.locator("[name=corner1]").first
    x, y = pixel(9, 3)
    corner.fill(f"{x:.0f}, {y:.0f}")
    page.get_by_role("button", name="Keep the marks").click()
    page.get_by_text("The job file has it otherwise").wait_for()
    assert saving.tables(saving.latest(job).text)["wall"][1]["openings"] == stands
    for box in page.locator("[name=tick]").all():
        box.check()
    page.get_by_role("button", name="Put it into the job file").click()
    page.get_by_text("Confirmed. It stands in the job file").wait_for()
    (now,) = saving.tables(saving.latest(job).text)["wall"][1]["openings"]
    assert now["id"] == stands[0]["id"] and now["size"] != stands[0]["size"]
    # an old page, sent again with other marks under its old id, is a line of its own
    page.goto(f"{desk.address}/job/{job}/photograph/")
    form = page.locator("#points").get_attribute("action")
    fields = {
        f["name"]: f["value"]
        for f in page.evaluate("""
        [...document.querySelectorAll("#points [type=hidden]")].map(({name, value}) => ({name, value}))""")
    }
    for x in ("11", "12"):
        own = {name: fields[name] for name in ("csrfmiddlewaretoken", "id")}
        sent = {**own, "act": "keep", "surface": WALL, "x": x, "y": "5", "u": "1'", "v": "0"}
        assert page.request.post(desk.address + form, form=sent, headers={"Referer": desk.address + form}).ok
    page.reload()
    assert page.locator("[name=x]").first.input_value() == "12"
    corners = sheet(frames=[[(9, 3), (14, 7)]])
    for n, (u, v) in enumerate(CORNERS):
        type_mark(page, n, u, v)
    for n, at in enumerate(corners.frames[0].corners[:2], 1):
        page.locator(f"[name=corner{n}]").first.fill(at)
    page.get_by_role("button", name="Keep the marks").click()
    page.get_by_role("heading", name="Opening A").wait_for()
    page.context.close()


def test_the_crew_hands_in_and_marks_without_script_and_cannot_confirm(desk, browser):
    job = fire_hall(desk)
    page = opened(desk, browser, "photo crew", "crew", "es", PHONE, java_script_enabled=False)
    hand_in(page, f"{desk.address}/job/{job}/photograph/", f"del lado este {uuid4()}")
    page.locator("#surface").select_option(WALL)
    for n, (u, v) in enumerate(CORNERS):
        type_mark(page, n, u, v)
    page.locator("[name=corner1]").first.fill("{:.0f}, {:.0f}".format(*pixel(10, 3)))
    page.locator("[name=corner2]").first.fill("{:.0f}, {:.0f}".format(*pixel(14, 7)))
    page.get_by_role("button", name="Calcular").click()
    assert page.locator("#over .narrow .frame-line").count() == 4, "drawn by the desk"
    assert page.get_by_text("Solo el dueño").count() == 1
    page.get_by_role("button", name="Guardar las marcas").click()
    assert page.locator("[name=corner1]").first.input_value() != ""
    for name, (value, give) in told_in(page).items():
        assert abs(value - WINDOW[name] * FT) <= give, name
    assert page.locator(".confirm").count() == 0
    revision = order_of(job)[0]
    form = page.locator("#points").get_attribute("action").replace("/marks", "/confirm")
    token = page.locator("#points [name=csrfmiddlewaretoken]").get_attribute("value")
    reply = page.request.post(desk.address + form, form={"csrfmiddlewaretoken": token, "n": "0"},
                              headers={"Referer": desk.address + form})  # fmt: skip
    assert reply.status == 403
    assert order_of(job)[0] == revision
    page.context.close()


def test_without_a_signal_it_waits_on_the_phone_and_says_so(desk, browser):
    from darby.desk.kept import saving

    job = fire_hall(desk)
    page = opened(desk, browser, "photo away", "crew", "en", PHONE)
    page.goto(f"{desk.address}/job/{job}/photograph/")
    page.context.set_offline(True)
    page.locator("#photograph").set_input_files({"name": "wall.jpg", "mimeType": "image/jpeg", "buffer": rendered()})
    page.locator("#shows").fill("East wall, from the road")
    page.locator("form[enctype] button.go").click()
    page.locator("#kept-lines").get_by_text("kept here").wait_for()
    page.locator("#not-sent").wait_for()
    page.locator("#no-signal").wait_for()
    assert not [e for e in saving.log(job) if e.photograph_id]
    page.context.set_offline(False)
    page.locator("#kept-lines").get_by_text("sent", exact=True).wait_for()
    assert [e.said["text"] for e in saving.log(job) if e.photograph_id] == ["East wall, from the road"]
    page.reload()
    page.locator("#shot").wait_for()
    page.context.close()


@pytest.mark.parametrize("language", ["en", "es"])
def test_it_reads_well_with_a_photograph_on_it(desk, browser, shown, language):
    for size in (PHONE, LAPTOP):
        page = opened(desk, browser, f"photo {language}", "owner", language, size)
        page.goto(f"{desk.address}/job/{shown}/photograph/")
        assert page.locator("#over .grab").count() >= 8
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        found = AXE.run(page, options=RULES).response["violations"]
        assert not found, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found]
        low = page.evaluate(LOW.replace(".field input", ".field input, .pt input, .num, .modes label"))
        assert size == LAPTOP or not [html for html in low if "vh" not in html], low[:3]
        assert not page.seen
        page.context.close()


def test_the_record_tells_of_it_in_words_and_names_walls_in_the_readers_language(desk, browser, shown):
    page = opened(desk, browser, "photo es", "owner", "es")
    page.goto(f"{desk.address}/job/{shown}/record/")
    assert page.get_by_text("El vano A de una foto se confirmó").count() >= 1
    assert not re.search(r"[0-9a-f]{64}", page.locator("main").inner_text())
    page.goto(f"{desk.address}/job/garden-wall/record/")
    from darby.desk.reading import read
    from darby.words import surface_called

    names = [surface_called(s, "es") for s in read("garden-wall").job.surfaces]
    assert page.locator("#at option").all_inner_texts()[1:] == names
    assert names != [s.name for s in read("garden-wall").job.surfaces]
    page.context.close()
