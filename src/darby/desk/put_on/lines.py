"""The lines of one wall where plaster may part: joints as they were laid out, and what was said of them.

A line is pinned, forbidden or free. ``said`` writes what was filled in back into [[joints]], in the person's own words.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

from quicktions import Fraction

from darby.answers.joints import wanted_on
from darby.desk.uploads.numbers import number
from darby.measure.writing import write
from darby.papers.filled.parting import letter_of

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.joints import Joint, Joints
    from darby.measure.units import System

Way = Literal["upright", "level"]
State = Literal["pinned", "forbidden", "free", "fixed"]
WAYS: tuple[Way, ...] = ("upright", "level")
FREE = ("corner", "outline", "even", "stretch")
"""Where a joint comes from that nothing asks for: it may be pinned, forbidden and moved."""
FINEST = 16
"""A joint is written to so manieth parts of an inch where it is pinned as it lies."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line.

    ``place`` as it is written in the file, or as it would be; ``at`` and ``to`` where that is [m], None: it cannot be
    read. ``letter`` on the drawing. ``kind`` and ``origin`` of the joint that lies there ("" = none does).
    """

    number: str
    way: Way
    state: State
    place: str
    at: Fraction | None
    to: Fraction | None = None
    letter: str = ""
    kind: str = ""
    origin: str = ""


def entry_of(tables: Mapping[str, Any], surface: str) -> dict[str, Any]:
    """What [[joints]] says of a surface: its own entry, else its house's; {} if nobody said anything."""
    entries = [e for e in _entries(tables) if isinstance(e.get("surface"), str)]
    own = [e for e in entries if e["surface"] == surface]
    house = [e for e in entries if surface.startswith(f"{e['surface']}-")]
    return dict(next(iter((*own, *house)), {}))


def _entries(tables: Mapping[str, Any]) -> list[dict[str, Any]]:
    found = tables.get("joints")
    return [e for e in found if isinstance(e, dict)] if isinstance(found, list) else []


def lines_of(tables: Mapping[str, Any], answers: Answers, surface: str, system: System) -> list[Line]:
    """Every line of a surface, from the left and from below: pinned, forbidden, and joints that were laid out."""
    entry, wanted = entry_of(tables, surface), wanted_on(answers.job, surface)
    laid: Joints | None = answers.answered("joints", surface)
    joints = _lettered(laid)
    found: list[Line] = []
    for way in WAYS:
        pinned = _written(entry.get(way), tuple((at, None) for at in getattr(wanted, way)))
        for text, at, _ in pinned:
            letter, joint = next(((c, j) for c, j in joints if _lies(j, way, at)), ("", None))
            kind, origin = (joint.kind, joint.origin) if joint is not None else ("", "")
            found.append(Line("", way, "pinned", text, at, letter=letter, kind=kind, origin=origin))
    for way in WAYS:
        for text, at, to in _written(entry.get(f"not_{way}"), getattr(wanted, f"not_{way}")):
            found.append(Line("", way, "forbidden", text, at, to))
    there = {(line.way, line.at) for line in found if line.state == "pinned"}
    for letter, joint in joints:
        if joint.axis == "along":
            continue
        one: Way = "upright" if joint.axis == "vertical" else "level"
        at = Fraction(joint.start[0] if one == "upright" else joint.start[1])
        if (one, at) in there:
            continue
        there.add((one, at))  # one line that openings interrupt is one line
        state: State = "free" if joint.origin in FREE else "fixed"
        found.append(Line("", one, state, written_at(at, system), at, None, letter, joint.kind, joint.origin))
    found.sort(key=lambda line: (line.way == "level", line.at if line.at is not None else Fraction(0)))
    return [replace(line, number=str(n)) for n, line in enumerate(found)]


def written_at(at: Fraction, system: System) -> str:
    """A place as it is written into the file."""
    return write(at, "ft-in", FINEST) if system == "us" else write(at, "mm")


def _lettered(laid: Joints | None) -> list[tuple[str, Joint]]:
    own = [joint for joint in laid.chosen.joints if not joint.on_edge] if laid is not None else []
    return [(letter_of(n), joint) for n, joint in enumerate(own)]


def _lies(joint: Joint, way: Way, at: Fraction | None) -> bool:
    axis = "vertical" if way == "upright" else "horizontal"
    return joint.axis == axis and at is not None and joint.start[0 if way == "upright" else 1] == at


def _written(
    raw: Any, read: Sequence[tuple[Fraction, Fraction | None]]
) -> list[tuple[str, Fraction | None, Fraction | None]]:
    """The rows of a key as they stand there, each with where that is; while one cannot be read, none is known."""
    rows = [str(x) for x in raw] if isinstance(raw, list) else []
    if len(rows) != len(read):
        return [(text, None, None) for text in rows]
    return [(text, *span) for text, span in zip(rows, read, strict=True)]


# --- writing back --------------------------------------------------------------------------------------


def said(tables: Mapping[str, Any], surface: str, posted: Mapping[str, str]) -> dict[str, Any]:
    """``tables`` with the lines of ``surface`` as they were filled in.

    A row is ``way.N``, ``place.N``, ``state.N``; ``was.N`` and ``had.N`` what stood there before. A free line that was
    moved is pinned where it was moved to. ``choose`` takes another layout.
    """
    entry = {k: v for k, v in entry_of(tables, surface).items() if k != "gap" or _own(tables, surface)}
    rows = {name.partition(".")[2] for name in posted if name.startswith("place.")}
    if rows:
        lists: dict[str, list[str]] = {key: [] for way in WAYS for key in (way, f"not_{way}")}
        for n in sorted(rows, key=_in_order):
            key, place = _row(posted, n)
            if key and place not in lists[key]:
                lists[key].append(place)
        for key, places in lists.items():
            entry.pop(key, None)
            if places:
                entry[key] = places
    if posted.get("choose"):
        entry["choose"] = posted["choose"]
    return _put(tables, surface, entry)


def _row(posted: Mapping[str, str], n: str) -> tuple[str, str]:
    """The key that a row is written under, and what; ("", "") where it says nothing."""
    place = posted.get(f"place.{n}", "").strip()
    state, way = posted.get(f"state.{n}", "free"), posted.get(f"way.{n}", "upright")
    moved = posted.get(f"had.{n}") == "free" and place != posted.get(f"was.{n}", "").strip()
    if not place or way not in WAYS or posted.get(f"had.{n}") == "fixed":
        return "", ""
    if state == "forbidden":
        return f"not_{way}", place
    return (way, place) if state == "pinned" or moved else ("", "")


def _in_order(n: str) -> tuple[bool, int]:
    return number(n) is None, number(n) or 0


def _own(tables: Mapping[str, Any], surface: str) -> bool:
    return any(e.get("surface") == surface for e in _entries(tables))


def _put(tables: Mapping[str, Any], surface: str, entry: dict[str, Any]) -> dict[str, Any]:
    """The surface's own entry in its place, else as the last; an entry that says nothing is taken out."""
    entry = {"surface": surface} | {k: v for k, v in entry.items() if k != "surface"}
    of_house = any(surface.startswith(f"{e.get('surface')}-") for e in _entries(tables) if e.get("surface"))
    keep = len(entry) > 1 or of_house
    made = [entry if e.get("surface") == surface else e for e in _entries(tables)
            if keep or e.get("surface") != surface]  # fmt: skip
    if keep and not _own(tables, surface):
        made.append(entry)
    rest = {k: v for k, v in tables.items() if k != "joints"}
    return rest | ({"joints": made} if made else {})
