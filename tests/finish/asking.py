"""What the tests of the finish room ask with: sieves of the book, amounts in grams, depths in mils."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from darby.finish import Match, MatchAsk, OnSieve, Sieve, match, sieves
from darby.measure.units import unit
from darby.rulebook import default
from darby.working import Note, Quantity, Working

BOOK = default()
NAMED = {s.name: s for s in sieves(BOOK)}
MIL, INCH, MM = (unit(name).scale for name in ("mil", "in", "mm"))


def sieve(name: str) -> Sieve:
    return NAMED[name if name in NAMED else f"No. {name}"]


def grams(**kept: float) -> tuple[OnSieve, ...]:
    """``n16=3, pan=1``: so much on each sieve, coarse to fine."""
    return kept_of({("pan" if name == "pan" else name.removeprefix("n")): kept[name] for name in kept}, "g")


def kept_of(rows: dict[str, float], measure: str) -> tuple[OnSieve, ...]:
    u = unit(measure)
    return tuple(
        OnSieve(None if name == "pan" else sieve(name), Quantity(u.to_si(Fraction(str(amount))), u))
        for name, amount in rows.items()
    )


FACE = grams(n4=0, n8=11, n16=48, n20=20, n30=12, n50=6, pan=3)


def ask(**fields: Any) -> MatchAsk:
    fields.setdefault("by", "retained")
    fields.setdefault("coat", INCH / 8)
    if fields["by"] != "grains":
        fields.setdefault("sand", FACE)
    if "mils" in fields:
        fields["depths"] = tuple(Fraction(str(m)) * MIL for m in fields.pop("mils"))
    return MatchAsk(book=fields.pop("book", BOOK), at="bay-south", **fields)


def run(**fields: Any) -> tuple[Match, Working]:
    return match(ask(**fields))


def matched(**fields: Any) -> Match:
    return run(**fields)[0]


def mils(quantity: Quantity | None) -> float:
    assert quantity is not None
    return float(quantity.value / MIL)


def codes(notes: Iterable[Note]) -> set[str]:
    return {n.code.removeprefix("finish.") for n in notes}


def said(notes: Iterable[Note], code: str) -> dict[str, object]:
    (found,) = (n for n in notes if n.code == f"finish.{code}")
    return dict(found.values)
