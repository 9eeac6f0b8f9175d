"""The graph's verb: every coat of a job with its mix, verdict, yield, batch and number of batches."""

from __future__ import annotations

from dataclasses import replace

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.units import unit
from darby.mix.batches import (
    HALF,
    Counted,
    bagged_batch,
    batch_of,
    count_bagged,
    count_batches,
    counted,
    outlasts,
    propose_batch,
)
from darby.mix.model import (
    BagLabel,
    Batch,
    Batches,
    CoatMix,
    CoatNeed,
    Materials,
    MixAsk,
    Mixes,
    MixParts,
    Real,
    Verdict,
    parts_from,
)
from darby.mix.proportions import judge, propose
from darby.mix.yields import CU_FT, GAL, PLAIN, basis, reckon
from darby.rulebook import Book
from darby.working import Note, Quantity, Working, note


def mixes(ask: MixAsk) -> tuple[Mixes, Working]:
    """Every coat asked about, with its mix and how to mix it.

    Returns
    -------
    Mixes
        one CoatMix a coat, in the order asked.
    Working
        its steps, keyed by each coat's own ``id``, and all its notes.

    Raises
    ------
    Unreadable
        for parts that are no mix, or measures that are nothing.
    """
    working = Working()
    found: dict[str, CoatMix] = {}
    for need in sorted(ask.coats, key=lambda n: n.coat == "brown"):  # a brown coat looks at its scratch coat
        before = len(working.notes)
        bagged = need.bagged is not None and need.mix is None
        coat = _bagged(working, need, ask) if bagged else _site_mixed(working, need, ask, found)
        found[need.id] = replace(coat, notes=tuple(working.notes[before:]))
    shared = _for_all(ask.book) if ask.coats else ()
    working.notes.extend(shared)
    return Mixes(tuple(found[need.id] for need in ask.coats), shared), working


def _site_mixed(working: Working, need: CoatNeed, ask: MixAsk, found: dict[str, CoatMix]) -> CoatMix:
    key, book = need.id, ask.book
    scratch = _scratch_under(need, found)
    proposed = need.mix is None
    if need.mix is not None:
        parts = parts_from(need.mix)
    else:
        parts = propose(working, key, need.coat, need.suction, need.cement, book, scratch)
    verdict = judge(working, key, parts, need.coat, need.suction, book, scratch)
    on = basis(parts, key, book, ask.measured)
    made, load = reckon(working, key, parts, book, on, ask.bags)
    if parts.lime > 0:
        box = book.rule("mix.lime.loose-box").figure
        working.note("mix.weigh-lime", "fact", key, rules=[box.id], box=box)
    mix = counted(working, key, parts, made, load, on, book, ask.bags, ask.gauge, _span(verdict))
    half = batch_of(working, f"{key}/half-bag", mix, HALF, weighed=True)
    batch = _batch(working, key, mix, ask.mixer)
    within, batches = _use_within(working, key, book), None
    if batch is not None and need.volume > 0:
        batches = count_batches(working, f"{key}/batches", mix, batch, need.volume)
        _warn(working, need, batch, batches, within)
    return CoatMix(
        key, need.coat, parts, None, proposed, verdict, made, made.materials, batch, half, batches, within, ()
    )  # fmt: skip


def _scratch_under(need: CoatNeed, found: dict[str, CoatMix]) -> MixParts | None:
    """The scratch coat a brown coat lies on: the one named, else its neighbour by name."""
    if need.coat != "brown":
        return None
    under = found.get(need.over or f"{need.id.rpartition('/')[0]}/scratch")
    return under.parts if under is not None and under.coat == "scratch" else None


def _span(verdict: Verdict) -> tuple[Real, Real] | None:
    """Least and most parts of sand, where the mix is inside them: a count of sand must not carry it out."""
    if not verdict.inside or verdict.sand_most is None:
        return None
    return (verdict.sand_least.value if verdict.sand_least is not None else 0), verdict.sand_most.value


def _batch(working: Working, key: str, mix: Counted, mixer: Real | None) -> Batch | None:
    if mixer is None:
        working.note("mix.no-mixer", "assumed", key)
        return batch_of(working, f"{key}/batch", mix, Fraction(1))
    return propose_batch(working, f"{key}/batch", mix, mixer)


def _use_within(working: Working, key: str, book: Book) -> Quantity:
    general, strict = book.number("mix.use-within"), book.number("mix.use-within.by-specification")
    working.note("mix.use-within", "caution", key, rules=[general.id, strict.id], within=general, strict=strict)
    return Quantity(general.number, general.unit)


def _bagged(working: Working, need: CoatNeed, ask: MixAsk) -> CoatMix:
    key, label = need.id, need.bagged
    assert label is not None
    checked_label(label)
    working.note("mix.by-label", "fact", key, name=label.name, makes=Quantity(label.yields, CU_FT))
    water = None
    if label.water is None:
        working.note("mix.label-no-water", "caution", key, name=label.name)
    else:
        water = working.step(
            f"{key}/water-per-mortar", "water / makes", PLAIN, "mix.water-per-mortar",
            water=Quantity(label.water, GAL), makes=Quantity(label.yields, CU_FT),
        )  # fmt: skip
    materials = Materials(
        water=water,
        bag=Quantity(label.yields, CU_FT),
        water_each=None if label.water is None else Quantity(label.water, GAL),
    )
    if label.use_within is None:
        within = _use_within(working, key, ask.book)
    else:
        within = Quantity(label.use_within, unit("min"))
        working.note("mix.label-use-within", "caution", key, name=label.name, within=within)
    batch = bagged_batch(working, f"{key}/batch", label, ask.mixer)
    batches = None
    if batch is not None and need.volume > 0:
        batches = count_bagged(working, f"{key}/batches", label, batch, need.volume)
        _warn(working, need, batch, batches, within)
    return CoatMix(key, need.coat, None, label, False, None, None, materials, batch, None, batches, within, ())


def _warn(working: Working, need: CoatNeed, batch: Batch, batches: Batches, within: Quantity) -> None:
    """Of the largest batch that is mixed: the full one, or the part of one where no full one is."""
    largest = batch if batches.whole or batches.last is None else batches.last
    outlasts(working, need.id, largest, need.volume, need.hours, within)


def checked_label(label: BagLabel) -> None:
    """Refuse a bag that weighs or makes nothing.

    Raises
    ------
    Unreadable
        naming the field.
    """
    for name, value in (("weight", label.mass), ("yield", label.yields)):
        if not 0 < value < float("inf"):
            raise Unreadable(Fault("mix.no-label", f"{label.id} {name}", str(value), "> 0"))


def _for_all(book: Book) -> tuple[Note, ...]:
    """What holds for every mix: how long to mix, wet cement on skin, dust at the mixer."""
    time = book.rule("mix.time").figure
    skin, dust = book.rule("mix.safety.skin").figure, book.rule("mix.safety.dust").figure
    return (
        note("mix.time", "fact", "job", rules=[time.id], time=time),
        note("mix.wet-cement", "caution", "job", rules=[skin.id]),
        note("mix.dust", "caution", "job", rules=[dust.id]),
    )
