"""Places as people call them: "bay-south/hollow" is the surface's name, and the zone's where it has one."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from darby.answers.match import OLD_SIDE
from darby.answers.survey import found_at
from darby.tables.setting import Setting
from darby.words import catalogue, surface_called
from darby.words.surfaces import names_of, shape_called

if TYPE_CHECKING:
    from darby.answers import Answers

MIX = "mix/"


def place(answers: Answers, at: str, setting: Setting) -> str:
    """A surface, a zone, an edge of one, a house, a mix; "" for the whole job and for what is no place."""
    if at.startswith(MIX):
        return coat_called(at.removeprefix(MIX).partition("/")[0].partition(" ")[0], setting)
    if found := found_at(answers.job, at):
        return found
    surface, _, rest = at.partition("/")
    zone = rest.partition("/")[0]
    named = next((surface_called(s, setting.language) for s in answers.job.surfaces if s.id == surface), None)
    if named is None:
        return shape_called([s for s in answers.job.surfaces if s.shape == surface])
    base = next((b.name for b in answers.job.bases if b.surface == surface and b.zone == zone), "")
    if zone == OLD_SIDE:
        base = catalogue(setting.language)[f"paper.edge.{zone}"]
    return f"{named}, {base}" if base else named


def places(answers: Answers, ats: Iterable[str], setting: Setting) -> list[str]:
    """Several places, each name once: a shape by its own name where all its faces are among them; no "" for the job."""
    return names_of({at: place(answers, at, setting) for at in ats}, answers.job.surfaces, setting.language)


def edge_called(answers: Answers, at: str, edge: str, setting: Setting) -> str:
    """An edge of a surface in words: "left" is the left edge, "door-1/head" the door, the head."""
    surface = next((s for s in answers.job.surfaces if s.id == at.partition("/")[0]), None)
    words = catalogue(setting.language)
    if surface is None:
        return edge
    names = {o.id: words.get(f"drawing.opening.{o.name or o.id}", o.name or o.id) for o in surface.openings}
    parts = edge.removeprefix(f"{surface.id}/").split("/")
    return ", ".join(names.get(p) or words.get(f"paper.edge.{p}", p) for p in parts)


def mix_called(answers: Answers, id: str, setting: Setting) -> str:
    """The coat a mix is for, and how its base drinks where that made the mix: "Scratch coat, on lath"."""
    coat, _, more = id.removeprefix(MIX).partition(" ")
    more = more.removeprefix("on ")
    code = f"cli.mix.on-{more}"
    where = setting.say(code) if code in catalogue("en") else place(answers, more, setting) if more else ""
    called = coat_called(coat, setting)
    return f"{called}, {where}" if where and more != "usual" else called


def coat_called(coat: str, setting: Setting) -> str:
    """ "scratch" is the scratch coat."""
    code = f"cli.mix.{coat}"
    return setting.say(code) if code in catalogue("en") else coat
