"""The aim: what a layout comes to, as a row of whole numbers that are compared one after another.

All add up over lines, cuts and panels:

* plaster in panels past a limit [dm2];
* joints that meet no corner; ends that run into an opening away from a corner; joints (for "fewest" they come first);
* ends that stop on another joint;
* evenness: squares of the sides of all panels [mm2], least where they are alike and near square;
* length [cm].

A line that runs right across is one joint, whatever it crosses: so joints that line through are fewer than joints that
do not, and come first.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from darby.joints.tables import Cuts, Ints, Tables

Aim = Literal["best", "fewest"]
MOST = np.iinfo(np.int64).max // 2
"""More than any aim: two of them together are still a number."""


@dataclass(frozen=True, slots=True)
class Cost:
    """What a layout comes to."""

    past: int = 0
    off: int = 0
    into: int = 0
    joints: int = 0
    stops: int = 0
    even: int = 0
    length: int = 0

    def __add__(self, other: Cost) -> Cost:
        return Cost(*(a + b for a, b in zip(self.values, other.values, strict=True)))

    @property
    def values(self) -> tuple[int, ...]:
        """All of them."""
        return self.past, self.off, self.into, self.joints, self.stops, self.even, self.length

    def key(self, aim: Aim = "best") -> tuple[int, ...]:
        """The row of numbers that is compared."""
        first = (self.off, self.into, self.joints) if aim == "best" else (self.joints, self.off, self.into)
        return self.past, *first, self.stops, self.even, self.length


def total(costs: Iterable[Cost]) -> Cost:
    """All of them together."""
    return sum(costs, Cost())


def priced(cuts: Cuts, line: int, begin: int, cells: int, *, across: bool = False) -> Cost:
    """What one cut comes to. ``across``: the line runs right across, and stops nowhere."""
    at = line, begin, cells
    if not cuts.joint[at]:
        return Cost()
    stops = 0 if across else int(cuts.stops[at])
    return Cost(0, int(cuts.off[at]), int(cuts.into[at]), 1, stops, 0, int(cuts.length[at]))


@dataclass(frozen=True, slots=True)
class Weights:
    """The aim in two whole numbers: ``one`` all up to the stops, ``two`` evenness with length behind it."""

    past: int
    off: int
    into: int
    joint: int
    stop: int
    behind: int
    coarse: int

    def one(self, cuts: Cuts, *, across: bool = False) -> Ints:
        """Of every cut."""
        found = cuts.off * self.off + cuts.joint * self.joint + cuts.into * self.into
        return found if across else found + cuts.stops * self.stop

    def leaves(self, t: Tables) -> tuple[Ints, Ints]:
        """Of every rectangle that stays whole."""
        two = np.where(t.plaster, t.even >> self.coarse << self.behind, 0)
        return np.where(t.fits, 0, self.past * t.area), two


def weights(windows: Iterable[Tables], upright: Cuts, level: Cuts, aim: Aim) -> Weights:
    """Weights that keep the numbers of one aim apart, over all windows of a field."""
    windows = tuple(windows)
    cells = sum(t.n * t.m for t in windows)
    ends = sum(int(x.into[:, 0].max(axis=1, initial=0).sum()) for x in (upright, level))
    room = {"stop": 2 * cells + 1, "joint": cells + 1, "into": ends + 1, "off": cells + 1}
    order = ("stop", "joint", "into", "off") if aim == "best" else ("stop", "into", "off", "joint")
    first: dict[str, int] = {}
    weight = 1
    for name in order:
        first[name] = weight
        weight *= room[name]
    first["past"] = weight
    n, m = len(upright.joint), len(level.joint)
    behind = (int(upright.length.max(initial=0)) * n + int(level.length.max(initial=0)) * m + 1).bit_length()
    most = max((int(t.even.max(initial=0)) for t in windows), default=0) * cells
    coarse = max(most.bit_length() + behind - int(MOST).bit_length() + 1, 0)
    return Weights(**first, behind=behind, coarse=coarse)
