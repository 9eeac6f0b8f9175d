"""Mix: proportions checked, yield by absolute volumes, batches for his mixer in his own bucket.

``mixes`` is the graph's verb. ``check``, ``yield_of``, ``batch`` and the small ones beside them are conveniences that
use the default rule book unless given another.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from quicktions import Fraction

from darby.mix import batches as _batches
from darby.mix import gauging as _gauging
from darby.mix.mixes import mixes
from darby.mix.model import (
    NOTHING_MEASURED,
    RULE_BOOK_BAGS,
    BagLabel,
    BagSizes,
    Batch,
    Batches,
    Coat,
    CoatMix,
    CoatNeed,
    Gauge,
    Ingredient,
    Materials,
    Measured,
    MixAsk,
    Mixes,
    MixParts,
    OverMixer,
    Real,
    SandCount,
    Suction,
    Verdict,
    Yield,
    parts_from,
)
from darby.mix.proportions import judge, propose
from darby.mix.yields import basis, by_weight, needs, reckon, split
from darby.rulebook import Book, default
from darby.working import Quantity, Working

__all__ = [
    "BagLabel", "BagSizes", "Batch", "Batches", "CoatMix", "CoatNeed", "Gauge", "Ingredient", "Materials", "Measured",
    "MixAsk", "MixParts", "Mixes", "OverMixer", "SandCount", "Verdict", "Yield", "batch", "batches", "bulking",
    "by_weight", "check", "mixes", "needs", "proposed", "split", "yield_of",
]  # fmt: skip

PartsLike = MixParts | Mapping[str, Real]
_ANY = Gauge()


def check(
    parts: PartsLike,
    coat: Coat,
    suction: Suction = "usual",
    *,
    scratch: PartsLike | None = None,
    book: Book | None = None,
) -> Verdict:
    """A mix against the limits of its coat: sand per sum of cementitious materials, lime by suction.

    Parameters
    ----------
    parts
        by loose volume: MixParts, or ``{"portland": 1, "lime": 0.75, "sand": 5}``.
    suction
        of the base: "low", "usual", "high", or "none" for lath and paper.
    scratch
        the mix under a brown coat, which must not carry more sand than the brown.

    Raises
    ------
    Unreadable
        for parts that are no mix.

    Source: IRC 2018 Table R702.1(3), IBC 2510.7 and 2512.
    """
    under = parts_from(scratch) if scratch is not None else None
    return judge(Working(), "mix", parts_from(parts), coat, suction, book or default(), under)


def proposed(
    coat: Coat, suction: Suction = "usual", cement: str = "portland", *, scratch: PartsLike | None = None,
    book: Book | None = None,
) -> MixParts:  # fmt: skip
    """A mix inside the limits of the coat, for who has none: lime in the middle, sand a third up its range."""
    under = parts_from(scratch) if scratch is not None else None
    return propose(Working(), "mix", coat, suction, cement, book or default(), under)


def yield_of(
    parts: PartsLike,
    *,
    air: Real | None = None,
    water: Real | None = None,
    density: Real | None = None,
    factor: Real | None = None,
    bags: BagSizes = RULE_BOOK_BAGS,
    measured: Measured = NOTHING_MEASURED,
    book: Book | None = None,
    working: Working | None = None,
) -> Yield:
    """What one bag of the main cement makes [m3], and what a cubic metre of mortar takes.

    Parameters
    ----------
    air, water
        shares: 0.05 of the mortar's volume; 0.14 of the dry mass, the sand's own dampness counted.
    density
        weight of the fresh mix [kg/m3], from a struck bucket on a scale: then the air is found, not assumed.
    factor
        the custom of dividing the loose volumes by a dry-volume factor (1.33 ...), instead of all the rest.
    measured
        loose weights of his own materials [kg/m3]; ``air``, ``water`` and ``density`` here go before those in it.
    working
        where the steps are kept, under "mix/..."; a new one if not given.

    Raises
    ------
    Unreadable
        for parts that are no mix, or shares and weights that cannot be.

    Source: absolute volumes, PCA EB001; see docs/methods/mix.md.
    """
    own = replace(
        measured,
        air=measured.air if air is None else air,
        water=measured.water if water is None else water,
        density=measured.density if density is None else density,
    )
    mix, chosen = parts_from(parts), book or default()
    made, _ = reckon(working or Working(), "mix", mix, chosen, basis(mix, "mix", chosen, own, factor), bags)
    return made


def _counted(
    parts: PartsLike, gauge: Gauge, bags: BagSizes, measured: Measured, book: Book | None
) -> tuple[Working, _batches.Counted]:
    working, mix, chosen = Working(), parts_from(parts), book or default()
    on = basis(mix, "mix", chosen, measured)
    made, load = reckon(working, "mix", mix, chosen, on, bags)
    return working, _batches.counted(working, "mix", mix, made, load, on, chosen, bags, gauge)


def batch(
    parts: PartsLike,
    mixer_m3: Real | None = None,
    *,
    gauge: Gauge = _ANY,
    bags: Real | None = None,
    sizes: BagSizes = RULE_BOOK_BAGS,
    measured: Measured = NOTHING_MEASURED,
    book: Book | None = None,
) -> Batch:
    """One mixer load: the largest in whole or half bags that fits ``mixer_m3``, or exactly ``bags``.

    Without a mixer: one bag. A mixer is rated by the wet mortar it turns.

    Raises
    ------
    OverMixer
        (an Unreadable) if ``bags``, or even half a bag, does not fit; ``.half_bag`` is half a bag as weighed.
    Unreadable
        for ``bags`` that are not whole or half.
    """
    working, mix = _counted(parts, gauge, sizes, measured, book)
    if bags is not None or mixer_m3 is None:
        return _batches.explicit_batch(working, "mix/batch", mix, Fraction(1 if bags is None else bags), mixer_m3)
    found = _batches.propose_batch(working, "mix/batch", mix, mixer_m3)
    return found or _batches.explicit_batch(working, "mix/half", mix, _batches.HALF, mixer_m3)


def batches(
    parts: PartsLike,
    mixer_m3: Real,
    volume_m3: Real,
    *,
    gauge: Gauge = _ANY,
    sizes: BagSizes = RULE_BOOK_BAGS,
    measured: Measured = NOTHING_MEASURED,
    book: Book | None = None,
) -> Batches:
    """How many full batches make ``volume_m3`` of mortar, and the part batch at the end.

    Raises
    ------
    OverMixer
        if not even half a bag fits the mixer.
    """
    working, mix = _counted(parts, gauge, sizes, measured, book)
    full = _batches.propose_batch(working, "mix/batch", mix, mixer_m3)
    full = full or _batches.explicit_batch(working, "mix/half", mix, _batches.HALF, mixer_m3)
    return _batches.count_batches(working, "mix/batches", mix, full, volume_m3)


def bulking(damp: Real, flooded: Real) -> Quantity:
    """Jar test: the share by which damp sand stands higher than the same sand flooded (in any one unit)."""
    return _gauging.bulking_of(Working(), "mix", Quantity(damp), Quantity(flooded))
