"""The only two places where a measured number meets a limit or a ceiling.

Lengths stay exact (``Fraction``) up to here. A float has already lost a little, so a limit gives back
one part in a thousand million: far below a hair on a wall, far above what floating point loses.
"""

from __future__ import annotations

from math import ceil

from quicktions import Fraction

SLACK = Fraction(1, 1_000_000_000)


def at_most(x: Fraction | float, limit: Fraction | float) -> bool:
    """Whether ``x`` keeps within ``limit``: exactly for Fractions, with a billionth of slack for floats.

    >>> at_most(12 * 12, 144)
    True
    """
    if isinstance(x, float) or isinstance(limit, float):
        return float(x) <= float(limit) + abs(float(limit)) * float(SLACK)
    return x <= limit


def whole(x: Fraction | float) -> int:
    """The least whole number that is not less than ``x``: how many bags, sheets or trips to count.

    Twenty whole square yards order 20, though their float is 20.000000000000004.
    """
    if isinstance(x, float):
        return ceil(x - max(abs(x), 1.0) * float(SLACK))
    return ceil(x)
