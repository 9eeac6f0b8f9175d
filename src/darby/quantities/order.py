"""The order: what the job takes, in packages rounded once on the job's total, against what was ordered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.quantities.coating import bonding_need, cover_needs, paint_needs
from darby.quantities.edges import bead_length, edge_lines, parted
from darby.quantities.items import called_in_a_note, sentence_of
from darby.quantities.lath import AT, Need, buy_word, fastener_needs, lath_need, lathed, paper_need
from darby.quantities.lines import share
from darby.quantities.materials import material_needs, mortar_by_mix
from darby.quantities.model import BagLabel, Buy, EdgeLine, EdgeRun, Order, OrderAsk, Ordered, OrderLine, Standing
from darby.quantities.sealing import length_need, sealing_needs
from darby.rulebook import Book, Figure
from darby.working import Quantity, Working

PART_BAG = frozenset({"lime"})
"""Bags of these keep, open: the job takes a part of one, and the rest goes back on the truck."""


def order(ask: OrderAsk) -> tuple[Order, Working]:
    """Everything the job takes, one line an item, every package rounded once.

    Raises
    ------
    Unreadable
        if a mix that is laid is not described.
    """
    working = Working()
    book = ask.book
    buys = {b.item: b for b in ask.buys}
    zones = [(v.surface, z) for v in ask.volumes for z in v.areas]
    on_lath = lathed(zones)
    cut = share(working, book, "allow.accessories", ask.allow.accessories, "job")
    mortar = mortar_by_mix(working, ask.volumes)
    needs = material_needs(working, book, mortar, ask.mortars, ask.allow)
    if on_lath:
        sheet_cut = share(working, book, "allow.lath", ask.allow.lath, "job")
        found = (
            lath_need(working, book, on_lath, sheet_cut, buys.get("lath")),
            paper_need(working, book, on_lath, sheet_cut, buys.get("paper")),
        )
        needs += [n for n in found if n is not None] + fastener_needs(working, book, on_lath)
    edges = edge_lines(working, book, ask.runs)
    needs += _beads(working, ask.runs, edges, cut)
    sealed = {r for line in edges if parted(line) for r in line.runs}
    ordered_runs = sorted((r for r in ask.runs if r.id in sealed), key=lambda r: (r.surface, r.id))
    needs += sealing_needs(working, book, ordered_runs, ask.joints, cut)
    bonding = bonding_need(working, book, zones)
    needs += [bonding] if bonding is not None else []
    needs += paint_needs(working, book, zones, ask.film)
    needs += cover_needs(working, ask.covers, cut)
    bags = {m.item for m in ask.mortars if isinstance(m, BagLabel)}
    lines = tuple(_line(working, book, n, buys.get(n.item), ask.ordered, bagged=n.item in bags) for n in needs)
    for o in ask.ordered:
        if all(o.item != n.item for n in needs):
            working.note(
                "quantities.ordered-not-needed",
                "caution",
                "job",
                item=called_in_a_note(o.item),
                amount=Quantity(o.amount, o.unit),
            )
    return Order(mortar, lines, edges), working


def _beads(working: Working, runs: Sequence[EdgeRun], edges: Sequence[EdgeLine], cut: Quantity | Figure) -> list[Need]:
    by_id: Mapping[str, EdgeRun] = {r.id: r for r in runs}
    lengths: dict[str, list[Quantity]] = {}
    for line in edges:
        if line.item is not None:
            taken = [by_id[r] for r in line.runs]
            lengths.setdefault(line.item, []).extend(Quantity(bead_length(r), unit("ft-in")) for r in taken)
    return [length_need(working, item, "quantities.edge-length", row, cut) for item, row in sorted(lengths.items())]


def _line(
    working: Working, book: Book, need: Need, buy: Buy | None, orders: Sequence[Ordered], *, bagged: bool
) -> OrderLine:
    key = f"{AT}/{need.item.replace(' ', '-')}"
    says = "quantities.item.bagged" if bagged else sentence_of(need.item)
    called = (buy.name if buy and buy.name else need.item) if bagged else called_in_a_note(need.item)
    exact = need.exact
    word = "bags" if bagged else buy_word(buy) if buy is not None else ""
    if exact is None and buy is not None:
        exact = _packages(working, key, need, buy, word)
    if exact is None and buy is None and need.item == "portland":
        word = "bags"
        exact = working.step(
            f"{key}/exact",
            "needed / package",
            word,
            "quantities.packages-exact",
            needed=need.needed,
            package=book.number("mix.bag.portland"),
        )
    if exact is None or buy is None:
        _no_package(working, need, buy, called)
    if exact is None:
        return OrderLine(
            need.item,
            says,
            buy.name if buy else "",
            buy.supplier if buy else "",
            need.needed,
            need.made_of,
            also=need.also,
            by_rule=need.by_rule,
        )
    packages = _rounded(working, book, key, need.item, exact, loose=buy is not None and not buy.each and not bagged)
    whole = packages
    if need.item in PART_BAG:
        whole = working.step(
            f"{key}/whole", "ceil(packages)", packages.unit, "quantities.packages-whole", packages=packages
        )
    ordered = _ordered(working, key, need.item, orders, buy, packages)
    more = over = None
    standing: Standing = "not ordered"
    if ordered is not None:
        more = working.step(
            f"{key}/more",
            "max(whole - ordered, 0)",
            packages.unit,
            "quantities.order-more",
            whole=whole,
            ordered=ordered,
        )
        over = working.step(
            f"{key}/over",
            "max(ordered - whole, 0)",
            packages.unit,
            "quantities.order-over",
            whole=whole,
            ordered=ordered,
        )
        standing = "enough"
        if not at_most(float(whole), float(ordered)):
            standing = "short"
            working.note("quantities.short", "fact", "job", item=called, ordered=ordered, needed=whole, more=more)
        elif not at_most(float(ordered), float(whole)):
            standing = "over"
            working.note("quantities.too-many", "fact", "job", item=called, ordered=ordered, needed=whole, over=over)
    return OrderLine(
        item=need.item,
        says=says,
        name=buy.name if buy else "",
        supplier=buy.supplier if buy else "",
        needed=need.needed,
        made_of=need.made_of,
        written=buy.written if buy else "",
        each=buy.each if buy else "",
        package=Quantity(buy.holds, buy.unit) if buy else None,
        exact=exact,
        packages=packages,
        whole=whole,
        ordered=ordered,
        more=more,
        over=over,
        standing=standing,
        also=need.also,
        by_rule=need.by_rule,
    )


def _packages(working: Working, key: str, need: Need, buy: Buy, word: str) -> Quantity | None:
    """Packages before rounding; by the same thing in another measure where that is how it is sold (sand by the ton)."""
    for amount in (need.needed, *(p.amount for p in need.also)):
        if amount.unit.dim == buy.unit.dim:
            return working.step(
                f"{key}/exact",
                "needed / package",
                word,
                "quantities.packages-exact",
                needed=amount,
                package=Quantity(buy.holds, buy.unit),
            )
    return None


def _rounded(working: Working, book: Book, key: str, item: str, exact: Quantity, *, loose: bool) -> Quantity:
    """Rounded up, once, on the job's total: whole packages; lime by part bag; loose goods by the part a yard sells."""
    if item in PART_BAG or loose:
        step = book.number("order.part-bag" if item in PART_BAG else "order.part-load")
        return working.step(
            f"{key}/packages",
            "ceil(exact / part) * part",
            exact.unit,
            "quantities.packages-part",
            exact=exact,
            part=step,
        )
    return working.step(f"{key}/packages", "ceil(exact)", exact.unit, "quantities.packages-whole", exact=exact)


def _ordered(
    working: Working, key: str, item: str, orders: Sequence[Ordered], buy: Buy | None, packages: Quantity
) -> Quantity | None:
    """Packages already on order; an amount in pounds, yards ... is turned into packages."""
    found = []
    for n, o in enumerate((o for o in orders if o.item == item), start=1):
        if o.unit.dim == unit("").dim:
            found.append(Quantity(o.amount, packages.unit))
        elif buy is not None and o.unit.dim == buy.unit.dim:
            found.append(
                working.step(
                    f"{key}/ordered-{n}",
                    "amount / package",
                    packages.unit,
                    "quantities.ordered",
                    amount=Quantity(o.amount, o.unit),
                    package=Quantity(buy.holds, buy.unit),
                )
            )
        else:
            working.note(
                "quantities.ordered-unlike",
                "caution",
                "job",
                item=called_in_a_note(item),
                amount=Quantity(o.amount, o.unit),
            )
    if not found:
        return None
    if len(found) == 1:
        return found[0]
    names = {f"order_{n}": q for n, q in enumerate(found, start=1)}
    return working.step(f"{key}/ordered", " + ".join(names), packages.unit, "quantities.ordered", rules=(), **names)


def _no_package(working: Working, need: Need, buy: Buy | None, called: str) -> None:
    if buy is not None:
        working.note(
            "quantities.package-unlike",
            "caution",
            "job",
            item=called,
            package=buy.written or buy.each,
            needed=need.needed,
        )
    elif need.item != "water":
        working.note("quantities.no-package", "caution", "job", item=called, needed=need.needed)
