"""How new plaster is parted from what it meets, and where the mason must set the block so that faces come flush."""

from __future__ import annotations

from dataclasses import dataclass

from darby.buildup.model import BLOCK, BuildUpAsk, How, MeetsOld, Parting
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.working.model import Note, Quantity, Working, note

_INCH = unit("in")


@dataclass(frozen=True, slots=True)
class Parted:
    """The partings of one option, the set-back that governs [m] and what has to be said."""

    partings: tuple[Parting, ...]
    set_back: Quantity | None
    notes: tuple[Note, ...]


def parted(w: Working, ask: BuildUpAsk, key: str, total: Quantity) -> Parted:
    """Parting at every edge that meets something and against every other base, for plaster ``total`` thick [m]."""
    notes: list[Note] = []
    partings = [_met(w, ask, key, meets, total, notes) for meets in ask.meets]
    partings += [_base(w, ask, key, zone) for zone, base in ask.next_to if base != ask.base]
    backs = [p.set_back for p in partings if p.set_back is not None]
    governs = max(backs, key=lambda q: q.value) if backs else None
    if governs is not None and any(q.value != governs.value for q in backs):
        notes.append(note("buildup.set-back-differs", "caution", ask.at, governs=governs))
    return Parted(tuple(partings), governs, tuple(notes))


def _width(w: Working, ask: BuildUpAsk, key: str) -> Quantity:
    """The gap: what round openings is left, never less than two beads back to back keep apart."""
    return w.step(
        f"{key}/gap",
        "max(gap, apart)",
        "in",
        "buildup.step.gap",
        gap=ask.book.number("parting.width"),
        apart=ask.book.number("parting.separation"),
    )


def _base(w: Working, ask: BuildUpAsk, key: str, zone: str) -> Parting:
    return Parting(zone, "two casing beads, rod and sealant", 2, _width(w, ask, f"{key}/{zone}"))


def _met(w: Working, ask: BuildUpAsk, key: str, meets: MeetsOld, total: Quantity, notes: list[Note]) -> Parting:
    k = f"{key}/{meets.edge}"
    if meets.what == "roof":
        notes.append(note("buildup.off-the-roof", "caution", ask.at, edge=meets.edge))
        return Parting(meets.edge, "casing bead kept off the roof", 1)
    how: How = "casing bead, rod and sealant"
    width = _width(w, ask, k)
    if meets.what == "other base":
        return Parting(meets.edge, "two casing beads, rod and sealant", 2, width)
    if meets.what == "trim":
        return Parting(meets.edge, how, 1, width)
    rule = ask.book.number("parting.old")
    notes.append(note("buildup.old-edge", "caution", ask.at, rules=(rule.id,), edge=meets.edge))
    back = _set_back(w, ask, k, meets, total, notes)
    return Parting(meets.edge, how, 1, width, back)


def _set_back(
    w: Working, ask: BuildUpAsk, key: str, meets: MeetsOld, total: Quantity, notes: list[Note]
) -> Quantity | None:
    """t - p: the face of the new plaster is to lie where the old one's is.

    The old face stands p proud of our bare base, the new plaster will be t thick. t > p: the base must sit back by
    t - p, or the new face stands that much proud of the old. t < p: the base must come forward, or the new face lies
    that much behind. Either way the base ends up t behind the old face; that is what a mason wants to hear.
    """
    proud = meets.proud
    if proud is None:
        if meets.thickness is None:
            notes.append(note("buildup.set-back-unmeasured", "caution", ask.at, edge=meets.edge, total=total))
            return None
        proud = meets.thickness
        old = Quantity(meets.thickness, _INCH)
        notes.append(note("buildup.assumed-proud", "assumed", ask.at, edge=meets.edge, thickness=old))
    stands = Quantity(proud, _INCH)
    back = w.step(f"{key}/set-back", "total - proud", "in", "buildup.step.set-back", total=total, proud=stands)
    notes.append(_said(ask, meets.edge, total, stands, back))
    return back


def _said(ask: BuildUpAsk, edge: str, total: Quantity, stands: Quantity, back: Quantity) -> Note:
    off = Quantity(abs(float(back)), _INCH, back.key)
    if at_most(float(total), float(stands)) and at_most(float(stands), float(total)):
        return note("buildup.set-back-flush", "fact", ask.at, edge=edge, total=total)
    code = "back" if float(back) > 0 else "forward"
    who = "-frame" if ask.framed else ""
    return note(f"buildup.set-back-{code}{who}", "caution", ask.at, edge=edge, by=off, total=total, proud=stands)


def joints(ask: BuildUpAsk, *, lath: bool) -> tuple[Note, ...]:
    """Which rules the joints follow: the block's own joints, or panels on lath (also lath over block)."""
    book = ask.book
    if not lath:
        rule = book.number("parting.direct")
        return (note("buildup.joints-follow-base", "fact", ask.at, rules=(rule.id,)),)
    area = book.number("parting.panel-area", position=ask.position)
    side, ratio = book.number("parting.panel-side"), book.number("parting.panel-ratio")
    rules = (area.id, side.id, ratio.id)
    return (note("buildup.joints-panels", "fact", ask.at, rules=rules, area=area, side=side, ratio=ratio),)


def beads(ask: BuildUpAsk, *, lath: bool, grounds: Quantity, bead: Quantity) -> tuple[Note, ...]:
    """Corner beads at outside corners, and which flange a casing bead has on block."""
    corner, from_ = ask.book.number("parting.corner-bead"), ask.book.number("thickness.measured-from")
    notes = [note("buildup.beads", "fact", ask.at, rules=(corner.id, from_.id), grounds=grounds, bead=bead)]
    if not lath and ask.base in BLOCK and (ask.meets or ask.next_to):
        flange = ask.book.number("parting.expanded-flange")
        notes.append(note("buildup.expanded-flange", "fact", ask.at, rules=(flange.id,)))
    if any(m.what in ("old plaster", "trim") for m in ask.meets) or any(b != ask.base for _, b in ask.next_to):
        unlike = ask.book.number("parting.unlike")
        notes.append(note("buildup.parted", "fact", ask.at, rules=(unlike.id,)))
    return tuple(notes)
