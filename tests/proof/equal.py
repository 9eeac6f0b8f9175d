"""Mutants that compute the same as the rooms do, each with the reason: no test can tell them apart."""

from __future__ import annotations

EQUAL: dict[str, str] = {
    'days/visits.py:visits: forced = working.step("job/trips-by-waits", "max(trips - alone, 0)", "trips",'
    ' "days.trips-by-waits", => forced = working.step("job/trips-by-waits", "(trips - alone + 0 * (0))", "trips",'
    ' "days.trips-by-waits",': "the trips that the hours alone need are counted as no more than the trips there are",
    "joints/across.py:_counted: at = end, c + (joint[end] if end < r.n else 0)"
    " => at = end, c + (joint[end] if end <= r.n else 0)": (
        "the last line is the field's right side: no plaster beyond it, so no joint there, and joint[r.n] is nought"
    ),
    "lath/face.py:Face.slabs: lines.update(u for u in crossed if left < u < right)"
    " => lines.update(u for u in crossed if left <= u < right)": "the set of lines holds left already",
}
