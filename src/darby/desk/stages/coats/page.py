"""The coats: every way to build it up, set out as a letter would; a cut through the one that was chosen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.http import HttpRequest

from darby.desk.doors import person_of
from darby.desk.drawn import Drawing, cut_drawing
from darby.desk.once import once
from darby.desk.places import StagePage
from darby.desk.put_on.building import WAYS
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.tables.pages import note_line
from darby.tables.places import place

if TYPE_CHECKING:
    from collections.abc import Iterable

    from darby.answers import Answers
    from darby.buildup import BuildUp, Option
    from darby.tables.setting import Setting


@dataclass(frozen=True, slots=True)
class Way:
    """One way to build it up, in words."""

    name: str
    coats: str
    total: str
    chosen: bool
    id: str = ""


@dataclass(frozen=True, slots=True)
class Zone:
    """A zone with its ways, or several that have the same ones; what speaks for the chosen one, and for the others."""

    title: str
    ways: tuple[Way, ...]
    cut: Drawing
    why: tuple[str, ...]
    against: tuple[str, ...]
    places: tuple[str, ...] = ()


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """Zones that are built up alike stand together."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    zones = once(answers, "zones", setting, make=lambda: _zones(answers, setting))
    return {"zones": zones, "fills": person_of(request).is_owner}


def _zones(answers: Answers, setting: Setting) -> list[Zone]:
    bases = {(b.surface, b.zone): b.kind for b in answers.job.bases}
    keys: dict[str, str] = {}
    alike: dict[tuple[Way, ...], list[tuple[str, BuildUp, str]]] = {}
    for surface, coats in answers.good("coats").items():
        for zone, built in coats.zones:
            ways = tuple(_way(o, setting, chosen=o.id == built.chosen.id) for o in built.options)
            at = place(answers, f"{surface}/{zone}", setting)
            keys[at] = f"{surface}/{zone}" if len(coats.zones) > 1 else surface
            alike.setdefault(ways, []).append((at, built, bases.get((surface, zone), "")))
    zones = []
    for ways, found in alike.items():
        options = [built.chosen for _, built, _ in found]
        others = [o for _, built, _ in found for o in built.options if o.id != built.chosen.id]
        zones.append(
            Zone(
                title="; ".join(dict.fromkeys(at for at, _, _ in found)),
                ways=ways,
                cut=cut_drawing(options[0], found[0][2], answers, setting),
                why=_said(options, setting),
                against=_said(others, setting),
                places=tuple(keys[at] for at, _, _ in found),
            )
        )
    return zones


def _said(options: Iterable[Option], setting: Setting) -> tuple[str, ...]:
    """What speaks for and against, each sentence once; where it holds, stands in the ledger."""
    lines = (note_line(note, setting) for option in options for note in (*option.reasons, *option.cautions))
    return tuple(dict.fromkeys(lines))


def _way(option: Option, setting: Setting, *, chosen: bool) -> Way:
    return Way(
        name=setting.say(f"buildup.option.{option.id}"),
        coats=", ".join(f"{setting.say(f'buildup.coat.{c.name}').lower()} {setting.write(c.nominal)}"
                        for c in option.coats if c.nominal.value),
        total=setting.write(option.nominal),
        chosen=chosen,
        id=option.id if option.id in WAYS else "",
    )  # fmt: skip


PAGE = StagePage(place="put-on", order=1, stages=("coats",), sections=("coats",), crew=True, more=more)
