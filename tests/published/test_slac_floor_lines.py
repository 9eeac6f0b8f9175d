"""Floor lines of the SPEAR3 test pad, read every 0.3 m by the Stanford Linear Accelerator Center (2003)."""

from __future__ import annotations

import numpy as np
import pytest

from darby.grounds import rolling_straightedge, set_grounds
from tests.published import checked

SOURCE = "SLAC, Alignment Engineering Group (2003): worked workbook on ASTM E 1155M-96, SPEAR3 test pad"
STEP = 0.3
LINES = {
    "line 0": (
        [418.617, 419.938, 421.894, 423.748, 425.221, 424.739, 423.799, 424.307, 425.425, 424.688, 423.164, 422.758,
         420.472, 416.738],
        [0.635, -0.102, -0.381, -1.956, -0.457, 1.448, 0.61, -1.854, -0.787, 1.118, -1.88, -1.448],
    ),
    "line 1": (
        [418.592, 421.081, 422.072, 421.513, 420.04, 421.132, 420.675, 421.64, 421.894, 421.538, 421.183, 421.894,
         419.684, 420.04, 417.982],
        [-1.499, -1.549, -0.914, 2.565, -1.549, 1.422, -0.711, -0.61, 0.0, 1.067, -2.921, 2.565, -2.413],
    ),
}  # fmt: skip
CURVES = [(name, n, q) for name, (_, several) in LINES.items() for n, q in enumerate(several)]


def readings(name):
    return [(n * STEP, h / 1000) for n, h in enumerate(LINES[name][0])]


@checked("worked elsewhere", f"{SOURCE}, section 9.4, curvature table: q = h(i) - 2 h(i-1) + h(i-2)")
@pytest.mark.parametrize(("name", "n", "q"), CURVES)
def test_a_straightedge_over_three_readings_shows_half_their_curvature(name, n, q):
    """A straightedge two steps long over readings i-2, i-1 and i: the middle lies q / 2 off it, hollow where q > 0."""
    found = rolling_straightedge(readings(name)[n : n + 3], 2 * STEP).worst
    # elevations are to 0.001 mm and q is printed from more digits than they show
    assert float(found.gap) * 1000 == pytest.approx(abs(q) / 2, abs=0.00055)
    if abs(q) > 0.002:
        assert found.bend == ("hollow" if q > 0 else "crown")


@checked("our arithmetic", f"{SOURCE}: the largest of the printed curvatures, by its place")
@pytest.mark.parametrize(("name", "place"), [("line 0", 4), ("line 1", 11)])
def test_rolled_along_the_line_it_stops_at_the_largest_curvature(name, place):
    found = rolling_straightedge(readings(name), 2 * STEP).worst
    assert found.at[0] / STEP == pytest.approx(place)
    assert float(found.gap) * 1000 == pytest.approx(max(abs(q) for q in LINES[name][1]) / 2, abs=0.00055)


@checked("our arithmetic", f"{SOURCE}: straight line on or above every printed elevation, least on the average")
@pytest.mark.parametrize(
    ("name", "slope", "start", "gap", "most", "touch"),
    [("line 0", 0.17, 425.017, 2.8122, 8.942, {5, 9}), ("line 1", -0.06593, 422.11156, 1.2424, 3.8527, {3, 12})],
)
def test_the_line_above_every_reading(name, slope, start, gap, most, touch):
    """Set up as a wall read alike along its foot and its head: the plumb face is the line (slopes in mm a metre)."""
    line = readings(name)
    long = line[-1][0]
    rows = [(s, v, out) for v in (0.0, 1.0) for s, out in line]
    face = set_grounds(rows, [(0, 0), (long, 0), (long, 1), (0, 1)], least=0.0).face("plumb")
    (low, high), _ = face.out
    assert (high - low) / long * 1000 == pytest.approx(slope, abs=1e-4)
    assert low * 1000 == pytest.approx(start, abs=1e-4)
    thick = np.array([low + (high - low) * s / long - out for s, out in line])
    assert thick.mean() * 1000 == pytest.approx(gap, abs=1e-4)
    assert float(face.most) * 1000 == pytest.approx(most, abs=1e-3)
    # touch points are counted from 0 there, from 1 here; the foot and the head are read alike
    assert {(n - 1) % len(line) + 1 for n in face.holds} == touch
