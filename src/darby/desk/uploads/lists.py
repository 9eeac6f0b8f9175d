"""A parcel of log lines as JSON, held to size, count and depth before anything looks into it."""

from __future__ import annotations

import json
from typing import Any

from darby.desk.uploads.limits import DEEP, LINES, LIST_BYTES, Refused


def lines_of(body: bytes) -> list[dict[str, Any]]:
    """The lines of a parcel ``{"lines": [...]}``, each a table.

    Raises
    ------
    Refused
        too-large, no-list, too-many, too-deep.
    """
    if len(body) > LIST_BYTES:
        raise Refused("too-large", found=len(body) // 2**20, most=LIST_BYTES // 2**20)
    try:
        said = json.loads(body, parse_constant=_no_number)
    except (ValueError, RecursionError):
        raise Refused("no-list") from None
    lines = said.get("lines") if isinstance(said, dict) else None
    if not isinstance(lines, list) or not all(isinstance(line, dict) for line in lines):
        raise Refused("no-list")
    if len(lines) > LINES:
        raise Refused("too-many", found=len(lines), most=LINES)
    if any(_deeper(line, DEEP) for line in lines):
        raise Refused("too-deep")
    return lines


def _deeper(value: object, left: int) -> bool:
    inside = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return left == 0 or any(_deeper(v, left - 1) for v in inside)


def _no_number(said: str) -> float:
    raise ValueError(said)
