"""[recoat] as it is written, and every way in which it cannot be."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.job import JobError, loads
from darby.job.recoat import Eave, Fixture, Recoat, Vent
from darby.measure.units import IN, UNITS

JOB = """
darby = 1
[job]
name = "A house"
as_of = 2026-03-02
[[house]]
id = "house"
walls = ["30'", "20'", "30'", "20'"]
height = "9'"
facing = "south"
base = "painted plaster"
behind = "frame"
openings = { 1 = ["window 3' x 4' at 5' up 3'"] }
"""

FT = 12 * IN


def read(more: str) -> Recoat:
    recoat = loads(JOB + more).recoat
    assert recoat is not None
    return recoat


def faults(more: str) -> list[tuple[str, str]]:
    with pytest.raises(JobError) as caught:
        loads(JOB + more)
    return [(f.code, f.place) for f in caught.value.faults]


def test_it_is_read_exactly() -> None:
    got = read("""
[recoat]
surfaces = ["house"]
adds = "3/8 in"
frames = "3/4 in"
returns = "1 in"
weep = "1/4 in"
mask = "60 ft/h"
wash = "400 sq ft/h"
roughen = "90 sq ft/h"
[[recoat.vent]]
surface = "house-2"
at = "10'"
up = "7'"
clear = "1/2 in"
count = 2
[[recoat.eave]]
surface = "house"
name = "frieze"
clear = "1 1/2 in"
[[recoat.fixture]]
what = "lamp"
count = 4
each = "30 min"
""")
    walls = tuple(f"house-{n}" for n in (1, 2, 3, 4))
    assert (got.surfaces, got.adds, got.frames, got.returns, got.weep) == (
        walls, Fraction(3, 8) * IN, Fraction(3, 4) * IN, IN, IN / 4,
    )  # fmt: skip
    assert got.vents == (Vent("vent-at-1", "house-2", 10 * FT, 7 * FT, "", IN / 2, 2),)
    assert got.eaves == tuple(Eave("eave-1", wall, "frieze", Fraction(3, 2) * IN) for wall in walls)
    assert got.fixtures == (Fixture("lamp", 4, Fraction(1800)),)
    assert got.mask is not None and got.mask[0] == 60 * FT / 3600
    assert got.wash is not None and got.wash[0] == 400 * FT**2 / 3600
    assert got.roughen is not None and got.roughen[1] == UNITS["sq ft/h"]


def test_without_it_nothing_is_coated_anew() -> None:
    assert loads(JOB).recoat is None
    assert read("[recoat]\n") == Recoat()


VENT = '[recoat]\n[[recoat.vent]]\nsurface = "house-1"\nat = "{at}"\nup = "{up}"\n'


@pytest.mark.parametrize(("at", "up", "code"), [
    ("31'", "2'", "job.vent-off-wall"), ("2'", "9' 1\"", "job.vent-off-wall"), ("6'", "5'", "job.vent-in-opening"),
])  # fmt: skip
def test_a_vent_is_in_the_plaster(at: str, up: str, code: str) -> None:
    assert faults(VENT.format(at=at, up=up.replace('"', '\\"'))) == [(code, "recoat, vent 1")]


@pytest.mark.parametrize(("at", "up"), [("30'", "9'"), ("0'", "0'"), ("5'", "3'")])
def test_a_vent_on_the_very_edge_is_on_the_wall(at: str, up: str) -> None:
    assert read(VENT.format(at=at, up=up)).vents


WRONG = {
    'adds = "0 in"': ("measure.not-positive", "recoat, adds"),
    'weep = "-1/4 in"': ("measure.not-positive", "recoat, weep"),
    'frames = "much"': ("measure.unreadable", "recoat, frames"),
    'surfaces = ["hose"]': ("job.no-such-surface", "recoat, surfaces 1"),
    'surfaces = ["house", "house-2"]': ("job.twice", "recoat, surfaces 2"),
    "surfaces = []": ("job.empty", "recoat, surfaces"),
    'mask = "60 sq ft/h"': ("measure.unknown-unit", "recoat, mask"),
    'wash = "0 sq ft/h"': ("measure.not-positive", "recoat, wash"),
    '[[recoat.fixture]]\nwhat = "lamp"\ncount = 0': ("job.out-of-span", "recoat, fixture 1, count"),
    '[[recoat.fixture]]\nwhat = " "': ("job.empty", "recoat, fixture 1, what"),
    '[[recoat.fixture]]\nwhat = "lamp"\neach = "-5 min"': ("measure.not-positive", "recoat, fixture 1, each"),
    '[[recoat.eave]]\nsurface = "house"\nclear = "-1 in"': ("measure.not-positive", "recoat, eave 1, clear"),
    '[[recoat.eave]]\nsurface = "house"\n[[recoat.eave]]\nsurface = "house-1"': (
        "job.twice",
        "recoat, eave 2, surface",
    ),
    '[[recoat.vent]]\nsurface = "house"\nat = "1\'"\nup = "1\'"': ("job.no-such-surface", "recoat, vent 1, surface"),
    'surfaces = ["house-2"]\n[[recoat.vent]]\nsurface = "house-1"\nat = "1\'"\nup = "1\'"': (
        "job.not-one-of",
        "recoat, vent 1, surface",
    ),
    'surfaces = ["house-2"]\n[[recoat.eave]]\nsurface = "house-1"': ("job.not-one-of", "recoat, eave 1, surface"),
}


@pytest.mark.parametrize(("written", "fault"), WRONG.items(), ids=str)
def test_what_cannot_be_is_said_where_it_stands(written: str, fault: tuple[str, str]) -> None:
    assert faults(f"[recoat]\n{written}\n") == [fault]
