"""What a bag makes: absolute volumes, or the fresh density where he weighed it, or the dry-volume custom.

V = sum of mass / (relative density x density of water) / (1 - air). Source of the method: PCA, EB001; limits and
the comparison with trial mortars in docs/methods/mix.md.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from darby.measure.faults import Fault, Unreadable
from darby.measure.units import unit
from darby.mix.model import RULE_BOOK_BAGS, BagSizes, Materials, Measured, MixParts, Real, Yield
from darby.mix.proportions import PARTS, main_of
from darby.rulebook import Book
from darby.working import Given, Note, Quantity, Working, note

SHORT = {
    "portland": "portland",
    "masonry cement": "masonry",
    "plastic cement": "plastic",
    "lime": "lime",
    "sand": "sand",
}
"""The word of a material in rule-book subjects and in names of formulas."""

LB, CU_FT, GAL, LB_CU_FT, LB_GAL, SHARE = (unit(n) for n in ("lb", "cu ft", "gal", "lb/cu ft", "lb/gal", "%"))
PLAIN = unit("")


@dataclass(frozen=True, slots=True)
class Basis:
    """Everything a yield stands on, each from the rule book or measured: weights, densities, water, air."""

    weight: Mapping[str, Given]
    gravity: Mapping[str, Given]
    water_density: Given
    gallon: Given
    water: Given
    air: Given
    density: Given | None
    factor: Real | None
    notes: tuple[Note, ...] = field(default=())


def basis(parts: MixParts, key: str, book: Book, measured: Measured, factor: Real | None = None) -> Basis:
    """Rule-book figures for the materials of ``parts``, with what he measured in their place; every departure a Note.

    Raises
    ------
    Unreadable
        for air or water that is no share, or a weight that is nothing.
    """
    _refuse(measured, factor)
    notes: list[Note] = []
    weight: dict[str, Given] = {}
    for name in parts.used:
        figure = book.number(f"mix.unit-weight.{SHORT[name]}")
        own = measured.weight_of(name)
        weight[name] = figure if own is None else Quantity(own, LB_CU_FT)
        if own is not None:
            notes.append(
                note(f"mix.own-weight-{SHORT[name]}", "fact", key, rules=[figure.id], own=weight[name], book=figure)
            )
        elif name in ("masonry cement", "plastic cement"):
            notes.append(note("mix.bag-weight-rules", "assumed", key, rules=[figure.id], weight=figure, cement=name))
    water, air = book.number("mix.water.share"), book.number("mix.air", cement=parts.cement)
    own_water = None if measured.water is None else Quantity(measured.water, SHARE)
    own_air = None if measured.air is None else Quantity(measured.air, SHARE)
    if own_water is not None:
        notes.append(note("mix.own-water", "fact", key, rules=[water.id], own=own_water, book=water))
    if own_air is not None and measured.density is None:
        notes.append(note("mix.own-air", "fact", key, rules=[air.id], own=own_air, book=air))
    if factor is None and measured.density is None and (own_water is None or own_air is None):
        notes.append(
            note(
                "mix.yield-assumed",
                "assumed",
                key,
                rules=[water.id, air.id],
                water=own_water or water,
                air=own_air or air,
            )
        )
    return Basis(
        weight,
        {name: book.number(f"mix.sg.{SHORT[name]}") for name in parts.used},
        book.number("mix.water.density"),
        book.number("mix.water.gallon"),
        own_water or water,
        own_air or air,
        None if measured.density is None else Quantity(measured.density, LB_CU_FT),
        factor,
        tuple(notes),
    )


def _refuse(measured: Measured, factor: Real | None) -> None:
    for name, share in (("air", measured.air), ("water", measured.water)):
        if share is not None and not 0 <= share < 1:
            raise Unreadable(Fault("mix.no-share", name, str(share), "0 to 1"))
    weights = [(n, measured.weight_of(n)) for n in SHORT]
    for name, value in (*weights, ("density", measured.density), ("factor", factor)):
        if value is not None and not 0 < value < float("inf"):
            raise Unreadable(Fault("mix.no-weight", name, str(value), "> 0"))


@dataclass(frozen=True, slots=True)
class Load:
    """What goes in dry, of one bag or of a batch: masses [kg] by material, and the sand's loose volume [m3]."""

    masses: Mapping[str, Quantity]
    sand_loose: Quantity | None


@dataclass(frozen=True, slots=True)
class Mortar:
    """What comes out [m3], with its water [kg], dry mass [kg] and air; no air where a factor was used."""

    volume: Quantity
    dry: Quantity
    water: Quantity
    air: Quantity | None


def load_of(
    working: Working, key: str, parts: MixParts, book: Book, on: Basis, bags: BagSizes
) -> tuple[Quantity, Load]:
    """One bag of the main cement, and everything that goes with it."""
    main = main_of(parts)
    bag = _bag(working, key, main, book, on, bags)
    part = working.step(
        f"{key}/one-part", "bag / (weight * parts)", CU_FT, "mix.one-part",
        bag=bag, weight=on.weight[main], parts=Quantity(parts.of(main), PARTS),
    )  # fmt: skip
    masses: dict[str, Quantity] = {main: bag}
    loose = None
    for name in parts.used:
        count = Quantity(parts.of(name), PARTS)
        if name == "sand":
            loose = working.step(
                f"{key}/sand-loose", "parts * part", CU_FT, "mix.sand-loose-a-bag", parts=count, part=part
            )
            masses[name] = working.step(
                f"{key}/sand-dry", "loose * weight", LB, "mix.sand-dry-a-bag", loose=loose, weight=on.weight[name]
            )
        elif name != main:
            masses[name] = working.step(
                f"{key}/{SHORT[name]}", "parts * part * weight", LB, f"mix.{SHORT[name]}-a-bag",
                parts=count, part=part, weight=on.weight[name],
            )  # fmt: skip
    return bag, Load(masses, loose)


def _bag(working: Working, key: str, main: str, book: Book, on: Basis, bags: BagSizes) -> Quantity:
    own = bags.of(main)
    if own is not None:
        return Quantity(own, LB)
    if main in ("portland", "lime"):
        return working.step(f"{key}/bag", "bag", LB, "mix.bag", bag=book.number(f"mix.bag.{SHORT[main]}"))
    foot = Quantity(CU_FT.scale, CU_FT)
    return working.step(f"{key}/bag", "weight * foot", LB, "mix.bag-of-a-foot", weight=on.weight[main], foot=foot)


def fill(working: Working, key: str, load: Load, on: Basis) -> Mortar:
    """The mortar that ``load`` makes, by the way ``on`` says."""
    names = {SHORT[name]: mass for name, mass in load.masses.items()}
    dry = working.step(f"{key}/dry", " + ".join(names), LB, "mix.dry", rules=(), **names)
    water = working.step(f"{key}/water", "dry * share", LB, "mix.water", dry=dry, share=on.water)
    if on.factor is not None:
        volume = working.step(
            f"{key}/mortar", "(" + " + ".join(f"{n} / {n}_loose" for n in names) + ") / factor", CU_FT,
            "mix.mortar-by-factor", rules=(), factor=on.factor, **names,
            **{f"{SHORT[n]}_loose": on.weight[n] for n in load.masses},
        )  # fmt: skip
        return Mortar(volume, dry, water, None)
    solids = working.step(
        f"{key}/solids", "(" + " + ".join(f"{n} / sg_{n}" for n in names) + " + water) / water_density", CU_FT,
        "mix.solids", rules=(), water=water, water_density=on.water_density, **names,
        **{f"sg_{SHORT[n]}": on.gravity[n] for n in load.masses},
    )  # fmt: skip
    if on.density is None:
        volume = working.step(f"{key}/mortar", "solids / (1 - air)", CU_FT, "mix.mortar", solids=solids, air=on.air)
        air = on.air if isinstance(on.air, Quantity) else Quantity(on.air.number, SHARE)  # type: ignore[union-attr]
        return Mortar(volume, dry, water, air)
    volume = working.step(
        f"{key}/mortar",
        "(dry + water) / density",
        CU_FT,
        "mix.mortar-by-density",
        dry=dry,
        water=water,
        density=on.density,
    )
    found = working.step(f"{key}/air", "1 - solids / volume", SHARE, "mix.air-found", solids=solids, volume=volume)
    return Mortar(volume, dry, water, found)


def reckon(
    working: Working, key: str, parts: MixParts, book: Book, on: Basis, bags: BagSizes = RULE_BOOK_BAGS
) -> tuple[Yield, Load]:
    """What one bag of the main cement makes, and the load it makes it of.

    ``on.density`` set: everything that goes in, divided by it, and the air is found. ``on.factor`` set: loose volumes
    over that factor, a custom that counts neither water nor air. Else absolute volumes.
    """
    bag, load = load_of(working, key, parts, book, on, bags)
    mortar = fill(working, key, load, on)
    density = working.step(
        f"{key}/fresh-density", "(dry + water) / mortar", LB_CU_FT, "mix.fresh-density",
        dry=mortar.dry, water=mortar.water, mortar=mortar.volume,
    )  # fmt: skip
    notes = [*on.notes, *_air_notes(key, mortar, parts, book)]
    working.notes.extend(notes)
    materials = _materials(working, key, load, mortar, on)
    made = Yield(
        main_of(parts), bag, mortar.volume, tuple(load.masses.items()), load.sand_loose, mortar.water, mortar.air,
        density, materials, tuple(notes),
    )  # fmt: skip
    return made, load


def _air_notes(key: str, mortar: Mortar, parts: MixParts, book: Book) -> list[Note]:
    if mortar.air is None:
        return [note("mix.by-factor", "caution", key)]
    if mortar.air.value < 0:
        return [note("mix.heavier-than-solid", "caution", key, air=mortar.air)]
    most = book.number("mix.air.most", cement=parts.cement)
    if mortar.air.value > most.number:
        return [note("mix.air-over", "caution", key, rules=[most.id], air=mortar.air, most=most)]
    return []


def _materials(working: Working, key: str, load: Load, mortar: Mortar, on: Basis) -> Materials:
    each: dict[str, Quantity] = {}
    for name, mass in load.masses.items():
        field_name = "sand_dry" if name == "sand" else SHORT[name]
        each[field_name] = working.step(
            f"{key}/{field_name.replace('_', '-')}-per-mortar", "mass / mortar", LB_CU_FT,
            f"mix.{SHORT[name]}-per-mortar", mass=mass, mortar=mortar.volume,
        )  # fmt: skip
    if load.sand_loose is not None:
        each["sand_loose"] = working.step(
            f"{key}/sand-loose-per-mortar", "sand / mortar", PLAIN, "mix.sand-loose-per-mortar",
            sand=load.sand_loose, mortar=mortar.volume,
        )  # fmt: skip
    each["water"] = working.step(
        f"{key}/water-per-mortar", "water / gallon / mortar", PLAIN, "mix.water-per-mortar",
        water=mortar.water, gallon=on.gallon, mortar=mortar.volume,
    )  # fmt: skip
    return Materials(**each)


def needs(materials: Materials, volume: Real) -> dict[str, float]:
    """What ``volume`` [m3] of mortar takes: kg of each dry material, m3 of loose sand and of water, bags if bagged."""
    found: dict[str, float] = {}
    for name in ("portland", "masonry", "plastic", "lime", "sand_dry", "sand_loose", "water"):
        per = getattr(materials, name)
        if per is not None:
            found[name] = float(per.value) * float(volume)
    if materials.bag is not None:
        found["bags"] = float(volume) / float(materials.bag.value)
        if materials.water_each is not None:
            found["water"] = found["bags"] * float(materials.water_each.value)
    return found


def split(parts: Mapping[str, Real], total: Real) -> dict[str, float]:
    """``total`` shared out by ``parts``: dry volumes by parts of volume, or masses by parts of mass."""
    whole = sum(float(p) for p in parts.values())
    return {name: float(total) * float(p) / whole for name, p in parts.items()}


def by_weight(masses: Mapping[str, Real], weights: Mapping[str, Real]) -> MixParts:
    """A mix printed by weight as parts by loose volume, the first material being one part.

    ``masses`` [kg] and loose ``weights`` [kg/m3] by material, in any one pair of units.
    """
    volumes = {name: float(mass) / float(weights[name]) for name, mass in masses.items()}
    first = next(iter(volumes.values()))
    return MixParts(**{SHORT[name]: volume / first for name, volume in volumes.items()})
