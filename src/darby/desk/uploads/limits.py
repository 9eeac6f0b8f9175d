"""How much may be handed in, and the refusal. Nothing here is a trade figure: these hold the machine upright."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

BYTES = 20 * 2**20
"""A photograph from a phone is 2 to 12 MB."""
PIXELS = 60_000_000
"""Phones make 12 to 50 million."""
LONGEST = 4096
"""Pixels along the longer side that are kept: a joint of 3/8 in. on a wall of 40 ft is still three pixels wide."""
SECONDS = 20
"""For looking at one picture."""
LIST_BYTES = 2 * 2**20
LINES, DEEP = 1000, 6
"""Lines of the log in one parcel, and how deep a line may nest."""
DIGITS = 9
"""Of a number of a revision, a row, a person."""


WAITRESS: Mapping[str, Any] = {
    "max_request_body_size": BYTES + 2**20,
    "max_request_header_size": 2**15,
    "channel_timeout": 30,
    "cleanup_interval": 10,
    "connection_limit": 400,
    "asyncore_use_poll": True,
    "ident": None,
}
"""What the server is told: a body that says it is longer is refused before it is read, one that comes in pieces as soon
as it is longer; who says nothing for half a minute is hung up on (``slow``: also who says too little); it says not what
it is. Without ``poll`` it would die at the thousandth open file."""


class Refused(ValueError):
    """What was handed in is not kept. ``code`` of its sentence ("desk.refused.<why>") and the values in it."""

    def __init__(self, why: str, **values: object) -> None:
        super().__init__(why)
        self.code = f"desk.refused.{why}"
        self.values: Mapping[str, object] = values
