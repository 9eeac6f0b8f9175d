"""One heavy coat floated against a base coat under a finish that is laid or thrown: what each takes and costs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from darby.answers.graph import Later, walk
from darby.job.model import Wanted
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.answers.stage import Answers
    from darby.job.model import Job

WAYS = (
    ("one-coat", "one-coat", "float"),
    ("float", "two-coat", "float"),
    ("dash", "two-coat", "dash"),
    ("wet-dash", "two-coat", "wet dash"),
)
"""Code, build-up and finish of each way, the quickest first."""

TAKEN_STRAIGHT = ("block", "brick")
"""Bases on which one heavy coat is a way at all."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way for all walls that it goes on. ``code`` of its sentence ("answers.way.<code>"); crew hours, trips, price.

    ``cautions``: codes of what stands against it on those walls and not against every way.
    """

    code: str
    surfaces: tuple[str, ...]
    hours: Quantity
    trips: Quantity
    total: Decimal
    cautions: tuple[str, ...] = ()


def ways(answers: Answers) -> tuple[Way, ...]:
    """The whole job answered once for each way, on every wall of bare block or brick; () where there is no price.

    A wall whose thickness he has fixed himself stays as it is.
    """
    from darby.answers import STAGES

    if "job" not in answers.good("price"):
        return ()
    places = tuple(_places(answers))
    surfaces = tuple(dict.fromkeys(surface for surface, _ in places))
    found: list[Way] = []
    for code, option, finish in WAYS if places else ():
        job = _built(answers.job, places, option, finish)
        other = walk(STAGES, job, answers.book, version=answers.made_with, since=answers, later=Later.skip)
        price, days = other.answered("price"), other.answered("days")
        if price is None or days is None or not price.complete:
            continue
        said = {n.code for s, z in places for n in other.of("coats", s).of(z).chosen.cautions}
        found.append(Way(code, surfaces, days.hours, days.count, price.total.value, tuple(sorted(said))))
    everywhere = set.intersection(*(set(way.cautions) for way in found)) if found else set()
    return tuple(replace(way, cautions=tuple(c for c in way.cautions if c not in everywhere)) for way in found)


def _places(answers: Answers) -> Iterator[tuple[str, str]]:
    """Zones that every way goes on."""
    fixed = {w.surface for w in answers.job.coats.on if w.total is not None or w.coats}
    for surface, coats in answers.good("coats").items():
        for zone, built in coats.zones:
            base = answers.job.base(surface, zone)
            if surface not in fixed and base.kind in TAKEN_STRAIGHT and built.option("two-coat") is not None:
                yield surface, zone


def _built(job: Job, places: tuple[tuple[str, str], ...], option: str, finish: str) -> Job:
    """The job with one way on all of these zones; what he said of them comes behind it."""
    on = []
    for surface, zone in places:
        before = next((w for w in job.coats.on if (w.surface, w.zone) == (surface, zone)), Wanted(surface, zone))
        on.append(replace(before, choose=option, finish=finish))  # type: ignore[arg-type]
    kept = [w for w in job.coats.on if (w.surface, w.zone) not in set(places)]
    return replace(job, coats=replace(job.coats, on=(*on, *kept)))
