"""What is done to the base before the first coat, and what it is hung with where plaster cannot bond to it."""

from __future__ import annotations

from dataclasses import dataclass

from darby.buildup.doubts import verdict
from darby.buildup.model import BLOCK, DOUBTFUL, BuildUpAsk, Lath, Suction, Verdict
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.working.model import Note, Quantity, note


@dataclass(frozen=True, slots=True)
class Ground:
    """The base as it will be plastered: its suction, whether a dash bond goes on, and what has to be said of it."""

    suction: Suction | None
    dash: bool
    notes: tuple[Note, ...]


def ground(ask: BuildUpAsk) -> Ground:
    """What the base is like. An untested solid base is taken as its kind usually is, and that is noted.

    Absorptive block drinks (SMA); cast concrete hardly does; brick drinks fastest (MASEA); paint lets nothing in. Water
    that beads wants a dash bond (IBC 2510.7).
    """
    if not ask.solid:
        return Ground(None, False, tuple(_frame(ask) if ask.base == "frame" else _over_block(ask)))
    notes: list[Note] = []
    tried = ask.suction or _by_test(ask)
    suction = tried or _usual(ask)
    dash = suction in ("low", "none")
    # bare and rough enough, or else a dash; damp, or else it is robbed of its water
    rules = tuple(ask.book.number(s).id for s in ("prep.splash", "prep.surface" if dash else "prep.damp"))
    if tried is not None:
        notes.append(note(f"buildup.suction-{suction}", "fact", ask.at, rules=rules))
    elif ask.base in ("block", "concrete"):
        notes.append(note(f"buildup.assumed-suction-{suction}", "assumed", ask.at, rules=rules))
    else:
        slug = ask.base.replace(" ", "-")
        notes.append(note(f"buildup.assumed-suction.{slug}", "assumed", ask.at, rules=rules, suction=suction))
    if ask.base in BLOCK:
        notes += _block(ask, suction)
    if ask.base == "brick":
        notes += _brick(ask)
    if _try_first(ask, suction):
        patch = ask.book.number("prep.test-patch")
        notes.append(note("buildup.test-patch", "caution", ask.at, rules=(patch.id,)))
    weep = ask.book.number("prep.weep.masonry")
    if ask.position == "vertical" and not ask.framed:
        notes.append(note("buildup.no-weep-on-masonry", "fact", ask.at, rules=(weep.id,)))
    return Ground(suction, dash, tuple(notes))


def _by_test(ask: BuildUpAsk) -> Suction | None:
    """Suction by the water that was thrown on a doubtful base."""
    water = ask.tests.water if ask.tests is not None else None
    if water is None:
        return None
    return "usual" if water == "soaks in" else "low"


def _usual(ask: BuildUpAsk) -> Suction:
    """How such a base usually drinks: concrete and stone little, lightweight block and brick fast, paint not at all."""
    if ask.base in ("concrete", "stone"):
        return "low"
    if ask.base in ("painted block", "painted plaster"):
        return "none"
    if ask.base == "brick":
        return "usual" if ask.brick == "sound" else "high"
    return "high" if ask.weight == "lightweight" else "usual"


def _try_first(ask: BuildUpAsk, suction: Suction) -> bool:
    """On anything but new bare masonry, and on what nothing goes into, patches are tried (SMA); not where one held."""
    if ask.tests is not None and ask.tests.pull is not None:
        return False
    return suction == "none" or ask.base in ("stone", *DOUBTFUL)


def _block(ask: BuildUpAsk, suction: Suction) -> list[Note]:
    notes: list[Note] = []
    if ask.weight is None:
        notes.append(note("buildup.assumed-weight", "assumed", ask.at))
    notes += _joints(ask)
    if suction == "high":
        uneven = ask.book.number("prep.uneven-suction")
        notes.append(note("buildup.uneven-suction", "caution", ask.at, rules=(uneven.id,)))
    return notes


def _joints(ask: BuildUpAsk) -> list[Note]:
    flush = ask.book.number("prep.joints-flush")
    if ask.joints is None:
        return [note("buildup.assumed-joints", "assumed", ask.at, rules=(flush.id,))]
    if ask.joints == "struck":
        return [note("buildup.struck-joints", "caution", ask.at, rules=(flush.id,))]
    return []


def _brick(ask: BuildUpAsk) -> list[Note]:
    """Brick drinks fast, and soft brick wants plaster no harder than it is."""
    drinks = ask.book.number("prep.brick-drinks")
    notes = [note("buildup.brick-drinks", "fact", ask.at, rules=(drinks.id,)), *_joints(ask)]
    if ask.brick == "soft":
        harder = ask.book.number("prep.no-harder")
        notes.append(note("buildup.soft-brick", "caution", ask.at, rules=(harder.id,)))
    elif ask.brick is None:
        notes.append(note("buildup.assumed-brick", "assumed", ask.at))
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
        notes += [] if _on_old(ask) else _weep(ask)
    return notes


def _on_old(ask: BuildUpAsk) -> bool:
    """A patch whose lower edge meets old plaster: what drains the wall is lower down."""
    return ask.place == "patch" and any(m.edge == "base" and m.what == "old plaster" for m in ask.meets)


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
    found = verdict(ask)
    first = ("test-first",) if found == "test first" else ()
    if lath:
        return (*first, *_before_lath(ask, found))
    done = [*first, *_cleaned(ask)]
    if ask.base == "concrete" or got.suction == "none" or found == "roughen and bond":
        done.append("roughen")
    if ask.base in (*BLOCK, "brick") and ask.joints == "struck":
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


def _cleaned(ask: BuildUpAsk) -> tuple[str, ...]:
    """Old plaster is tapped and cut back to what is sound; loose paint comes off."""
    if ask.base == "old plaster":
        return ("cut-hollow", "clean")
    if ask.base == "painted plaster":
        return ("cut-hollow", "paint-off", "clean")
    return ("paint-off", "clean") if ask.base == "painted block" else ("clean",)


def _before_lath(ask: BuildUpAsk, found: Verdict | None) -> tuple[str, ...]:
    off = ("take-off",) if found == "do not" else ()
    # a patch ends on old plaster, not at the foot of a wall
    foot = ("weep-screed",) if ask.position == "vertical" and not _on_old(ask) else ()
    if ask.base == "frame":
        return ("check-framing", "paper", *foot, "lath")
    if ask.framed and found == "do not":
        return (*off, "check-framing", "paper", *foot, "lath")
    if ask.framed:
        return ("loose-off", "find-studs", "paper", *foot, "lath")
    return (*off, "loose-off", "lath-on-masonry")


def hung_with(ask: BuildUpAsk) -> Lath:
    """The lath for this base: paper-backed over open studs, rib on open ceilings, else self-furring."""
    if ask.base == "frame" and ask.sheathing == "open studs":
        return "rib" if ask.position == "horizontal" else "paper-backed"
    return "self-furring"


def layers(ask: BuildUpAsk) -> tuple[int, tuple[str, ...]]:
    """How many layers of paper hang under the lath, and the figure that says so."""
    if not ask.framed:
        return 0, ()
    over_old = ask.base != "frame" and verdict(ask) != "do not"
    figure = ask.book.number("prep.paper", sheathing="old plaster" if over_old else ask.sheathing or "wood")
    return round(figure.number), (figure.id,)
