"""What was read of an old face, and who signed for which board: written into [[match]] as it was filled in."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from datetime import date
from typing import Any

from darby.desk.uploads.numbers import number

SAND = ("retained", "passing", "grains")
ROWS = 12
"""So many rows of sieves may be filled in at once."""
SIGNED = ("board", "by", "on", "light", "off")


def entered(tables: Mapping[str, Any], posted: Mapping[str, str]) -> dict[str, Any]:
    """``tables`` with what was filled in for the face beside one surface; keys that the form has not stay."""
    surface = posted.get("at", "")
    found = [dict(e) for e in tables.get("match", [])]
    entry = next((e for e in found if e.get("surface") == surface), None)
    if entry is None:
        entry = {"surface": surface}
        found.append(entry)
    if "sand" in posted:
        _read(entry, posted)
    if "board" in posted:
        _signed(entry, posted)
    return {**tables, "match": found}


def _read(entry: dict[str, Any], posted: Mapping[str, str]) -> None:
    by = posted["sand"] if posted["sand"] in SAND else SAND[0]
    pairs = [[posted.get(f"{side}.{n}", "").strip() for side in ("sieve", "amount")] for n in range(ROWS)]
    for other in SAND:
        entry.pop(other, None)
    rows = [pair for pair in pairs if any(pair)]
    if rows:
        entry[by] = rows
    depths = [line.strip() for line in posted.get("depths", "").replace(",", "\n").splitlines() if line.strip()]
    _put(entry, "depths", depths)
    _put(entry, "says", posted.get("says", "").strip())
    coats = posted.get("paint_coats", "").strip()
    _put(entry, "paint_coats", coats if number(coats) is None else number(coats))


def _signed(entry: dict[str, Any], posted: Mapping[str, str]) -> None:
    said: dict[str, Any] = {name: posted.get(name, "").strip() for name in SIGNED}
    said = {name: value for name, value in said.items() if value}
    if not set(said) - {"board"}:
        entry.pop("signed", None)  # nobody signed
        return
    if (board := number(str(said.get("board", "")))) is not None:
        said["board"] = board
    with suppress(ValueError):  # the file's reader says what is wrong with it
        said |= {"on": date.fromisoformat(said["on"])} if "on" in said else {}
    entry["signed"] = said


def _put(entry: dict[str, Any], name: str, value: Any) -> None:
    if value in ("", [], None):
        entry.pop(name, None)
    else:
        entry[name] = value
