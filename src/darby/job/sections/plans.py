"""Walls and houses as they were read, before they are surfaces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from quicktions import Fraction

from darby.job.model import REST, Base, Place
from darby.job.part import Part
from darby.job.sections.bases import Made
from darby.job.sections.ends import End
from darby.measure.shapes import Point
from darby.measure.surface import Length, Opening, Surface, Zone


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
    place: Place | None = None
    retains: Length | None = None
    sprinklers: bool = False

    def rest(self) -> Zone:
        """The zone that is all of a wall that no other zone is."""
        return Zone(REST, self.made.kind or "", None, self.made.traits(), self.made.out_of_plane)

    def base(self, surface: str) -> Base | None:
        """The base of that zone."""
        made = self.made.at(surface, REST)
        return made and self.placed(replace(made, above_earth=self.above_earth, above_paving=self.above_paving))

    def placed(self, base: Base) -> Base:
        """The base with what is known of where it is."""
        return replace(base, place=self.place, retains=self.retains, sprinklers=self.sprinklers)


@dataclass(slots=True)
class WallPlan(Plan):
    """One [[wall]]."""

    length: Length | None = None
    gable: Length | None = Fraction(0)
    outline: Sequence[Point] | None = ()
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


@dataclass(slots=True)
class ShapePlan(Plan):
    """One garden wall, box, strip or ring, as the surfaces it writes: () where it could not be read."""

    surfaces: tuple[Surface, ...] = ()
    replaced: bool = False

    def placed(self, base: Base) -> Base:
        """The base with what is known of where it is; a plastered top is a place of its own."""
        made = replace(super(ShapePlan, self).placed(base), replaced=self.replaced)
        tops = (f"{self.id}-top", f"{self.id}-top-front", f"{self.id}-top-back")
        return replace(made, place="top") if base.surface in tops else made
