"""A linear programme for HiGHS: least cost, rows between two bounds, warm when a bound has changed.

HiGHS: J. A. J. Hall and others, a dual simplex; MIT licence. It is imported where it is first used.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from darby.grounds.checks import Array
from darby.measure.limits import SLACK
from darby.measure.units import IN


@dataclass(frozen=True, slots=True)
class Solved:
    """The unknowns, the cost, and the worth of every row and of every unknown's own bound: how much the cost falls if
    it gives way by one."""

    x: Array
    cost: float
    worth: Array
    own: Array


INCH = float(IN)


class Unsolvable(Exception):
    """No unknowns keep all rows (``open`` False), or the cost falls without end (``open`` True)."""

    def __init__(self, *, open: bool) -> None:
        super().__init__("unbounded" if open else "infeasible")
        self.open = open


class Programme:
    """Least ``cost @ x`` with ``low <= x <= high``, and rows added later. Unknowns, bounds and cost are lengths [m]."""

    def __init__(self, cost: Array, low: Array, high: Array) -> None:
        import highspy
        from highspy._core import _Highs as Bare  # highspy.Highs prints a banner on standard output when it is made

        self.columns = len(cost)
        self.rows = 0
        self._infinity = float(highspy.kHighsInf)
        self._status = highspy.HighsModelStatus
        self._highs = Bare()
        for name, value in (
            ("output_flag", False),
            ("presolve", "off"),
            ("solver", "simplex"),
            ("threads", 1),
            ("primal_feasibility_tolerance", float(SLACK)),
            ("dual_feasibility_tolerance", float(SLACK)),
        ):
            self._highs.setOptionValue(name, value)
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = len(cost), 0
        model.col_cost_ = np.asarray(cost, dtype=float)
        model.col_lower_, model.col_upper_ = self._finite(low), self._finite(high)
        self._highs.passModel(model)

    def _finite(self, bounds: Array) -> Array:
        """Bounds as the solver takes them: in inches, in which plaster is neither large nor small."""
        return np.asarray(np.clip(np.asarray(bounds) / INCH, -self._infinity, self._infinity), dtype=float)

    def add(self, rows: Array, low: Array, high: Array) -> range:
        """Rows (m, columns) held between ``low`` and ``high``; their numbers."""
        first = self.rows
        if len(rows):
            which, columns = np.nonzero(rows)
            starts = np.searchsorted(which, np.arange(len(rows))).astype(np.int32)
            self._highs.addRows(
                len(rows), self._finite(low), self._finite(high), len(columns), starts,
                columns.astype(np.int32), rows[which, columns],
            )  # fmt: skip
            self.rows += len(rows)
        return range(first, self.rows)

    def bound_row(self, row: int, low: float, high: float) -> None:
        """Other bounds for one row."""
        self._highs.changeRowBounds(row, *self._finite(np.array([low, high])).tolist())

    def weigh(self, cost: Array) -> None:
        """Another cost."""
        self._highs.changeColsCost(self.columns, np.arange(self.columns, dtype=np.int32), np.asarray(cost, dtype=float))

    def bound_columns(self, low: Array, high: Array) -> None:
        """Other bounds for all unknowns."""
        which = np.arange(self.columns, dtype=np.int32)
        self._highs.changeColsBounds(self.columns, which, self._finite(low), self._finite(high))

    def solve(self) -> Solved:
        """The least cost, from where the last solution stood.

        Raises
        ------
        Unsolvable
            if no unknowns keep all rows, or nothing holds the cost.
        """
        self._highs.run()
        status = self._highs.getModelStatus()
        if status == self._status.kUnboundedOrInfeasible:
            self._highs.setOptionValue("allow_unbounded_or_infeasible", False)
            self._highs.run()
            status = self._highs.getModelStatus()
        if status != self._status.kOptimal:
            raise Unsolvable(open=status == self._status.kUnbounded)
        found = self._highs.getSolution()
        cost = float(self._highs.getInfo().objective_function_value) * INCH
        return Solved(np.array(found.col_value) * INCH, cost, np.array(found.row_dual), np.array(found.col_dual))
