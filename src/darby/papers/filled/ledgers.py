"""The answers at a glance, at the head of the working package: coats, order, days, money, what moves the price."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import TYPE_CHECKING

from darby.answers.moves import moves
from darby.papers.filled.orders import item_called
from darby.papers.filled.places import zone_called
from darby.papers.filled.standing import leaning
from darby.papers.model import Ledger, LedgerRow
from darby.words import Verbatim, day, units_said
from darby.working import Amount

if TYPE_CHECKING:
    from darby.days.model import Trip, Visits
    from darby.papers.filled.writer import Writer
    from darby.price.model import Price
    from darby.quantities import Order

SET_BY = {"area": "area", "trips": "trips", "least charge": "least-charge"}
ASKED = "price.asked-"
"""Notes that ask whether a number is right, because it is not what the firm usually has."""


def ledgers(writer: Writer) -> Iterator[Ledger]:
    """Each as far as it is answered."""
    good = {stage: writer.answers.answered(stage) for stage in ("order", "days", "price")}
    yield _put_on(writer)
    if good["order"] is not None:
        yield _order(writer, good["order"])
    if good["days"] is not None:
        yield _days(writer, good["days"])
    if good["price"] is not None:
        yield _money(writer, good["price"])
        moved = moves(writer.answers)
        if moved:
            yield Ledger(
                writer.say("paper.working.moves"),
                tuple(LedgerRow(writer.say(f"answers.move.{m.name}"), _signed(writer, m.change)) for m in moved),
            )


def _put_on(writer: Writer) -> Ledger:
    """What goes on each place."""
    rows = []
    for surface, coats in writer.answers.good("coats").items():
        for zone, built in coats.zones:
            depths = " + ".join(writer.write(c.nominal) for c in built.chosen.coats)
            what = f"{writer.say(f'buildup.option.{built.chosen.id}')}, {depths}"
            soft = bool(leaning(writer, built.chosen.nominal, *(c.nominal for c in built.chosen.coats)))
            rows.append(LedgerRow(zone_called(writer.answers.job, surface, zone, writer.language), what, soft))
    return Ledger(writer.say("paper.working.put-on"), tuple(rows))


def _order(writer: Writer, order: Order) -> Ledger:
    rows = []
    for line in order.lines:
        shown = writer.write(line.packages) if line.packages is not None else writer.about(line.needed)
        if line.packages is not None and not line.each and not line.packages.unit.name:
            shown = f"{shown} {units_said(line.written, writer.language)}"
        rows.append(LedgerRow(item_called(writer, line), shown, bool(leaning(writer, line.needed))))
    return Ledger(writer.say("paper.working.order"), tuple(rows))


def _days(writer: Writer, days: Visits) -> Ledger:
    rows = [
        LedgerRow(
            writer.say("paper.working.trip", n=trip.number, day=Verbatim(day(trip.day, writer.language)),
                       work=Verbatim(_work(writer, trip))),
            writer.write(trip.hours),
        )
        for trip in days.trips
    ]  # fmt: skip
    summed = writer.say("paper.working.days-sum", trips=days.count, span=days.span, forced=days.forced)
    return Ledger(writer.say("paper.working.days"), tuple(rows), (summed,))


def _work(writer: Writer, trip: Trip) -> str:
    """What is done on a trip, and where; why there is a trip, where a coat had to wait."""
    done: dict[str, list[str]] = defaultdict(list)
    for piece in trip.pieces:
        done[_called(writer, piece.coat)].append(piece.at)
    said = []
    for work, at in done.items():
        places = writer.listed(writer.places(at))
        said.append(f"{work} ({places})" if places else work)
    if trip.why == "wait":
        said.append(writer.say("paper.working.wait", place=Verbatim(writer.place(trip.waited_at))))
    if trip.why == "done":
        said.append(writer.say("paper.working.done"))
    return ", ".join(said)


def _called(writer: Writer, work: str) -> str:
    for code in (f"paper.work.{work}", f"paper.also.{work}"):
        if writer.knows(code):
            return writer.say(code).lower()
    return writer.write(work)


def _money(writer: Writer, price: Price) -> Ledger:
    loaded = price.loaded
    rows = [
        ("price.labor", loaded.labor), ("price.material", loaded.material), ("price.rest", loaded.rest),
        ("price.cost", loaded.cost), ("price.overhead-all", loaded.overhead), ("price.profit", loaded.profit),
        ("price.total", price.total), ("price.markup", price.markup), ("price.margin", price.margin),
    ]  # fmt: skip
    written = [LedgerRow(writer.say(code), writer.write(amount)) for code, amount in rows]
    if price.per_area is not None:
        area = Verbatim(writer.area(price.area))
        written.append(LedgerRow(writer.say("paper.working.per-area", area=area), writer.per(price.per_area)))
    return Ledger(writer.say("paper.working.money"), tuple(written), tuple(_plausible(writer, price)))


def _plausible(writer: Writer, price: Price) -> Iterator[str]:
    """What set the price, whether it is what the firm usually has, and what it is without."""
    if not price.complete:
        yield from (writer.note(n) for n in writer.answers.notes if n.code == "price.no-price")
    code = f"price.set-by-{price.set_by.replace(' ', '-')}"
    yield writer.say(code, by_area=price.by_area, forced=price.forced, total=price.total)
    if price.usual_low is not None and price.usual_high is not None:
        yield writer.say("paper.working.usual", low=price.usual_low, high=price.usual_high)
    yield from (writer.note(n) for n in writer.answers.notes if n.code.startswith(ASKED))


def _signed(writer: Writer, change: object) -> str:
    amount = Amount(abs(change))  # type: ignore[arg-type]
    return f"{'+' if change > 0 else '−'}{writer.write(amount)}"  # type: ignore[operator]
