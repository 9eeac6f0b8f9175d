"""Bonding agent, primer, paint, coating: area over spreading rate. Film and tape for what is not plastered."""

from __future__ import annotations

from collections.abc import Iterable

from quicktions import Fraction

from darby.measure.units import unit
from darby.quantities.lath import AT, Need
from darby.quantities.lines import high_end, low_end, total
from darby.quantities.model import Area, Cover, Film, Part, ZoneArea
from darby.quantities.sealing import length_need
from darby.rulebook import Book, Figure
from darby.working import Quantity, Working

COATS = ("prime", "second", "third")
"""The rows of the published spreading rates: a coat on bare plaster, the next, and every one after."""


def gallons(working: Working, book: Book, key: str, area: Quantity, coat: str) -> tuple[Quantity, Quantity]:
    """Paint for one coat [m3]: the most (at the low end of the rate) and the least (at its high end)."""
    rate = book.number(f"coating.spread.{coat}")
    most = working.step(
        f"{key}/most", "area / rate", "gal", "quantities.paint-most", rules=(rate.id,), area=area, rate=low_end(rate)
    )
    least = working.step(
        f"{key}/least", "area / rate", "gal", "quantities.paint-least", rules=(rate.id,), area=area, rate=high_end(rate)
    )
    return most, least


def paint_needs(
    working: Working, book: Book, zones: Iterable[tuple[str, ZoneArea]], film: Film | None = None
) -> list[Need]:
    """Primer and paint, ordered at the low end of the spreading rate; the least they could take stands beside.

    ``film``: the paint is a textured coating laid to a film instead, one coat on the primer.
    """
    primed: dict[str, list[Quantity]] = {}
    painted: dict[str, list[Quantity]] = {}
    coated: list[Quantity] = []
    for _, z in sorted(zones, key=lambda p: (p[0], p[1].zone)):
        rows = [COATS[min(n + z.before, len(COATS) - 1)] for n in range(z.primer + z.paint)]
        for row in rows[: z.primer]:
            primed.setdefault(row, []).append(z.area)
        if film is not None and z.paint:
            coated.append(z.area)
        else:
            for row in rows[z.primer :]:
                painted.setdefault(row, []).append(z.area)
    if primed or painted:
        working.note("quantities.spread-of-rough-plaster", "caution", "job")
    needs = [n for n in (_coats(working, book, "primer", primed), _coats(working, book, "paint", painted)) if n]
    if coated and film is not None:
        area = total(working, f"{AT}/coating/area", "quantities.paint-area", "sq ft", coated)
        rate = film_spread(working, book, f"{AT}/coating/spread", film)
        needed = working.step(f"{AT}/coating/needed", "area / rate", "gal", "quantities.needed", area=area, rate=rate)
        needs.append(Need("coating", needed, (Part("quantities.film-spread", rate),)))
    return needs


def film_spread(working: Working, book: Book, key: str, film: Film) -> Quantity:
    """Area a volume of coating covers [m2/m3] at a dry film: solids / film, less loss, over roughness.

    Handbooks print it as 1604 x solids / mil, which is a US gallon over a mil in square feet.
    """
    thick: Figure = book.number("coating.film.textured")
    given = high_end(thick) if film.dry is None else Quantity(film.dry, unit("mil"))
    return working.step(
        key,
        "solids * (1 - loss) / (film * roughness)",
        "sq ft/gal",
        "quantities.film-spread",
        rules=(thick.id,) if film.dry is None else (),
        solids=Quantity(film.solids, unit("%")),
        loss=Quantity(film.loss, unit("%")),
        film=given,
        roughness=film.roughness,
    )


def bonding_need(working: Working, book: Book, zones: Iterable[tuple[str, ZoneArea]]) -> Need | None:
    """Bonding agent for solid bases that get it; over lath and paper it never goes on."""
    chosen = sorted(((s, z) for s, z in zones if z.bonding), key=lambda p: (p[0], p[1].zone))
    for surface, z in chosen:
        if z.lathed:
            working.note(
                "quantities.no-bonding-on-lath",
                "caution",
                f"{surface}/{z.zone}",
                rules=(book.number("prep.no-bonding-on-lath").id,),
            )
    solid = [z.area for _, z in chosen if not z.lathed]
    if not solid:
        return None
    rate = book.number("bonding.spread")
    working.note("quantities.assumed.bonding", "assumed", "job", rules=(rate.id,), rate=rate)
    area = total(working, f"{AT}/bonding-agent/area", "quantities.bonding-area", "sq ft", solid)
    needed = working.step(f"{AT}/bonding-agent/needed", "area / rate", "gal", "quantities.needed", area=area, rate=rate)
    return Need("bonding agent", needed, (Part("quantities.bonding-area", area),))


def cover_needs(working: Working, covers: Iterable[Cover], cut: Quantity | Figure) -> list[Need]:
    """Film [m2] and tape [m] for openings and whatever else is covered, with the cutting allowance on its own line."""
    ordered = sorted(covers, key=lambda c: c.surface)
    needs = []
    films = [Quantity(c.film, unit("sq ft")) for c in ordered if _some(c.film)]
    if films:
        area = total(working, f"{AT}/cover-film/area", "quantities.cover-area", "sq ft", films)
        over = working.step(f"{AT}/cover-film/cutting", "area * cut", "sq ft", "quantities.cutting", area=area, cut=cut)
        needed = working.step(
            f"{AT}/cover-film/needed", "area + cutting", "sq ft", "quantities.needed", area=area, cutting=over
        )
        needs.append(
            Need("cover film", needed, (Part("quantities.cover-area", area), Part("quantities.cutting", over)))
        )
    tapes = [Quantity(c.tape, unit("ft")) for c in ordered if _some(c.tape)]
    if tapes:
        needs.append(length_need(working, "masking tape", "quantities.tape", tapes, cut))
    return needs


def _coats(working: Working, book: Book, item: str, by_row: dict[str, list[Quantity]]) -> Need | None:
    if not by_row:
        return None
    most, least = [], []
    for row in COATS:
        if row in by_row:
            key = f"{AT}/{item}/{row}"
            area = total(working, f"{key}/area", "quantities.paint-area", "sq ft", by_row[row])
            high, low = gallons(working, book, key, area, row)
            most.append(high)
            least.append(low)
    needed = total(working, f"{AT}/{item}/needed", "quantities.paint-most", "gal", most)
    at_least = total(working, f"{AT}/{item}/at-least", "quantities.paint-least", "gal", least)
    return Need(
        item,
        needed,
        tuple(Part("quantities.paint-most", m) for m in most),
        also=(Part("quantities.paint-least", at_least),),
    )


def _some(amount: Area) -> bool:
    return amount > Fraction(0)
