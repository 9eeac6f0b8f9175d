"""A real browser for tests: Debian's chromium, driven by Playwright. The conftest of all tests hands it out.

Playwright's own browsers are not used and not downloaded: `make test` installs chromium on Debian where it is missing.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

CHROMIUM = Path(os.environ.get("CHROMIUM", "/usr/bin/chromium"))
FLAGS = [
    "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
MISSING = (
    f"There is no {CHROMIUM}. On Debian: apt-get update && apt-get install -y chromium. "
    "Elsewhere install Chromium and say where: CHROMIUM=/path/to/chromium make test"
)

PHONE = {"width": 390, "height": 844}
LAPTOP = {"width": 1280, "height": 800}


@pytest.fixture(scope="session")
def browser():
    """One browser for the whole run. Without one the test fails and says what to install."""
    if not CHROMIUM.exists():
        pytest.fail(MISSING)
    as_root = ["--no-sandbox"] if os.geteuid() == 0 else []
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=str(CHROMIUM), args=[*FLAGS, *as_root])
        yield started
        started.close()


def opened(browser: Browser, address: str, size: dict[str, int] = PHONE, **more: object) -> Page:
    """A page in a context of its own. What it logs as an error, throws or fetches is kept in ``page.seen``."""
    page = browser.new_context(viewport=size, **more).new_page()
    seen: list[str] = []
    page.on("pageerror", lambda error: seen.append(f"error: {error}"))
    page.on("console", lambda said: seen.append(f"console: {said.text}") if said.type in ("error", "warning") else None)
    page.on("request", lambda request: seen.append(f"fetched: {request.url}") if request.url != address else None)
    page.seen = seen  # type: ignore[attr-defined]
    page.goto(address)
    return page
