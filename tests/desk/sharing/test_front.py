"""https in front of a server that knows nothing of it."""

from __future__ import annotations

import http.client
import socket
import ssl
import threading
from collections.abc import Iterator
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from darby.desk.sharing import Certificate, Front, certificate


class Echo(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def do_POST(self) -> None:
        body = self.rfile.read(int(self.headers["Content-Length"]))
        self.send_response(200)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *args: object) -> None:
        pass


@pytest.fixture
def made(tmp_path: Path) -> Certificate:
    return certificate(tmp_path, ("localhost", "127.0.0.1"), datetime.now(UTC))


@pytest.fixture
def port(made: Certificate) -> Iterator[int]:
    desk = ThreadingHTTPServer(("127.0.0.1", 0), Echo)
    threading.Thread(target=desk.serve_forever, daemon=True).start()
    front = Front("127.0.0.1", 0, desk.server_address[1], made)
    yield front.open()
    front.close()
    desk.shutdown()
    desk.server_close()


def _phone(made: Certificate, port: int) -> http.client.HTTPSConnection:
    trusting = ssl.create_default_context(cafile=made.authority)
    return http.client.HTTPSConnection("127.0.0.1", port, context=trusting, timeout=20)


def test_what_is_sent_comes_back_byte_for_byte(made: Certificate, port: int) -> None:
    phone = _phone(made, port)
    for size in (0, 1, 70_000, 3_000_000):
        body = bytes(i * 7 % 251 for i in range(min(size, 1000))) * (size // 1000 or 1) if size else b""
        phone.request("POST", "/", body)
        assert phone.getresponse().read() == body
    phone.close()


def test_twenty_at_once(made: Certificate, port: int) -> None:
    got: list[bytes] = []

    def one(n: int) -> None:
        phone = _phone(made, port)
        phone.request("POST", "/", str(n))
        got.append(phone.getresponse().read())
        phone.close()

    threads = [threading.Thread(target=one, args=(n,)) for n in range(20)]
    for t in threads:
        t.start()
    for t in threads:
        t.join()
    assert sorted(got) == sorted(str(n).encode() for n in range(20))


def test_who_speaks_no_tls_gets_nothing(made: Certificate, port: int) -> None:
    with socket.create_connection(("127.0.0.1", port), timeout=20) as plain:
        plain.sendall(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n")
        assert b"HTTP" not in plain.recv(4096)
    phone = _phone(made, port)
    phone.request("POST", "/", b"still there")
    assert phone.getresponse().read() == b"still there"


def test_a_taken_port_is_said(made: Certificate, port: int) -> None:
    with pytest.raises(OSError, match="in use"):
        Front("127.0.0.1", port, 9, made).open()
