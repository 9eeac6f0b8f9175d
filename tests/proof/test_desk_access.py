"""Every page of the desk and what no address reaches, at both widths in both languages: axe, the evening, paper,
motion, and text at twice its size. ``tests/desk/test_pages.py`` holds a part of it at every run.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.browser import CHROMIUM, FLAGS, LAPTOP, PHONE
from tests.desk.reached import COLORS, CUT_OFF, LOW, MOVING, SHEET, SHUT, WIDER, everything, judged, signing_in
from tests.desk.running import Desk, started

pytestmark = pytest.mark.proof
EVERY = dict(everything())
TWICE = "--blink-settings=defaultFontSize=32,defaultFixedFontSize=26"
"""A reader whose browser sets text at twice the usual size."""


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    made, server = started(tmp_path_factory.mktemp("desk") / "data")
    yield made
    server.close()  # type: ignore[attr-defined]


def entered(browser: Browser, desk: Desk, language: str, **more: object) -> tuple[BrowserContext, Page]:
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce", **more)  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(desk.link(f"owner {language}", "owner", language=language))
    return context, page


@pytest.fixture(scope="module", params=["en", "es"])
def inside(request: pytest.FixtureRequest, browser: Browser, desk: Desk) -> Iterator[tuple[str, Page]]:
    context, page = entered(browser, desk, request.param)
    yield request.param, page
    context.close()


@pytest.fixture(scope="module")
def evening(browser: Browser, desk: Desk) -> Iterator[Page]:
    context, page = entered(browser, desk, "es")
    page.locator(".eve button").click()
    page.locator("html.evening").wait_for()
    yield page
    context.close()


@pytest.fixture(scope="module")
def twice(browser: Browser, desk: Desk) -> Iterator[Page]:
    as_root = ["--no-sandbox"] if os.geteuid() == 0 else []
    large = browser.browser_type.launch(executable_path=str(CHROMIUM), args=[*FLAGS, *as_root, TWICE])
    _, page = entered(large, desk, "es")
    yield page
    large.close()


@pytest.mark.parametrize("name", EVERY)
def test_axe_and_widths_and_fingers(inside: tuple[str, Page], desk: Desk, name: str) -> None:
    language, page = inside
    page.set_viewport_size(PHONE)
    EVERY[name](page, desk)
    for size in (PHONE, LAPTOP):
        page.set_viewport_size(size)
        where = f"{name} {size['width']} {language}"
        assert not page.evaluate(WIDER), where
        assert not judged(page), where
        if size == PHONE:
            assert not page.evaluate(LOW), where
    assert page.evaluate(MOVING) == [], name


@pytest.mark.parametrize("language", ["en", "es"])
def test_the_door(browser: Browser, desk: Desk, language: str) -> None:
    context = browser.new_context(viewport=PHONE, extra_http_headers={"Accept-Language": language})
    page = context.new_page()
    signing_in(page, desk)
    assert page.locator("html").get_attribute("lang") == language
    for size in (PHONE, LAPTOP):
        page.set_viewport_size(size)
        assert not judged(page), size
    page.get_by_role("textbox").first.fill("nobody")
    page.locator("[name=password]").fill("not this one")
    page.locator("form.fill button.go").click()
    page.locator(".warn").wait_for()
    assert not judged(page), "refused"
    context.close()


@pytest.mark.parametrize("name", EVERY)
def test_colors_of_the_evening(evening: Page, desk: Desk, name: str) -> None:
    """Names and order are the same by day; what the evening changes is color."""
    evening.set_viewport_size(LAPTOP if len(name) % 2 else PHONE)
    EVERY[name](evening, desk)
    assert evening.locator("html.evening").count() == 1
    assert not judged(evening, COLORS), name


@pytest.mark.parametrize("name", EVERY)
def test_on_paper(inside: tuple[str, Page], desk: Desk, name: str) -> None:
    language, page = inside
    page.set_viewport_size(SHEET)
    EVERY[name](page, desk)
    page.emulate_media(media="print")
    try:
        assert not page.evaluate(WIDER), name
        for gone in (".rod", ".eve", ".acts"):
            assert not any(one.is_visible() for one in page.locator(gone).all()), (name, gone)
        assert page.evaluate(SHUT) == [], (name, language)
    finally:
        page.emulate_media(media="screen")


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
@pytest.mark.parametrize("name", EVERY)
def test_text_at_twice_its_size(twice: Page, desk: Desk, name: str, size: dict[str, int]) -> None:
    twice.set_viewport_size(size)
    EVERY[name](twice, desk)
    assert float(twice.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)")) == 32
    assert not twice.evaluate(WIDER), name
    assert twice.evaluate(CUT_OFF) == [], name


def test_every_folder_of_a_stage_is_walked() -> None:
    import darby.desk

    stages = {p.parent.name for p in (Path(darby.desk.__file__).parent / "stages").glob("*/page.py")}
    assert {name.split("/")[3].replace("-", "_") for name in EVERY if name.startswith("/job/")} >= stages
