"""Batches for his mixer: the largest that fits, half a bag, one of so many bags (refused if too large), and how many.

A mortar mixer is rated by the wet mortar it turns, so mortar is what has to fit, not the loose heap that goes in.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.measure.writing import shown
from darby.mix.gauging import down_to, measure_of, nearest, up_to, water_to_add
from darby.mix.model import (
    BagLabel,
    BagSizes,
    Batch,
    Batches,
    Gauge,
    Ingredient,
    MixParts,
    OverMixer,
    Real,
    SandCount,
    Yield,
)
from darby.mix.proportions import PARTS
from darby.mix.yields import CU_FT, GAL, LB, SHARE, SHORT, Basis, Load, Mortar, fill
from darby.rulebook import Book, Figure
from darby.working import Quantity, Working

HALF = Fraction(1, 2)
BAGS, BATCHES, HOURS = unit("bags"), unit("batches"), unit("h")


@dataclass(frozen=True, slots=True)
class Counted:
    """A mix with the measure its sand is counted in: everything a batch is worked from."""

    key: str
    made: Yield
    load: Load
    on: Basis
    book: Book
    bags: BagSizes
    gauge: str
    holds: Quantity
    grain: Figure
    dampness: Quantity
    ratio: Quantity
    span: tuple[float, float] | None
    """Least and most sand per bag [m3] that keep the mix inside its limits; None: nothing to keep."""


def counted(
    working: Working, key: str, parts: MixParts, made: Yield, load: Load, on: Basis, book: Book, bags: BagSizes,
    gauge: Gauge, span: tuple[Real, Real] | None = None,
) -> Counted:  # fmt: skip
    """The mix with the bucket or shovel its sand is counted in; says what has to be said about that measure.

    ``span``: least and most parts of sand that keep it inside its limits.
    """
    holds, grain, notes = measure_of(working, key, gauge, book)
    working.notes.extend(notes)
    damp = book.number("mix.sand.dampness")
    dampness = working.step(
        f"{key}/dampness", "(least + most) / 2", SHARE, "mix.dampness", rules=[damp.id],
        least=Quantity(_low(damp), SHARE), most=Quantity(_high(damp), SHARE),
    )  # fmt: skip
    binders = {SHORT[name]: Quantity(parts.of(name), PARTS) for name in parts.binders}
    ratio = working.step(
        f"{key}/ratio", "sand / (" + " + ".join(binders) + ")", PARTS, "mix.sand-ratio", rules=(),
        sand=Quantity(parts.sand, PARTS), **binders,
    )  # fmt: skip
    a_bag = None
    if span is not None and load.sand_loose is not None:
        part = float(load.sand_loose.value) / float(parts.sand)
        a_bag = (float(span[0]) * part, float(span[1]) * part)
    return Counted(key, made, load, on, book, bags, gauge.kind, holds, grain, dampness, ratio, a_bag)


def _low(figure: Figure) -> float:
    return figure.number if figure.low is None else figure.low


def _high(figure: Figure) -> float:
    return figure.number if figure.high is None else figure.high


def sand_counts(mix: Counted, bags: Fraction) -> tuple[Fraction, Fraction, float]:
    """Module (share of a bag), counts of sand to each module, and how far that leaves the mix (a share).

    Sand is counted over the smallest module (half a bag, a bag, the batch) at which whole counts stay within the
    rule book's tolerance and inside the limits; the batch itself where none does. All batches of a mix are whole
    modules, so a part batch has the proportions of a full one exactly.
    """
    if mix.load.sand_loose is None:
        return HALF, Fraction(0), 0.0
    tolerance = mix.book.number("mix.count.tolerance").number
    a_bag = float(mix.load.sand_loose.value) / float(mix.holds.value)
    grain = Fraction(mix.grain.number)
    module, count, off = bags, grain, 0.0
    for module in [m for m in (HALF, Fraction(1), bags) if (bags / m).denominator == 1]:
        exact = a_bag * float(module)
        count = max(nearest(exact, grain), grain)
        off = float(count) / exact - 1
        if at_most(abs(off), tolerance) and _inside(mix, count, module):
            break
    return module, count, off


def _inside(mix: Counted, count: Fraction, module: Fraction) -> bool:
    if mix.span is None:
        return True
    sand = float(count) * float(mix.holds.value) / float(module)
    return at_most(mix.span[0], sand) and at_most(sand, mix.span[1])


def mortar_of(mix: Counted, bags: Fraction) -> float:
    """Mortar [m3] of a batch of ``bags`` as its sand is counted."""
    pad = Working()
    load, _ = _load(pad, "pad", mix, bags, Quantity(bags, BAGS))
    return float(fill(pad, "pad", load, mix.on).volume.value)


def _load(
    working: Working, key: str, mix: Counted, bags: Fraction, many: Quantity, *, weighed: bool = False
) -> tuple[Load, Quantity | None]:
    """The load of a batch, and the count of its sand: whole counts, or, ``weighed``, exactly what the mix asks."""
    masses = {
        name: working.step(f"{key}/{SHORT[name]}", "a_bag * bags", LB, f"mix.{SHORT[name]}", a_bag=mass, bags=many)
        for name, mass in mix.load.masses.items()
        if name != "sand"
    }
    if mix.load.sand_loose is None:
        return Load(masses, None), None
    unit_of = unit("buckets" if mix.gauge == "bucket" else "shovels")
    says = f"mix.sand-in-{unit_of.name}"
    if weighed:
        count = working.step(
            f"{key}/sand-count", "a_bag * bags / holds", unit_of, says,
            a_bag=mix.load.sand_loose, bags=many, holds=mix.holds,
        )  # fmt: skip
    else:
        module, each, _ = sand_counts(mix, bags)
        count = working.step(
            f"{key}/sand-count", "each * bags / module", unit_of, says,
            each=Quantity(each, unit_of), bags=many, module=Quantity(module, BAGS),
        )  # fmt: skip
    loose = working.step(f"{key}/sand-loose", "count * holds", CU_FT, "mix.sand-loose", count=count, holds=mix.holds)
    masses["sand"] = working.step(
        f"{key}/sand-dry", "loose * weight", LB, "mix.sand-dry", loose=loose, weight=mix.on.weight["sand"]
    )
    return Load(masses, loose), count


def batch_of(working: Working, key: str, mix: Counted, bags: Fraction, *, weighed: bool = False) -> Batch:
    """One mixer load of ``bags`` (whole or half) of the main cement, whether or not it fits.

    ``weighed``: for the scale, sand to the pound the mix asks; else sand in whole counts of his measure.
    """
    many = Quantity(bags, BAGS)
    load, count = _load(working, key, mix, bags, many, weighed=weighed)
    mortar = fill(working, key, load, mix.on)
    module, _, off = (bags, None, 0.0) if weighed else sand_counts(mix, bags)
    sand = ratio = None
    if count is not None and load.sand_loose is not None and mix.load.sand_loose is not None:
        dry = load.masses["sand"]
        damp = working.step(
            f"{key}/sand-damp", "dry * (1 + dampness)", LB, "mix.sand-damp", dry=dry, dampness=mix.dampness
        )
        sand = SandCount(count, load.sand_loose, dry, damp)
        ratio = working.step(
            f"{key}/ratio", "ratio * sand / (a_bag * bags)", PARTS, "mix.ratio-as-counted",
            ratio=mix.ratio, sand=load.sand_loose, a_bag=mix.load.sand_loose, bags=many,
        )  # fmt: skip
        tolerance = mix.book.number("mix.count.tolerance")
        if not at_most(abs(off), tolerance.number):
            working.note(
                "mix.count-off",
                "caution",
                mix.key,
                rules=[tolerance.id],
                off=Quantity(off, SHARE),
                bags=many,
                count=count,
            )
    return Batch(
        many, _ingredients(working, key, mix, load), sand, *_water(working, key, mix, load, mortar), mortar.volume,
        ratio, module,
    )  # fmt: skip


def _ingredients(working: Working, key: str, mix: Counted, load: Load) -> tuple[Ingredient, ...]:
    found = []
    for name, mass in load.masses.items():
        if name == "sand":
            continue
        own = mix.bags.of(name)
        if name == mix.made.main:
            bag = mix.made.bag
        elif own is not None:
            bag = Quantity(own, LB)
        elif name == "lime":
            figure = mix.book.number("mix.bag.lime")
            bag = Quantity(figure.number, LB)
        else:
            bag = Quantity(mix.book.number(f"mix.unit-weight.{SHORT[name]}").number * float(CU_FT.scale), LB)
        share = working.step(
            f"{key}/{SHORT[name]}-bags", "mass / bag", BAGS, f"mix.{SHORT[name]}-bags", mass=mass, bag=bag
        )
        found.append(Ingredient(name, mass, share))
    return tuple(found)


def _water(
    working: Working, key: str, mix: Counted, load: Load, mortar: Mortar
) -> tuple[Quantity | None, Quantity | None, Quantity | None]:
    """Water to add: least, usual, most. All the water less the sand's own, at its dampest, middling and driest."""
    if mortar.air is None:
        return None, None, None
    span, damp = mix.book.number("mix.water.range"), mix.book.number("mix.sand.dampness")
    wet, usual, driest = Quantity(_high(damp), SHARE), mix.dampness, Quantity(_low(damp), SHARE)
    wanted = [
        working.step(
            f"{key}/water-{name}-in-all", f"dry * {pick}(share, limit)", LB, f"mix.water-{name}-in-all",
            rules=[span.id], dry=mortar.dry, share=mix.on.water, limit=Quantity(limit, SHARE),
        )
        for name, pick, limit in (("least", "min", _low(span)), ("most", "max", _high(span)))
    ]  # fmt: skip
    sand = load.masses.get("sand")
    three = (("least", wanted[0], wet), ("usual", mortar.water, usual), ("most", wanted[1], driest))
    least, middle, most = (
        water_to_add(
            working, f"{key}/water-{name}", f"mix.water-{name}", all_water,
            [("sand", sand, dampness)] if sand is not None else [], mix.on.gallon, [damp.id],
        )
        for name, all_water, dampness in three
    )  # fmt: skip
    return least, middle, most


def largest(mix: Counted, mixer: Real, mortar: Callable[[Fraction], float]) -> Fraction:
    """Bags, whole or half, of the largest batch whose mortar the mixer [m3] takes; 0 if not even half a bag fits.

    ``mortar`` of so many bags [m3]: ``mortar_of`` this mix.
    """
    a_bag = float(mix.made.volume.value)
    most = up_to(float(mixer) / a_bag, HALF) + HALF  # the count of sand may leave the mix a little either way
    while most > 0 and not at_most(mortar(most), mixer):
        most -= HALF
    return most


def propose_batch(working: Working, key: str, mix: Counted, mixer: Real) -> Batch | None:
    """The largest batch that fits, with its proof; None, and a stop, where half a bag is already too much."""
    mortar = cache(partial(mortar_of, mix))
    bags = largest(mix, mixer, mortar)
    if not bags:
        half = Quantity(mortar(HALF), CU_FT)
        working.note("mix.half-bag-over", "stop", key, mortar=half, mixer=Quantity(mixer, CU_FT))
        return None
    fits = shown(mixer, CU_FT)
    proof = tuple(
        f"{shown(b, BAGS)}: {shown(mortar(b), CU_FT)} {sign} {fits}" for b, sign in ((bags, "≤"), (bags + HALF, ">"))
    )
    working.found(f"{key}/bags", bags, BAGS, "mix.batch-bags", method="mix.largest-half-bag", proof=proof)
    return batch_of(working, key, mix, bags)


def explicit_batch(working: Working, key: str, mix: Counted, bags: Fraction, mixer: Real | None) -> Batch:
    """A batch of so many bags.

    Raises
    ------
    OverMixer
        if its mortar does not fit the mixer [m3]; carries half a bag as weighed.
    """
    if bags <= 0 or (bags / HALF).denominator != 1:
        nearby = shown(max(down_to(bags, HALF), HALF), BAGS)
        raise Unreadable(Fault("mix.not-half-bags", key, str(bags), "1/2, 1, 1 1/2 ...", nearby))
    mortar = mortar_of(mix, bags)
    if mixer is not None and not at_most(mortar, mixer):
        half = batch_of(Working(), f"{key}/half-bag", mix, HALF, weighed=True)
        found = f"{shown(bags, BAGS)} = {shown(mortar, CU_FT)}"
        raise OverMixer(Fault("mix.batch-over-mixer", key, found, shown(mixer, CU_FT), as_weighed(half)), half)
    return batch_of(working, key, mix, bags)


def as_weighed(batch: Batch) -> str:
    """A batch in one line of weights, materials by their names in the rule book: for a Fault, which is text."""
    rows = [f"{i.material} {shown(i.mass.value, LB)}" for i in batch.ingredients]
    if batch.sand is not None:
        rows.append(f"sand {shown(batch.sand.damp.value, LB)}")
    return f"{shown(batch.bags.value, BAGS)}: {', '.join(rows)} = {shown(batch.mortar.value, CU_FT)}"


def count_batches(working: Working, key: str, mix: Counted, full: Batch, volume: Real) -> Batches:
    """How many batches make ``volume`` [m3], and the part batch at the end.

    It has the proportions of a full one exactly; where only a whole batch keeps its count of sand, it comes in half
    bags all the same, as near as whole counts get, and a note says how near: no man mixes five bags to use one.
    """
    wanted = Quantity(volume, CU_FT)
    whole_ones = working.step(
        f"{key}/whole", "-ceil(-volume / mortar)", BATCHES, "mix.whole-batches", volume=wanted, mortar=full.mortar
    )
    left = working.step(
        f"{key}/left", "max(volume - batches * mortar, nothing)", CU_FT, "mix.left-to-mix",
        volume=wanted, batches=whole_ones, mortar=full.mortar, nothing=Quantity(0, CU_FT),
    )  # fmt: skip
    bags = Fraction(full.bags.value)
    module = full.module if full.module < bags else min(HALF, bags)
    part = up_to(float(left.value) / float(full.mortar.value) * float(bags), module)
    while 0 < part < bags and not at_most(left.value, mortar_of(mix, part)):
        part += module  # its own whole count of sand may come out short
    number, last = round(whole_ones.value), None
    if part >= bags:
        number += 1
    elif part:
        last = batch_of(working, f"{key}/last", mix, part)
    total = working.step(
        f"{key}/mortar", "batches * mortar + last", CU_FT, "mix.mixed-in-all", batches=Quantity(number, BATCHES),
        mortar=full.mortar, last=last.mortar if last is not None else Quantity(0, CU_FT),
    )  # fmt: skip
    return Batches(wanted, number, last, total)


def outlasts(working: Working, key: str, batch: Batch, volume: Real, hours: Real | None, within: Quantity) -> None:
    """Warn of a batch that the crew cannot lay before it has to be used up, and say how many bags it can.

    ``hours`` [s] is how long the crew lays ``volume`` [m3]; None: nobody knows.
    """
    if hours is None or not volume:
        return
    lasts = working.step(
        f"{key}/batch/lasts", "batch / volume * hours", HOURS, "mix.batch-lasts",
        batch=batch.mortar, volume=Quantity(volume, CU_FT), hours=Quantity(hours, HOURS),
    )  # fmt: skip
    if at_most(lasts.value, within.value):
        return
    step = Fraction(1) if batch.module == 1 else HALF
    bags = max(down_to(float(within.value) / float(lasts.value) * float(batch.bags.value), step), HALF)
    working.note(
        "mix.batch-outlasts", "caution", key, batch=batch.bags, lasts=lasts, within=within, bags=Quantity(bags, BAGS)
    )


def bagged_batch(working: Working, key: str, label: BagLabel, mixer: Real | None) -> Batch | None:
    """Whole bags of a bagged material for the mixer (half bags where one is too much); without a mixer one."""
    bags = Fraction(1)
    if mixer is not None:
        step = Fraction(1) if at_most(label.yields, mixer) else HALF
        bags = down_to(Fraction(mixer) / Fraction(label.yields), step)
        if not bags:
            makes = Quantity(Fraction(label.yields) / 2, CU_FT)
            working.note("mix.half-bag-over", "stop", key, mortar=makes, mixer=Quantity(mixer, CU_FT))
            return None
    return _of_bags(working, key, label, bags)


def _of_bags(working: Working, key: str, label: BagLabel, bags: Fraction) -> Batch:
    many = Quantity(bags, BAGS)
    mass = working.step(f"{key}/bagged", "bags * weight", LB, "mix.bagged", bags=many, weight=Quantity(label.mass, LB))
    mortar = working.step(
        f"{key}/mortar", "bags * makes", CU_FT, "mix.bagged-mortar", bags=many, makes=Quantity(label.yields, CU_FT)
    )
    water = None
    if label.water is not None:
        water = working.step(
            f"{key}/water-usual", "bags * water", GAL, "mix.bagged-water", bags=many, water=Quantity(label.water, GAL)
        )
    return Batch(many, (Ingredient(label.id, mass, many),), None, None, water, None, mortar, None, Fraction(1))


def count_bagged(working: Working, key: str, label: BagLabel, full: Batch, volume: Real) -> Batches:
    """Bags of a bagged material for ``volume`` [m3] as full batches and a last one of whole bags."""
    wanted = Quantity(volume, CU_FT)
    bags = working.step(
        f"{key}/bags",
        "ceil(volume / makes)",
        BAGS,
        "mix.bagged-bags",
        volume=wanted,
        makes=Quantity(label.yields, CU_FT),
    )
    number = round(down_to(Fraction(bags.value) / Fraction(full.bags.value), 1))
    rest = Fraction(bags.value) - number * Fraction(full.bags.value)
    last = _of_bags(working, f"{key}/last", label, rest) if rest else None
    total = working.step(
        f"{key}/mortar", "bags * makes", CU_FT, "mix.mixed-in-all", bags=bags, makes=Quantity(label.yields, CU_FT)
    )
    return Batches(wanted, number, last, total)
