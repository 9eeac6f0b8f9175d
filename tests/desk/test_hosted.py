"""The desk under a real name, as docs/hosting.md says: `darby desk --name`, a web server in front, a phone."""

from __future__ import annotations

import http.client
import os
import shutil
import socket
import sqlite3
import ssl
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from uuid import uuid4

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID
from playwright.sync_api import Browser, Page

from tests.browser import CHROMIUM, FLAGS, PHONE
from tests.desk.test_no_signal import KEPT, pin_of

NAME = "desk.example.test"
DARBY = Path(sys.executable).with_name("darby")
SPOOFED = "203.0.113.9"


def authority(folder: Path) -> tuple[Path, Path, Path]:
    """An authority made for this test, and the certificate and key of the name that it signed."""
    now = datetime.now(UTC)
    keys = [ec.generate_private_key(ec.SECP256R1()) for _ in range(2)]
    called = [x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, n)]) for n in ("test authority", NAME)]
    made = []
    for n, (key, name) in enumerate(zip(keys, called, strict=True)):
        begun = (
            x509.CertificateBuilder().subject_name(name).issuer_name(called[0]).public_key(key.public_key())
            .serial_number(x509.random_serial_number())
            .not_valid_before(now - timedelta(hours=1)).not_valid_after(now + timedelta(days=30))
            .add_extension(x509.BasicConstraints(ca=n == 0, path_length=None), critical=True)
            .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
            .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(keys[0].public_key()), critical=False)
        )  # fmt: skip
        if n:
            begun = begun.add_extension(x509.SubjectAlternativeName([x509.DNSName(NAME)]), critical=False)
        made.append(begun.sign(keys[0], hashes.SHA256()).public_bytes(serialization.Encoding.PEM))
    files = folder / "ca.crt", folder / "name.crt", folder / "name.key"
    files[0].write_bytes(made[0])
    files[1].write_bytes(made[1] + made[0])
    files[2].write_bytes(
        keys[1].private_bytes(
            serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
        )
    )
    return files


class HandsOn(BaseHTTPRequestHandler):
    """What a web server in front does: ``Host`` as it came, the caller's address its own, nothing else changed."""

    protocol_version = "HTTP/1.1"
    behind = 0
    timeout = 60

    def hand_on(self) -> None:
        body = self.rfile.read(int(self.headers.get("Content-Length") or 0))
        desk = http.client.HTTPConnection("127.0.0.1", self.behind, timeout=60)
        headers = {k: v for k, v in self.headers.items() if k.lower() not in ("x-forwarded-for", "connection")}
        desk.request(self.command, self.path, body or None, headers | {"X-Forwarded-For": self.client_address[0]})
        answer = desk.getresponse()
        data = answer.read()
        self.send_response_only(answer.status, answer.reason)
        for name, value in answer.getheaders():
            if name.lower() not in ("connection", "transfer-encoding", "content-length"):
                self.send_header(name, value)
        if answer.status not in (204, 304):
            self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)
        desk.close()

    do_GET = do_POST = do_HEAD = hand_on

    def log_message(self, *_: object) -> None:
        pass


class Web(ThreadingHTTPServer):
    """It: on a port of its own, with https; it can go away and come back."""

    daemon_threads = True
    allow_reuse_address = True

    def __init__(self, port: int, behind: int, chain: Path, key: Path) -> None:
        super().__init__(("127.0.0.1", port), type("Here", (HandsOn,), {"behind": behind}))
        self.tls = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        self.tls.load_cert_chain(chain, key)
        self.wires: list[socket.socket] = []
        threading.Thread(target=self.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()

    def finish_request(self, request, address) -> None:
        request.settimeout(20)
        with self.tls.wrap_socket(request, server_side=True) as wire:
            self.wires.append(wire)
            super().finish_request(wire, address)

    def handle_error(self, *_: object) -> None:
        pass

    def away(self) -> None:
        self.shutdown()
        self.server_close()
        for wire in self.wires:
            with suppress(OSError):
                wire.shutdown(socket.SHUT_RDWR)  # a thread may be waiting for what comes next


@dataclass
class Hosted:
    folder: Path
    behind: int
    files: tuple[Path, Path, Path]
    said: Path
    port: int = 0
    web: Web | None = field(default=None, repr=False)

    def come(self) -> None:
        self.web = Web(self.port, self.behind, *self.files[1:])
        self.port = self.web.server_address[1]

    def go(self) -> None:
        assert self.web is not None
        self.web.away()

    def ask(self, method: str, path: str, body: str = "", **headers: str) -> http.client.HTTPResponse:
        """Over https, by the name, with the test's authority trusted and nothing else."""
        context = ssl.create_default_context(cafile=self.files[0])
        plain = socket.create_connection(("127.0.0.1", self.port), timeout=60)
        phone = http.client.HTTPSConnection(NAME, timeout=60)
        phone.sock = context.wrap_socket(plain, server_hostname=NAME)
        named = {key.replace("_", "-"): value for key, value in headers.items()}
        phone.request(method, path, body or None, {"Host": NAME, "Connection": "close", **named})
        return phone.getresponse()

    def rows(self, asked: str) -> list[tuple]:
        with closing(sqlite3.connect(f"file:{self.folder / 'desk.sqlite3'}?mode=ro", uri=True)) as base:
            return base.execute(asked).fetchall()


@pytest.fixture(scope="module")
def hosted(tmp_path_factory) -> Iterator[Hosted]:
    folder = tmp_path_factory.mktemp("hosted")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        behind = int(free.getsockname()[1])
    said = folder / "log"
    words = [DARBY, "desk", "--name", NAME, "--data", folder / "data", "--port", behind, "--no-browser"]
    env = {k: v for k, v in os.environ.items() if not k.startswith(("DARBY_DESK", "DJANGO"))}
    with said.open("wb") as log:
        running = subprocess.Popen([str(word) for word in words], stdout=log, stderr=subprocess.STDOUT, env=env)
    made = Hosted(folder / "data", behind, authority(folder), said)
    until = time.monotonic() + 120
    while not (made.folder / "sign-in-link").exists():
        assert running.poll() is None and time.monotonic() < until, said.read_text()
        time.sleep(0.1)
    made.come()
    yield made
    made.go()
    running.terminate()
    running.wait(30)
    shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(scope="module")
def page(browser: Browser, hosted: Hosted) -> Iterator[Page]:
    """A phone that finds the name at the web server, by its usual port, and trusts its certificate."""
    flags = [
        f"--host-resolver-rules=MAP {NAME}:443 127.0.0.1:{hosted.port}",
        f"--ignore-certificate-errors-spki-list={pin_of(hosted.files[1])}",
    ]
    phone = browser.browser_type.launch(executable_path=str(CHROMIUM), args=[*FLAGS, "--no-sandbox", *flags])
    yield phone.new_context(viewport=PHONE).new_page()
    phone.close()


def test_the_link_lies_in_a_file_and_not_in_the_log(hosted):
    link = (hosted.folder / "sign-in-link").read_text().strip()
    assert link.startswith(f"https://{NAME}/in/")
    until = time.monotonic() + 20
    while "sign-in-link" not in hosted.said.read_text():
        assert time.monotonic() < until, hosted.said.read_text()
        time.sleep(0.1)
    assert "/in/" not in hosted.said.read_text() and NAME in hosted.said.read_text()
    assert (hosted.folder / "sign-in-link").stat().st_mode & 0o77 == 0


def test_https_by_its_name_is_trusted_and_says_to_stay(hosted):
    answer = hosted.ask("GET", "/sign-in")
    assert answer.status == 200
    seconds, *more = answer.headers["Strict-Transport-Security"].split("; ")
    assert int(seconds.removeprefix("max-age=")) >= 31_536_000 and "includeSubDomains" in more
    cookies = answer.headers.get_all("Set-Cookie")
    assert cookies and all(c.startswith("__Host-") and "Secure" in c and "HttpOnly" in c for c in cookies)
    assert answer.headers["Content-Security-Policy"].startswith("default-src 'none'")


def test_another_name_is_refused(hosted):
    for host in ("evil.example", f"{NAME}.evil.example", f"x.{NAME}", ""):
        assert hosted.ask("GET", "/sign-in", Host=host).status == 400, host


def test_a_caller_cannot_say_where_he_calls_from(hosted):
    answer = hosted.ask("GET", "/sign-in")
    cookie = answer.headers["Set-Cookie"].partition(";")[0]
    token = answer.read().decode().partition('csrfmiddlewaretoken" value="')[2].partition('"')[0]
    body = f"csrfmiddlewaretoken={token}&name=nobody&password=wrong"
    kind = {"Content_Type": "application/x-www-form-urlencoded", "Referer": f"https://{NAME}/sign-in"}
    assert hosted.ask("POST", "/sign-in", body, Cookie=cookie, X_Forwarded_For=SPOOFED, **kind).status == 403
    assert hosted.rows("SELECT address FROM kept_attempt WHERE name = 'nobody'") == [("127.0.0.1",)]


def test_a_phone_signs_in_keeps_its_pages_and_sends_its_line_once(hosted, page):
    page.goto((hosted.folder / "sign-in-link").read_text().strip())
    assert page.url == f"https://{NAME}/"
    (session,) = [c for c in page.context.cookies() if c["name"] == "__Host-desk"]
    assert session["secure"] and session["httpOnly"] and session["domain"] == NAME
    page.goto(f"https://{NAME}/job/firehall/record/")
    assert page.evaluate("navigator.serviceWorker.ready.then(r => r.active.scriptURL)") == f"https://{NAME}/worker.js"
    until = time.monotonic() + 120
    while not page.evaluate(KEPT, "/job/firehall/days/"):
        assert time.monotonic() < until, "the worker does not keep the days"
        page.wait_for_timeout(100)
    said = f"brown coat on the parapet {uuid4()}"
    hosted.go()
    try:
        page.reload()
        page.locator("#no-signal").wait_for(state="visible")
        page.fill("#text", said)
        page.click("form[data-queue=note] button")
        page.locator("#not-sent").wait_for(state="visible")
        page.goto(f"https://{NAME}/job/firehall/days/")
        assert page.locator("h1").inner_text() == "Days"
        assert not hosted.rows(f"SELECT id FROM kept_entry WHERE said LIKE '%{said}%'")
    finally:
        hosted.come()
    page.goto(f"https://{NAME}/job/firehall/record/")
    page.locator("#kept-lines li[data-state=sent]").first.wait_for()
    page.reload()
    page.locator("#kept-lines li[data-state=sent]").first.wait_for()
    assert len(hosted.rows(f"SELECT id FROM kept_entry WHERE said LIKE '%{said}%'")) == 1
    assert page.locator("#not-sent").is_hidden()


def test_knocking_by_other_names_writes_no_log(hosted):
    before = hosted.said.stat().st_size
    assert hosted.ask("GET", "/sign-in", Host="knock.example").status == 400
    assert hosted.said.stat().st_size == before and "knock" not in hosted.said.read_text()
