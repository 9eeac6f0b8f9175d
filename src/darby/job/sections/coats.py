"""[coats] and [[coats.on]]: what is wanted, and what he knows better than the rule book."""

from __future__ import annotations

from dataclasses import replace

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.firm import COAT_NAMES, Mix
from darby.job.model import BuildUp, Coats, Finish, OwnCoat, Suction, Wanted
from darby.job.part import Part
from darby.job.sections.firm_mixes import MixesDocument, check_bags, read_mixes
from darby.job.sections.rules import check_voice


class ByCoatDocument(Document):
    """A measure for single coats."""

    dash_bond: Measured = key("Dash bond coat.", alias="dash-bond")
    scratch: Measured = key("Scratch coat.")
    brown: Measured = key("Brown coat.")
    base: Measured = key("The base coat of two-coat work.")
    finish: Measured = key("Finish coat.")


class OnDocument(Document):
    """[[coats.on]]: one surface, or one zone of it."""

    surface: str = must("The `id` of a wall, of a house, or of one wall of a house (`crew-2`).")
    zone: str = key("The `id` of a zone of that surface; left out, the whole surface.")
    finish: Finish = key("The finish wanted here.")
    paint: bool = key("Whether it is painted here.")
    choose: BuildUp = key("The build-up you want, whatever comes first in the list.")
    suction: Suction = key("How the base drinks, by the splash test.")
    total: Measured = key("The whole thickness past the base.")
    thickness: ByCoatDocument = key("The thickness of single coats.")
    moist: ByCoatDocument = key("How long single coats are kept damp.")
    wait: ByCoatDocument = key("The wait after single coats.")
    cure: str = key("The curing profile: a voice on curing that `darby rules` shows.")
    mixes: MixesDocument = key("Another mix for a coat, here only.")
    why: str = key("Your reason; it is printed with the departure.")


class CoatsDocument(Document):
    """[coats]: what is wanted everywhere, unless [[coats.on]] says otherwise."""

    finish: Finish = key("The finish: float unless you say.")
    paint: bool = key("Whether it is painted: no unless you say.")
    on: list[OnDocument] = key("What is different on one surface.")


def read(root: Part, draft: Draft) -> None:
    """Read [coats] into the draft. Every surface and zone it names must exist."""
    part = root.part("coats")
    finish: Finish | None = part.word("finish") if part else None
    if finish is None and (part is None or not part.said("finish")):
        root.assume("job.assumed-finish", "coats")
    paint = part.flag("paint") if part else False
    if part is None or not part.said("paint"):
        root.assume("job.assumed-no-paint", "coats")
    on: list[Wanted] = []
    houses: list[Wanted] = []
    seen: set[tuple[str, str | None]] = set()
    for entry in part.parts("on") if part else ():
        wanted = _on(entry, draft)
        at = (wanted.surface, wanted.zone)
        if at in seen and wanted.surface:
            entry.fault("surface", "job.twice", wanted.surface, ok.ONCE)
        seen.add(at)
        if wanted.surface in draft.houses:
            houses += [replace(wanted, surface=wall) for wall in draft.houses[wanted.surface]]
        else:
            on.append(wanted)
    draft.put(coats=Coats(finish or "float", paint, (*on, *houses)))  # a wall's own word goes before its house's


def _on(part: Part, draft: Draft) -> Wanted:
    surface = draft.surface_named(part, "surface", houses=True)
    zone = None
    if part.has("zone"):
        zone = part.text("zone")
        zones = draft.zones_of(surface)
        if zones is not None and zone not in zones:
            part.unknown("zone", "job.no-such-zone", zone, zones)
    mixes: tuple[Mix, ...] = ()
    mixes_part = part.part("mixes")
    if mixes_part is not None:
        mixes = read_mixes(mixes_part)
        if draft.firm_readable:
            check_bags(mixes_part, draft.bags)
    cure = part.text("cure", must=True) or None
    if cure:
        check_voice(part, "cure", "cure", cure)
    return Wanted(
        surface=surface or "",
        zone=zone,
        finish=part.word("finish"),
        paint=part.flag("paint") if part.has("paint") else None,
        choose=part.word("choose"),
        suction=part.word("suction"),
        total=part.length("total", positive=True),
        coats=_own(part),
        cure=cure,
        mixes=mixes,
        why=part.text("why"),
    )


def _own(part: Part) -> tuple[OwnCoat, ...]:
    thickness, moist, wait = (part.part(name) for name in ("thickness", "moist", "wait"))
    own = []
    for coat in COAT_NAMES:
        entry = OwnCoat(
            coat,  # type: ignore[arg-type]
            thickness.length(coat, positive=True) if thickness else None,
            moist.time(coat) if moist else None,
            wait.time(coat) if wait else None,
        )
        if entry != OwnCoat(entry.coat):
            own.append(entry)
    return tuple(own)
