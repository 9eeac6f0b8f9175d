"""The layout search against HiGHS: an integer programme over the same lines, for the same aim."""

from __future__ import annotations

import pytest
from benchmarks.joints import LIMITS, integer_programme, sets_of

from darby.joints.across import Ready, Whole
from darby.joints.lines import Line, candidates, unique
from darby.joints.on_lath import Site, laid
from darby.joints.plane import plane
from darby.measure.surface import Surface
from tests.joints.asking import ft, hole, plain

WALLS = {
    "plain": plain(40, 9),
    "higher than a panel": plain(24, 20),
    "a window": plain(30, 9, hole("a", 12, 3, 4, 4)),
    "gable and door": plain(24, 9, hole("a", 5, 0, 3, 7), hole("b", 14, 3, 6, 4), gable=ft(6)),
    "wide opening": plain(26, 12, hole("a", 8, 0, 14, 10)),
    "arch": plain(30, 12, hole("a", 9, 0, 8, 9, rise=3)),
    "piers between windows": plain(25, 10, *(hole(f"o{n}", 1 + 6 * n, 2, 5, 6) for n in range(4))),
    "opening from base to top": plain(36, 9, hole("gap", 14, 0, 4, 9), hole("b", 24, 3, 3, 3)),
}


def ready_of(surface: Surface, given: tuple[Line, ...] = ()) -> Ready:
    outline = tuple((c.u, c.v) for c in surface.outline)
    p = plane(surface, [0])
    lines = [x for x in candidates(p, 0, LIMITS, outline, given, ()) if x.origin != "stretch"]
    return laid(Site(p, 0, outline, LIMITS, given, (), 10**6), unique(lines)).ready


@pytest.mark.parametrize("name", WALLS)
def test_the_same_aim_is_reached(name: str) -> None:
    r = ready_of(WALLS[name])
    # a wall higher than one panel is given one level more than is needed, if the sets are not too many
    sets = sets_of(r, 3) if name == "higher than a panel" else sets_of(r)
    assert integer_programme(r, sets).solve() == Whole(r, LIMITS.side).best().cost.values


def test_with_a_floor_line_that_must_be_and_a_pin() -> None:
    given = (Line("horizontal", ft(9), "floor line", must=True), Line("vertical", ft(11), "pinned", must=True))
    r = ready_of(plain(28, 18, hole("a", 4, 3, 3, 4), hole("b", 16, 12, 4, 4)), given)
    assert r.musts["horizontal"] and r.musts["vertical"]
    assert integer_programme(r, sets_of(r)).solve() == Whole(r, LIMITS.side).best().cost.values


def test_where_no_layout_holds_the_least_plaster_is_past_a_limit() -> None:
    # two panels of 20 x 9 ft, 180 sq ft = 1672 dm2 each, stay past 144; beside them 4 x 9 and 16 x 9 ft just fit
    surface = plain(60, 9)
    p = plane(surface, [0])
    lines = [Line("vertical", ft(x), "even") for x in (4, 20, 40)]
    r = laid(Site(p, 0, (), LIMITS, (), (), 10**6), lines).ready
    ours = Whole(r, LIMITS.side).best()
    assert integer_programme(r, sets_of(r)).solve() == ours.cost.values
    assert ours.cost.past == 2 * 1672 and len(ours.panels) == 4
