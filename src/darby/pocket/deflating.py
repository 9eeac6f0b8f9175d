"""Tables in the page: JSON, deflated (RFC 1951), in base 64. The page undoes it with the numbers given here."""

from __future__ import annotations

import json
import zlib
from base64 import b64encode
from collections.abc import Mapping
from typing import Any

PACKING: dict[str, Any] = {
    "byte": 8,
    "longest": 15,
    "end": 256,
    "size": 3,
    "counts": [[5, 257], [5, 1], [4, 4]],
    "order": [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15],
    "again": {"16": [2, 3, False], "17": [3, 3, True], "18": [7, 11, True]},
    "fixed": [[8] * 144 + [9] * 112 + [7] * 24 + [8] * 8, [5] * 30],
    "lengths": [
        [0, 3], [0, 4], [0, 5], [0, 6], [0, 7], [0, 8], [0, 9], [0, 10], [1, 11], [1, 13], [1, 15], [1, 17], [2, 19],
        [2, 23], [2, 27], [2, 31], [3, 35], [3, 43], [3, 51], [3, 59], [4, 67], [4, 83], [4, 99], [4, 115], [5, 131],
        [5, 163], [5, 195], [5, 227], [0, 258],
    ],
    "distances": [
        [0, 1], [0, 2], [0, 3], [0, 4], [1, 5], [1, 7], [2, 9], [2, 13], [3, 17], [3, 25], [4, 33], [4, 49], [5, 65],
        [5, 97], [6, 129], [6, 193], [7, 257], [7, 385], [8, 513], [8, 769], [9, 1025], [9, 1537], [10, 2049],
        [10, 3073], [11, 4097], [11, 6145], [12, 8193], [12, 12289], [13, 16385], [13, 24577],
    ],
}  # fmt: skip
"""The format's own numbers: RFC 1951, 3.2.5 to 3.2.7. Lengths and distances are (extra bits, least)."""


def text_of(tables: Mapping[str, Any]) -> str:
    """Tables as JSON."""
    return json.dumps(tables, ensure_ascii=False, separators=(",", ":"))


def packed(tables: Mapping[str, Any]) -> str:
    """Tables as they stand in the page."""
    deflate = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    return b64encode(deflate.compress(text_of(tables).encode()) + deflate.flush()).decode()
