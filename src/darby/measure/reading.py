"""Measures as people write them, read exactly or refused: never guessed, never silently something else.

Every function takes what stands in a document and hands back an exact value in SI, or raises ``Unreadable``
with one Fault: ``code``, ``found``, ``allowed`` (examples or readings), ``nearest``. The codes:

``measure.empty``          nothing is written
``measure.not-text``       neither text nor a number
``measure.too-long``       longer than any measure
``measure.no-unit``        a bare number, and the document does not say units
``measure.unknown-unit``   a number, but the word after it is no unit of this kind
``measure.ambiguous``      could mean two things; ``allowed`` holds both readings
``measure.number``         commas and points that make no number
``measure.fraction``       a fraction over nought, or a mixed number whose fraction is one or more
``measure.feet-not-whole`` inches after a part of a foot
``measure.inches``         12 inches or more after feet
``measure.unreadable``     no number where one should stand, or more than a measure
``measure.cents``          money in parts of a cent
``measure.range``          a range whose low end is above its high end
``measure.not-positive``   nought or less where only more will do
``measure.count``          a count that is not whole
``measure.package``        a package that is not known
``measure.pitch``          no pitch of a roof
``measure.opening-kind``, ``measure.opening-size``, ``measure.opening-twice``, ``measure.opening-lacks``
"""

from __future__ import annotations

from darby.measure.amounts import (
    area,
    duration,
    length,
    lengths_by,
    mass,
    money,
    share,
    speed,
    temperature,
    unit_of,
    volume,
)
from darby.measure.openings import OPENING_KINDS, OpeningLine, opening_line, opening_size
from darby.measure.packages import PACKAGES, Counted, Package, counted, package
from darby.measure.rates import Rate, rate
from darby.measure.slopes import pitch

__all__ = [
    "OPENING_KINDS", "PACKAGES", "Counted", "OpeningLine", "Package", "Rate", "area", "counted", "duration", "length",
    "lengths_by", "mass", "money", "opening_line", "opening_size", "package", "pitch", "rate", "share", "speed",
    "temperature", "unit_of", "volume",
]  # fmt: skip
