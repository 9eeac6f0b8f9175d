"""Readings of a bare wall: what the log holds of them, and how they come into the job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from quicktions import Fraction

from darby.desk.sketching.spelling import exactly
from darby.measure import length
from darby.measure.faults import Unreadable

if TYPE_CHECKING:
    from darby.desk.kept.models import Entry
    from darby.job import Job
    from darby.measure.units import System

READ = ("u", "v", "out")
Place = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Logged:
    """A line of the log that is a reading. ``taken``: the job says the same there."""

    entry: Entry
    u: Fraction
    v: Fraction
    out: Fraction
    taken: bool

    @property
    def said(self) -> Mapping[str, str]:
        """As it was written."""
        found: Mapping[str, str] = self.entry.said
        return found


def logged(entries: Sequence[Entry], job: Job, surface: str) -> list[Logged]:
    """Readings of one surface in the log, the newest first; of one place only the newest."""
    there = next((r for r in job.readings if r.surface == surface), None)
    stands = {(u, v): out for u, v, out in (there.points if there is not None else ())}
    found: dict[Place, Logged] = {}
    for entry in entries:
        if entry.kind != "reading" or entry.at != surface:
            continue
        try:
            u, v, out = (length(str(entry.said.get(key, ""))) for key in READ)
        except Unreadable:
            continue
        if (u, v) not in found:
            found[u, v] = Logged(entry, u, v, out, stands.get((u, v)) == out)
    return list(found.values())


def taken_in(tables: Mapping[str, Any], surface: str, readings: Sequence[Logged], system: System) -> dict[str, Any]:
    """The document with these readings among its own; a place that was read before says what was read last."""
    made = deepcopy(dict(tables))
    several = made.setdefault("readings", [])
    entry = next((r for r in several if r.get("surface") == surface), None)
    if entry is None:
        entry = {"surface": surface, "points": []}
        several.append(entry)
    new = {(r.u, r.v): r for r in readings}
    kept = [row for row in entry.get("points", []) if _place(row) not in new]
    back = entry.get("measured") == "back"
    entry["points"] = kept + [
        [r.said["u"], r.said["v"], exactly(-r.out, system) if back else r.said["out"]] for r in reversed(new.values())
    ]
    return made


def _place(row: Any) -> Place | None:
    try:
        return length(row[0]), length(row[1])
    except (Unreadable, TypeError, IndexError):
        return None
