"""[coats] and [[coats.on]]: what is wanted, and what he knows better than the rule book."""

from __future__ import annotations

from dataclasses import replace

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.firm import COAT_NAMES, FINISH_PACES, Mix
from darby.job.model import BuildUp, Coats, Finish, FinishSand, OwnCoat, Suction, Wanted
from darby.job.part import Part
from darby.job.sections.firm_mixes import MixesDocument, check_bags, read_mixes
from darby.job.sections.rules import check_voice

SANDED = ("float", "skip trowel", "scraped")
"""Finishes whose look hangs on the size of their sand."""


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
    sand: FinishSand = key("The sand of a float or skip trowel finish, by the sieves it lies between.")
    colored: bool = key("Whether the finish coat carries the color here.")
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
    sand: FinishSand = key("The sand of a float or skip trowel finish, by the sieves it lies between.")
    colored: bool = key("Whether the finish coat carries the color: no unless you say.")
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
    sand, colored = (_sand(part), _colored(part)) if part else (None, None)
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
    every = (*on, *houses)  # a wall's own word goes before its house's
    draft.put(coats=Coats(finish or "float", paint, every, sand, bool(colored)))
    _note_paces(root, draft, {finish or "float", *(w.finish for w in every)})


def _note_paces(root: Part, draft: Draft, finishes: set[Finish | None]) -> None:
    """A finish that the crew has no pace of its own for goes at its pace for a finish coat, and that is noted."""
    firm = draft.firm
    if firm.pace_of("finish") is None:
        return
    paces = {finish.replace(" ", "-") for finish in finishes if finish is not None}
    if any(firm.pace_of(pace) is None for pace in (paces & set(FINISH_PACES)) - {"float"}):
        root.assume("job.assumed-pace", "coats")


def _sand(part: Part) -> FinishSand | None:
    """The sand of the finish; not said of a finish that is thrown on or has none."""
    finish = part.word("finish")
    if part.has("sand") and finish is not None and finish not in SANDED:
        part.fault("sand", "job.not-here", part.raw["sand"], " or ".join(f'finish = "{name}"' for name in SANDED))
    sand: FinishSand | None = part.word("sand")
    return sand


def _colored(part: Part) -> bool | None:
    if part.flag("colored") and part.flag("paint"):
        part.fault("colored", "job.color-twice", "colored, paint", ok.COLOR_OR_PAINT)
    return part.flag("colored") if part.has("colored") else None


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
        sand=_sand(part),
        colored=_colored(part),
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
