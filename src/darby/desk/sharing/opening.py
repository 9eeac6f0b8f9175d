"""Opens the desk to the network: https in front, a second way in for what comes by it, and a code to scan."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from darby.desk.sharing.certificates import certificate
from darby.desk.sharing.front import Callers, Front
from darby.desk.sharing.network import at_home
from darby.desk.uploads.limits import WAITRESS
from darby.desk.uploads.slow import hurried

if TYPE_CHECKING:
    from django.core.handlers.wsgi import WSGIHandler
    from waitress.server import BaseWSGIServer  # type: ignore[import-untyped]

    from darby.desk.home import Home

EVERYWHERE = "0.0.0.0"
THREADS = 8


class Opened:
    """The desk on the network, until it is closed."""

    def __init__(self, front: Front, behind: BaseWSGIServer) -> None:
        self._front, self._behind = front, behind
        self._thread = threading.Thread(target=behind.run, name="behind-tls", daemon=True)
        self._thread.start()

    def close(self) -> None:
        """Hang up, and serve the network no more."""
        self._front.close()
        self._behind.close()


def open_to_network(
    home: Home,
    application: WSGIHandler,
    *,
    port: int,
    say: Callable[[str, str], None],
    sign_in: Callable[[str], str],
) -> Opened:
    """Serve ``application`` on the network by https at ``port``, and say how a phone gets there.

    ``sign_in(address)`` makes the link that is shown as a code.

    Raises
    ------
    NoNetwork
        if this machine is on none.
    OSError
        if the port is taken, or the certificate cannot be written.
    """
    from waitress.server import create_server

    names = at_home()
    made = certificate(home.folder / "tls", (*names, "127.0.0.1", "localhost"), datetime.now(UTC))
    callers = Callers()
    told = callers.known(application)
    behind = hurried(create_server(told, host="127.0.0.1", port=0, threads=THREADS, url_scheme="https", **WAITRESS))
    front = Front(EVERYWHERE, port, int(behind.effective_port), made, callers)
    try:
        served_at = front.open()
    except OSError:
        behind.close()
        raise
    address = f"https://{names[0]}:{served_at}"
    say("desk.share.on", address)
    say("desk.share.first", "")
    say("desk.share.fingerprint", made.fingerprint)
    say("", code_of(sign_in(address)))
    say("desk.share.sign-in", "")
    return Opened(front, behind)


def code_of(text: str) -> str:
    """A QR code (ISO/IEC 18004) in half blocks, as a terminal shows it."""
    import io

    import segno

    out = io.StringIO()
    segno.make(text, error="m").terminal(out, compact=True)
    return out.getvalue()
