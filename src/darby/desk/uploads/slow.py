"""Who sends a request so slowly that it never ends is hung up on: waitress itself only sees whether anything comes.

A body or a header that comes byte by byte holds a connection, not a thread; but connections are counted, and whoever
holds all of them keeps everybody else out.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from waitress.channel import HTTPChannel  # type: ignore[import-untyped]
    from waitress.server import BaseWSGIServer  # type: ignore[import-untyped]

GRACE = 30.0
"""Seconds for a request to begin with: a header is there in one of them, even from the far end of a building site."""
SLOWEST = 4_000.0
"""Bytes a second after that: a photograph of 12 MB may take 50 minutes, one of which hardly anything comes goes."""


@dataclass(slots=True)
class Patience:
    """How long each unfinished request has been coming in."""

    grace: float
    slowest: float
    since: dict[Any, tuple[Any, float]] = field(default_factory=dict)

    def spent(self, channel: HTTPChannel, now: float) -> bool:
        """Whether the request that this connection is sending has taken too long for what has come of it."""
        request = channel.request
        if request is None or request.completed:
            self.since.pop(channel, None)
            return False
        known, begun = self.since.get(channel, (None, now))
        if known is not request:
            begun = now
        self.since[channel] = (request, begun)
        come = request.header_bytes_received + request.body_bytes_received
        return now - begun > self.grace + float(come) / self.slowest

    def forget(self, there: set[Any]) -> None:
        """Keep only the connections that are still there."""
        for channel in self.since.keys() - there:
            del self.since[channel]


def hurried(server: BaseWSGIServer, *, grace: float = GRACE, slowest: float = SLOWEST) -> BaseWSGIServer:
    """``server``, with an eye on slow requests whenever it looks after its connections (``cleanup_interval``)."""
    patience, usual = Patience(grace, slowest), server.maintenance

    def maintenance(now: float) -> None:
        usual(now)
        for channel in server.active_channels.values():
            if patience.spent(channel, now):
                channel.will_close = True
        patience.forget(set(server.active_channels.values()))

    server.maintenance = maintenance
    return server
