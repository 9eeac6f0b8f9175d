"""[mixes] and [[bagged]] of the firm file: what each coat is mixed of."""

from __future__ import annotations

from darby.job import allowed as ok
from darby.job.fields import Document, Measured, Parts, key, must
from darby.job.firm import COAT_NAMES, MIXED, Bagged, Mix
from darby.job.firm import Part as MixPart
from darby.job.part import Part


class MixDocument(Document):
    """What one coat is mixed of: parts by volume, or a bagged material."""

    portland: Parts = key("Parts of portland cement.")
    masonry_cement: Parts = key("Parts of masonry cement.", alias="masonry cement")
    plastic_cement: Parts = key("Parts of plastic (stucco) cement.", alias="plastic cement")
    lime: Parts = key("Parts of hydrated lime.")
    sand: Parts = key("Parts of damp sand, as shovelled.")
    bagged: str = key("The `id` of a bagged material, in place of parts.")


class MixesDocument(Document):
    """[mixes]: the mix of each coat."""

    dash_bond: MixDocument = key("Dash bond coat.", alias="dash-bond")
    scratch: MixDocument = key("Scratch coat.")
    brown: MixDocument = key("Brown coat.")
    base: MixDocument = key("The base coat of two-coat work.")
    finish: MixDocument = key("Finish coat.")


class BaggedDocument(Document):
    """[[bagged]]: a material by its bag label."""

    id: str = must("The short name the mixes call it by.")
    weight: Measured = must("Weight of one bag: `80 lb`.")
    yields: Measured = must("What one bag makes, from the label: `0.75 cu ft`.", alias="yield")
    name: str = key("What the label says.")
    water: Measured = key("Water for one bag: `1.5 gal`.")
    use_within: Measured = key("How long it may stand after mixing: `90 min`.")


def read_mixes(part: Part) -> tuple[Mix, ...]:
    """One mix a coat: parts by volume, or a bagged material by id (checked by the caller that knows the bags)."""
    mixes: list[Mix] = []
    for coat in COAT_NAMES:
        entry = part.part(coat)
        if entry is None:
            continue
        parts = []
        for material in MIXED:
            amount = entry.parts_of(material)
            if amount is not None:
                parts.append(MixPart(material, amount))
        bagged = entry.text("bagged") or None
        written = [material for material in MIXED if entry.said(material)]
        if bagged and written:
            entry.fault("bagged", "job.mix-both", f"{bagged}, {', '.join(written)}", ok.PARTS_OR_BAG)
        elif not bagged and not entry.said("bagged") and not set(written) - {"sand"}:
            entry.fault(None, "job.mix-without-cement", ", ".join(written), ok.CEMENT_OR_BAG)
        mixes.append(Mix(coat, tuple(parts), bagged))  # type: ignore[arg-type]
    return tuple(mixes)


def check_bags(part: Part, bags: tuple[str, ...]) -> None:
    """A mix that names a bag must name one that the firm has."""
    for coat in COAT_NAMES:
        entry = part.part(coat)
        if entry is not None and entry.has("bagged") and entry.text("bagged") not in bags:
            entry.unknown("bagged", "job.no-such-bag", entry.text("bagged"), bags or ("[[bagged]]",))


def read_bagged(part: Part) -> tuple[tuple[Bagged, ...], tuple[str, ...]]:
    """[[bagged]] entries; and every id that was written, whether or not its bag could be read."""
    bags: list[Bagged] = []
    seen: set[str] = set()
    for entry in part.parts("bagged"):
        name = entry.id("id", seen)
        weight, yields = entry.mass("weight"), entry.volume("yield")
        water = entry.volume("water") if entry.has("water") else None
        use_within = entry.time("use_within")
        if name and weight is not None and yields is not None:
            bags.append(Bagged(name, entry.text("name") or name, weight, water, yields, use_within))
    return tuple(bags), tuple(sorted(seen))
