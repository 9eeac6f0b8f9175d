"""What was taken for granted and moves the price most: each is changed by itself, and the whole job answered anew."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.graph import no_collecting
from darby.answers.otherwise import priced
from darby.job.model import Job, Wanted
from darby.measure.units import unit
from darby.price import ranked
from darby.price.model import Move
from darby.working.formula import exact

if TYPE_CHECKING:
    from darby.answers.stage import Answers
    from darby.job.firm import Firm

MOST = 3


def moves(answers: Answers) -> tuple[Move, ...]:
    """The three assumptions that move the price most, the largest first; () where there is no price.

    How far each is moved is the book's (``price.what-if``); suction that nobody tested is taken as low. A name is
    the code of a sentence, "answers.move.<name>".
    """
    price = answers.answered("price")
    if price is None:
        return ()
    share = exact(answers.book.number("price.what-if").number, unit("%"))
    prices = []
    with no_collecting():
        for name, job in _variations(answers.job, share):
            changed = priced(answers, job)
            if changed is not None:
                prices.append((name, changed.total.value))
    return tuple(m for m in ranked(price.total.value, prices) if m.change)[:MOST]


def _variations(job: Job, share: Fraction) -> Iterator[tuple[str, Job]]:
    """The job with one thing changed, by its name."""
    firm, more = job.firm, 1 + share
    for name, other in _of_firm(firm, more, share):
        yield name, replace(job, firm=other)
    solid = {b.surface for b in job.bases if b.kind in ("block", "concrete")}
    untested = sorted(solid - {w.surface for w in job.coats.on if w.suction is not None})
    if untested:
        low = tuple(Wanted(surface=name, suction="low") for name in untested)
        yield "suction", replace(job, coats=replace(job.coats, on=(*job.coats.on, *low)))


def _of_firm(firm: Firm, more: Fraction, share: Fraction) -> Iterator[tuple[str, Firm]]:
    yield "pace", replace(firm, pace=tuple(replace(p, rate=p.rate / more) for p in firm.pace))
    yield "wage", replace(firm, crew=tuple(replace(c, wage=_times(c.wage, more)) for c in firm.crew))
    yield "material", replace(firm, buys=tuple(replace(b, price=_times(b.price, more)) for b in firm.buys))
    for name in ("spread", "waste"):
        if firm.allowance(name) is not None:
            raised = tuple(replace(a, part=a.part + share) if a.name == name else a for a in firm.allow)
            yield name, replace(firm, allow=raised)


def _times(money: Decimal, more: Fraction) -> Decimal:
    return money * Decimal(more.numerator) / Decimal(more.denominator)
