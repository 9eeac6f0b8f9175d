"""Nothing that was written is lost without a word: full stores, two tabs, old pages, bad lines, wrong clocks."""

from __future__ import annotations

import json
import ssl
import threading
import time
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from uuid import uuid4

import pytest
from playwright.sync_api import Page

from tests.desk.test_no_signal import _entries, _sign_in, _worker_keeps, shop, trusting

__all__ = ["shop", "trusting"]
STORED = """async () => {
    const base = await new Promise((done) => {
        const asked = indexedDB.open('darby-desk', 1);
        asked.onsuccess = () => done(asked.result);
    });
    const lines = await new Promise((done) => {
        const asked = base.transaction('lines').objectStore('lines').getAll();
        asked.onsuccess = () => done(asked.result);
    });
    base.close();
    return lines.map(({ blob, ...line }) => line);
}"""
FULL = """
const real = IDBObjectStore.prototype.add;
IDBObjectStore.prototype.add = function (...given) {
    if (window.roomy) return real.apply(this, given);
    throw new DOMException('no room', 'QuotaExceededError');
};
"""
NOTHING = """Object.defineProperty(window, 'indexedDB', {
    value: { open: () => { throw new DOMException('', 'SecurityError'); } } });"""


class BadGateway(BaseHTTPRequestHandler):
    def do_GET(self) -> None:
        self.send_error(502)

    do_POST = do_GET

    def log_message(self, *_: object) -> None:
        pass


class Gate:
    """A web server in front of a desk that is not there."""

    def __init__(self, at: tuple[str, int], certificate) -> None:
        self.server = ThreadingHTTPServer(at, BadGateway)
        tls = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        tls.load_cert_chain(certificate.chain, certificate.key)
        self.server.socket = tls.wrap_socket(self.server.socket, server_side=True)
        threading.Thread(target=self.server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()

    def close(self) -> None:
        self.server.shutdown()
        self.server.server_close()


def record(trusting, shop, desk, role: str = "crew", **more) -> Page:
    page = _sign_in(trusting, shop, desk, role, **more)
    page.goto(f"{shop.address}/job/firehall/record/")
    return page


def write(page: Page, text: str) -> None:
    page.fill("#text", text)
    page.click("form[data-queue=note] button")


def texts() -> list[str]:
    return [e.get("text") for e in _entries("firehall")]


def wait_for_line(page: Page, state: str, text: str) -> None:
    page.locator(f"#kept-lines li[data-state={state}]", has_text=text).wait_for()


def sent(page: Page, text: str, within: float = 30) -> None:
    until = time.monotonic() + within
    while text not in texts():
        assert time.monotonic() < until, f"{text} did not arrive"
        page.wait_for_timeout(100)
    assert texts().count(text) == 1


def test_a_page_kept_on_the_phone_and_opened_again_writes_over_nothing(trusting, shop, desk):
    """The kept page hands out the same id each time it is opened."""
    page = record(trusting, shop, desk)
    _worker_keeps(page, "/job/firehall/record/")
    said = [f"line {n} {uuid4()}" for n in range(3)]
    shop.go_away()
    try:
        for text in said:
            page.reload()
            page.locator("#no-signal").wait_for(state="visible")
            write(page, text)
            page.locator("#kept-lines li", has_text=text).wait_for()
        assert "3 not sent" in page.locator("#not-sent").inner_text()
        assert {line["said"]["text"] for line in page.evaluate(STORED) if line["state"] == "here"} == set(said)
    finally:
        shop.come_back()
    page.reload()
    for text in said:
        sent(page, text)
    page.context.close()


def test_two_taps_make_one_line(trusting, shop, desk):
    page = record(trusting, shop, desk)
    said = f"twice tapped {uuid4()}"
    page.fill("#text", said)
    page.evaluate("() => { const b = document.querySelector('form[data-queue=note] button'); b.click(); b.click(); }")
    wait_for_line(page, "sent", said)
    page.wait_for_timeout(300)
    assert texts().count(said) == 1
    page.context.close()


def test_two_tabs_send_each_line_once(trusting, shop, desk):
    first = record(trusting, shop, desk)
    _worker_keeps(first, "/job/firehall/record/")
    second = first.context.new_page()
    second.goto(f"{shop.address}/job/firehall/record/")
    said = [f"tab {n} {uuid4()}" for n in range(4)]
    shop.go_away()
    try:
        for n, text in enumerate(said):
            page = (first, second)[n % 2]
            page.bring_to_front()
            write(page, text)
            page.locator("#kept-lines li", has_text=text).wait_for()
    finally:
        shop.come_back()
    for page in (first, second):
        page.evaluate("() => dispatchEvent(new Event('online'))")
    for text in said:
        sent(first, text)
    first.wait_for_timeout(500)
    assert [texts().count(text) for text in said] == [1] * 4
    first.context.close()


@pytest.mark.parametrize("broken", [FULL, NOTHING], ids=["full", "none"])
def test_where_the_browser_keeps_nothing_a_line_goes_straight_or_stays_in_its_form(trusting, shop, desk, broken):
    page = record(trusting, shop, desk)
    page.add_init_script(broken)
    page.reload()
    straight, later = f"straight {uuid4()}", f"later {uuid4()}"
    write(page, straight)
    sent(page, straight)
    page.wait_for_function("() => document.querySelector('#text').value === ''")
    shop.go_away()
    try:
        write(page, later)
        page.locator("#not-stored").wait_for(state="visible")
        assert page.input_value("#text") == later, "it still stands in the form"
    finally:
        shop.come_back()
    page.click("form[data-queue=note] button")
    sent(page, later)
    page.locator("#not-stored").wait_for(state="hidden")
    page.context.close()


def test_signing_out_with_unsent_lines_says_so_first_and_keeps_them(trusting, shop, desk):
    page = record(trusting, shop, desk)
    said = f"unsent {uuid4()}"
    page.route("**/lines", lambda route: route.abort())
    write(page, said)
    page.locator("#not-sent").wait_for(state="visible")
    page.goto(f"{shop.address}/me")
    page.locator("form[data-forget] button").click()
    page.locator("#leaving").wait_for(state="visible")
    assert page.url.endswith("/me"), "the first time he is told, and stays"
    page.locator("form[data-forget] button").click()
    page.wait_for_url("**/sign-in**")
    assert said in [line["said"].get("text") for line in page.evaluate(STORED)]
    assert page.evaluate("caches.keys().then(names => names.filter(n => n.startsWith('pages-')))") == []
    page.unroute("**/lines")
    page.goto(desk.link("crew away", "crew").replace(desk.address, shop.address))
    page.goto(f"{shop.address}/job/firehall/record/")
    sent(page, said)
    page.context.close()


def test_a_session_that_ended_is_said_and_the_line_goes_after_the_next_signing_in(trusting, shop, desk):
    page = record(trusting, shop, desk)
    said = f"after the session {uuid4()}"
    kept = [c for c in page.context.cookies() if c["name"] != "desk"]
    page.context.clear_cookies()
    page.context.add_cookies(kept)
    write(page, said)
    page.locator("#signed-out").wait_for(state="visible")
    assert "1 not sent" in page.locator("#not-sent").inner_text() and said not in texts()
    page.goto(desk.link("crew away", "crew").replace(desk.address, shop.address))
    page.goto(f"{shop.address}/job/firehall/record/")
    sent(page, said)
    wait_for_line(page, "sent", said)
    assert page.locator("#signed-out").is_hidden()
    page.context.close()


def test_one_line_that_is_refused_takes_no_other_with_it_and_is_seen(trusting, shop, desk):
    page = record(trusting, shop, desk)
    good, bad = f"good {uuid4()}", f"bad {uuid4()}"
    page.route("**/lines", lambda route: route.abort())
    for text in (good, bad, f"{good} too"):
        write(page, text)
        page.locator("#kept-lines li", has_text=text).first.wait_for()

    def one_is_bad(route):
        body = json.loads(route.request.post_data)
        for line in body["lines"]:
            line["kind"] = "no such kind" if line["said"]["text"] == bad else line["kind"]
        route.continue_(post_data=json.dumps(body))

    page.route("**/lines", one_is_bad)
    page.evaluate("() => dispatchEvent(new Event('online'))")
    wait_for_line(page, "refused", bad)
    sent(page, f"{good} too")
    assert good in texts() and bad not in texts()
    assert "1 not sent" in page.locator("#not-sent").inner_text()
    page.unroute_all()
    page.reload()
    line = page.locator("#kept-lines li[data-state=refused]")
    assert "not taken" in line.inner_text() and bad in line.inner_text() and "not known" in line.inner_text()
    line.get_by_role("button", name="Send it again").click()
    sent(page, bad)
    page.context.close()


def test_a_line_at_which_the_desk_fails_holds_up_no_other(trusting, shop, desk):
    page = record(trusting, shop, desk)
    bad, good = f"poison {uuid4()}", f"behind it {uuid4()}"
    page.route("**/lines", lambda route: route.abort())
    for text in (bad, good):
        write(page, text)
        page.locator("#kept-lines li", has_text=text).wait_for()

    def fails(route):
        if bad in route.request.post_data:
            route.fulfill(status=500, body="<html>failed</html>", content_type="text/html")
        else:
            route.continue_()

    page.route("**/lines", fails)
    page.evaluate("() => dispatchEvent(new Event('online'))")
    sent(page, good)
    wait_for_line(page, "sent", good)
    assert bad in [x["said"]["text"] for x in page.evaluate(STORED) if x["state"] == "here"], "it waits for better days"
    page.unroute_all()
    page.evaluate("() => dispatchEvent(new Event('online'))")
    sent(page, bad)
    page.context.close()


@pytest.mark.parametrize("year", [2011, 2041])
def test_a_wrong_clock_loses_nothing_and_calls_no_page_old(trusting, shop, desk, year):
    page = _sign_in(trusting, shop, desk, "crew")
    page.add_init_script(f"""
        const off = Date.UTC({year}, 0, 1) - Date.now(), real = Date;
        window.Date = class extends real {{
            constructor(...given) {{ given.length ? super(...given) : super(real.now() + off); }}
            static now() {{ return real.now() + off; }}
        }};
        Object.defineProperty(performance, 'timeOrigin', {{ value: performance.timeOrigin + off }});
    """)
    page.goto(f"{shop.address}/job/firehall/record/")
    said = f"in {year} {uuid4()}"
    write(page, said)
    sent(page, said)
    wait_for_line(page, "sent", said)
    page.wait_for_timeout(200)
    assert page.locator("#no-signal").is_hidden()
    from darby.desk.kept.models import Entry

    entry = next(e for e in Entry.objects.filter(document="firehall", kind="note") if e.said["text"] == said)
    assert abs((entry.made - entry.when).total_seconds()) < 300, "by the desk's clock"
    page.context.close()


def test_what_is_written_while_others_go_out_goes_with_the_next(trusting, shop, desk):
    page = record(trusting, shop, desk)
    held = []
    page.route("**/lines", lambda route: route.continue_() if held else held.append(route))
    first, second = f"first {uuid4()}", f"second {uuid4()}"
    write(page, first)
    until = time.monotonic() + 20
    while not held:
        assert time.monotonic() < until
        page.wait_for_timeout(50)
    write(page, second)
    page.wait_for_function("() => document.querySelector('#text').value === ''")
    held[0].continue_()
    sent(page, first)
    sent(page, second, within=10)  # not only at the next look, 20 seconds later
    page.context.close()


def test_the_file_holds_lines_and_photographs_and_both_can_be_handed_in(trusting, shop, desk, tmp_path):
    from PIL import Image

    picture = tmp_path / "lintel.jpg"
    Image.linear_gradient("L").resize((200, 150)).convert("RGB").save(picture)
    page = record(trusting, shop, desk)
    page.route("**/lines", lambda route: route.abort())
    page.route("**/photographs", lambda route: route.abort())
    said = f"exported {uuid4()}"
    write(page, said)
    page.locator("#kept-lines li", has_text=said).wait_for()
    page.set_input_files("#photograph", picture)
    page.fill("#shows", said)
    page.click("form[data-queue=photograph] button")
    page.wait_for_function("() => document.querySelector('#not-sent').innerText.includes('2 not sent')")
    files = []
    page.on("download", lambda file: files.append(file))
    page.click("[data-export]")
    until = time.monotonic() + 20
    while len(files) < 2:
        assert time.monotonic() < until, files
        page.wait_for_timeout(100)
    lines, photograph = sorted(files, key=lambda f: not f.suggested_filename.endswith(".json"))
    assert [line["said"]["text"] for line in json.loads(lines.path().read_text())["lines"]] == [said]
    assert photograph.path().read_bytes() == picture.read_bytes()
    page.context.close()


def test_a_web_server_whose_desk_is_gone_shows_the_kept_page(trusting, shop, desk):
    page = record(trusting, shop, desk)
    _worker_keeps(page, "/job/firehall/record/")
    page.reload()
    shop.go_away()
    gate = Gate(("127.0.0.1", shop.port), shop.certificate)
    page.reload()
    page.locator("#no-signal").wait_for(state="visible")
    assert page.locator("#text").count() == 1
    said = f"behind a gate {uuid4()}"
    write(page, said)
    page.locator("#kept-lines li", has_text=said).wait_for()
    gate.close()
    shop.come_back()
    page.reload()
    sent(page, said)
    page.context.close()


def test_lines_long_sent_are_forgotten_and_unsent_ones_never(trusting, shop, desk):
    page = record(trusting, shop, desk)
    page.evaluate("""async () => {
        const queue = await import('/static/desk/queue.js');
        const old = Date.now() - 40 * 24 * 3600 * 1000;
        const line = (id, state, sent) => queue.put({ id, state, sent, document: 'firehall', kind: 'note', at: 'job',
            made: new Date(old).toISOString(), said: { text: id }, person: -1 });
        await line('long sent', 'sent', old);
        await line('just sent', 'sent', Date.now());
        await line('never sent', 'here');
        await line('not taken', 'refused');
    }""")
    page.reload()
    page.wait_for_timeout(500)
    left = {line["id"] for line in page.evaluate(STORED)}
    assert left >= {"just sent", "never sent", "not taken"} and "long sent" not in left
    page.context.close()


def test_a_file_of_which_a_line_is_not_taken_says_so_and_no_text_is_cut(desk, crew):
    import urllib.request

    token = json.loads(crew.get("/token").text)["token"]
    good, long = f"handed in {uuid4()}", f"{uuid4()} " + "x" * 4000
    lines = [{"id": str(uuid4()), "kind": "note", "at": "job", "said": {"text": text}} for text in (good, long)]
    body = (
        f'--mark\r\nContent-Disposition: form-data; name="csrfmiddlewaretoken"\r\n\r\n{token}\r\n'
        f'--mark\r\nContent-Disposition: form-data; name="file"; filename="lines.json"\r\n\r\n'
        f"{json.dumps({'lines': lines})}\r\n--mark--\r\n"
    )
    kind = {"Content-Type": "multipart/form-data; boundary=mark"}
    reply = crew._open(urllib.request.Request(crew.address + "/job/firehall/lines", body.encode(), kind))
    assert reply.status == 422 and "Taken in: 1. Not taken: 1." in reply.text and "4037 signs" in reply.text
    assert texts().count(good) == 1 and not [t for t in texts() if t and t.startswith(long[:36])]
