"""The pitch of a roof as it is said: ``6 in 12``, ``6:12``, ``30 deg``."""

from __future__ import annotations

import re
from math import radians, tan

from quicktions import Fraction

from darby.measure.numerals import NUMBER, Written, exactly, refuse, tidy

PITCH = "6 in 12, 6:12, 30 deg"

_IN = re.compile(rf"({NUMBER})\s*(?:in|on|:|/)\s*({NUMBER})", re.IGNORECASE)
_DEGREES = re.compile(rf"({NUMBER})\s*(?:°|deg(?:rees?)?\.?)", re.IGNORECASE)
UPRIGHT = 90


def pitch(text: Written) -> Fraction:
    """Rise over run of a roof or a wash: ``6 in 12`` is 1/2, exact; degrees are as near as a float.

    Raises
    ------
    Unreadable
        ``measure.pitch`` for what is no pitch; ``measure.not-positive`` for a level one.
    """
    clean = tidy(text, PITCH)
    if match := _IN.fullmatch(clean):
        rise, run = exactly(match[1], clean, point=True), exactly(match[2], clean, point=True)
        if not run:
            refuse("pitch", clean, PITCH)
        found = rise / run
    elif match := _DEGREES.fullmatch(clean):
        degrees = exactly(match[1], clean, point=True)
        if degrees >= UPRIGHT:
            refuse("pitch", clean, PITCH)
        found = Fraction(tan(radians(float(degrees))))
    else:
        refuse("pitch", clean, PITCH)
    if not found:
        refuse("not-positive", clean, PITCH)
    return found
