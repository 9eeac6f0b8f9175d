"""https in front of the desk: what comes in over TLS is handed on, byte for byte, to the desk on this machine.

waitress speaks no TLS. Behind the front it listens on the loopback, told that whatever reaches it there came by https.
"""

from __future__ import annotations

import asyncio
import contextlib
import socket
import ssl
import threading
from collections import Counter
from collections.abc import Iterable
from concurrent.futures import Future
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from darby.desk.sharing.certificates import Certificate

if TYPE_CHECKING:
    from wsgiref.types import StartResponse, WSGIApplication, WSGIEnvironment

AT_ONCE = 256
"""Connections held at a time; who comes after them waits for one to close."""
FROM_ONE = 64
"""Of one address; a browser opens six. More are hung up on at once, so that nobody keeps all the others out."""
HANDSHAKE = 15.0
"""Seconds for greeting. Whoever says nothing or too little afterwards is hung up on by the desk behind."""
WAITING = 100
"""Connections that the system holds until there is room."""
AGAIN = 0.1
"""Seconds until the next try where none could be taken in."""
PIECE = 2**16


@dataclass(frozen=True, slots=True)
class Callers:
    """Who calls: the port from which the front called the desk, and the phone's own address."""

    by_port: dict[str, str] = field(default_factory=dict)

    def known(self, application: WSGIApplication) -> WSGIApplication:
        """``application``, told of each request from which phone it comes: attempts are counted by address."""

        def told(environ: WSGIEnvironment, start: StartResponse) -> Iterable[bytes]:
            caller = self.by_port.get(str(environ.get("REMOTE_PORT")))
            if caller is not None:
                environ["REMOTE_ADDR"] = environ["REMOTE_HOST"] = caller
            return application(environ, start)

        return told


class Front:
    """Listens at (host, port) with ``certificate`` and hands on to the desk at (127.0.0.1, behind).

    Runs in a thread of its own from ``open`` to ``close``.

    Raises
    ------
    OSError
        from ``open``, if the port is taken.
    """

    def __init__(
        self, host: str, port: int, behind: int, certificate: Certificate, callers: Callers | None = None
    ) -> None:
        self._callers = callers if callers is not None else Callers()
        self._host, self._port, self._behind = host, port, behind
        self._tls = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        self._tls.minimum_version = ssl.TLSVersion.TLSv1_2
        self._tls.load_cert_chain(certificate.chain, certificate.key)
        self._room = asyncio.Semaphore(AT_ONCE)
        self._from: Counter[str] = Counter()
        self._held: set[asyncio.Task[None]] = set()
        self._opened: Future[int] = Future()
        self._thread = threading.Thread(target=lambda: asyncio.run(self._run()), name="tls", daemon=True)

    def open(self) -> int:
        """Begin to listen; the port is handed back (another than asked where 0 was asked)."""
        self._thread.start()
        return self._opened.result()

    def close(self) -> None:
        """Stop listening and hang up."""
        self._loop.call_soon_threadsafe(self._enough.set)
        self._thread.join()

    async def _run(self) -> None:
        self._loop, self._enough = asyncio.get_running_loop(), asyncio.Event()
        try:
            listening = socket.create_server((self._host, self._port), backlog=WAITING)
        except OSError as error:
            self._opened.set_exception(error)
            return
        listening.setblocking(False)
        self._opened.set_result(int(listening.getsockname()[1]))
        accepting = asyncio.create_task(self._accept(listening))
        await self._enough.wait()
        accepting.cancel()
        listening.close()

    async def _accept(self, listening: socket.socket) -> None:
        """Count before anybody is greeted: a phone that never greets holds a place too."""
        while True:
            await self._room.acquire()
            try:
                wire, (caller, *_) = await self._loop.sock_accept(listening)
            except OSError:  # gone again, or too many open files: the next one is waited for
                self._room.release()
                await asyncio.sleep(AGAIN)
                continue
            if self._from[caller] >= FROM_ONE:
                wire.close()
                self._room.release()
                continue
            self._from[caller] += 1
            held = asyncio.create_task(self._hold(wire, caller))
            self._held.add(held)
            held.add_done_callback(self._held.discard)

    async def _hold(self, wire: socket.socket, caller: str) -> None:
        try:
            # Cancelled only when the front closes: then it is over, and no fault.
            with contextlib.suppress(OSError, asyncio.CancelledError):
                await self._serve(wire, caller)
        finally:
            wire.close()
            self._from[caller] -= 1
            if not self._from[caller]:
                del self._from[caller]
            self._room.release()

    async def _serve(self, wire: socket.socket, caller: str) -> None:
        phone = asyncio.StreamReader()
        protocol = asyncio.StreamReaderProtocol(phone)
        transport, _ = await self._loop.connect_accepted_socket(
            lambda: protocol, wire, ssl=self._tls, ssl_handshake_timeout=HANDSHAKE
        )
        to_phone = asyncio.StreamWriter(transport, protocol, phone, self._loop)
        try:
            desk, to_desk = await asyncio.open_connection("127.0.0.1", self._behind)
            own = str(to_desk.get_extra_info("sockname")[1])
            self._callers.by_port[own] = caller
            try:
                await asyncio.gather(_hand_on(phone, to_desk), _hand_on(desk, to_phone))
            finally:
                self._callers.by_port.pop(own, None)
                to_desk.close()
        finally:
            to_phone.close()
            await to_phone.wait_closed()  # what is still on its way goes out first


async def _hand_on(out_of: asyncio.StreamReader, into: asyncio.StreamWriter) -> None:
    while piece := await out_of.read(PIECE):
        into.write(piece)
        await into.drain()
    if into.can_write_eof():
        into.write_eof()
    else:
        into.close()
