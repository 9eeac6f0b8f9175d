"""Walls and houses as they were read, before they are surfaces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from darby.job.model import REST, Base
from darby.job.part import Part
from darby.job.sections.bases import Made
from darby.job.sections.ends import End
from darby.measure.surface import Length, Opening, Zone


@dataclass(slots=True)
class Plan:
    """What a wall and a house have in common. None = it could not be read, which is a fault already."""

    part: Part
    id: str
    name: str
    made: Made = field(default_factory=Made)
    height: Length | None = None
    facing: float | None = None
    foot: Length | None = Fraction(0)
    base_edge: str = "grade"
    top: str = "top"
    above_earth: Length | None = None
    above_paving: Length | None = None
    ends: dict[str, End | None] = field(default_factory=dict)

    def rest(self) -> Zone:
        """The zone that is all of a wall that no other zone is."""
        return Zone(REST, self.made.kind or "", None, self.made.traits(), self.made.out_of_plane)

    def base(self, surface: str) -> Base | None:
        """The base of that zone."""
        made = self.made.at(surface, REST)
        return made and replace(made, above_earth=self.above_earth, above_paving=self.above_paving)


@dataclass(slots=True)
class WallPlan(Plan):
    """One [[wall]]."""

    length: Length | None = None
    gable: Length | None = Fraction(0)
    tilt: float | None = 90.0
    count: int = 1
    openings: tuple[Opening, ...] = ()
    zones: Sequence[Zone] = ()
    bases: Sequence[Base] = ()


@dataclass(slots=True)
class HousePlan(Plan):
    """One [[house]]."""

    walls: Sequence[Length | None] = ()
    closed: bool = True
    turns: Sequence[float] | None = None
    gables: Mapping[int, Length] = field(default_factory=dict)
    openings: Mapping[int, tuple[Opening, ...]] = field(default_factory=dict)

    def surfaces(self) -> list[str]:
        """Ids of its walls."""
        return [f"{self.id}-{n}" for n in range(1, len(self.walls) + 1)] if self.id else []
