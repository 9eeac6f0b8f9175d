"""What the customer might rather have: the same job with one thing chosen otherwise, and what that adds or saves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from darby.answers.graph import no_collecting
from darby.answers.otherwise import priced
from darby.job.model import Job, Wanted

if TYPE_CHECKING:
    from darby.answers.stage import Answers

OFFERED = ("three-coat", "single-base")
"""Ways of building up block that are offered beside the chosen one."""


@dataclass(frozen=True, slots=True)
class Alternative:
    """``code`` of its sentence, the surfaces it is about, and the difference to the price [$]."""

    code: str
    surfaces: tuple[str, ...]
    change: Decimal


def alternatives(answers: Answers) -> tuple[Alternative, ...]:
    """Each alternative answered as a whole job; () where there is no price. Those that change nothing are left out."""
    price = answers.answered("price")
    if price is None:
        return ()
    found = []
    with no_collecting():
        for code, surfaces, job in _variations(answers):
            changed = priced(answers, job)
            if changed is not None and changed.complete and changed.total.value != price.total.value:
                found.append(Alternative(code, surfaces, changed.total.value - price.total.value))
    return tuple(found)


def _variations(answers: Answers) -> Iterator[tuple[str, tuple[str, ...], Job]]:
    job = answers.job
    fixed = {w.surface for w in job.coats.on if w.choose is not None or w.total is not None}
    for option in OFFERED:
        open_to_it = tuple(
            surface
            for surface, coats in answers.good("coats").items()
            if surface not in fixed
            and any(b.chosen.id == "two-coat" and b.option(option) is not None for _, b in coats.zones)
        )
        if open_to_it:
            on = (*job.coats.on, *_all(answers, open_to_it, option))
            yield option, open_to_it, replace(job, coats=replace(job.coats, on=on))
    if not job.coats.paint and job.firm.buy("paint") is not None and job.firm.pace_of("paint") is not None:
        yield "paint", tuple(answers.good("coats")), replace(job, coats=replace(job.coats, paint=True))


def _all(answers: Answers, surfaces: tuple[str, ...], option: str) -> Iterator[Wanted]:
    """The option on every zone of these surfaces that goes straight on its base."""
    for surface in surfaces:
        for zone, built in answers.of("coats", surface).zones:
            if built.chosen.id == "two-coat":
                yield Wanted(surface=surface, zone=zone, choose=option)  # type: ignore[arg-type]
