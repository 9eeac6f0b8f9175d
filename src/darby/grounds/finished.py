"""After the work: a straightedge rolled over readings of the finished face, held against the rules of flatness."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from darby.grounds.model import Finished, FinishedAsk, Gap, Rolled, Straightedge
from darby.grounds.straightedge import lines_of, rolled
from darby.grounds.truing import rules_of
from darby.measure.units import unit
from darby.measure.writing import shown, write
from darby.working.model import Note, Quantity, Working, note

IN, FT_IN = unit("in"), unit("ft-in")


def check_finished(ask: FinishedAsk) -> tuple[Finished, Working]:
    """Each straightedge rolled along every level and every plumb line that holds three readings.

    Raises
    ------
    Unreadable
        "grounds.few", "grounds.no-number".

    Readings off any plane will do: a straightedge knows no plumb.
    """
    working, lines = Working(), lines_of(ask.readings)
    found, notes = [], [note("grounds.finished-between", "fact", ask.at, count=len(ask.readings))]
    for rule in rules_of(ask):
        one = _kept(ask, rolled(lines, rule.length, rule.gap), rule, working)
        found.append(one)
        notes.append(_said(ask, one, rule))
    working.notes.extend(notes)
    return Finished(ask.at, tuple(found), tuple(notes)), working


def _kept(ask: FinishedAsk, one: Rolled, rule: Straightedge, working: Working) -> Rolled:
    """The worst gap as a line of the working."""
    if one.worst is None:
        return one
    worst = one.worst
    proof = (f"{_at(worst.start)} … {_at(worst.end)}, {_at(worst.at)}: {shown(worst.gap.value, IN)}",)
    key = f"{ask.at}/finished/{write(float(rule.length), 'ft-in').replace(' ', '-')}"
    gap = working.found(key, float(worst.gap), IN, "grounds.step.gap-rolled", method="grounds.method.rolled",
                        proof=proof, rules=_rules(ask, rule))  # fmt: skip
    return replace(one, worst=replace(worst, gap=gap))


def _rules(ask: FinishedAsk, rule: Straightedge) -> tuple[str, ...]:
    """The figures of the book behind a rule; none where it is his own."""
    if ask.straightedges is not None:
        return ()
    which = "short" if rule == rules_of(ask)[0] else "long"
    return tuple(ask.book.number(f"grounds.{which}-{what}").id for what in ("edge", "gap"))


def _said(ask: FinishedAsk, one: Rolled, rule: Straightedge) -> Note:
    values: dict[str, Any] = {"length": Quantity(rule.length, FT_IN)}
    rules = _rules(ask, rule)
    if one.worst is None:
        return note("grounds.finished-unknown", "caution", ask.at, rules=rules, **values)
    values["allowed"] = Quantity(rule.gap, IN)
    worst: Gap = one.worst
    if worst.bend is None:
        return note("grounds.finished-true", "fact", ask.at, rules=rules, **values)
    values |= {"gap": worst.gap, "bend": f"grounds.bend.{worst.bend}",
               "across": Quantity(worst.at[0], FT_IN), "up": Quantity(worst.at[1], FT_IN)}  # fmt: skip
    if one.keeps:
        return note("grounds.finished-keeps", "fact", ask.at, rules=rules, **values)
    values |= {"start": _at(worst.start), "end": _at(worst.end)}
    return note("grounds.finished-over", "caution", ask.at, rules=rules, **values)


def _at(place: tuple[float, float]) -> str:
    return f"({write(place[0])}, {write(place[1])})"
