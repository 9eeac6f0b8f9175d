"""Lengths as people write them, units, exact limits, surfaces and shapes. Floor 1; imports nothing of darby.

``straighten`` (photographs) is loaded when it is first asked for: it needs numpy, and lengths do not.
"""

from typing import TYPE_CHECKING, Any

from darby.measure.faults import Fault, Unreadable
from darby.measure.garden import Cap, Pilasters, garden_wall
from darby.measure.geometry import (
    EdgeRun,
    RevealArea,
    ZoneArea,
    edge_runs,
    faults_of,
    gross_area,
    net_area,
    opening_area,
    perimeter,
    reveal_areas,
    zone_areas,
)
from darby.measure.limits import at_most, whole
from darby.measure.reading import (
    area,
    counted,
    duration,
    length,
    mass,
    money,
    opening_line,
    opening_size,
    package,
    rate,
    share,
    speed,
    temperature,
    volume,
)
from darby.measure.shapes import WallSide, corner_line, faces, house, opening, opening_of, wall, zone
from darby.measure.slopes import pitch
from darby.measure.solids import Roof, box, ring, strip
from darby.measure.telling import Told, told
from darby.measure.units import UNITS, Unit, unit
from darby.measure.writing import number, shown, write

if TYPE_CHECKING:
    from darby.measure.straightening import Framed, Straight, Taken, straighten

__all__ = [
    "UNITS", "Cap", "EdgeRun", "Fault", "Framed", "Pilasters", "RevealArea", "Roof", "Straight", "Taken", "Told",
    "Unit", "Unreadable", "WallSide", "ZoneArea", "area", "at_most", "box", "corner_line", "counted", "duration",
    "edge_runs", "faces", "faults_of", "garden_wall", "gross_area", "house", "length", "mass", "money", "net_area",
    "number", "opening", "opening_area", "opening_line", "opening_of", "opening_size", "package", "perimeter",
    "pitch", "rate", "reveal_areas", "ring", "share", "shown", "speed", "straighten", "strip", "temperature", "told",
    "unit", "volume", "wall", "whole", "write", "zone", "zone_areas",
]  # fmt: skip


def __getattr__(name: str) -> Any:
    if name not in ("Framed", "Straight", "Taken", "straighten"):
        raise AttributeError(f"module 'darby.measure' has no attribute {name!r}")
    from darby.measure import straightening

    return getattr(straightening, name)
