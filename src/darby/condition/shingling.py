"""Paper like shingles: in what order a patch is tied into what stays, so that water always runs over the next piece."""

from __future__ import annotations

from darby.condition.patch_model import PatchAsk, SideCut
from darby.measure.units import unit
from darby.rulebook.model import Figure
from darby.working.model import Note, Quantity, note

_INCH = unit("in")


def order_of(ask: PatchAsk, sides: tuple[SideCut, ...]) -> tuple[Note, ...]:
    """What is done, first to last. On lath: sill, jambs, head, each over the one below; the head under the old paper.

    On masonry there is nothing to shingle: the edge is wetted and the coats go on.
    """
    there = {cut.side for cut in sides}
    at = ask.surface
    done = [note("condition.order.score", "fact", at)]
    if not ask.lathed:
        return (*done, note("condition.order.masonry", "fact", at))
    book = ask.book
    tie = book.number("patch.tie")
    done.append(note("condition.order.bare", "fact", at, rules=_ids(tie), tie=_of(tie)))
    if ask.papers:
        level, plumb = book.number("wrb.lap.horizontal"), book.number("wrb.lap.vertical")
        if "sill" in there:
            done.append(note("condition.order.sill", "fact", at, rules=_ids(level), lap=_of(level)))
        done.append(note("condition.order.set", "fact", at))
        if there & {"left", "right"}:
            done.append(note("condition.order.jambs", "fact", at, rules=_ids(plumb), lap=_of(plumb)))
        if "head" in there:
            done.append(note("condition.order.head", "fact", at, rules=_ids(level), lap=_of(level)))
        if ask.papers > 1:
            done.append(note("condition.order.again", "fact", at, layers=ask.papers))
    end, wire = book.number("lath.lap.end"), book.number("patch.wire")
    done.append(note("condition.order.lath", "fact", at, rules=_ids(end, wire), lap=_of(end), wire=_of(wire)))
    return (*done, note("condition.order.edge", "fact", at))


def _of(figure: Figure) -> Quantity:
    return Quantity(figure.number, _INCH)


def _ids(*figures: Figure) -> tuple[str, ...]:
    return tuple(figure.id for figure in figures)
