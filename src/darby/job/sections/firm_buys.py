"""[[buys]] of the firm file: what it buys, in which package, at what price."""

from __future__ import annotations

from darby.job import allowed as ok
from darby.job.fields import Document, Measured, key, must
from darby.job.firm import ITEMS, Buys
from darby.job.part import Part


class BuysDocument(Document):
    """[[buys]]: one thing the firm buys."""

    item: str = must("What it is, in darby's word for it (list below), or the `id` of a bagged material.")
    package: Measured = must("How it is sold: `94 lb bag`, `cu yd`, `27 x 97 in sheet`, `box of 1000`.")
    price: Measured = must("Price of one package: `$16.80`.")
    name: str = key("What you call it; it stands on the order.")
    supplier: str = key("Who sells it; the order is written for each supplier.")
    layers: int = key("Layers one roll lays at once; two-layer paper: 2.")


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
            buys.append(Buys(item, package, price, entry.text("name") or item, entry.text("supplier"), layers))
    return tuple(buys)
