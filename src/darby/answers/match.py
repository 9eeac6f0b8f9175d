"""Stage "match": what an old face is made of, the sample boards that lead to it, and the old side where painted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.answers.coats import SurfaceCoats
from darby.answers.stage import NOTHING, Answers, Stage, Waiting
from darby.finish import Match, MatchAsk, OnSieve, OwnBoard, Sieve, Signed, match
from darby.measure.units import unit
from darby.quantities import Volumes
from darby.quantities.model import ZoneArea
from darby.working import Quantity

if TYPE_CHECKING:
    from quicktions import Fraction

    from darby.job.match import MatchWanted
    from darby.job.model import Job
    from darby.rulebook import Book

OLD_SIDE = "old-side"
"""The zone that is an old side, which is painted and not plastered."""
SQ_FT = unit("sq ft")


def _ask(job: Job, book: Book, answers: Answers, at: str) -> MatchAsk | Waiting:
    read = next((m for m in job.matches if m.surface == at), None)
    if read is None:
        return NOTHING
    coats: SurfaceCoats = answers.of("coats", at)
    zone, built = coats.zones[-1]
    wanted = job.coats.wanted(at, zone)
    finish = built.chosen.coat("finish")
    return MatchAsk(
        book=book,
        at=at,
        by=read.by,
        sand=tuple(
            OnSieve(Sieve(s.name, s.opening) if s.opening is not None else None, Quantity(s.amount, s.unit))
            for s in read.sand
        ),
        grains=tuple((Sieve(*fine), Sieve(*coarse)) for fine, coarse in read.grains),
        depths=read.depths,
        read_by=read.read_by,
        paint_coats=read.paint_coats,
        paint_kind=read.paint,
        film=read.film,
        looks=read.looks,
        wanted=wanted.finish or "float",
        wanted_sand=wanted.sand,
        coat=finish.nominal.value if finish is not None else 0,
        boards=tuple(OwnBoard(Sieve(*b.sand[0]), Sieve(*b.sand[1]), b.method, b.thickness, b.how) for b in read.boards),
        signed=_signed(read),
        new_painted=None if read.also_paint is None else bool(wanted.paint),
    )


def _signed(read: MatchWanted) -> Signed | None:
    signed = read.signed
    if signed is None:
        return None
    return Signed(signed.board, signed.by, signed.on.isoformat() if signed.on else "", signed.light, signed.off)


def old_sides(job: Job) -> tuple[tuple[str, Fraction, bool], ...]:
    """Old sides that are painted too: place, area [m2], whether there is paint on it already."""
    return tuple(
        (f"{m.surface}/{OLD_SIDE}", m.also_paint.area, bool(m.paint_coats or m.film))
        for m in job.matches
        if m.also_paint is not None
    )


def painted_sides(job: Job) -> tuple[tuple[str, Quantity], ...]:
    """Old sides that are painted too: place and area."""
    return tuple((place, Quantity(area, SQ_FT)) for place, area, _ in old_sides(job))


def old_side_volumes(job: Job, book: Book) -> tuple[Volumes, ...]:
    """Old sides as surfaces that take paint and nothing else; primer only where no paint is on them."""
    prime, paint = (round(book.number(f"coating.coats.{what}").number) for what in ("prime", "paint"))
    made = []
    for place, area, painted in old_sides(job):
        surface, _, zone = place.partition("/")
        whole, nothing = Quantity(area, SQ_FT), Quantity(0, SQ_FT)
        zone_area = ZoneArea(zone, "old plaster", whole, nothing, nothing, whole, whole, nothing, None,
                             primer=0 if painted else prime, paint=paint, before=int(painted))  # fmt: skip
        made.append(Volumes(surface, "", "", whole, (zone_area,), (), ()))
    return tuple(made)


STAGE: Stage[MatchAsk, Match] = Stage("match", ("coats",), "surface", "now", _ask, match)
