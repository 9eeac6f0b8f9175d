"""What holds of every wall: panels tile it, none is past a limit, its mirror image has the mirrored layout ..."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from darby.joints import Forbidden, Joints, Layout, Pin
from darby.joints.allowed import allowed
from darby.joints.model import Limits
from darby.measure import net_area
from darby.measure.surface import Corner, Opening, Surface
from darby.measure.units import FT, IN
from tests.joints.asking import BOOK, ft, hole, lines, plain, run

QUARTER = IN / 4


@st.composite
def walls(draw: st.DrawFn, openings: int = 4, gables: bool = True) -> Surface:
    """Walls in whole quarters of an inch, with openings that neither touch each other nor cover all of it."""
    wide, high = draw(st.integers(4, 60)), draw(st.integers(3, 24))
    gable = draw(st.sampled_from((0, 0, 3, 6))) if gables else 0
    holes: list[Opening] = []
    taken: list[tuple[int, int, int, int]] = []
    for n in range(draw(st.integers(0, openings))):
        a, c = (
            draw(st.integers(0, wide * 48 - 48)),
            draw(st.sampled_from((0, 0, 144, 150, draw(st.integers(0, high * 48))))),
        )
        w, h = draw(st.integers(48, 48 * 16)), draw(st.integers(48, 48 * 8))
        b, d = a + w, c + h
        if b <= wide * 48 and d < high * 48 and all(b < e or a > f or d < g or c > k for e, f, g, k in taken):
            taken.append((a, b, c, d))
            holes.append(hole(f"o{n}", Fraction(a, 48), Fraction(c, 48), Fraction(w, 48), Fraction(h, 48)))
    return plain(wide, high, *holes, gable=ft(gable))


def mirrored(s: Surface, about: Fraction) -> Surface:
    def turned(outline: tuple[Corner, ...]) -> tuple[Corner, ...]:
        return tuple(replace(c, u=about - c.u) for c in reversed(outline))

    return replace(s, outline=turned(s.outline), edges=(),
                   openings=tuple(replace(o, outline=turned(o.outline)) for o in s.openings))  # fmt: skip


def moved(s: Surface, right: Fraction, up: Fraction) -> Surface:
    def put(outline: tuple[Corner, ...]) -> tuple[Corner, ...]:
        return tuple(replace(c, u=c.u + right, v=c.v + up) for c in outline)

    return replace(s, outline=put(s.outline),
                   openings=tuple(replace(o, outline=put(o.outline)) for o in s.openings))  # fmt: skip


def counts(layout: Layout) -> tuple[object, ...]:
    return layout.off_corner, layout.into, layout.laid, layout.stops, layout.length


def even(layout: Layout) -> int:
    return sum(int(side * 1000 + Fraction(1, 2)) ** 2 for p in layout.panels for side in (p.width, p.height))


def checked(answer: Joints, s: Surface) -> None:
    """Panels tile the wall, touch nowhere but at edges, and keep within every limit; joints lie between them."""
    within, _ = allowed(BOOK, Limits(), "vertical", "")
    for layout in answer.layouts:
        assert layout.holds
        assert sum((p.area for p in layout.panels), Fraction(0)) == net_area(s)
        shapes = [shapely.union_all([_filled(p.rings)]) for p in layout.panels]
        whole = shapely.union_all(shapes)
        assert abs(whole.area - float(net_area(s))) < 1e-6
        assert abs(sum(x.area for x in shapes) - whole.area) < 1e-6
        for p, shape in zip(layout.panels, shapes, strict=True):
            assert within.broken(p.area, p.width, p.height) == () == p.breaks
            assert abs(shape.area - float(p.area)) < 1e-6
            left, bottom, right, top = shape.bounds
            assert abs(right - left - float(p.width)) + abs(top - bottom - float(p.height)) < 1e-9
        for joint in layout.joints:
            assert joint.length == sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in joint.pieces)
            for a, b in joint.pieces:  # plaster on both sides, of two panels
                u, v = (float(x + (y - x) * Fraction(37, 101)) for x, y in zip(a, b, strict=True))
                off = (1e-5, 0) if joint.axis == "vertical" else (0, 1e-5)
                beside = [shapely.Point(u + k * off[0], v + k * off[1]) for k in (1, -1)]
                assert all(any(x.contains(point) for x in shapes) for point in beside)
        assert layout.length == sum(j.length for j in layout.joints)


def _filled(rings: tuple[tuple[tuple[Fraction, Fraction], ...], ...]) -> shapely.Geometry:
    shape: shapely.Geometry = Polygon()
    for ring in rings:
        shape = shapely.symmetric_difference(shape, Polygon([(float(u), float(v)) for u, v in ring]))
    return shape


@given(walls())
@settings(max_examples=25, deadline=None)
def test_panels_tile_the_wall_and_none_is_past_a_limit(s: Surface) -> None:
    answer, _ = run(s)
    if answer.chosen.holds:
        checked(answer, s)
    else:  # what is claimed to be past a limit is
        assert any(p.breaks for p in answer.chosen.panels)


@given(walls(gables=False), st.integers(-200, 200), st.integers(-200, 200))
@settings(max_examples=20, deadline=None)
def test_moving_the_datum_changes_nothing(s: Surface, right: int, up: int) -> None:
    here, _ = run(s)
    there, _ = run(moved(s, right * QUARTER, up * QUARTER))
    assert [x.name for x in here.layouts] == [x.name for x in there.layouts]
    for a, b in zip(here.layouts, there.layouts, strict=True):
        assert [(j.start[0] + right * QUARTER, j.start[1] + up * QUARTER, j.length, j.kind) for j in a.joints] == [
            (j.start[0], j.start[1], j.length, j.kind) for j in b.joints
        ]
        assert [(p.area, p.width, p.height) for p in a.panels] == [(p.area, p.width, p.height) for p in b.panels]


def drawn(layout: Layout, about: Fraction | None = None) -> set[tuple[Fraction, ...]]:
    """Where every panel lies; ``about``: seen in a mirror."""
    return {(p.left if about is None else about - p.left - p.width, p.bottom, p.width, p.height) for p in layout.panels}


@given(walls())
@settings(max_examples=20, deadline=None)
def test_the_mirror_image_has_as_good_a_layout(s: Surface) -> None:
    about = max(c.u for c in s.outline)
    here, there = run(s)[0].chosen, run(mirrored(s, about))[0].chosen
    assert counts(here) == counts(there) and even(here) == even(there)


@pytest.mark.parametrize(
    "s",
    [plain(30, 9, hole("a", 12, 3, 4, 4)), plain(37, 12, hole("a", 0, 3, 16, 4)), plain(40, 20, hole("a", 7, 2, 5, 4)),
     plain(34, 9, hole("a", 5, 0, 3, 7), hole("b", 20, 3, 6, 4), gable=ft(6)), plain(34, 19, hole("a", 8, 3, 12, 4))],
)  # fmt: skip
def test_where_one_layout_is_best_its_mirror_image_is(s: Surface) -> None:
    about = max(c.u for c in s.outline)
    here, there = run(s, "lath over block")[0], run(mirrored(s, about), "lath over block")[0]
    assert drawn(here.chosen, about) == drawn(there.chosen)


@given(walls(openings=2), st.integers(1, 12), st.integers(4, 40))
@settings(max_examples=15, deadline=None)
def test_pins_are_obeyed_and_forbidden_lines_are_not_used(s: Surface, at: int, span: int) -> None:
    wide = max(c.u for c in s.outline)
    pin = Pin("vertical", wide * at / 13, "framing")
    first = Forbidden("vertical", wide * span / 41, wide * (span + Fraction(1, 2)) / 41)
    if first.at <= pin.at <= (first.to or first.at):
        return
    answer, _ = run(s, pinned=(pin,), forbidden=(first,))
    for layout in answer.layouts:
        places = [at * FT for axis, at in lines(layout) if axis == "v"]
        assert not [x for x in places if first.at <= x <= (first.to or first.at)]
        if not s.openings:
            assert pin.at in places
    if answer.chosen.holds:
        checked(answer, s)


@given(st.integers(1, 12), st.integers(1, 12), st.sampled_from([(12, 12), (6, 15), (15, 6), (18, 8), (9, 16)]))
@settings(max_examples=25, deadline=None)
def test_walls_made_of_panels_just_at_a_limit_are_parted_no_finer(across: int, up: int, panel: tuple[int, int]) -> None:
    if across * up > 24:
        return
    wide, high = panel
    layout = run(plain(across * wide, up * high), "lath over block")[0].layouts[0]
    assert layout.holds and layout.laid <= across - 1 + up - 1


@given(walls(openings=3))
@settings(max_examples=20, deadline=None)
def test_the_fewest_are_no_more_and_the_best_is_no_further_from_corners(s: Surface) -> None:
    answer, _ = run(s)
    first = answer.layouts[0]
    for other in answer.layouts[1:]:
        assert (first.off_corner, first.into, first.laid) <= (other.off_corner, other.into, other.laid)
        if other.name == "fewest":
            assert other.laid < first.laid
        if other.name in ("fewest", "through"):
            assert other.through
        assert lines(other) != lines(first)
