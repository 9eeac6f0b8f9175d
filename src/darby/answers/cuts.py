"""Stage "cuts": every bead, screed and joint sawn from the cheapest bars. Slow, so only when asked."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.stage import Answers, Stage, Waiting
from darby.measure.limits import whole
from darby.measure.units import unit
from darby.quantities import Order, OrderAsk
from darby.quantities.cut_list import cut_lists
from darby.quantities.cutting.model import CutAsk, CutLists, Offcut, Piece, Profile, Splice, Stock
from darby.quantities.edges import bead_length

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book

LENGTH = unit("ft").dim


def _ask(job: Job, book: Book, answers: Answers, at: str) -> CutAsk | Waiting:  # noqa: ARG001 -- of the whole job
    order: Order = answers.of("order")
    pieces = _pieces(answers)
    beads = _beads(answers)
    profiles = []
    for item in dict.fromkeys(line.item for line in order.edges if line.item is not None):
        lines = [line for line in order.edges if line.item == item]
        wanted = tuple(
            Piece(run, length, count)
            for line in lines
            for run in line.runs
            for length, count in _counted(pieces[run], beads[run])
        )
        stock = tuple(
            Stock(length, price)
            for b in job.firm.buys
            if b.item == item and b.package.unit.dim == LENGTH
            for length, price in ((b.package.holds, b.price), *b.lengths)
        )
        if wanted and stock:
            held = tuple(Offcut(o.length, o.count, o.name) for o in job.cuts.on_truck if o.item == item)
            splice = None if item in job.cuts.one_piece else Splice(job.cuts.splice)
            profiles.append(Profile(item, wanted, stock, held, splice))
    blade = job.cuts.blade or Fraction(0)
    return CutAsk(tuple(profiles), blade, book=book) if profiles else Waiting(lacks=("answers.lacks.bars",))


def _pieces(answers: Answers) -> dict[str, tuple[tuple[Fraction, int], ...]]:
    """The pieces that each run comes in, and how many surfaces alike take them."""
    pieces: dict[str, tuple[tuple[Fraction, int], ...]] = {}
    for wall in answers.good("wall").values():
        for run in wall.runs:
            pieces[run.id] = tuple((length, run.count) for length in run.pieces or (run.length,))
    for laid in answers.good("joints").values():
        joints = {joint.id: joint for joint in laid.chosen.joints}
        for run in laid.runs:
            parts = joints[run.joint].pieces if run.joint in joints else ()
            lengths = tuple(_distance(a, b) for a, b in parts)
            whole = sum(lengths, Fraction(0)) == run.length
            pieces[run.id] = tuple((length, run.count) for length in (lengths if whole else (run.length,)))
    return pieces


def _distance(a: tuple[Fraction, Fraction], b: tuple[Fraction, Fraction]) -> Fraction:
    """Between two points of a plumb or level line [m]."""
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def _beads(answers: Answers) -> dict[str, int]:
    """How many beads stand side by side along each run that was asked of the order."""
    asked: OrderAsk = answers.kept[("order", "job")].ask
    return {run.id: whole(bead_length(run) / (run.length * run.count)) for run in asked.runs if run.length}


def _counted(pieces: tuple[tuple[Fraction, int], ...], beads: int) -> list[tuple[Fraction, int]]:
    """Pieces of one length together, each as often as beads stand side by side."""
    counts: dict[Fraction, int] = defaultdict(int)
    for length, count in pieces:
        counts[length] += count * beads
    return list(counts.items())


STAGE: Stage[CutAsk, CutLists] = Stage("cuts", ("order", "wall", "joints"), "job", "later", _ask, cut_lists)
