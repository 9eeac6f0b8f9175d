"""How much may be handed in, and the refusal. Nothing here is a trade figure: these hold the machine upright."""

from __future__ import annotations

from collections.abc import Mapping

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


class Refused(ValueError):
    """What was handed in is not kept. ``code`` of its sentence ("desk.refused.<why>") and the values in it."""

    def __init__(self, why: str, **values: object) -> None:
        super().__init__(why)
        self.code = f"desk.refused.{why}"
        self.values: Mapping[str, object] = values
