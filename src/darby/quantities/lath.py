"""Lath, paper and fasteners: sheets and rolls after their laps, fasteners by base and edition."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from quicktions import Fraction

from darby.measure.units import unit
from darby.quantities.lines import total
from darby.quantities.model import Buy, Part, ZoneArea
from darby.rulebook import Book, Figure
from darby.working import Quantity, Working

AT = "job/order"
Share = Quantity | Figure


@dataclass(frozen=True, slots=True)
class Need:
    """What an item takes before it meets its package: ``needed`` in its own unit, or ``exact`` packages at once."""

    item: str
    needed: Quantity
    made_of: tuple[Part, ...]
    exact: Quantity | None = None
    also: tuple[Part, ...] = ()
    by_rule: Quantity | None = None


def lathed(zones: Iterable[tuple[str, ZoneArea]]) -> list[tuple[str, ZoneArea]]:
    """Surface id and zone of every zone that takes lath, in an order that does not hang on the order of surfaces."""
    return sorted(((s, z) for s, z in zones if z.lathed), key=lambda p: (p[0], p[1].zone))


def net_sheet(
    working: Working, book: Book, key: str, sides: tuple[Fraction | float, Fraction | float] | None = None
) -> Quantity:
    """What one sheet of lath covers after its laps [m2]: (width - side lap) x (length - end lap).

    ``sides`` as bought [m], None = the book's sheet; laps by the voice that the book follows ("c1063", "merritt").
    """
    width: Quantity | Figure = book.number("lath.sheet.width")
    length: Quantity | Figure = book.number("lath.sheet.length")
    if sides is not None:
        width, length = (Quantity(x, unit("in")) for x in sorted(sides))
    return working.step(
        key,
        "(width - side_lap) * (length - end_lap)",
        "sq ft",
        "quantities.lath-net-sheet",
        width=width,
        side_lap=book.number("lath.lap.side"),
        length=length,
        end_lap=book.number("lath.lap.end"),
    )


def lath_need(
    working: Working, book: Book, zones: list[tuple[str, ZoneArea]], cut: Share, buy: Buy | None
) -> Need | None:
    """Sheets of lath for the whole job, not yet rounded; the square-yard rule beside them."""
    if not zones:
        return None
    area = total(working, f"{AT}/lath/area", "quantities.lath-area", "sq ft", [z.by_net for _, z in zones])
    cutting = working.step(f"{AT}/lath/cutting", "area * cut", "sq ft", "quantities.cutting", area=area, cut=cut)
    needed = working.step(
        f"{AT}/lath/needed", "area + cutting", "sq ft", "quantities.needed", area=area, cutting=cutting
    )
    sheet = _sheet_as_bought(working, book, buy)
    exact = working.step(
        f"{AT}/lath/exact", "needed / sheet", "sheets", "quantities.packages-exact", needed=needed, sheet=sheet
    )
    rule = working.step(
        f"{AT}/lath/by-the-yard",
        "ceil(area / yards * sheets)",
        "sheets",
        "quantities.lath-by-yard",
        area=area,
        yards=book.number("lath.bundle.area"),
        sheets=book.number("lath.bundle.sheets"),
    )
    return Need(
        "lath",
        needed,
        (Part("quantities.lath-area", area), Part("quantities.cutting", cutting)),
        exact,
        (Part("quantities.lath-net-sheet", sheet),),
        rule,
    )


def _sheet_as_bought(working: Working, book: Book, buy: Buy | None) -> Quantity:
    """What a sheet or a roll covers: its sides less the laps; where only its area is known, that, and it is said."""
    key = f"{AT}/lath/net-sheet"
    if buy is None or buy.sides is not None or buy.unit.dim != unit("sq ft").dim:
        return net_sheet(working, book, key, buy.sides if buy is not None else None)
    working.note("quantities.lath-laps-unknown", "caution", "job", package=buy.written or buy.each)
    return working.step(key, "package", "sq ft", "quantities.lath-net-sheet", package=Quantity(buy.holds, buy.unit))


def paper_layers(book: Book, zone: ZoneArea) -> Quantity | Figure | None:
    """Layers of paper behind the lath: as said, else by the sheathing, wood where nobody said. None over masonry."""
    if zone.paper is not None:
        return Quantity(zone.paper) if zone.paper else None
    if zone.base != "frame":
        return None
    return book.number("prep.paper", sheathing=zone.sheathing or "wood")


def paper_need(
    working: Working, book: Book, zones: list[tuple[str, ZoneArea]], cut: Share, buy: Buy | None
) -> Need | None:
    """Paper for the whole job [m2, all layers with laps], and rolls, not yet rounded."""
    layers = []
    for surface, z in zones:
        count = paper_layers(book, z)
        if count is None:
            working.note("quantities.no-paper-on-masonry", "fact", f"{surface}/{z.zone}")
            continue
        layers.append(
            working.step(
                f"{surface}/{z.zone}/paper",
                "area * layers",
                "sq ft",
                "quantities.paper-layers",
                area=z.by_net,
                layers=count,
            )
        )
    if not layers:
        return None
    area = total(working, f"{AT}/paper/area", "quantities.paper-area", "sq ft", layers)
    cutting = working.step(f"{AT}/paper/cutting", "area * cut", "sq ft", "quantities.cutting", area=area, cut=cut)
    width = book.number("paper.width")
    laps = working.step(
        f"{AT}/paper/laps",
        "(area + cutting) * lap / (width - lap)",
        "sq ft",
        "quantities.paper-laps",
        area=area,
        cutting=cutting,
        lap=book.number("wrb.lap.horizontal"),
        width=width,
    )
    parts = [
        Part("quantities.paper-area", area),
        Part("quantities.cutting", cutting),
        Part("quantities.paper-laps", laps),
    ]
    needed = working.step(
        f"{AT}/paper/needed",
        "area + cutting + laps",
        "sq ft",
        "quantities.needed",
        area=area,
        cutting=cutting,
        laps=laps,
    )
    if buy is None or buy.unit.dim != unit("sq ft").dim:
        return Need("paper", needed, tuple(parts))
    roll = Quantity(buy.holds, buy.unit)
    ends = working.step(
        f"{AT}/paper/net-roll",
        "plies * (roll - width * lap)",
        "sq ft",
        "quantities.paper-net-roll",
        plies=buy.layers,
        roll=roll,
        width=width,
        lap=book.number("wrb.lap.vertical"),
    )
    exact = working.step(
        f"{AT}/paper/exact", "needed / roll", buy_word(buy), "quantities.packages-exact", needed=needed, roll=ends
    )
    return Need("paper", needed, tuple(parts), exact, (Part("quantities.paper-net-roll", ends),))


def fastener_needs(working: Working, book: Book, zones: list[tuple[str, ZoneArea]]) -> list[Need]:
    """Fasteners: along studs at the edition's spacing; on block by the area that one of them holds. Rounded once."""
    by_item: dict[str, list[Quantity]] = {}
    for surface, z in zones:
        key = f"{surface}/{z.zone}/fasteners"
        if z.base == "frame":
            item = "lath fasteners"
            found = fasteners_on_studs(working, book, key, z.by_net, z.studs)
            if z.studs is None:
                studs = book.number("studs.spacing")
                working.note(
                    "quantities.assumed.studs", "assumed", f"{surface}/{z.zone}", rules=(studs.id,), studs=studs
                )
        else:
            item = "masonry lath fasteners"
            found = fasteners_on_masonry(working, book, key, z.by_net)
        by_item.setdefault(item, []).append(found)
    needs = []
    for item, found_all in sorted(by_item.items()):
        key = f"{AT}/{item.replace(' ', '-')}"
        needed = total(working, f"{key}/needed", "quantities.fasteners", "pieces", found_all)
        needs.append(Need(item, needed, (Part("quantities.fasteners", needed),)))
    return needs


def fasteners_on_studs(
    working: Working, book: Book, key: str, area: Quantity, studs: Fraction | float | None = None
) -> Quantity:
    """Fasteners of lath on framing (not rounded): area over stud spacing x spacing along the stud."""
    apart: Quantity | Figure = book.number("studs.spacing") if studs is None else Quantity(studs, unit("in"))
    return working.step(
        key,
        "area / (studs * along)",
        "pieces",
        "quantities.fasteners-studs",
        area=area,
        studs=apart,
        along=book.number("lath.fastener.along-studs"),
    )


def fasteners_on_masonry(working: Working, book: Book, key: str, area: Quantity) -> Quantity:
    """Fasteners of lath on block or concrete (not rounded): area over what one fastener may hold."""
    return working.step(
        key,
        "area / each",
        "pieces",
        "quantities.fasteners-masonry",
        area=area,
        each=book.number("lath.fastener.masonry-area"),
    )


def buy_word(buy: Buy) -> str:
    """The counting unit of a package, "" where there is no such word."""
    plural = {
        "bag": "bags",
        "sheet": "sheets",
        "roll": "rolls",
        "piece": "pieces",
        "box": "boxes",
        "pail": "pails",
        "tube": "tubes",
    }
    return plural.get(buy.each, "")
