"""Stage "grounds": where the finished face goes on a wall that was read, and what that costs. Slow: only when asked."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from darby.answers.coats import SurfaceCoats
from darby.answers.stage import NOTHING, Answers, Stage, Waiting
from darby.grounds import true_up
from darby.grounds.model import Grounds, GroundsAsk
from darby.price.model import Price
from darby.quantities import Order

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book

MORTAR = ("portland", "masonry cement", "plastic cement", "lime", "sand")


def _ask(job: Job, book: Book, answers: Answers, at: str) -> GroundsAsk | Waiting:
    read = next((r for r in job.readings if r.surface == at), None)
    if read is None:
        return NOTHING
    surface = job.surface(at)
    coats: SurfaceCoats = answers.of("coats", at)
    zone, built = coats.zones[-1]
    finish = built.chosen.coat("finish")
    return GroundsAsk(
        book=book,
        at=at,
        readings=read.points,
        outline=surface.outline,
        least=read.least if read.least is not None else built.chosen.least.value,
        openings=surface.openings,
        fixed=read.fixed,
        base=job.base(at, zone).kind,
        lathed=tuple(
            z.outline for z in surface.zones if z.outline is not None and coats.of(z.id).chosen.lath is not None
        ),
        finish=finish.nominal.value if finish is not None else 0.0,
        spacing=read.spacing,
        face=read.face or "plumb",
        held=read.held,
        price=_mortar_price(answers),
    )


def _mortar_price(answers: Answers) -> Decimal | None:
    """What a cubic metre of this job's own mortar costs in material [$/m3]; None where it is not priced."""
    price: Price | None = answers.answered("price")
    order: Order | None = answers.answered("order")
    if price is None or order is None or not price.complete:
        return None
    bags = {line.item for line in order.lines if line.each == "bag"}
    cost = sum(x.amount.value for x in price.lines if x.group == "material" and x.what in {*MORTAR, *bags})
    volume = sum(float(m.volume.value) for m in order.mortar)
    return Decimal(cost) / Decimal(repr(volume)) if volume else None


STAGE: Stage[GroundsAsk, Grounds] = Stage("grounds", ("coats", "order", "price"), "surface", "later", _ask, true_up)
