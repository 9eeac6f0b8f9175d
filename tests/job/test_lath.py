"""[[lath]]: framing, sheets, laps and corners as they were said; what cannot be laid is said where it stands."""

from fractions import Fraction

import pytest

from darby.job import JobError, loads
from darby.job.lath import LathWanted

IN = Fraction(254, 10_000)
FT = 12 * IN
JOB = """
darby = 1
[job]
name = "One wall"
as_of = 2026-03-02
[[wall]]
id = "front"
length = "30'"
height = "9'"
base = "frame"
"""


def said(keys, surface='surface = "front"'):
    return loads(f"{JOB}[[lath]]\n{surface}\n{keys}\n").lath


def test_what_is_said_is_kept():
    keys = """first_stud = "8 in"
sheet = "27 x 97 in sheet"
side_lap = "1 in"
end_lap = "2 in"
paper = 1
roll = "40 in x 50 ft roll"
plies = 2
outside = "round"
inside = "bead"
"""
    assert said(keys) == (
        LathWanted("front", 8 * IN, (27 * IN, 97 * IN), IN, 2 * IN, 1, (40 * IN, 50 * FT), 2, "round", "bead"),
    )


def test_no_paper_is_not_paper_unsaid():
    assert [wanted.paper for wanted in (*said("paper = 0"), *said(""))] == [0, None]


def test_for_every_surface():
    assert said('first_stud = "0 in"', "") == (LathWanted("", Fraction(0)),)


@pytest.mark.parametrize(
    ("keys", "code", "place"),
    [
        ('first_stud = "-8 in"', "measure.not-positive", "lath 1, first_stud"),
        ('first_stud = "8"', "measure.no-unit", "lath 1, first_stud"),
        ('sheet = "162 sq ft roll"', "measure.package", "lath 1, sheet"),
        ('sheet = "4 x 97 in sheet"', "lath.sheet-size", "lath 1, sheet"),
        ('side_lap = "14 in"', "lath.laps", "lath 1, side_lap"),
        ('sheet = "12 x 97 in sheet"\nside_lap = "6 in"', "lath.laps", "lath 1, side_lap"),
        ('end_lap = "4\' 6\\""', "lath.laps", "lath 1, end_lap"),
        ("paper = -1", "job.out-of-span", "lath 1, paper"),
        ("plies = 0", "job.out-of-span", "lath 1, plies"),
        ('outside = "wrap"', "job.not-one-of", "lath 1, outside"),
        ('[[lath]]\nsurface = "front"', "job.twice", "lath 2, surface"),
        ('[[lath]]\nsurface = "frnt"', "job.no-such-surface", "lath 2, surface"),
    ],
)
def test_what_cannot_be_is_said(keys, code, place):
    with pytest.raises(JobError) as error:
        said(keys)
    assert [(f.code, f.place) for f in error.value.faults] == [(code, place)]
