"""What each high spot costs: the face is solved again without it, and again with a little of it knocked off."""

from __future__ import annotations

import numpy as np

from darby.grounds.faces import Set
from darby.grounds.model import GroundsAsk, Spot
from darby.grounds.wall import Wall
from darby.grounds.wander import floors
from darby.measure.limits import SLACK
from darby.measure.units import unit
from darby.measure.writing import HAIR, shown
from darby.working.model import Amount, Quantity, Working

CU_FT, IN = unit("cu ft"), unit("in")


def high_spots(ask: GroundsAsk, wall: Wall, face: Set, leaning: Set, working: Working, key: str) -> tuple[Spot, ...]:
    """The readings that hold the face out most, each solved without and knocked down, what saves most first.

    Without it: the wall there as its neighbours have it. What is saved is the room the face comes in by over the net
    wall. The spot's own bulk is counted as nothing, so that knocking one down never costs. It is knocked down by
    ``grounds.knock``, but not past its neighbours. A reading that only holds the end of a face, and stands out no more
    than its neighbours, is no high spot.
    """
    most, knock = (ask.book.number(f"grounds.{name}") for name in ("spots", "knock"))
    level = wall.expected
    high = (face.worth > float(SLACK)) & (wall.readings[:, 2] > level + float(HAIR))
    order = sorted(np.flatnonzero(high).tolist(), key=lambda n: (-face.worth[n], n))
    found = []
    for n in order[: int(most.number)]:
        row = wall.readings[n]
        by = min(knock.number, float(row[2] - level[n]))
        without = _again(ask, wall, face, leaning, n, float(level[n]))
        knocked = _again(ask, wall, face, leaning, n, float(row[2]) - by)
        found.append(_spot(ask, wall, face, n, (without, knocked), by, working, key))
    return tuple(sorted((s for s in found if s.saves.value > 0), key=lambda s: (-float(s.saves), s.number)))


def _again(ask: GroundsAsk, wall: Wall, face: Set, leaning: Set, n: int, read: float) -> float:
    """The least mean if reading ``n`` were ``read``."""
    floor = None
    if face.name == "wandering":
        changed = wall.readings[:, 2].copy()
        changed[n] = read
        floor = floors(ask, wall, face.grid.nodes, leaning, wall.heights(changed))
    return min(face.solver.again(n, read + float(ask.least), floor), face.cost)


def _spot(ask: GroundsAsk, wall: Wall, face: Set, n: int, means: tuple[float, float], by: float, working: Working,
          key: str) -> Spot:  # fmt: skip
    number = wall.numbers[n]
    own = f"{key}/spot-{number}"
    area = Quantity(wall.area, unit("sq ft"))
    knock = ask.book.number("grounds.knock")
    saved = []
    for what, mean, rules in zip(("without", "knocked"), means, ((), (knock.id,)), strict=True):
        now, then = (Quantity(x, IN) for x in (face.cost, mean))
        proof = (f"{shown(wall.area, area.unit)} × ({shown(now.value, IN)} - {shown(then.value, IN)})",)
        saved.append(
            working.found(f"{own}/{what}", max(face.cost - mean, 0.0) * wall.area, CU_FT, f"grounds.step.{what}",
                          method="grounds.method.again", proof=proof, rules=rules)
        )  # fmt: skip
    moneys = [money(ask, working, f"{own}/{what}-money", volume) for what, volume in
              zip(("without", "knocked"), saved, strict=True)]  # fmt: skip
    u, v, out = (float(x) for x in wall.readings[n])
    return Spot(number, u, v, out, saved[0], moneys[0], Quantity(by, IN), saved[1], moneys[1])


def money(ask: GroundsAsk, working: Working, key: str, volume: Quantity) -> Amount | None:
    """What so much plaster costs; None where no price is given."""
    if ask.price is None:
        return None
    price = Amount(ask.price, unit("$/m3"))
    return working.money(key, "volume * price", "grounds.step.money", volume=volume, price=price)
