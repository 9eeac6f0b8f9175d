"""[[done]]: what is on the wall already, so that days are counted from it."""

from __future__ import annotations

from darby.job.done import Done, DoneWork
from darby.job.draft import Draft
from darby.job.fields import Day, Document, key, must
from darby.job.part import Part


class DoneDocument(Document):
    """[[done]]: one coat that is on. What comes before it counts as done too, the same day unless it is written."""

    surface: str = must("The surface, or a house: all its walls.")
    zone: str = key("The zone of it. Left out: all of the surface.")
    coat: DoneWork = must("What was done.")
    on: Day = must("The day it was finished. Written twice for one coat, the later day counts.")


def read(root: Part, draft: Draft) -> None:
    """Read [[done]] into the draft; a house is its walls."""
    done: list[Done] = []
    for part in root.parts("done"):
        surface = draft.surface_named(part, "surface", houses=True)
        zones = draft.zones_of(surface)
        zone = part.text("zone", must=True) if part.has("zone") else None
        if zone and zones is not None and zone not in zones:
            part.unknown("zone", "job.no-such-zone", zone, zones)
        coat, on = part.word("coat"), part.day("on")
        if surface is not None and coat is not None and on is not None:
            walls = draft.houses.get(surface, [surface])
            done += [Done(wall, zone or None, coat, on) for wall in walls]
    draft.put(done=tuple(done))
