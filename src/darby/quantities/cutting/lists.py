"""The cut lists of the whole job, profile by profile, with their money as lines of working."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.measure.faults import Unreadable
from darby.measure.units import unit
from darby.quantities.cutting.model import (
    Bought,
    CutAsk,
    CutList,
    CutLists,
    Profile,
    ProfileCuts,
    Splice,
)
from darby.quantities.cutting.proof import lines, needed, readable
from darby.quantities.cutting.sheet import cut_list_of
from darby.quantities.cutting.whole import Asked, Packing, checked, exact, packing
from darby.quantities.items import called_in_a_note
from darby.rulebook import Book
from darby.working import Amount, Quantity, Working

if TYPE_CHECKING:
    from darby.quantities.cutting.best import Best

AT = "job/cut-list"


def cut_lists(ask: CutAsk) -> tuple[CutLists, Working]:
    """Every profile cut as cheaply as can be found in its time. A profile that cannot be cut carries its fault."""
    working = Working()
    if ask.kerf == 0 and ask.profiles:
        working.note("cutting.snips", "assumed", "job")
    found = tuple(_profile(working, profile, ask) for profile in sorted(ask.profiles, key=lambda p: p.item))
    costs = [x.cost for x in found if isinstance(x.cost, Amount)]
    saved = [x.saved for x in found if isinstance(x.saved, Amount)]
    return CutLists(found, _sum(working, "cost", costs), _sum(working, "saved", saved)), working


@dataclass(frozen=True, slots=True)
class Solved:
    """The task in whole numbers and the best that was found; ``judged`` is the task that its proof speaks of."""

    task: Packing
    best: Best
    judged: Packing
    proof: Best


def solved(asked: Asked, seconds: float) -> Solved | None:
    """The best that was found within ``seconds``; None where everything is laid on offcuts already.

    Where the units are too fine, sawn with pieces rounded up and judged with pieces rounded down, half the time each.
    """
    from darby.quantities.cutting.best import cheapest  # a solver, which no other answer waits for

    task = packing(asked)
    if task is None:
        return None
    if not task.coarse:
        best = cheapest(task, seconds)
        return Solved(task, best, task, best)
    up, down = packing(asked, "up"), packing(asked, "down")
    assert up is not None
    assert down is not None
    best, proof = cheapest(up, seconds / 2), cheapest(down, seconds / 2)
    best.bound = min(best.cost, proof.bound)
    proof.bound = best.bound
    return Solved(up, best, down, proof)


def sheet(asked: Asked, found: Solved | None, *, plain: bool = False) -> CutList:
    """The cut list with its proof; ``plain``: in the smallest numbers that prove it."""
    if found is None:
        return cut_list_of(asked, None, None, None, None, [])
    weighings = needed(found.judged, found.proof)
    if plain:
        weighings = readable(found.judged, found.proof, weighings)
    return cut_list_of(asked, found.task, found.best, found.judged, found.proof, weighings)


def _profile(working: Working, profile: Profile, ask: CutAsk) -> ProfileCuts:
    at = f"{AT}/{profile.item.replace(' ', '-')}"
    splice = _splice(working, profile, ask.book)
    try:
        pieces = [replace(p, length=exact(p.length)) for p in profile.pieces]
        asked = checked(pieces, profile.stock, exact(ask.kerf), profile.offcuts, splice, profile.item)
    except Unreadable as wrong:
        fault = wrong.fault
        named = {"place": called_in_a_note(fault.place), "found": fault.found, "allowed": fault.allowed}
        working.note(fault.code, "stop", "job", **named)
        return ProfileCuts(profile.item, None, fault=fault)
    return _worked(working, at, profile, sheet(asked, solved(asked, ask.seconds), plain=True))


def _splice(working: Working, profile: Profile, book: Book) -> Splice | None:
    """The splice rule with the book's least length where the profile has none of its own."""
    if profile.splice is None or profile.splice.least is not None:
        return profile.splice
    least = book.number("cutting.splice.least")
    longest = max((s.length for s in profile.stock), default=Fraction(0))
    if any(p.length > longest for p in profile.pieces):
        item = called_in_a_note(profile.item)
        working.note("cutting.assumed.splice", "assumed", "job", rules=(least.id,), item=item, least=least)
    return Splice(exact(least.number))


def _worked(working: Working, at: str, profile: Profile, cuts: CutList) -> ProfileCuts:
    cost = _priced(working, f"{at}/cost", "cutting.cost", cuts.bought, cuts.aim == "money")
    first = _priced(working, f"{at}/first-fit", "cutting.first-fit", cuts.first_fit_bought, cuts.aim == "money")
    item = called_in_a_note(profile.item)
    saved: Amount | Quantity
    if isinstance(cost, Amount) and isinstance(first, Amount):
        saved = working.money(f"{at}/saved", "first_fit - cost", "cutting.saved", first_fit=first, cost=cost)
    else:
        saved = working.step(f"{at}/saved", "first_fit - cost", "ft-in", "cutting.saved", first_fit=first, cost=cost)
        working.note("cutting.no-price", "assumed", "job", item=item)
    shown = "$" if cuts.aim == "money" else "ft-in"
    method = "cutting.method.proved" if cuts.proved_best else "cutting.method.best-found"
    bound = working.found(
        f"{at}/bound", Fraction(cuts.bound), shown, "cutting.bound", method=method, proof=lines(cuts), after=(cost.key,)
    )
    sawn = sum((bar.stock for bar in cuts.bars), Fraction(0))
    working.step(
        f"{at}/waste",
        "(bars - pieces) / bars",
        "%",
        "cutting.waste",
        bars=Quantity(sawn, unit("ft-in")),
        pieces=Quantity(cuts.length, unit("ft-in")),
    )
    if not cuts.proved_best:
        gap = Amount(cuts.gap) if isinstance(cuts.gap, Decimal) else Quantity(cuts.gap, unit(shown))
        working.note("cutting.gap", "caution", "job", item=item, gap=gap)
    if cuts.saved:
        working.note("cutting.saves", "fact", "job", item=item, saved=saved)
    if cuts.offcuts_used:
        working.note("cutting.offcuts-used", "fact", "job", item=item, count=len(cuts.offcuts_used))
    for placed in cuts.by_piece:
        if len(placed.bars) > 1:
            parts = tuple(Quantity(length, unit("ft-in")) for _, length in placed.bars)
            working.note("cutting.spliced", "fact", "job", piece=placed.piece, parts=parts)
    return ProfileCuts(profile.item, cuts, cost, first, saved, bound)


def _priced(working: Working, key: str, says: str, bought: tuple[Bought, ...], money: bool) -> Amount | Quantity:
    """Bars times price (or length), added up on one line."""
    formula = " + ".join(f"bars_{n} * each_{n}" for n, _ in enumerate(bought, start=1)) or "nothing"
    given: dict[str, Quantity | Amount] = {}
    for n, b in enumerate(bought, start=1):
        given[f"bars_{n}"] = Quantity(b.count, unit("pieces"))
        given[f"each_{n}"] = Amount(b.price) if b.price is not None else Quantity(b.length, unit("ft-in"))
    if money:
        return working.money(key, formula, says, unit="$", rules=(), **(given or {"nothing": Amount(Decimal(0))}))
    return working.step(key, formula, "ft-in", says, rules=(), **(given or {"nothing": Quantity(0, unit("ft-in"))}))


def _sum(working: Working, name: str, amounts: list[Amount]) -> Amount | None:
    if not amounts:
        return None
    names = {f"part_{n}": amount for n, amount in enumerate(amounts, start=1)}
    return working.money(f"job/cut-lists/{name}", " + ".join(names), f"cutting.all-{name}", unit="$", rules=(), **names)
