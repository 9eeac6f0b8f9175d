"""From mortar to materials: cement, lime, sand by volume and by mass, water, bagged mixes. Nothing is rounded here."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from darby.measure.faults import Fault, Unreadable
from darby.measure.units import unit
from darby.quantities.lath import AT, Need
from darby.quantities.lines import high_end, share, total
from darby.quantities.model import Allowances, BagLabel, MixVolume, Mortar, Part, Volumes
from darby.rulebook import Book
from darby.working import Quantity, Working


def mortar_by_mix(working: Working, surfaces: Iterable[Volumes]) -> tuple[MixVolume, ...]:
    """Mortar of every mix over the whole job [m3]."""
    by_mix: dict[str, list[Quantity]] = {}
    for surface in sorted(surfaces, key=lambda v: v.surface):
        for m in surface.by_mix:
            by_mix.setdefault(m.mix, []).append(m.volume)
    return tuple(
        MixVolume(mix, total(working, f"{AT}/mix/{mix}/volume", "quantities.volume-mix", "cu ft", parts))
        for mix, parts in sorted(by_mix.items())
    )


def material_needs(
    working: Working,
    book: Book,
    mortar: Sequence[MixVolume],
    mortars: Iterable[Mortar | BagLabel],
    allow: Allowances,
) -> list[Need]:
    """What the mortar of the job takes of every material, in the order cement, lime and the like, bags, sand, water.

    Raises
    ------
    Unreadable
        if a mix that is laid is not described.
    """
    known = {m.mix: m for m in mortars}
    for m in mortar:
        if m.mix not in known:
            raise Unreadable(Fault("quantities.unknown-mix", "mixes", m.mix, ", ".join(sorted(known))))
    site = [(m, x) for m in mortar if isinstance(x := known[m.mix], Mortar)]
    bagged = [(m, x) for m in mortar if isinstance(x := known[m.mix], BagLabel)]
    needs = _weighed(working, site) + _bags(working, bagged)
    sand = _sand(working, book, site, allow)
    water = _water(working, site, bagged)
    return needs + [n for n in (sand, water) if n is not None]


def _weighed(working: Working, site: Sequence[tuple[MixVolume, Mortar]]) -> list[Need]:
    by_item: dict[str, list[Quantity]] = {}
    for m, mortar in site:
        for material in mortar.materials:
            mass = material.per.unit.dim == unit("kg/m3").dim
            by_item.setdefault(material.item, []).append(
                working.step(
                    f"{AT}/{_slug(material.item)}/mix/{m.mix}",
                    "volume * per",
                    "lb" if mass else "cu ft",
                    "quantities.material",
                    volume=m.volume,
                    per=material.per,
                )
            )
    needs = []
    for item, amounts in by_item.items():
        needed = total(working, f"{AT}/{_slug(item)}/needed", "quantities.needed", amounts[0].unit, amounts)
        needs.append(Need(item, needed, tuple(Part("quantities.material", a) for a in amounts)))
    return needs


def _bags(working: Working, bagged: Sequence[tuple[MixVolume, BagLabel]]) -> list[Need]:
    by_item: dict[str, list[Quantity]] = {}
    for m, label in bagged:
        by_item.setdefault(label.item, []).append(
            working.step(
                f"{AT}/{_slug(label.item)}/mix/{m.mix}",
                "volume / yields",
                "bags",
                "quantities.bags-by-label",
                volume=m.volume,
                yields=label.yields,
            )
        )
    needs = []
    for item, bags in by_item.items():
        needed = total(working, f"{AT}/{_slug(item)}/needed", "quantities.needed", "bags", bags)
        needs.append(Need(item, needed, tuple(Part("quantities.bags-by-label", b) for b in bags), exact=needed))
    return needs


def _sand(working: Working, book: Book, site: Sequence[tuple[MixVolume, Mortar]], allow: Allowances) -> Need | None:
    """Sand as damp loose volume, and by the ton. Bulking is of the sand alone, and never counted twice.

    Sand measured dry gets its bulking added, a line of its own. Sand measured damp and loose already holds it: the
    line then only says how much of the pile that room is.
    """
    damp: list[Quantity] = []
    dry: list[Quantity] = []
    mass: list[Quantity] = []
    sandy = [(m, x.sand) for m, x in site if x.sand is not None]
    for m, sand in sandy:
        key = f"{AT}/sand/mix/{m.mix}"
        loose = working.step(
            key,
            "volume * per",
            "cu yd",
            f"quantities.sand-{sand.measured.replace(' ', '-')}",
            volume=m.volume,
            per=sand.volume,
        )
        (damp if sand.measured == "damp loose" else dry).append(loose)
        if sand.dry_mass is not None:
            mass.append(
                working.step(
                    f"{key}/dry-mass",
                    "volume * per",
                    "ton",
                    "quantities.sand-dry-mass",
                    volume=m.volume,
                    per=sand.dry_mass,
                )
            )
    if not sandy:
        return None
    bulking = share(working, book, "allow.bulking", allow.bulking, "job")
    parts = []
    amounts = list(damp)
    if damp:
        pile = total(working, f"{AT}/sand/damp", "quantities.sand-damp-loose", "cu yd", damp)
        room = working.step(
            f"{AT}/sand/bulking-within",
            "damp - damp / (1 + bulking)",
            "cu yd",
            "quantities.bulking-within",
            damp=pile,
            bulking=bulking,
        )
        parts += [Part("quantities.sand-damp-loose", pile), Part("quantities.bulking-within", room)]
    if dry:
        loose = total(working, f"{AT}/sand/dry", "quantities.sand-dry-loose", "cu yd", dry)
        more = working.step(
            f"{AT}/sand/bulking", "dry * bulking", "cu yd", "quantities.bulking", dry=loose, bulking=bulking
        )
        parts += [Part("quantities.sand-dry-loose", loose), Part("quantities.bulking", more)]
        amounts += [loose, more]
    needed = total(working, f"{AT}/sand/needed", "quantities.needed", "cu yd", amounts)
    also: tuple[Part, ...] = ()
    if len(mass) == len(sandy):
        also = (_tons(working, book, mass, allow),)
    return Need("sand", needed, tuple(parts), also=also)


def _tons(working: Working, book: Book, mass: list[Quantity], allow: Allowances) -> Part:
    """Sand as the scale at the pit weighs it: dry mass, and the water in it on a line of its own."""
    dry = total(working, f"{AT}/sand/dry-mass", "quantities.sand-dry-mass", "ton", mass)
    dampness = book.number("mix.sand.dampness")
    own = allow.moisture is not None
    moisture = Quantity(allow.moisture or 0, unit("%")) if own else high_end(dampness)
    rules = () if own else (dampness.id,)
    if not own:
        working.note("quantities.assumed.moisture", "assumed", "job", rules=rules, share=moisture)
    wet = working.step(
        f"{AT}/sand/moisture",
        "dry * moisture",
        "ton",
        "quantities.sand-moisture",
        rules=rules,
        dry=dry,
        moisture=moisture,
    )
    weighed = working.step(f"{AT}/sand/mass", "dry + moisture", "ton", "quantities.sand-mass", dry=dry, moisture=wet)
    return Part("quantities.sand-mass", weighed)


def _water(
    working: Working, site: Sequence[tuple[MixVolume, Mortar]], bagged: Sequence[tuple[MixVolume, BagLabel]]
) -> Need | None:
    amounts = [
        working.step(
            f"{AT}/water/mix/{m.mix}", "volume * per", "gal", "quantities.material", volume=m.volume, per=x.water
        )
        for m, x in site
        if x.water is not None
    ]
    amounts += [
        working.step(
            f"{AT}/water/mix/{m.mix}",
            "volume / yields * water",
            "gal",
            "quantities.water-by-label",
            volume=m.volume,
            yields=x.yields,
            water=x.water,
        )
        for m, x in bagged
        if x.water is not None
    ]
    if not amounts:
        return None
    needed = total(working, f"{AT}/water/needed", "quantities.needed", "gal", amounts)
    return Need("water", needed, tuple(Part("quantities.material", a) for a in amounts))


def _slug(item: str) -> str:
    return item.replace(" ", "-")
