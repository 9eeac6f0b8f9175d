"""Stage "mixes": every mix of the job, checked against its limits, with its yield and its batches."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.coats import SurfaceCoats
from darby.answers.days import coat_pace
from darby.answers.mixing import given_mix, mix_name, suction_under
from darby.answers.stage import Answers, Stage, Waiting
from darby.measure.units import unit
from darby.mix import BagLabel, BagSizes, CoatNeed, Gauge, MixAsk, Mixes, MixParts, mixes
from darby.quantities import Volumes

if TYPE_CHECKING:
    from darby.job.firm import Mix
    from darby.job.model import Job
    from darby.rulebook import Book

PREFIX = "mix/"
MASS = unit("kg").dim


def _ask(job: Job, book: Book, answers: Answers, at: str) -> MixAsk | Waiting:  # noqa: ARG001 -- of the whole job
    volume: dict[str, float] = defaultdict(float)
    laid = answers.good("volumes")
    for surface in laid.values():
        answered: Volumes = surface
        for m in answered.by_mix:
            volume[m.mix] += float(m.volume.value)
    if not laid:
        return Waiting(lacks=("answers.lacks.surfaces",))
    hours = _hours(job, answers)
    needs: dict[str, CoatNeed] = {}
    for surface_id, built in answers.good("coats").items():
        if surface_id in laid:
            _needs(job, surface_id, built, volume, hours, needs)
    measures = job.firm.measures
    return MixAsk(
        book=book,
        coats=tuple(needs.values()),
        mixer=measures.mixer,
        gauge=_gauge(job),
        bags=BagSizes(*(_bag(job, item) for item in ("portland", "masonry cement", "plastic cement", "lime"))),
    )


def _hours(job: Job, answers: Answers) -> dict[str, float]:
    """How long the whole crew lays each mix [s]; without a mix that goes on somewhere at a pace nobody gave."""
    found: dict[str, float] = defaultdict(float)
    unknown = set()
    for surface_id, laid in answers.good("volumes").items():
        built = dict(answers.of("coats", surface_id).zones)
        for c in laid.coats:
            option = built[c.zone].chosen
            coat = next(x for x in option.coats if x.name == c.coat)
            pace = coat_pace(job, f"{surface_id}/{c.zone}", option.id, coat)
            if pace is None:
                unknown.add(c.mix)
            else:
                found[c.mix] += float(c.area.value) / float(pace.value)
    return {mix: seconds for mix, seconds in found.items() if mix not in unknown}


def _needs(
    job: Job, surface: str, coats: SurfaceCoats, volume: dict[str, float], hours: dict[str, float],
    needs: dict[str, CoatNeed],
) -> None:  # fmt: skip
    """Adds the needs of one surface. A mix that meets two kinds of suction is checked for both, and counted once."""
    for zone, built in coats.zones:
        scratch = next((c for c in built.chosen.coats if c.name == "scratch"), None)
        over = PREFIX + mix_name(job, surface, zone, built, scratch) if scratch is not None else ""
        for coat in built.chosen.coats:
            name, suction = mix_name(job, surface, zone, built, coat), suction_under(built, coat)
            given = given_mix(job, surface, zone, coat)
            key = PREFIX + name
            first = needs.get(key)
            if first is not None and (first.suction == suction or first.bagged is not None):
                continue
            if first is not None:
                key = f"{key} on {suction}"
            needs.setdefault(
                key,
                CoatNeed(
                    id=key,
                    coat=coat.mix,  # type: ignore[arg-type]
                    suction=suction,  # type: ignore[arg-type]
                    volume=volume[name] if first is None else 0,
                    mix=_parts(given),
                    bagged=_label(job, given),
                    over=over if coat.name == "brown" else "",
                    hours=hours.get(name) if first is None else None,
                ),
            )


def _parts(given: Mix | None) -> MixParts | None:
    if given is None or not given.parts:
        return None
    parts = {_short(p.material): p.parts for p in given.parts}
    return MixParts(**parts)


def _label(job: Job, given: Mix | None) -> BagLabel | None:
    bag = job.firm.bag(given.bagged) if given is not None and given.bagged else None
    if bag is None:
        return None
    return BagLabel(bag.id, bag.name, bag.weight, bag.yields, bag.water, bag.use_within)


def _short(material: str) -> str:
    """ "masonry cement" is the field ``masonry`` of the mix room."""
    return material.removesuffix(" cement")


def _bag(job: Job, item: str) -> Fraction | None:
    buys = job.firm.buy(item)
    return buys.package.holds if buys is not None and buys.package.unit.dim == MASS else None


def _gauge(job: Job) -> Gauge:
    measures = job.firm.measures
    kind = measures.gauge or "bucket"
    return Gauge(kind, measures.bucket if kind == "bucket" else measures.shovel)


STAGE: Stage[MixAsk, Mixes] = Stage("mixes", ("coats", "volumes"), "job", "now", _ask, mixes)
