"""[[buys]] of the firm file: what it buys, in which package, at what price."""

from __future__ import annotations

from decimal import Decimal

from quicktions import Fraction

from darby.job import allowed as ok
from darby.job.fields import Document, Measured, key, must
from darby.job.firm import ITEMS, Buys, Package
from darby.job.part import Part
from darby.measure.units import unit

LENGTH = unit("ft").dim


class LengthDocument(Document):
    """lengths: another length of the same bar."""

    length: Measured = must("How long one is: `12 ft`.")
    price: Measured = must("Price of one.")


class BuysDocument(Document):
    """[[buys]]: one thing the firm buys."""

    item: str = must("What it is, in darby's word for it (list below), or the `id` of a bagged material.")
    package: Measured = must("How it is sold: `94 lb bag`, `cu yd`, `27 x 97 in sheet`, `box of 1000`.")
    price: Measured = must("Price of one package: `$16.80`.")
    name: str = key("What you call it; it stands on the order.")
    supplier: str = key("Who sells it; the order is written for each supplier.")
    layers: int = key("Layers one roll lays at once; two-layer paper: 2.")
    lengths: list[LengthDocument] = key('Other lengths of the same bar: `{ length = "12 ft", price = "$9.90" }`.')


def read_buys(part: Part, bags: tuple[str, ...]) -> tuple[Buys, ...]:
    """[[buys]] entries. The same item from the same supplier in the same package stands once."""
    buys: list[Buys] = []
    allowed = (*ITEMS, *bags)
    seen: set[str] = set()
    for entry in part.parts("buys"):
        item = entry.text("item", must=True)
        if item and item not in allowed:
            entry.unknown("item", "job.unknown-item", item, allowed)
        if item in seen:
            entry.fault("item", "job.twice", item, ok.ONCE)
        seen.add(item)
        package, price = entry.package("package"), entry.money("price", positive=True)
        if package is not None and price is not None:
            layers = entry.count("layers", 1, most=9)
            lengths = _lengths(entry, package)
            buys.append(Buys(item, package, price, entry.text("name") or item, entry.text("supplier"), layers, lengths))
    return tuple(buys)


def _lengths(entry: Part, package: Package) -> tuple[tuple[Fraction, Decimal], ...]:
    """Other lengths of a bar, each once."""
    found: dict[Fraction, Decimal] = {}
    bar = package.unit.dim == LENGTH
    for row in entry.parts("lengths"):
        length, price = row.length("length", positive=True), row.money("price", positive=True)
        if not bar:
            row.fault("length", "job.not-here", row.raw.get("length", ""), "10 ft piece")
        elif length is not None and (length in found or length == package.holds):
            row.fault("length", "job.twice", row.raw["length"], ok.ONCE)
        elif length is not None and price is not None:
            found[length] = price
    return tuple(found.items())
