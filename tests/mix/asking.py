"""Short hands of the mix tests."""

from __future__ import annotations

from darby.measure.units import FT, LB
from darby.mix import Verdict
from darby.rulebook import default

CU_FT = FT**3
LB_CU_FT = LB / CU_FT


def codes(verdict: Verdict) -> set[str]:
    return {n.code for n in verdict.notes}


def grades(verdict: Verdict, code: str) -> list[str]:
    return [n.grade for n in verdict.notes if n.code == code]


def cu_ft(value: object) -> float:
    """Cubic feet of a volume in m3, or of a Quantity."""
    return float(value) / float(CU_FT)  # type: ignore[arg-type]


def lb(value: object) -> float:
    """Pounds of a mass in kg, or of a Quantity."""
    return float(value) / float(LB)  # type: ignore[arg-type]


def printed(figure_id: str) -> tuple[float, ...]:
    """A figure's numbers in its own unit: (value,) or (least, most)."""
    figure = default().figures[figure_id]
    numbers = (figure.value,) if figure.value is not None else (figure.low, figure.high)
    return tuple(round(float(figure.unit.from_si(n)), 9) for n in numbers if n is not None)
