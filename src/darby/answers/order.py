"""Stage "order": every material of the job, every edge in its line, and what is still to be ordered."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.also import also
from darby.answers.bases import as_hung
from darby.answers.coats import SurfaceCoats
from darby.answers.match import old_side_volumes
from darby.answers.mixes import PREFIX
from darby.answers.stage import Answers, Stage, Waiting
from darby.answers.volumes import allowances
from darby.answers.wall import Wall
from darby.buildup import BuildUp
from darby.buildup.model import OLD
from darby.joints import Joints
from darby.measure import geometry
from darby.mix import CoatMix, Mixes
from darby.quantities import (
    BagLabel,
    Buy,
    Cover,
    EdgeRun,
    Material,
    Mortar,
    Order,
    OrderAsk,
    Ordered,
    Sand,
    order,
)

if TYPE_CHECKING:
    from darby.job.firm import Buys
    from darby.job.model import Also, Base, Job
    from darby.rulebook import Book

NOUGHT = Fraction(0)
SKIM = "heavy-skim"


def _ask(job: Job, book: Book, answers: Answers, at: str) -> OrderAsk | Waiting:  # noqa: ARG001 -- of the whole job
    volumes = answers.good("volumes")
    if not volumes:
        return Waiting(lacks=("answers.lacks.surfaces",))
    mixed: Mixes = answers.of("mixes")
    laid = {m.mix for v in volumes.values() for m in v.by_mix}
    return OrderAsk(
        volumes=(*volumes.values(), *old_side_volumes(job, book)),
        mortars=tuple(_mortar(name, mixed.of(PREFIX + name)) for name in sorted(laid)),
        runs=tuple(run for name in volumes for run in (*_runs(job, answers, name), *_joint_runs(job, answers, name))),
        covers=_covers(also(job, answers)),
        buys=tuple(
            Buy(b.item, b.package.holds, b.package.unit, b.package.each, b.package.written, b.package.sides,
                layers=b.layers, name=_called(job, b), supplier=b.supplier)
            for b in job.firm.buys
        ),
        ordered=tuple(Ordered(o.item, o.amount, o.unit) for o in job.ordered),
        allow=allowances(job),
        book=book,
    )  # fmt: skip


def _called(job: Job, buys: Buys) -> str:
    """What the firm calls it when it buys it, else what the bag says."""
    bag = job.firm.bag(buys.item)
    return bag.name if bag is not None and buys.name in ("", buys.item) else buys.name


def _mortar(name: str, mix: CoatMix) -> Mortar | BagLabel:
    made = mix.materials
    if mix.bagged is not None:
        assert made.bag is not None
        return BagLabel(name, mix.bagged.id, made.bag, made.water_each)
    weighed = (
        ("portland", made.portland),
        ("masonry cement", made.masonry),
        ("plastic cement", made.plastic),
        ("lime", made.lime),
    )
    sand = Sand(made.sand_loose, "damp loose", made.sand_dry) if made.sand_loose is not None else None
    return Mortar(name, tuple(Material(item, per) for item, per in weighed if per is not None), sand, made.water)


def _runs(job: Job, answers: Answers, name: str) -> list[EdgeRun]:
    """Every edge of a surface, with what the build-up says of how it is parted."""
    wall: Wall = answers.of("wall", name)
    coats: SurfaceCoats = answers.of("coats", name)
    plastered = {(r.opening, r.side) for r in wall.reveals}
    runs = []
    for run in wall.runs:
        built = coats.of(run.zone)
        parting = next((p for p in built.chosen.parting if p.edge == run.edge), None) if run.meets else None
        runs.append(
            EdgeRun(
                id=run.id,
                surface=run.surface,
                where=run.kind if run.kind in ("head", "jamb", "sill") else run.side,
                kind=run.kind,
                length=run.length,
                base=as_hung(job.base(name, run.zone), lathed=built.chosen.lath is not None),
                lathed=built.chosen.lath is not None,
                shared=run.shared,
                bare=run.bare or not built.chosen.coats,
                accessory="none" if _kept(job.base(name, run.zone), built) else None,
                other_base=_beyond(job, answers, run),
                plastered_reveal=(run.where, run.side) in plastered,
                joint_width=_width(parting.width.value) if parting is not None and parting.width is not None else None,
                beads=parting.beads if parting is not None else None,
                count=run.count,
            )
        )
    return runs


def _kept(base: Base, built: BuildUp) -> bool:
    """Whether the old plaster's own beads stay: a skim over it is too thin to bury new ones, and needs none."""
    return base.kind in OLD and built.chosen.id == SKIM


AS_EDGE: Mapping[str, str] = {"control": "control joint", "expansion": "expansion joint", "casing": "change of base"}
"""A joint as the edge that takes the same accessory: a two-piece joint, or two casing beads back to back."""


def _joint_runs(job: Job, answers: Answers, name: str) -> list[EdgeRun]:
    """The joints of a surface that no edge of it is already."""
    laid: Joints | None = answers.answered("joints", name)
    if laid is None:
        return []
    lathed = any(b.chosen.lath is not None for _, b in answers.of("coats", name).zones)
    base = answers.of("wall", name).zones[-1].zone
    return [
        EdgeRun(
            id=run.id,
            surface=name,
            where="field",
            kind=AS_EDGE[run.kind],
            length=run.length,
            base=as_hung(job.base(name, base), lathed=lathed),
            lathed=lathed,
            beads=run.beads,
            count=run.count,
        )
        for run in laid.runs
        if not run.on_edge
    ]


def _width(value: float | Fraction) -> Fraction:
    return Fraction(value).limit_denominator(10**9) if isinstance(value, float) else Fraction(value)


def _beyond(job: Job, answers: Answers, run: geometry.EdgeRun) -> str | None:
    """The base beyond an edge: of the zone across it, or of the surface on the other side of a shared corner."""
    if run.beyond:
        return _hung(job.base(run.surface, run.beyond), answers)
    if run.shared is None:
        return None
    other = next((name for name in run.shared.split("|") if name != run.surface), None)
    return next((_hung(b, answers) for b in job.bases if b.surface == other), None)


def _hung(base: Base, answers: Answers) -> str:
    """A base as beads find it, by what is chosen for it."""
    coats: SurfaceCoats | None = answers.answered("coats", base.surface)
    built = dict(coats.zones).get(base.zone) if coats is not None else None
    return as_hung(base, lathed=built is not None and built.chosen.lath is not None)


def _covers(entries: tuple[Also, ...]) -> tuple[Cover, ...]:
    """What is masked and protected, by surface ("job" where none is named)."""
    return tuple(
        Cover(entry.surface or "job", entry.area or NOUGHT, entry.length or NOUGHT)
        for entry in entries
        if entry.what in ("mask", "protect") and (entry.area or entry.length)
    )


STAGE: Stage[OrderAsk, Order] = Stage(
    "order", ("volumes", "mixes", "coats", "wall", "joints"), "job", "now", _ask, order
)
