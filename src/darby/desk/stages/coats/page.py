"""The coats: every way to build it up, set out as a letter would; a cut through the one that was chosen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.http import HttpRequest

from darby.desk.drawn import Drawing, cut_drawing
from darby.desk.places import StagePage
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.tables.pages import gathered
from darby.tables.places import place

if TYPE_CHECKING:
    from darby.buildup import Option
    from darby.tables.setting import Setting


@dataclass(frozen=True, slots=True)
class Way:
    """One way to build it up, in words."""

    name: str
    coats: tuple[tuple[str, str], ...]
    total: str
    chosen: bool
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Zone:
    """A zone with its ways, or several that have the same ones."""

    title: str
    ways: tuple[Way, ...]
    cut: Drawing


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """Zones that are built up alike stand together."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    bases = {(b.surface, b.zone): b.kind for b in answers.job.bases}
    alike: dict[tuple[Way, ...], list[tuple[str, Option, str]]] = {}
    for surface, coats in answers.good("coats").items():
        for zone, built in coats.zones:
            ways = tuple(_way(o, setting, chosen=o.id == built.chosen.id) for o in built.options)
            at = place(answers, f"{surface}/{zone}", setting)
            alike.setdefault(ways, []).append((at, built.chosen, bases.get((surface, zone), "")))
    zones = [
        Zone("; ".join(dict.fromkeys(at for at, _, _ in found)), ways, cut_drawing(*found[0][1:], answers, setting))
        for ways, found in alike.items()
    ]
    return {"zones": zones}


def _way(option: Option, setting: Setting, *, chosen: bool) -> Way:
    return Way(
        name=setting.say(f"buildup.option.{option.id}"),
        coats=tuple((setting.say(f"buildup.coat.{c.name}"), setting.write(c.nominal)) for c in option.coats),
        total=setting.write(option.nominal),
        chosen=chosen,
        reasons=tuple(gathered((*option.reasons, *option.cautions), setting)),
    )


PAGE = StagePage(place="put-on", order=1, stages=("coats",), sections=("coats",), crew=True, more=more)
