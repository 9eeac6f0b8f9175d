"""A re-coat: whether the added plaster fits at every opening, weep, vent and eave; masking, washing, what comes off."""

from __future__ import annotations

from collections.abc import Iterable

from darby.condition.recoat_model import Check, Real, Recoat, RecoatAsk, Spot
from darby.measure.limits import at_most
from darby.measure.units import UNITS, unit
from darby.working.model import Given, Quantity, Working

_INCH = unit("in")
_HOURS = unit("h")
_NAMED = {"frame": "edge", "return": "edge", "vent": "name", "eave": "name"}
"""What a note calls a place: an opening by its id, what is not on the wall's outline by the name he gave it."""


def recoat(ask: RecoatAsk) -> tuple[Recoat, Working]:
    """Every place of every wall checked, and what is done before the first coat.

    At each place: ``left = room - added`` [m], held against what has to be kept there (``recoat.keep.*``). Nothing of
    this is in a standard that was read: what is kept is common practice, and says so.
    """
    w = Working()
    if not ask.walls:
        return Recoat(), w
    checks = tuple(
        _check(w, ask, wall.added, spot) for wall in ask.walls if wall.added is not None for spot in wall.spots
    )
    for wall in ask.walls:
        if wall.added is None:
            w.note("condition.recoat.comes-off", "assumed", wall.surface)
        elif ask.own:
            w.note("condition.recoat.own-adds", "assumed", wall.surface, added=wall.added)
    edges = [x for wall in ask.walls for x in wall.edges]
    mask = _sum(w, "job/recoat/mask/length", "condition.recoat.step.mask", "ft", edges)
    cover = _sum(
        w, "job/recoat/mask/cover", "condition.recoat.step.cover", "sq ft", [x for a in ask.walls for x in a.covered]
    )
    wash = _sum(w, "job/recoat/wash/area", "condition.recoat.step.wash", "sq ft", [wall.area for wall in ask.walls])
    rough = _sum(w, "job/recoat/rough/area", "condition.recoat.step.rough", "sq ft", [wall.rough for wall in ask.walls])
    return (
        Recoat(
            added=tuple((wall.surface, wall.added) for wall in ask.walls if wall.added is not None),
            checks=checks,
            mask=mask,
            cover=cover,
            mask_hours=_hours(w, "mask", mask, ask.mask),
            wash=wash,
            wash_hours=_hours(w, "wash", wash, ask.wash),
            rough=rough,
            rough_hours=_hours(w, "rough", rough, ask.roughen),
            off_hours=_off(w, ask),
        ),
        w,
    )


def _check(w: Working, ask: RecoatAsk, added: Quantity, spot: Spot) -> Check:
    """One place. What nobody measured is neither good nor bad: it is asked for."""
    figure = ask.book.number(f"recoat.keep.{spot.kind}")
    # a rule in words has nothing that must stand out: the face only must not pass it
    keep = Quantity(figure.number if figure.kind == "number" else 0, _INCH)
    named = {_NAMED[spot.kind]: spot.name} if spot.kind in _NAMED else {}
    if spot.room is None and spot.renewed:
        return Check(spot.kind, spot.at, spot.name, spot.count, added, keep, renewed=True)
    if spot.room is None:
        w.note(f"condition.recoat.unmeasured.{spot.kind}", "assumed", spot.at, rules=(figure.id,), **named)
        return Check(spot.kind, spot.at, spot.name, spot.count, added, keep)
    key = f"{spot.at}/recoat/{spot.kind}"
    room = Quantity(spot.room, _INCH)
    left = w.step(f"{key}/left", "room - added", _INCH, "condition.recoat.step.left", room=room, added=added)
    if at_most(keep.value, left.value):
        return Check(spot.kind, spot.at, spot.name, spot.count, added, keep, room, left)
    if spot.renewed:
        w.note(f"condition.recoat.renewed.{spot.kind}", "fact", spot.at, rules=(figure.id,), room=room, added=added)
        return Check(spot.kind, spot.at, spot.name, spot.count, added, keep, room, left, renewed=True)
    short = w.step(
        f"{key}/short", "keep - left", _INCH, "condition.recoat.step.short", rules=(figure.id,), keep=keep, left=left
    )
    w.note(
        f"condition.recoat.short.{spot.kind}", "caution", spot.at, rules=(figure.id,),
        room=room, added=added, short=short, keep=keep, **named,
    )  # fmt: skip
    return Check(spot.kind, spot.at, spot.name, spot.count, added, keep, room, left, short)


def _sum(w: Working, key: str, says: str, name: str, parts: Iterable[Real]) -> Quantity | None:
    """Parts added up; None where there are none."""
    given: dict[str, Given] = {f"p{n}": Quantity(x, unit(name)) for n, x in enumerate(parts) if x}
    return w.step(key, " + ".join(given), UNITS[name], says, rules=(), **given) if given else None


def _hours(w: Working, what: str, much: Quantity | None, pace: Quantity | None) -> Quantity | None:
    if much is None:
        return None
    if pace is None:
        w.note(f"condition.recoat.no-pace.{what}", "assumed", "job", much=much)
        return None
    return w.step(
        f"job/recoat/{what}/hours", "much / pace", _HOURS, f"condition.recoat.step.{what}-hours", much=much, pace=pace
    )


def _off(w: Working, ask: RecoatAsk) -> Quantity | None:
    """Hours of one person for all that comes off and goes back."""
    parts: dict[str, Given] = {}
    for n, off in enumerate(ask.off):
        if off.each is None:
            w.note("condition.recoat.no-time", "assumed", "job", what=off.what, count=off.count)
            continue
        parts[f"p{n}"] = w.step(
            f"job/recoat/off/{n}", "count * each", _HOURS, "condition.recoat.step.off",
            count=off.count, each=Quantity(off.each, _HOURS),
        )  # fmt: skip
    if not parts:
        return None
    return w.step(
        "job/recoat/off/hours", " + ".join(parts), _HOURS, "condition.recoat.step.off-hours", rules=(), **parts
    )
