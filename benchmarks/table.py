"""A plain table of measurements, each with its target where it has one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Row:
    """One measurement. ``most``: what it may be; None = measured only."""

    what: str
    value: float
    unit: str
    beside: str = ""
    most: float | None = None

    @property
    def verdict(self) -> str:
        if self.most is None:
            return ""
        return "met" if self.value <= self.most else "MISSED"


def show(title: str, rows: Sequence[Row]) -> None:
    """Print ``rows`` under ``title``."""
    cells = [
        (r.what, f"{r.value:,.1f} {r.unit}", r.beside, f"at most {r.most:g} {r.unit}" if r.most else "", r.verdict)
        for r in rows
    ]
    wide = [max(len(c[n]) for c in cells) for n in range(5)]
    print(f"\n{title}")
    for what, value, beside, most, verdict in cells:
        line = f"  {what:<{wide[0]}}  {value:>{wide[1]}}  {beside:>{wide[2]}}  {most:<{wide[3]}}  {verdict}"
        print(line.rstrip(), flush=True)
