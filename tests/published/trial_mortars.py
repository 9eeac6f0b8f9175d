"""The old trial mortars: what was printed, how each is modelled, and how far our yield may be off.

Written and committed before the yield was ever compared with them.

Neat portland and sand, 380 lb barrels. Each row: parts of loose sand to one barrel (by volume of a barrel), barrels of
cement found in a cubic yard of mortar, and the size of the barrel [cu ft] that "one part" meant:

- Sabin and Boardman stand in one table whose head counts a 380 lb barrel as 3.65 cu ft (packed).
- The pocketbook, Griffith and Atlas print the sand too: sand / (parts x barrels) is their barrel, 3.7 to 4.05 cu ft.
- Gillette's table has three columns for barrels of 3.5, 4.0 and 4.4 cu ft; it is a formula, not a trial.

Sand is taken dry and loose at the 90 lb/cu ft that Gillette and Hill use in the same chapter, not at the 80 lb of
damp sand that we proportion with: a trial bench is not a sand pile. Water and air are the rule book's, untouched.

Tolerance of a row with n parts of sand = the spread of the three trials (Sabin, Boardman, pocketbook) at that n,
(most - least) / mean; but never less than the root mean square of the spreads over all n, for two or three men
who happen to agree say little. Where n was tried by nobody (1.5, 2.5) the mean of its neighbours' spreads stands in.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

CU_FT_PER_CU_YD = 27.0
POUNDS_PER_BARREL = 380.0
SAND_POUNDS_PER_CU_FT = 90.0


@dataclass(frozen=True)
class Trial:
    voice: str
    parts: float
    barrels: float  # per cubic yard of mortar
    barrel: float  # cu ft of loose sand that one part meant

    @property
    def name(self) -> str:
        return f"{self.voice} 1:{self.parts:g}"


def _rows(voice: str, parts: list[float], barrels: list[float], barrel: float) -> list[Trial]:
    return [Trial(voice, n, b, barrel) for n, b in zip(parts, barrels, strict=True)]


def _rows_with_sand(voice: str, parts: list[float], barrels: list[float], sand_yd3: list[float]) -> list[Trial]:
    return [
        Trial(voice, n, b, s * CU_FT_PER_CU_YD / (n * b) if n else 3.65)
        for n, b, s in zip(parts, barrels, sand_yd3, strict=True)
    ]


SABIN = _rows("Sabin", [0, 1, 2, 3, 4, 5, 6], [7.4, 4.17, 2.84, 2.06, 1.62, 1.33, 1.14], 3.65)
BOARDMAN = _rows("Boardman", [0, 1, 2, 3], [7.4, 4.5, 3.18, 2.35], 3.65)
POCKETBOOK = _rows_with_sand(
    "pocketbook", [0, 1, 2, 3, 4, 5, 6], [7.1, 4.2, 2.8, 2.0, 1.7, 1.3, 1.2], [0.0, 0.6, 0.8, 0.9, 0.95, 0.97, 0.98]
)
GRIFFITH = _rows_with_sand("Griffith", [1.5, 2.5], [0.1481 * 27, 0.1052 * 27], [0.0311 * 27, 0.037 * 27])
ATLAS = _rows_with_sand("Atlas", [1], [0.1856 * 27], [0.0263 * 27])
_N = [1, 1.5, 2, 2.5, 3, 4]
GILLETTE = [
    *_rows("Gillette 3.5", _N, [4.62, 3.8, 3.25, 2.84, 2.35, 1.76], 3.5),
    *_rows("Gillette 4.0", _N, [4.19, 3.46, 3.0, 2.64, 2.05, 1.54], 4.0),
    *_rows("Gillette 4.4", _N, [3.94, 3.34, 2.9, 2.57, 1.86, 1.4], 4.4),
]

TRIED = (*SABIN, *BOARDMAN, *POCKETBOOK)
ROWS = (*TRIED, *GRIFFITH, *ATLAS, *GILLETTE)


def _spreads() -> dict[float, float]:
    at: dict[float, list[float]] = {}
    for row in TRIED:
        at.setdefault(row.parts, []).append(row.barrels)
    return {n: (max(b) - min(b)) / (sum(b) / len(b)) for n, b in at.items()}


SPREAD = _spreads()
POOLED = sqrt(sum(s * s for s in SPREAD.values()) / len(SPREAD))


def tolerance(parts: float) -> float:
    """Share of the printed barrels by which our number may be off."""
    spread = SPREAD.get(parts)
    if spread is None:
        spread = (SPREAD[float(int(parts))] + SPREAD[float(int(parts) + 1)]) / 2
    return max(spread, POOLED)
