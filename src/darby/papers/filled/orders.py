"""The order to each supplier, filled from the answers: what is still to be brought."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from darby.measure.limits import whole
from darby.measure.units import COUNTS
from darby.papers.filled.standing import leaning
from darby.papers.model import Caution, OrderPaper, OrderRow
from darby.words import Verbatim, day, package_said, units_said
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.papers.filled.writer import Writer
    from darby.quantities import Order, OrderLine
    from darby.words import Language

FREE = frozenset({"water"})
"""What nobody buys."""

BURN = frozenset({"portland", "masonry cement", "plastic cement", "lime"})


def orders(writer: Writer, order: Order) -> dict[str, OrderPaper]:
    """Supplier to order, in the order's order. Under "" stands what is needed and nobody was named for."""
    by_supplier: dict[str, list[OrderLine]] = defaultdict(list)
    for line in order.lines:
        if line.item not in FREE:
            by_supplier[line.supplier].append(line)
    return {supplier: _paper(writer, supplier, lines) for supplier, lines in by_supplier.items()}


def _paper(writer: Writer, supplier: str, lines: list[OrderLine]) -> OrderPaper:
    job = writer.answers.job
    title = (
        writer.say("paper.order.title", supplier=Verbatim(supplier))
        if supplier
        else writer.say("paper.order.no-supplier", name=Verbatim(job.name))
    )
    bagged = {bag.id for bag in job.firm.bagged}
    burns = any(line.item in BURN | bagged for line in lines)
    return OrderPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=title,
        supplier=supplier or writer.say("paper.order.anyone"),
        deliver=job.address,
        rows=tuple(_row(writer, line) for line in lines),
        notes=(*_since(writer, lines), *_leaning(writer, lines)),
        cautions=(Caution(writer.say("paper.order.cement"), writer.say("paper.order.cement-text")),) if burns else (),
        language=writer.language,
    )


def item_called(writer: Writer, line: OrderLine, language: Language | None = None) -> str:
    """What the firm calls it, else the bag's name, else the trade's word; a capital first."""
    bag = writer.answers.job.firm.bag(line.item)
    own = "" if line.name == line.item else line.name
    name = own or (bag.name if bag is not None else "") or writer.say(line.says, language)
    return name[:1].upper() + name[1:]


def _row(writer: Writer, line: OrderLine) -> OrderRow:
    more = line.more if line.ordered is not None else line.whole or line.packages
    loose = more is not None and not line.each and more.unit.name == ""
    count, unit = ("", "") if more is None else (writer.count(more.value), writer.write(more).partition(" ")[2])
    return OrderRow(
        count=count,
        unit=units_said(line.written, writer.language) if loose else unit,
        item=item_called(writer, line),
        package="" if loose else package_said(line.written, line.each, writer.language),
        needed=_needed(writer, line),
        ordered=_ordered(writer, line),
    )


def _needed(writer: Writer, line: OrderLine) -> str:
    """In packages before rounding, and what that is."""
    amount = _rough(writer, line.needed)
    other = [_rough(writer, p.amount) for p in line.also if p.amount.unit.dim != line.needed.unit.dim]
    if other:
        return writer.say("paper.order.by-other", amount=Verbatim(amount), other=Verbatim(other[0]))
    if line.exact is None or not line.exact.unit.name or line.exact.unit.name == line.needed.unit.name:
        return amount
    return f"{writer.write(line.exact)} ({amount})" if line.exact.value >= 1 else amount


def _rough(writer: Writer, amount: Quantity) -> str:
    """An amount that goes on to be rounded to packages: whole nails, and three figures of the rest."""
    if amount.unit.name in COUNTS and amount.unit.name != "bags":
        return writer.write(Quantity(whole(float(amount.value)), amount.unit))
    return writer.about(amount)


def _ordered(writer: Writer, line: OrderLine) -> str:
    """What is on order already, and how much of it is too much."""
    if line.ordered is None:
        return ""
    text = writer.write(line.ordered)
    if line.standing == "over" and line.over is not None:
        text += f" ({writer.say('paper.order.over', amount=line.over)})"
    return text


def _since(writer: Writer, lines: list[OrderLine]) -> list[str]:
    """Since when something is on order already."""
    notes = []
    for line in lines:
        for order in writer.answers.job.ordered:
            if order.item == line.item and order.on is not None:
                notes.append(
                    writer.say(
                        "paper.order.since",
                        item=Verbatim(item_called(writer, line)),
                        amount=Quantity(order.amount, order.unit),
                        day=Verbatim(day(order.on, writer.language, weekday=False)),
                    )
                )
    return notes


def _leaning(writer: Writer, lines: list[OrderLine]) -> list[str]:
    """Which amounts stand on figures that nobody published."""
    items: dict[str, list[str]] = defaultdict(list)
    for line in lines:
        weakest = leaning(writer, line.needed)
        if weakest:
            items[weakest].append(item_called(writer, line))
    return [
        writer.say(
            "paper.order.leans",
            standing=Verbatim(writer.say(f"standing.{weakest}")),
            items=Verbatim("; ".join(dict.fromkeys(named))),
        )
        for weakest, named in items.items()
    ]
