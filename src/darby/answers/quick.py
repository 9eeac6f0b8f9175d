"""One wall in one line, no job needed: the rooms meet here as they do for a job."""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from darby.mix import MixParts, proposed, yield_of
from darby.quantities import Allowances, Material, Mortar, QuickSum, Sand, quick_sum
from darby.rulebook import Book, default
from darby.working import Working


@dataclass(frozen=True, slots=True)
class Quick:
    """The sum, the mix it was reckoned with, and the working."""

    sum: QuickSum
    parts: MixParts
    working: Working


def quick(area: Fraction, thickness: Fraction, *, lathed: bool, book: Book | None = None) -> Quick:
    """Area [m2] at a thickness [m], with a base-coat mix inside the book's limits and nothing allowed for.

    Bags and sand are of the net mortar: what is added for waste and the like is the job's to say.
    """
    rules = book or default()
    parts = proposed("base", "none" if lathed else "usual", book=rules)
    made = yield_of(parts, book=rules)
    per = made.materials
    weighed = tuple(Material(item, q) for item, q in (("portland", per.portland), ("lime", per.lime)) if q is not None)
    sand = Sand(per.sand_loose, "damp loose", per.sand_dry) if per.sand_loose is not None else None
    none = Fraction(0)
    found, working = quick_sum(
        area,
        thickness,
        mortar=Mortar("base", weighed, sand, per.water),
        parts=tuple(Fraction(parts.of(m)) for m in parts.used),
        allow=Allowances(spread=none, waste=none, bulking=none),
        book=rules,
    )
    return Quick(found, parts, working)
