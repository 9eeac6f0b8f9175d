"""Slow callers: hundreds of them dribble headers, bodies or nothing at all, and everybody else is served as before."""

from __future__ import annotations

import socket
import ssl
import threading
import time
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest

from darby.desk.sharing import Front, certificate
from darby.desk.sharing import front as fronts
from darby.desk.uploads import slow
from darby.desk.uploads.limits import WAITRESS
from tests.desk.running import Browserless

SLOW = 240
HEAD = b"GET /sign-in HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: "
BODY = b"POST /sign-in HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 20000000\r\n\r\nname="
SOON = 15.0
"""Seconds in which a page must be there on a machine that does much else."""


@pytest.fixture(scope="module")
def serving(desk) -> Iterator[int]:
    """The desk's own server, less patient: its port."""
    from waitress.server import create_server

    from darby.desk.serving import application

    sooner = {**WAITRESS, "cleanup_interval": 1}
    server = create_server(application(), host="127.0.0.1", port=0, threads=4, **sooner)
    slow.hurried(server, grace=4.0)
    threading.Thread(target=server.run, daemon=True).start()
    yield int(server.effective_port)
    server.close()


def call(port: int, words: bytes, frm: str = "127.0.0.1") -> socket.socket:
    wire = socket.create_connection(("127.0.0.1", port), timeout=60, source_address=(frm, 0))
    wire.sendall(words)
    return wire


def hung_up(wire: socket.socket) -> bool:
    wire.setblocking(False)
    try:
        return wire.recv(1) == b""
    except BlockingIOError:
        return False
    except OSError:
        return True


def dribble(wires: list[socket.socket], until: float) -> None:
    """A byte of each, again and again: to a server that only asks whether anything comes, they are all busy."""
    while time.monotonic() < until and not all(hung_up(wire) for wire in wires):
        for wire in wires:
            try:
                wire.send(b"x")
            except OSError:
                continue
        time.sleep(0.5)


@pytest.mark.parametrize("words", [HEAD, BODY])
def test_others_are_served_and_who_dribbles_is_hung_up_on(serving, words):
    wires = [call(serving, words) for _ in range(SLOW)]
    dribbling = threading.Thread(target=dribble, args=(wires, time.monotonic() + 60))
    dribbling.start()
    begun = time.monotonic()
    assert Browserless(f"http://127.0.0.1:{serving}").get("/sign-in").status == 200
    assert time.monotonic() - begun < SOON
    dribbling.join()
    assert all(hung_up(wire) for wire in wires)
    for wire in wires:
        wire.close()


def test_who_sends_fast_enough_is_not_hung_up_on(serving):
    """A photograph over a bad line: longer than the grace, but it goes on."""
    size = 60_000
    wire = call(serving, b"POST /sign-in HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: %d\r\n\r\n" % size)
    for _ in range(12):
        wire.sendall(b"x" * (size // 12))
        time.sleep(0.5)
    assert b" 403 " in wire.recv(200).splitlines()[0]  # read to the end, and refused for want of a token
    wire.close()


def test_a_request_is_timed_from_its_own_beginning():
    class Request:
        completed, header_bytes_received, body_bytes_received = False, 10, 0

    class Channel:
        request = Request()

    patience, channel = slow.Patience(30.0, 4000.0), Channel()
    assert not patience.spent(channel, 0.0) and not patience.spent(channel, 29.0)
    channel.request = Request()  # the next one on the same connection
    assert not patience.spent(channel, 40.0) and not patience.spent(channel, 69.0)
    assert patience.spent(channel, 71.0)
    channel.request.body_bytes_received = 400_000
    assert not patience.spent(channel, 130.0) and patience.spent(channel, 171.0)
    channel.request.completed = True
    assert not patience.spent(channel, 500.0) and not patience.since
    channel.request = Request()
    patience.spent(channel, 0.0)
    patience.forget(set())
    assert not patience.since


@pytest.fixture(scope="module")
def front(serving, tmp_path_factory) -> Iterator[int]:
    made = certificate(tmp_path_factory.mktemp("tls"), ("127.0.0.1",), datetime.now(UTC))
    opened = Front("127.0.0.1", 0, serving, made)
    yield opened.open()
    opened.close()


def over_tls(port: int, frm: str, words: bytes = b"GET /here HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n"):
    plain = socket.create_connection(("127.0.0.1", port), timeout=SOON, source_address=(frm, 0))
    context = ssl.create_default_context()
    context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
    with context.wrap_socket(plain) as wire:
        wire.sendall(words)
        return wire.recv(400)


def test_who_does_not_greet_holds_no_more_than_his_share(front):
    silent = [call(front, b"", "127.0.0.2") for _ in range(3 * fronts.FROM_ONE)]
    time.sleep(1)
    assert sum(hung_up(wire) for wire in silent) == 2 * fronts.FROM_ONE
    with pytest.raises(OSError):
        over_tls(front, "127.0.0.2")
    begun = time.monotonic()
    assert b" 204 " in over_tls(front, "127.0.0.3").splitlines()[0]
    assert time.monotonic() - begun < SOON
    for wire in silent:
        wire.close()
    until = time.monotonic() + SOON
    while True:  # and when they are gone he may come again
        try:
            assert b" 204 " in over_tls(front, "127.0.0.2").splitlines()[0]
            break
        except OSError:
            assert time.monotonic() < until
            time.sleep(0.2)


def test_who_does_not_greet_is_hung_up_on(serving, tmp_path, monkeypatch):
    monkeypatch.setattr(fronts, "HANDSHAKE", 1.0)
    opened = Front("127.0.0.1", 0, serving, certificate(tmp_path, ("127.0.0.1",), datetime.now(UTC)))
    port = opened.open()
    silent = [call(port, words) for words in (b"", b"\x16\x03\x01", b"GET / HTTP/1.1\r\n\r\n")]
    until = time.monotonic() + SOON
    while not all(hung_up(wire) for wire in silent):
        assert time.monotonic() < until
        time.sleep(0.1)
    assert b" 204 " in over_tls(port, "127.0.0.1").splitlines()[0]
    opened.close()


def test_a_long_file_comes_whole_through_the_front_to_a_slow_reader(front):
    words = b"GET /static/django_htmx/htmx-2.js HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n"
    plain = socket.create_connection(("127.0.0.1", front), timeout=60)
    context = ssl.create_default_context()
    context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
    got = b""
    with context.wrap_socket(plain) as wire:
        wire.sendall(words)
        while piece := wire.recv(65536):
            got += piece
            time.sleep(0.02)
    head, _, body = got.partition(b"\r\n\r\n")
    assert len(body) > 100_000
    assert f"Content-Length: {len(body)}".encode() in head
