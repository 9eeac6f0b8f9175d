"""The answer put together: three faces side by side, and the chosen one down to its grounds, spots and hollows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from quicktions import Fraction

from darby.grounds import proof
from darby.grounds.checks import Array, Checked, checked
from darby.grounds.cover import coverage, wild
from darby.grounds.faces import Set, lean_rate, plane
from darby.grounds.holding import Past, holdings, limit_of, past_limit, patches
from darby.grounds.model import (
    Face,
    FinishedAsk,
    Gap,
    Grounds,
    GroundsAsk,
    Holding,
    Map,
    Patch,
    Straightedge,
)
from darby.grounds.saying import notes_of
from darby.grounds.setting import corners, grounds
from darby.grounds.spots import high_spots, money
from darby.grounds.straightedge import Sag, gap_of
from darby.grounds.wall import Wall
from darby.grounds.wander import grid_of, wandering
from darby.measure.checks import SLIVER
from darby.measure.outline import area_of
from darby.measure.units import unit
from darby.measure.writing import HAIR, shown
from darby.rulebook.model import Figure
from darby.working.model import Quantity, Working

IN, FT_IN, SQ_FT, CU_FT = unit("in"), unit("ft-in"), unit("sq ft"), unit("cu ft")


@dataclass(frozen=True)
class _Truing:
    """What every part of the answer is worked from."""

    ask: GroundsAsk
    given: Checked
    wall: Wall
    working: Working
    key: str
    rules: tuple[Straightedge, ...]
    lean: float
    spacing: float
    limit: Figure | None
    net: Quantity
    bare: Quantity


def true_up(ask: GroundsAsk) -> tuple[Grounds, Working]:
    """Where the finished face goes with the least plaster, dead plumb, leaning and wandering, and what follows.

    Raises
    ------
    Unreadable
        for readings that cannot be trued; codes in ``checks``.
    """
    t = _begin(ask)
    straight = plane(ask, t.wall, t.given.fixed, "plumb", 0.0)
    leaning = plane(ask, t.wall, t.given.fixed, "leaning", t.lean)
    wander = wandering(ask, t.wall, t.given.fixed, leaning, t.lean, t.spacing, t.rules)
    found = {s.name: s for s in (straight, leaning, wander)}
    past = {name: _past(t, s) for name, s in found.items()}
    faces = tuple(_face(t, s, past[s.name]) for s in found.values())
    chosen = next(f for f in faces if f.name == ask.face)
    return _answer(t, faces, chosen, found[ask.face], leaning, past[ask.face])


def rules_of(ask: GroundsAsk | FinishedAsk) -> tuple[Straightedge, ...]:
    """His own rules of flatness, or the book's two, the short one first [m]."""
    if ask.straightedges is not None:
        return ask.straightedges
    pairs = [[ask.book.number(f"grounds.{which}-{what}").number for what in ("edge", "gap")] for which in
             ("short", "long")]  # fmt: skip
    return tuple(Straightedge(length, gap) for length, gap in pairs)


def spacing_of(ask: GroundsAsk) -> float:
    """How far grounds stand apart at most [m]."""
    return float(ask.spacing) if ask.spacing is not None else ask.book.number("grounds.spacing").number


def _begin(ask: GroundsAsk) -> _Truing:
    given = checked(ask)
    wall = Wall(given, ask.book.number("grounds.wild").number)
    working, key = Working(), f"{ask.at}/grounds"
    gross = Quantity(area_of(ask.outline), SQ_FT)
    holes = Quantity(sum((area_of(o.outline) for o in ask.openings), Fraction(0)), SQ_FT)
    net = working.step(f"{key}/net", "gross - openings", SQ_FT, "grounds.step.net", gross=gross, openings=holes)
    bare = working.found(f"{key}/bare", wall.mean, IN, "grounds.step.bare", method="grounds.method.folded",
                         proof=_folded(wall))  # fmt: skip
    return _Truing(ask, given, wall, working, key, rules_of(ask), lean_rate(ask), spacing_of(ask), limit_of(ask), net,
                   bare)  # fmt: skip


def _folded(wall: Wall) -> tuple[str, ...]:
    """The mean of the bare wall: what every reading stands for, of the net wall, times what it reads."""
    total = shown(wall.area, SQ_FT)
    weighed = float(wall.shares @ wall.outs)
    bulk, mean = (shown(x, u, places=proof.PLACES) for x, u in ((weighed, CU_FT), (wall.mean, IN)))
    return f"{len(wall.folded.corners)} △ = {total}", f"{bulk} / {total} = {mean}"


# --- a face -----------------------------------------------------------------------------------------


def _face(t: _Truing, s: Set, past: Past | None) -> Face:
    key, working, points = f"{t.key}/{s.name}", t.working, t.wall.readings[:, :2]
    thick = s.at(points) - t.wall.readings[:, 2]
    holds = [n for n in range(len(thick)) if thick[n] <= float(t.ask.least) + float(HAIR)]
    gaps = _gaps(t, s)
    if s.name == "wandering":
        lines = proof.of_wander(t.wall, s, holds, gaps, t.rules)
    else:
        lines = proof.of_plane(t.ask, t.wall, t.given.fixed, s, t.lean if s.name == "leaning" else 0.0)
    out = working.found(f"{key}/out", s.mean, IN, "grounds.step.out", method=f"grounds.method.{s.name}", proof=lines,
                        rules=_rules(t, s.name))  # fmt: skip
    mean = working.step(f"{key}/mean", "face - wall", IN, "grounds.step.mean", face=out, wall=t.bare)
    volume = working.step(f"{key}/volume", "area * mean", CU_FT, "grounds.step.volume", area=t.net, mean=mean)
    over = t.ask.book.number("thickness.base-plane-length")
    grid = s.grid
    heights = s.heights.reshape(len(grid.vs), len(grid.us))
    return Face(
        name=s.name,
        us=tuple(grid.us.tolist()),
        vs=tuple(grid.vs.tolist()),
        out=tuple(tuple(row) for row in heights.tolist()),
        volume=volume,
        cost=money(t.ask, working, f"{key}/money", volume),
        mean=mean,
        least=_reading(t, s, int(thick.argmin()), "least"),
        most=_reading(t, s, int(thick.argmax()), "most"),
        lean=_noted(t, f"{key}/lean", s.steep * over.number, "lean", [over.id]),
        gaps=tuple(gaps),
        past=_noted(t, f"{key}/past", past.total if past else 0.0, "past", [t.limit.id] if t.limit else [], SQ_FT),
        holds=tuple(t.wall.numbers[n] for n in holds),
        misses=_noted(t, f"{key}/misses", s.misses, "misses", []) if s.misses > float(HAIR) else None,
        look=f"grounds.look.{s.name}",
    )


def _rules(t: _Truing, name: str) -> list[str]:
    """The figures that bound this kind of face."""
    book, subjects = t.ask.book, []
    if name != "plumb":
        subjects += ["thickness.base-plane", "thickness.base-plane-length"]
    if name == "wandering" and t.ask.straightedges is None:
        subjects += [f"grounds.{which}-{what}" for which in ("short", "long") for what in ("edge", "gap")]
    return [book.number(subject).id for subject in subjects]


def _reading(t: _Truing, s: Set, n: int, what: str) -> Quantity:
    """Thickness at a reading."""
    out, read = float(s.at(t.wall.readings[n : n + 1, :2])[0]), float(t.wall.readings[n, 2])
    return t.working.step(f"{t.key}/{s.name}/{what}", "face - reading", IN, f"grounds.step.{what}",
                          face=Quantity(out, IN), reading=Quantity(read, IN))  # fmt: skip


def _noted(t: _Truing, key: str, value: float, says: str, rules: Sequence[str], shown_in: object = IN) -> Quantity:
    return t.working.found(key, value, shown_in, f"grounds.step.{says}", method="grounds.method.read-off",  # type: ignore[arg-type]
                           proof=(), rules=rules)  # fmt: skip


def _gaps(t: _Truing, s: Set) -> list[Gap]:
    """The worst gap under each straightedge: none under a plane."""
    corner = np.array([s.grid.us[0], s.grid.vs[0]])
    placed = s.sags or [(Sag(0.0, 0.0, 0.0, 0.0), corner, np.zeros(2))] * len(t.rules)
    return [gap_of(*where, rule.length) for where, rule in zip(placed, t.rules, strict=True)]


def _thickness(t: _Truing, s: Set) -> Array:
    return s.at(t.wall.folded.points) - t.wall.outs


def _past(t: _Truing, s: Set) -> Past | None:
    return None if t.limit is None else past_limit(t.ask, t.wall, _thickness(t, s), t.limit.number)


# --- the chosen one ---------------------------------------------------------------------------------


def _answer(t: _Truing, faces: tuple[Face, ...], chosen: Face, s: Set, leaning: Set,
            past: Past | None) -> tuple[Grounds, Working]:  # fmt: skip
    ask, working, key = t.ask, t.working, t.key
    least = Quantity(ask.least, IN)
    untrued = working.step(f"{key}/untrued", "area * least", CU_FT, "grounds.step.untrued", area=t.net, least=least)
    truing = working.step(f"{key}/truing", "volume - untrued", CU_FT, "grounds.step.truing", volume=chosen.volume,
                          untrued=untrued)  # fmt: skip
    edge = Quantity(min((rule.length for rule in t.rules), default=t.spacing), FT_IN)
    covered = coverage(t.wall, working, key, edge)
    thickness = _thickness(t, s)
    hollows: tuple[Patch, ...] = ()
    ways: tuple[Holding, ...] = ()
    if past is not None and t.limit is not None and past.total > SLIVER:
        hollows = patches(ask, past, t.limit, working, key)
        ways = holdings(ask, hollows, t.limit, chosen.volume, working, key) if hollows else ()
    held = next((w for w in ways if w.how == ask.held), None)
    set_to = t.limit if held is not None and held.how == "follow" else None
    reach = float(covered.reach)
    nodes = grid_of(t.wall, t.spacing)
    answer = Grounds(
        at=ask.at,
        net=t.net,
        faces=faces,
        chosen=chosen,
        volume=held.volume if held else chosen.volume,
        cost=held.cost if held else chosen.cost,
        untrued=untrued,
        truing=truing,
        grounds=grounds(ask, t.wall, s, nodes, working, key, set_to, reach),
        corners=corners(ask, t.wall, s, working, key, set_to, reach),
        map=_map(t, thickness),
        wild=wild(ask, t.wall),
        coverage=covered,
        spots=high_spots(ask, t.wall, s, leaning, working, key),
        limit=t.limit,
        patches=hollows,
        holdings=ways,
        held=ask.held,
    )
    return notes_of(ask, answer, t.rules, working), working


def _map(t: _Truing, thickness: Array) -> Map:
    folded = t.wall.folded
    points = tuple((float(u), float(v)) for u, v in folded.points)
    trios = tuple((int(a), int(b), int(c)) for a, b, c in folded.corners)
    return Map(points, tuple(thickness.tolist()), trios)
