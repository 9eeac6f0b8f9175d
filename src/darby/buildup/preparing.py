"""What is done to the base before the first coat, and what it is hung with where plaster cannot bond to it."""

from __future__ import annotations

from dataclasses import dataclass

from darby.buildup.model import BuildUpAsk, Lath, Suction
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.working.model import Note, Quantity, note

SOLID = ("block", "concrete")


@dataclass(frozen=True, slots=True)
class Ground:
    """The base as it will be plastered: its suction, whether a dash bond goes on, and what has to be said of it."""

    suction: Suction | None
    dash: bool
    notes: tuple[Note, ...]


def ground(ask: BuildUpAsk) -> Ground:
    """What the base is like. An untested solid base is taken as its kind usually is, and that is noted.

    Absorptive block drinks (SMA); cast concrete hardly does. Water that beads wants a dash bond (IBC 2510.7).
    """
    if ask.base not in SOLID:
        return Ground(None, False, tuple(_frame(ask) if ask.base == "frame" else _over_block(ask)))
    notes: list[Note] = []
    suction = ask.suction or _usual(ask)
    dash = suction in ("low", "none")
    # bare and rough enough, or else a dash; damp, or else it is robbed of its water
    rules = tuple(ask.book.number(s).id for s in ("prep.splash", "prep.surface" if dash else "prep.damp"))
    if ask.suction is None:
        notes.append(note(f"buildup.assumed-suction-{suction}", "assumed", ask.at, rules=rules))
    else:
        notes.append(note(f"buildup.suction-{suction}", "fact", ask.at, rules=rules))
    if ask.base == "block":
        notes += _block(ask, suction)
    if suction == "none":
        patch = ask.book.number("prep.test-patch")
        notes.append(note("buildup.test-patch", "caution", ask.at, rules=(patch.id,)))
    weep = ask.book.number("prep.weep.masonry")
    if ask.position == "vertical":
        notes.append(note("buildup.no-weep-on-masonry", "fact", ask.at, rules=(weep.id,)))
    return Ground(suction, dash, tuple(notes))


def _usual(ask: BuildUpAsk) -> Suction:
    """How such a base usually drinks: concrete little, lightweight block fast."""
    if ask.base == "concrete":
        return "low"
    return "high" if ask.weight == "lightweight" else "usual"


def _block(ask: BuildUpAsk, suction: Suction) -> list[Note]:
    notes: list[Note] = []
    flush = ask.book.number("prep.joints-flush")
    if ask.weight is None:
        notes.append(note("buildup.assumed-weight", "assumed", ask.at))
    if ask.joints is None:
        notes.append(note("buildup.assumed-joints", "assumed", ask.at, rules=(flush.id,)))
    elif ask.joints == "struck":
        notes.append(note("buildup.struck-joints", "caution", ask.at, rules=(flush.id,)))
    if suction == "high":
        uneven = ask.book.number("prep.uneven-suction")
        notes.append(note("buildup.uneven-suction", "caution", ask.at, rules=(uneven.id,)))
    return notes


def _frame(ask: BuildUpAsk) -> list[Note]:
    book = ask.book
    bond = book.number("prep.no-bonding-on-lath")
    notes = [note("buildup.no-bonding-on-lath", "fact", ask.at, rules=(bond.id,))]
    if ask.sheathing is None:
        notes.append(note("buildup.assumed-sheathing", "assumed", ask.at))
    framing = book.number("prep.framing")
    if ask.stud_spacing is not None and not at_most(ask.stud_spacing, framing.number):
        apart = Quantity(ask.stud_spacing, unit("in"))
        notes.append(note("buildup.studs-too-wide", "stop", ask.at, rules=(framing.id,), apart=apart, limit=framing))
    if ask.position == "vertical":
        notes += _weep(ask)
    return notes


def _weep(ask: BuildUpAsk) -> list[Note]:
    """The screed at the foot of a framed wall: how high it must stand, and whether it does (IRC R703.7.2.1)."""
    earth, paving = ask.book.number("prep.weep.earth"), ask.book.number("prep.weep.paving")
    rules = (earth.id, paving.id)
    notes = [note("buildup.weep-screed", "fact", ask.at, rules=rules, earth=earth, paving=paving)]
    measured = (("earth", ask.above_earth, earth), ("paving", ask.above_paving, paving))
    for over, found, least in measured:
        if found is not None and not at_most(least.number, found):
            stands = Quantity(found, unit("in"))
            notes.append(
                note(f"buildup.weep-low-{over}", "caution", ask.at, rules=(least.id,), stands=stands, least=least)
            )
    return notes


def _over_block(ask: BuildUpAsk) -> list[Note]:
    bond = ask.book.number("prep.no-bonding-on-lath")
    return [note("buildup.no-bonding-on-lath", "fact", ask.at, rules=(bond.id,))]


def steps_before(ask: BuildUpAsk, got: Ground, *, lath: bool, skim: bool, dub: bool) -> tuple[str, ...]:
    """What is done before the first coat, in order, as codes ("clean", "damp" ...)."""
    if lath:
        return _before_lath(ask)
    done = ["clean"]
    if ask.base == "concrete" or got.suction == "none":
        done.append("roughen")
    if ask.base == "block" and ask.joints == "struck":
        done.append("fill-joints")
    if got.dash:
        # a skim is too thin to bury a dash
        done.append("bonding-agent" if skim else "dash-bond")
    else:
        done.append("damp")
        if got.suction == "high":
            done.append("damp-again")
    if dub:
        done.append("dub-out")
    return tuple(done)


def _before_lath(ask: BuildUpAsk) -> tuple[str, ...]:
    if ask.base == "frame":
        foot = ("weep-screed",) if ask.position == "vertical" else ()
        return ("check-framing", "paper", *foot, "lath")
    return ("loose-off", "lath-on-masonry")


def hung_with(ask: BuildUpAsk) -> Lath:
    """The lath for this base: paper-backed over open studs, rib on open ceilings, else self-furring."""
    if ask.base == "frame" and ask.sheathing == "open studs":
        return "rib" if ask.position == "horizontal" else "paper-backed"
    return "self-furring"


def layers(ask: BuildUpAsk) -> tuple[int, tuple[str, ...]]:
    """How many layers of paper hang under the lath, and the figure that says so."""
    if ask.base != "frame":
        return 0, ()
    figure = ask.book.number("prep.paper", sheathing=ask.sheathing or "wood")
    return round(figure.number), (figure.id,)
