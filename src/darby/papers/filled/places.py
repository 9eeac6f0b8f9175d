"""What people call a place: "bay-south/hollow" is a part of a wall, "bay-south/door-1/head" an edge of a door."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from darby.answers.survey import found_at
from darby.drawing import opening_called
from darby.papers.model import Both
from darby.words import Language, catalogue, say, surface_called
from darby.words.surfaces import shape_called

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.measure.surface import Surface


def place(job: Job, at: str, language: Language, *, alone: bool = False) -> str:
    """The surface's name, and what of it is meant as far as that has a name; "" for the job.

    ``alone``: without the surface's name.
    """
    if at in ("", "job"):
        return ""
    if found := found_at(job, at):
        return found
    surface_id, *rest = at.split("/")
    surface = next((s for s in job.surfaces if s.id == surface_id), None)
    if surface is None:
        return shape_called([s for s in job.surfaces if s.shape == surface_id]) or at
    names = [] if alone else [surface_called(surface, language)]
    zones = {b.zone: b.name for b in job.bases if b.surface == surface_id}
    openings = {o.id: opening_called(o, language) for o in surface.openings}
    words = catalogue(language)
    for part in rest:
        # a zone may be called like a side: "left", where the zone has no name of its own
        name = zones.get(part) or openings.get(part) or ("" if part in zones else words.get(f"paper.edge.{part}", ""))
        if name and name not in names:
            names.append(name)
    return ", ".join(names)


def zone_called(job: Job, surface: str, zone: str, language: Language) -> str:
    """A surface and its zone as a list of parts calls it: of several zones the one without a name is the rest."""
    name = place(job, f"{surface}/{zone}", language)
    several = sum(1 for b in job.bases if b.surface == surface) > 1
    unnamed = any(b.surface == surface and b.zone == zone and not b.name for b in job.bases)
    if several and unnamed:
        return f"{name}, {catalogue(language)['paper.the-rest']}"
    return name


def both_called(surface: Surface, languages: Sequence[Language]) -> Both:
    """A surface's name; in the second language only what a shape added to the name that people gave."""
    first, *others = languages
    said = [say(f"surface.{surface.says[0]}", {"name": ""}, one).strip(" ,") for one in others if surface.says]
    return Both(surface_called(surface, first), *said)
