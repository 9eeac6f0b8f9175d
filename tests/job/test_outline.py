"""[[wall]] outline: a wall that is no rectangle."""

from fractions import Fraction

import pytest

from darby.job import JobError, loads
from darby.measure.outline import area_of
from darby.measure.units import FT
from darby.words import catalogue

WALL = """
darby = 1
[job]
name = "Shed"
as_of = 2026-09-30
[[wall]]
id = "w"
length = "20'"
height = "10'"
base = "concrete"
out_of_plane = "1/4 in"
facing = "south"
{more}
"""
LEAN_TO = """outline = ["0', 0'", "20', 0'", "20', 6'", "0', 10'"]"""


def _wall(more: str):
    return loads(WALL.format(more=more)).surface("w")


def test_a_lean_to_has_the_area_of_its_trapezium():
    """20 ft wide, 10 ft at one end and 6 ft at the other: 20 x (10 + 6) / 2 = 160 sq ft, by hand."""
    assert area_of(_wall(LEAN_TO).outline) == pytest.approx(float(160 * FT * FT))


def test_its_edges_are_told_from_how_they_lie():
    kinds = [(e.kind, e.start) for e in _wall(LEAN_TO).edges]
    assert [kind for kind, _ in kinds] == ["grade", "outside corner", "top", "outside corner"]


def test_a_step_in_the_top_is_top_as_far_as_the_end():
    stepped = """outline = ["0', 0'", "20', 0'", "20', 10'", "8', 10'", "8', 7'", "0', 7'"]"""
    assert [e.kind for e in _wall(stepped).edges] == ["grade", "outside corner", "top", "top", "top", "outside corner"]


def test_a_stepped_footing_is_base():
    footed = """outline = ["0', 0'", "8', 0'", "8', 2'", "20', 2'", "20', 10'", "0', 10'"]"""
    assert [e.kind for e in _wall(footed).edges] == ["grade", "grade", "grade", "outside corner", "top",
                                                     "outside corner"]  # fmt: skip


def test_the_way_round_does_not_matter():
    other = """outline = ["0', 10'", "20', 6'", "20', 0'", "0', 0'"]"""
    one, turned = _wall(LEAN_TO), _wall(other)
    assert {(c.u, c.v) for c in one.outline} == {(c.u, c.v) for c in turned.outline}
    assert sorted(e.kind for e in one.edges) == sorted(e.kind for e in turned.edges)


def test_an_end_that_changes_on_the_way_up_is_broken_there():
    old = LEAN_TO + """\nright = { kind = "meets old work", up_to = "4'", proud = "1/2 in" }"""
    wall = _wall(old)
    ends = {e.kind: c for e in wall.edges for c in wall.outline if c.id == e.start and c.u == 20 * FT}
    assert (ends["meets old work"].v, ends["outside corner"].v) == (0, 4 * FT)
    assert next(c for c in wall.outline if c.id == "right-break").v == 4 * FT


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ("""outline = ["0', 0'", "19', 0'", "19', 6'", "0', 10'"]""", "job.outline-reach"),
        ("""outline = ["0', 1'", "20', 1'", "20', 6'", "0', 10'"]""", "job.outline-reach"),
        ("""outline = ["0', 0'", "20', 0'"]""", "job.few-corners"),
        ("""outline = ["0', 0'", "20', 10'", "20', 0'", "0', 10'"]""", "measure.outline-crosses"),
        ("""outline = ["0', 0'", "20', 0'", "20 6'", "0', 10'"]""", "job.not-a-corner"),
        (LEAN_TO + """\ngable = "2'\"""", "job.not-here"),
        (LEAN_TO + """\nright = { kind = "meets old work", up_to = "7'", proud = "1/2 in" }""", "measure.up-to"),
    ],
)
def test_what_does_not_fit_is_said(more, code):
    with pytest.raises(JobError) as refused:
        loads(WALL.format(more=more))
    assert code in {fault.code for fault in refused.value.faults}
    assert all(fault.code in catalogue("en") for fault in refused.value.faults)


def test_openings_stand_in_it_and_beyond_it():
    inside = _wall(LEAN_TO + """\nopenings = ["window 3040 at 2', up 3', reveal 2\\""]""")
    assert inside.openings[0].outline[0].u == Fraction(2 * FT)
    with pytest.raises(JobError) as refused:
        loads(WALL.format(more=LEAN_TO + """\nopenings = ["window 3040 at 16', up 4', reveal 2\\""]"""))
    assert [f.code for f in refused.value.faults] == ["measure.opening-outside"]
