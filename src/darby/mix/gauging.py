"""Dampness, bulking and the water that is left to add; buckets and shovels; up and down to a workable step."""

from __future__ import annotations

from collections.abc import Iterable

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most, whole
from darby.measure.units import unit
from darby.mix.model import Gauge, Real
from darby.rulebook import Book, Figure
from darby.working import Given, Note, Quantity, Working, note

CU_FT, GAL, SHARE = unit("cu ft"), unit("gal"), unit("%")


def bulking_of(working: Working, key: str, damp: Quantity, flooded: Quantity) -> Quantity:
    """Jar test: damp sand stands ``damp`` high, flooded and stirred it settles to ``flooded``; the share it swells.

    Raises
    ------
    Unreadable
        for a flooded height of nothing, or one above the damp height.
    """
    if not flooded.value > 0 or not at_most(flooded.value, damp.value):
        raise Unreadable(Fault("mix.jar", "", f"{flooded.value}", f"0 to {damp.value}"))
    return working.step(
        f"{key}/bulking", "(damp - flooded) / flooded", SHARE, "mix.bulking", damp=damp, flooded=flooded
    )


def damp_volume(working: Working, key: str, dry: Quantity, bulking: Quantity) -> Quantity:
    """Loose volume of damp sand [m3] that holds as much sand as ``dry`` [m3] of dry sand."""
    return working.step(f"{key}/damp", "dry * (1 + bulking)", dry.unit, "mix.damp-volume", dry=dry, bulking=bulking)


def water_to_add(
    working: Working, key: str, says: str, wanted: Quantity, wet: Iterable[tuple[str, Quantity, Quantity]],
    gallon: Given, rules: Iterable[str] = (),
) -> Quantity:  # fmt: skip
    """Water to pour in [m3] = all the water wanted [kg] less what the damp materials bring.

    ``wet``: name, dry mass [kg] and free moisture (share of the dry mass) of each. Never below nothing.
    """
    given: dict[str, Given] = {}
    brought = []
    for name, dry, moisture in wet:
        given |= {name: dry, f"{name}_moisture": moisture}
        brought.append(f" - {name} * {name}_moisture")
    none = Quantity(0, unit("lb"))
    return working.step(
        key, f"max(wanted{''.join(brought)}, nothing) / gallon", GAL, says, rules=rules,
        wanted=wanted, gallon=gallon, nothing=none, **given,
    )  # fmt: skip


def up_to(x: Real, grain: Real) -> Fraction:
    """``x`` up to the next whole number of ``grain``."""
    return whole(Fraction(x) / Fraction(grain) if _exact(x, grain) else float(x) / float(grain)) * Fraction(grain)


def down_to(x: Real, grain: Real) -> Fraction:
    """``x`` down to the last whole number of ``grain``; a hair below one counts as it."""
    return -up_to(-x, grain)


def nearest(x: Real, grain: Real) -> Fraction:
    """``x`` to the nearest whole number of ``grain``, halves down."""
    return up_to(float(x) - float(grain) / 2, grain)


def _exact(*numbers: Real) -> bool:
    return not any(isinstance(n, float) for n in numbers)


def gauged(box: Fraction, count: Fraction) -> Fraction:
    """What one measure holds [m3], struck level, if ``count`` of them fill a box of ``box`` [m3].

    Raises
    ------
    Unreadable
        for a box or a count of nothing or less.
    """
    if not box > 0 or not count > 0:
        raise Unreadable(Fault("mix.no-measure", "", f"{count}", "> 0"))
    return Fraction(box) / Fraction(count)


def measure_of(working: Working, key: str, gauge: Gauge, book: Book) -> tuple[Quantity, Figure, list[Note]]:
    """What one count of sand holds [m3], to what step it is counted, and what has to be said about it."""
    grain = book.number("mix.count.grain", gauge=gauge.kind)
    struck = book.number("mix.bucket" if gauge.kind == "bucket" else "mix.shovel")
    notes: list[Note] = []
    if gauge.kind == "shovel":
        rule = book.number("mix.by-shovel")
        notes.append(note("mix.by-shovel", "caution", key, rules=[rule.id]))
    if gauge.volume is None:
        holds = working.step(f"{key}/gauge", "holds", CU_FT, f"mix.{gauge.kind}-holds", holds=struck)
        notes.append(note(f"mix.{gauge.kind}-not-gauged", "caution", key, rules=[struck.id], holds=holds))
        return holds, grain, notes
    if not 0 < gauge.volume < float("inf"):
        raise Unreadable(Fault("mix.no-measure", gauge.kind, str(gauge.volume), "> 0"))
    own = Quantity(gauge.volume, CU_FT)
    heaped = book.number("mix.bucket.heaped")
    if gauge.kind == "bucket" and at_most(heaped.number, gauge.volume):
        level = Quantity(struck.number, CU_FT)
        notes.append(note("mix.bucket-not-five", "caution", key, rules=[struck.id, heaped.id], own=own, struck=level))
    return own, grain, notes
