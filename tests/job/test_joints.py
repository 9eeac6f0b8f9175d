"""[[joints]]: lines as they were said, a surface once."""

from fractions import Fraction

import pytest

from darby.job import JobError, loads
from darby.job.joints import JointsWanted

FT = Fraction(3048, 10_000)
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


def test_lines_are_kept_as_they_were_said():
    said = '[[joints]]\nsurface = "front"\nupright = ["15\'"]\nnot_level = ["4\'"]\nblock = []\nchoose = "through"\n'
    assert loads(JOB + said).joints == (
        JointsWanted("front", upright=(15 * FT,), not_level=(4 * FT,), block=(), choose="through"),
    )


def test_nobody_looked_is_not_none_there():
    assert loads(JOB + '[[joints]]\nsurface = "front"\n').joints[0].block is None


@pytest.mark.parametrize(
    ("said", "code", "place"),
    [
        ('[[joints]]\nsurface = "frnt"\n', "job.no-such-surface", "joints 1, surface"),
        ('[[joints]]\nsurface = "front"\n[[joints]]\nsurface = "front"\n', "job.twice", "joints 2, surface"),
        ('[[joints]]\nsurface = "front"\nupright = ["0\'"]\n', "measure.not-positive", "joints 1, upright 1"),
        ('[[joints]]\nsurface = "front"\nchoose = "pretty"\n', "job.not-one-of", "joints 1, choose"),
    ],
)
def test_what_cannot_be_is_said(said, code, place):
    with pytest.raises(JobError) as error:
        loads(JOB + said)
    assert [(f.code, f.place) for f in error.value.faults] == [(code, place)]
