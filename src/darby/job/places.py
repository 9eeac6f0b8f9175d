"""Where in a document something stands, in words; and which allowed word is nearest to a wrong one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import Any

Loc = tuple[str | int, ...]
"""The way into a document: keys of tables, indices of lists."""

NAMED = {
    "wall": "surface", "house": "house", "zone": "zone", "garden_wall": "garden wall", "box": "box", "strip": "strip",
    "ring": "ring",
}  # fmt: skip
"""Lists whose entries are called by their id, and what an entry is called."""

LONGEST = 60
"""How much of a wrong value is shown back."""


def place(document: Mapping[str, Any], loc: Loc) -> str:
    """``("wall", 0, "openings", 2)`` as ``surface "bay-south", opening 3``.

    An entry without a readable id is called by its number; numbers count from 1, as people do.
    """
    words: list[str] = []
    here: Any = document
    above = ""
    for step in loc:
        here = _into(here, step)
        if isinstance(step, int):
            words[-1:] = _entry(above, step, here, words[-1:])
            above = ""
        elif above == "openings" and words:  # the walls of a house or the sides of a box, by number
            words[-1] = f"{'side' if loc[0] == 'box' else 'wall'} {step}"
            above = "openings"
        else:
            words.append(step or '""')
            above = step
    return ", ".join(words)


def _into(here: Any, step: str | int) -> Any:
    if isinstance(here, Mapping):
        return here.get(step)
    if isinstance(here, list) and isinstance(step, int) and 0 <= step < len(here):
        return here[step]
    return None


def _entry(above: str, index: int, entry: Any, before: list[str]) -> list[str]:
    if above in NAMED:
        known = entry.get("id") if isinstance(entry, Mapping) else None
        return [f'{NAMED[above]} "{known}"' if isinstance(known, str) and known else f"{NAMED[above]} {index + 1}"]
    if above == "openings":
        house = [word for word in before if word.startswith(("wall ", "side "))]
        return [*house, f"opening {index + 1}"]
    if above == "outline":
        return [f"corner {index + 1}"]
    if above in ("walls", "sides"):
        return [f"{above[:-1]} {index + 1}"]
    return [f"{above} {index + 1}" if above else f"{index + 1}"]


def order(document: Mapping[str, Any], loc: Loc) -> tuple[int, ...]:
    """Sorts faults as the document stands: position of each key in its table, of each entry in its list."""
    steps: list[int] = []
    here: Any = document
    for step in loc:
        if isinstance(step, int):
            steps.append(step)
        else:
            keys = list(here) if isinstance(here, Mapping) else []
            steps.append(keys.index(step) if step in keys else len(keys))
        here = _into(here, step)
    return tuple(steps)


def nearest(found: object, allowed: Iterable[str]) -> str:
    """The allowed word closest to what was found; "" if none is close."""
    if not isinstance(found, str):
        return ""
    by_fold = {word.casefold(): word for word in allowed}
    close = get_close_matches(found.casefold()[:80], list(by_fold), n=1, cutoff=0.55)
    return by_fold[close[0]] if close else ""


def shown(value: object) -> str:
    """A value of the document as a person would write it there, cut short."""
    match value:
        case bool():
            text = "true" if value else "false"
        case int() if abs(value) >= 10**LONGEST:
            text = "a very large number"
        case Mapping():
            text = "{" + ", ".join(str(key) for key in value) + "}"
        case list():
            text = "[" + ", ".join("..." if isinstance(v, list) else shown(v) for v in value[:4]) + "]"
        case _:
            text = str(value)
    return text if len(text) <= LONGEST else text[: LONGEST - 3] + "..."
