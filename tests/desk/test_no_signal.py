"""No signal, for real: the desk under a name that is not localhost, over TLS, and then it is gone."""

from __future__ import annotations

import base64
import hashlib
import json
import re
import threading
import time
from datetime import UTC, datetime
from pathlib import Path
from uuid import uuid4

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization
from playwright.sync_api import Browser, Page

from darby.desk.sharing import Certificate, Front, certificate
from tests.browser import CHROMIUM, FLAGS, PHONE

NAME = "shop.local"


class Shop:
    """The desk at https://shop.local: it can go away and come back at the same port."""

    def __init__(self, folder: Path) -> None:
        from django.conf import settings
        from waitress.server import create_server

        from darby.desk.serving import application

        settings.ALLOWED_HOSTS.append(NAME)
        self.certificate: Certificate = certificate(folder, (NAME, "127.0.0.1"), datetime.now(UTC))
        self.behind = create_server(application(), host="127.0.0.1", port=0, threads=4, url_scheme="https")
        threading.Thread(target=self.behind.run, daemon=True).start()
        self.port = 0
        self.come_back()

    def come_back(self) -> None:
        self.front = Front("127.0.0.1", self.port, int(self.behind.effective_port), self.certificate)
        self.port = self.front.open()

    def go_away(self) -> None:
        self.front.close()

    @property
    def address(self) -> str:
        return f"https://{NAME}:{self.port}"

    @property
    def pin(self) -> str:
        return pin_of(self.certificate.chain)


def pin_of(chain: Path) -> str:
    """What a browser is told, to trust this certificate and no other."""
    leaf = x509.load_pem_x509_certificate(chain.read_bytes())
    spki = leaf.public_key().public_bytes(serialization.Encoding.DER, serialization.PublicFormat.SubjectPublicKeyInfo)
    return base64.b64encode(hashlib.sha256(spki).digest()).decode()


@pytest.fixture(scope="module")
def shop(desk, tmp_path_factory):
    made = Shop(tmp_path_factory.mktemp("tls"))
    yield made
    made.go_away()
    made.behind.close()


@pytest.fixture(scope="module")
def trusting(browser: Browser, shop: Shop):
    """A phone that was told to trust the certificate, and finds shop.local."""
    flags = [f"--host-resolver-rules=MAP {NAME} 127.0.0.1", f"--ignore-certificate-errors-spki-list={shop.pin}"]
    started = browser.browser_type.launch(executable_path=str(CHROMIUM), args=[*FLAGS, "--no-sandbox", *flags])
    yield started
    started.close()


def _sign_in(phone: Browser, shop: Shop, desk, role: str, **more) -> Page:
    page = phone.new_context(viewport=PHONE, **more).new_page()
    page.goto(desk.link(f"{role} away", role).replace(desk.address, shop.address))
    return page


def _kept(page: Page) -> list[str]:
    return [item.inner_text() for item in page.locator("#kept-lines li").all()]


def _entries(document: str) -> list[dict]:
    from darby.desk.kept.models import Entry

    return [{"id": str(e.id), **e.said} for e in Entry.objects.filter(document=document)]


KEPT = """async (address) => {
    for (const name of await caches.keys()) {
        if (name.startsWith('pages-') && await (await caches.open(name)).match(address)) return true;
    }
    return false;
}"""
LOSE = """
const real = window.fetch;
window.fetch = async (...asked) => {
    const answer = await real(...asked);
    if (!String(asked[0]).endsWith('/lines') || window.lost) return answer;
    window.lost = true;
    throw new TypeError('lost on the way back');
};
"""


def _worker_keeps(page: Page, address: str) -> None:
    until = time.monotonic() + 30
    while not page.evaluate(KEPT, address):
        assert time.monotonic() < until, f"the worker does not keep {address}"
        page.wait_for_timeout(100)


def test_a_note_written_without_a_signal_is_sent_once_when_it_is_back(trusting, shop, desk) -> None:
    page = _sign_in(trusting, shop, desk, "crew")
    page.goto(f"{shop.address}/job/firehall/record/")
    _worker_keeps(page, "/job/firehall/days/")
    said = f"scratch coat on the north wall {uuid4()}"
    shop.go_away()
    try:
        page.reload()
        page.locator("#no-signal").wait_for(state="visible")
        page.fill("#text", said)
        page.click("form[data-queue=note] button")
        page.locator("#not-sent").wait_for(state="visible")
        assert "1 not sent" in page.locator("#not-sent").inner_text()
        assert any("kept here" in line and said in line for line in _kept(page))
        assert not any(said == e.get("text") for e in _entries("firehall"))
        page.goto(f"{shop.address}/job/firehall/days/")
        assert page.locator("h1").inner_text() == "Days"
        assert "1 not sent" in page.locator("#not-sent").inner_text()
    finally:
        shop.come_back()
    page.goto(f"{shop.address}/job/firehall/record/")
    page.locator("#kept-lines li[data-state=sent]").first.wait_for()
    assert page.locator("#not-sent").is_hidden()
    assert [e["text"] for e in _entries("firehall")].count(said) == 1
    page.reload()
    page.wait_for_timeout(300)
    assert [e["text"] for e in _entries("firehall")].count(said) == 1
    page.context.close()


def test_what_the_desk_kept_but_could_not_say_is_sent_again_and_kept_once(trusting, shop, desk) -> None:
    """The answer is lost on the way back: the phone sends again under the same id."""
    page = _sign_in(trusting, shop, desk, "crew")
    page.goto(f"{shop.address}/job/firehall/record/")
    page.evaluate(LOSE)
    said = f"twice {uuid4()}"
    page.fill("#text", said)
    page.click("form[data-queue=note] button")
    page.wait_for_function("() => window.lost")
    assert "1 not sent" in page.locator("#not-sent").inner_text()
    assert [e["text"] for e in _entries("firehall")].count(said) == 1
    page.reload()
    page.locator("#kept-lines li[data-state=sent]").first.wait_for()
    assert [e["text"] for e in _entries("firehall")].count(said) == 1
    page.context.close()


def test_a_photograph_waits_too(trusting, shop, desk, tmp_path) -> None:
    from PIL import Image

    file = tmp_path / "corner.jpg"
    Image.linear_gradient("L").resize((320, 240)).convert("RGB").save(file)
    page = _sign_in(trusting, shop, desk, "crew")
    page.goto(f"{shop.address}/job/firehall/record/")
    _worker_keeps(page, "/job/firehall/record/")
    shop.go_away()
    try:
        page.set_input_files("#photograph", file)
        page.fill("#shows", "corner bead, north")
        page.click("form[data-queue=photograph] button")
        page.locator("#not-sent").wait_for(state="visible")
    finally:
        shop.come_back()
    page.reload()
    page.locator("#kept-lines li[data-state=sent]").first.wait_for()
    page.reload()
    picture = page.locator("img[alt='corner bead, north']")
    assert picture.evaluate("i => i.decode().then(() => i.naturalWidth)") == 320
    page.context.close()


def test_what_waits_can_be_saved_as_a_file_and_handed_in(trusting, shop, desk, tmp_path) -> None:
    page = _sign_in(trusting, shop, desk, "crew")
    page.goto(f"{shop.address}/job/firehall/record/")
    _worker_keeps(page, "/job/firehall/record/")
    said = f"by file {uuid4()}"
    shop.go_away()
    try:
        page.fill("#text", said)
        page.click("form[data-queue=note] button")
        page.locator("[data-export]").wait_for(state="visible")
        with page.expect_download() as got:
            page.click("[data-export]")
        file = tmp_path / "lines.json"
        got.value.save_as(file)
    finally:
        shop.come_back()
    assert [line["said"]["text"] for line in json.loads(file.read_text())["lines"]] == [said]
    page.context.close()
    other = _sign_in(trusting, shop, desk, "owner")
    other.goto(f"{shop.address}/job/firehall/record/")
    other.get_by_text("A file that a phone saved").first.click()
    other.set_input_files("#file", file)
    other.get_by_role("button", name="Hand it in").click()
    assert [e["text"] for e in _entries("firehall")].count(said) == 1
    other.context.close()


def test_another_persons_lines_are_not_sent_in_this_ones_name(trusting, shop, desk) -> None:
    page = _sign_in(trusting, shop, desk, "crew")
    page.goto(f"{shop.address}/job/firehall/record/")
    _worker_keeps(page, "/job/firehall/record/")
    said = f"mine {uuid4()}"
    shop.go_away()
    try:
        page.fill("#text", said)
        page.click("form[data-queue=note] button")
        page.locator("#not-sent").wait_for(state="visible")
        page.goto("about:blank")  # else the page itself sends the line, in the right name, before the owner comes
    finally:
        shop.come_back()
    page.goto(desk.link("owner away", "owner").replace(desk.address, shop.address))
    page.goto(f"{shop.address}/job/firehall/record/")
    page.wait_for_timeout(1000)
    assert said not in [e.get("text") for e in _entries("firehall")]
    assert "1 not sent" in page.locator("#not-sent").inner_text()
    page.context.close()


def test_signing_out_forgets_the_pages(trusting, shop, desk) -> None:
    page = _sign_in(trusting, shop, desk, "owner")
    page.goto(f"{shop.address}/job/firehall/price/")
    _worker_keeps(page, "/job/firehall/price/")
    page.reload()
    page.goto(f"{shop.address}/me")
    page.locator("form[data-forget] button").click()
    page.wait_for_url("**/sign-in**")
    page.wait_for_timeout(300)
    left = page.evaluate("caches.keys().then(names => names.filter(n => n.startsWith('pages-')))")
    assert left == []
    page.context.close()


def test_a_phone_that_does_not_trust_is_told_and_offered_the_pocket_sheet(browser, shop, desk) -> None:
    """The owner clicked the warning away: the browser shows pages, but lets no worker keep them."""
    flags = [f"--host-resolver-rules=MAP {NAME} 127.0.0.1"]
    phone = browser.browser_type.launch(executable_path=str(CHROMIUM), args=[*FLAGS, "--no-sandbox", *flags])
    page = _sign_in(phone, shop, desk, "crew", ignore_https_errors=True)
    page.add_init_script(
        "navigator.serviceWorker.register = () => Promise.reject(new DOMException('', 'SecurityError'))"
    )
    page.goto(f"{shop.address}/job/firehall/record/")
    told = page.locator("#not-kept")
    told.wait_for(state="visible")
    with page.expect_download(timeout=300_000) as got:  # another process makes it, and gives way to everything else
        told.get_by_role("link", name="pocket sheet").click()
    sheet = Path(got.value.path()).read_text(encoding="utf-8")
    assert sheet.startswith("<!doctype html>")
    phone.close()
    from darby.desk.money import MONEY

    again = desk.signed_in("crew").get("/pocket")
    assert again.status == 200 and again.text == sheet, "once it is made nobody waits for it"
    assert again.headers["Content-Disposition"] == 'attachment; filename="pocket.html"'
    assert not MONEY.search(re.sub(r"<script.*?</script>", "", sheet, flags=re.DOTALL))


def test_who_asks_for_a_pocket_sheet_that_is_not_made_is_told_to_wait(desk, monkeypatch) -> None:
    from darby.desk import pocketing
    from darby.desk.views import signal

    crew = desk.signed_in("crew", "es")
    monkeypatch.setattr(signal, "sheet", lambda *_: None)
    page = crew.get("/pocket")
    assert page.status == 202 and page.headers["Refresh"] == "4" and "<h1>" in page.text

    def fails(*_):
        raise pocketing.NotMade

    monkeypatch.setattr(signal, "sheet", fails)
    assert crew.get("/pocket").status == 500


def test_the_page_says_whom_to_trust(trusting, shop, desk, monkeypatch) -> None:
    from darby.desk.views import signal

    monkeypatch.setattr(signal, "_certificate", lambda: shop.certificate)
    page = trusting.new_context(viewport=PHONE).new_page()
    page.goto(f"{shop.address}/trust")
    assert shop.certificate.fingerprint in page.inner_text("main")
    with page.expect_download() as got:
        page.get_by_role("link", name="certificate").click()
    assert Path(got.value.path()).read_bytes() == shop.certificate.authority.read_bytes()
    page.context.close()
