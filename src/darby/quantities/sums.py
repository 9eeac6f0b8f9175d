"""One wall in one line, no job needed: area, mortar, bags, sand, with the rule of thumb beside the exact sum."""

from __future__ import annotations

from collections.abc import Sequence

from quicktions import Fraction

from darby.quantities.dry_volume import by_dry_volume
from darby.quantities.materials import material_needs
from darby.quantities.model import Allowances, BagLabel, Coat, Mortar, QuickSum, VolumesAsk, Zone
from darby.quantities.volumes import volumes
from darby.rulebook import Book, default
from darby.working import Quantity, Working

AT = "sum"


def quick_sum(
    area: Fraction | float,
    thickness: Fraction | float,
    *,
    mortar: Mortar | BagLabel | None = None,
    parts: Sequence[Fraction | float | int] | None = None,
    lathed: bool = False,
    struck: bool = False,
    allow: Allowances | None = None,
    package: Quantity | None = None,
    book: Book | None = None,
) -> tuple[QuickSum, Working]:
    """Area, cubic feet, bags and sand of one coat on one wall.

    Parameters
    ----------
    area
        all of it, both faces if both are plastered [m2].
    thickness
        [m]
    mortar
        what a cubic metre takes, or a bag's label; without it bags and sand come from the rule of thumb only.
    parts
        parts by volume, cement first, sand last, for the dry-volume rule of thumb.
    package
        what a bag of cement holds [kg]; None = the book's 94 lb sack.

    Source of the rules of thumb: cover is 1 / thickness (24 sq ft a cu ft at 1/2 in., 13.7 at 7/8, as printed by the
    Portland Cement Association); sand, a foot of it damp and loose in each foot of mortar (the same, 1993); bags by a
    dry-volume factor (custom).
    """
    rules = book or default()
    share = allow or Allowances()
    mix = mortar.mix if mortar is not None else AT
    zone = Zone("wall", "block", area, (Coat("coat", thickness, mix),), lathed=lathed, struck=struck)
    found, working = volumes(VolumesAsk(AT, (zone,), allow=share, book=rules))
    coat = found.coats[0]
    cover = working.step(f"{AT}/cover", "1 / thickness", "sq ft/cu ft", "quantities.cover", thickness=coat.thickness)
    bags = sand = sand_mass = None
    whole_bags = None
    if mortar is not None:
        needs = {n.item: n for n in material_needs(working, rules, found.by_mix, (mortar,), share)}
        cement = mortar.item if isinstance(mortar, BagLabel) else next((m.item for m in mortar.materials), "")
        if cement in needs:
            bags = needs[cement].exact
            if bags is None:
                holds = package if package is not None else rules.number("mix.bag.portland")
                bags = working.step(
                    f"{AT}/bags-exact",
                    "cement / bag",
                    "bags",
                    "quantities.packages-exact",
                    cement=needs[cement].needed,
                    bag=holds,
                )
            whole_bags = working.step(f"{AT}/bags", "ceil(bags)", "bags", "quantities.packages-whole", bags=bags)
        if "sand" in needs:
            sand = needs["sand"].needed
            sand_mass = next((p.amount for p in needs["sand"].also), None)
    thumb = working.step(
        f"{AT}/sand-by-rule",
        "net * share",
        "cu ft",
        "quantities.sand-by-rule",
        net=coat.net,
        share=rules.number("mortar.sand-share"),
    )
    rule = None
    if parts is not None:
        rule = by_dry_volume(
            coat.net, None, parts, bag_kg=_kilograms(package, rules), book=rules, working=working, at=f"{AT}/rule"
        )
    return (
        QuickSum(
            found.area,
            coat.thickness,
            cover,
            coat.net,
            coat.allowances,
            coat.total,
            bags,
            whole_bags,
            sand,
            sand_mass,
            thumb,
            rule,
        ),
        working,
    )


def _kilograms(package: Quantity | None, book: Book) -> float:
    return float(package) if package is not None else book.number("mix.bag.portland").number
