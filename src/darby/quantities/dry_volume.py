"""Reckoning by a dry-volume factor: a custom of published sums, kept as a check and a rule of thumb. Not a method."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from quicktions import Fraction

from darby.measure.units import unit
from darby.quantities.lines import total
from darby.quantities.model import DryVolume
from darby.rulebook import Book, default
from darby.working import Given, Quantity, Working

Number = Fraction | float | int


def by_dry_volume(
    wet: Quantity | Number,
    factor: Number | None,
    parts: Sequence[Number],
    *,
    before: Sequence[Number] = (),
    after: Sequence[Number] = (),
    how: Literal["compounded", "added"] = "compounded",
    cement_density: Number | None = None,
    bag_kg: Number | None = None,
    bag_m3: Number | None = None,
    book: Book | None = None,
    working: Working | None = None,
    at: str = "sum",
) -> DryVolume:
    """Loose dry cement and sand for a wet volume of mortar, by a custom factor.

    The factor (published ones run from 1.20 to 1.60) stands for the voids that paste fills, and on some pages for
    waste, joints or bulking as well; so a page's other allowances are given here as that page takes them.

    Parameters
    ----------
    wet
        mortar on the wall [m3].
    factor
        dry over wet volume; None = the book's first voice.
    parts
        parts by volume, cement first, sand last: ``(1, 4)``, ``(1, 1, 6)``.
    before, after
        shares of other allowances, taken before and after the factor (0.2 is twenty percent).
    how
        ``compounded``: each on the running volume. ``added``: each on the wet volume.
    cement_density, bag_kg, bag_m3
        loose cement [kg/m3] and what a bag holds: by mass, or by volume where the page goes by volume.

    Source: printed sums in worked-out pages; see docs/methods/quantities.md.
    """
    rules = book or default()
    kept = working if working is not None else Working()
    ratio: Given = rules.number("dry-volume.factor") if factor is None else factor
    start = kept.step(
        f"{at}/wet",
        "wet",
        "m3",
        "quantities.dry.wet",
        wet=wet if isinstance(wet, Quantity) else Quantity(wet, unit("m3")),
    )
    running = [start]
    steps: list[tuple[str, Given]] = (
        [("share", x) for x in before] + [("factor", ratio)] + [("share", x) for x in after]
    )
    for n, (kind, by) in enumerate(steps, start=1):
        base = start if how == "added" else running[-1]
        formula = "so_far + base * by" if kind == "share" else "so_far + base * (by - 1)"
        running.append(
            kept.step(f"{at}/dry-{n}", formula, "m3", f"quantities.dry.{kind}", so_far=running[-1], base=base, by=by)
        )
    dry = running[-1]
    all_parts = total(kept, f"{at}/parts", "quantities.dry.parts", "parts", [Quantity(p, unit("parts")) for p in parts])
    shares = tuple(
        kept.step(
            f"{at}/part-{n}",
            "dry * part / parts",
            "m3",
            "quantities.dry.part",
            dry=dry,
            part=Quantity(p, unit("parts")),
            parts=all_parts,
        )
        for n, p in enumerate(parts, start=1)
    )
    density: Given = (
        rules.number("dry-volume.cement-density") if cement_density is None else Quantity(cement_density, unit("kg/m3"))
    )
    mass = kept.step(
        f"{at}/cement-mass", "cement * density", "kg", "quantities.dry.cement", cement=shares[0], density=density
    )
    if bag_m3 is not None:
        bags = kept.step(
            f"{at}/bags",
            "cement / bag",
            "bags",
            "quantities.dry.bags",
            cement=shares[0],
            bag=Quantity(bag_m3, unit("m3")),
        )
    else:
        bag: Given = rules.number("dry-volume.bag") if bag_kg is None else Quantity(bag_kg, unit("kg"))
        bags = kept.step(f"{at}/bags", "cement / bag", "bags", "quantities.dry.bags", cement=mass, bag=bag)
    whole = kept.step(f"{at}/bags-whole", "ceil(bags)", "bags", "quantities.packages-whole", bags=bags)
    return DryVolume(start, tuple(running), dry, shares, mass, bags, whole)
