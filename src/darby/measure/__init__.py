"""Lengths as people write them, units, exact limits, surfaces and shapes. Floor 1; imports nothing of darby."""

from darby.measure.faults import Fault, Unreadable
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
from darby.measure.units import UNITS, Unit, unit
from darby.measure.writing import number, shown, write

__all__ = [
    "UNITS", "Fault", "Unit", "Unreadable", "WallSide", "area", "at_most", "corner_line", "counted", "duration",
    "faces", "house", "length", "mass", "money", "number", "opening", "opening_line", "opening_of", "opening_size",
    "package", "rate", "share", "shown", "speed", "temperature", "unit", "volume", "wall", "whole", "write", "zone",
]  # fmt: skip
