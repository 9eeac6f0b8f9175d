"""What a line of the log says of a photograph, in the reader's language."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from darby.desk.photographed.sheet import CONFIRMED, KIND
from darby.words import Verbatim

if TYPE_CHECKING:
    from darby.desk.kept.models import Entry
    from darby.tables.setting import Setting


def said_of(entry: Entry, walls: Mapping[str, str], setting: Setting) -> str:
    """A line about marks in the reader's own language; any other as it was written. ``walls``: id to name."""
    if entry.kind == KIND:
        return marked(entry.said, walls, setting)
    if entry.kind == CONFIRMED:
        return confirmed(entry.said, setting)
    return str(entry.said.get("text", ""))


def marked(said: Mapping[str, Any], walls: Mapping[str, str], setting: Setting) -> str:
    """How many points, openings and lengths are marked."""
    id = str(said.get("surface", ""))
    counts = {"marks": len(said["marks"]), "openings": len(said["frames"]), "lengths": len(said["lines"])}
    return setting.say("desk.photograph.log-marks", wall=Verbatim(walls.get(id, id)), **counts)


def confirmed(said: Mapping[str, Any], setting: Setting) -> str:
    """Which opening went into the job file, and how."""
    values = {name: Verbatim(said.get(name, "")) for name in ("letter", "size", "at", "up")}
    return setting.say("desk.photograph.log-confirmed", **values)
