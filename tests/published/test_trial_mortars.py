"""Yield against the old trial mortars. Tolerances and model stand in ``trial_mortars.py``, written first."""

from __future__ import annotations

import pytest

from tests.published.trial_mortars import POOLED, ROWS, SPREAD, tolerance


def test_the_tolerances_follow_from_the_spread_of_the_trials() -> None:
    # Worked by hand from the printed rows, so that a later change of data or rule cannot pass unseen.
    assert len(ROWS) == 39
    assert {n: round(s, 3) for n, s in SPREAD.items()} == {
        0: 0.041, 1: 0.077, 2: 0.129, 3: 0.164, 4: 0.048, 5: 0.023, 6: 0.051,
    }  # fmt: skip
    assert pytest.approx(0.090, abs=0.0005) == POOLED
    assert tolerance(3) == pytest.approx(0.164, abs=0.0005)
    assert tolerance(1.5) == pytest.approx(0.103, abs=0.0005)
    assert tolerance(6) == POOLED
