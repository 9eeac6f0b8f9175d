"""The order to each supplier, filled from the answers: what is still to be brought."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from darby.papers.filled.writer import Writer
from darby.papers.model import OrderPaper, OrderRow
from darby.words import day

if TYPE_CHECKING:
    from darby.quantities import Order, OrderLine


def orders(writer: Writer, order: Order) -> dict[str, OrderPaper]:
    """Supplier to order; what nobody sells stands on none. A supplier with nothing left to bring gets none."""
    by_supplier: dict[str, list[OrderLine]] = defaultdict(list)
    for line in order.lines:
        if line.supplier and line.packages is not None:
            by_supplier[line.supplier].append(line)
    job = writer.answers.job
    return {
        supplier: OrderPaper(
            firm=writer.firm,
            stamp=writer.stamp,
            title=writer.say("paper.order.title", supplier=supplier),
            supplier=supplier,
            deliver=job.address,
            rows=tuple(_row(writer, line) for line in lines),
            notes=(writer.say("paper.order.made", day=day(job.as_of, writer.language)),),
            language=writer.language,
        )
        for supplier, lines in by_supplier.items()
    }


def _row(writer: Writer, line: OrderLine) -> OrderRow:
    more = line.more if line.ordered is not None else line.whole or line.packages
    needed = writer.write(line.needed)
    also = ", ".join(writer.write(part.amount) for part in line.also)
    over = (
        writer.say("paper.order.over", amount=line.over) if line.standing == "over" and line.over is not None else ""
    )
    ordered = writer.write(line.ordered) if line.ordered is not None else ""
    return OrderRow(
        count=_number(writer, more),
        item=line.name or writer.say(line.says),
        package=line.written,
        needed=f"{needed} ({also})" if also else needed,
        ordered=f"{ordered}, {over}" if over else ordered,
    )


def _number(writer: Writer, count: object) -> str:
    return writer.write(count).split(" ")[0] if count is not None else ""
