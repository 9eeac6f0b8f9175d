"""[[joints]]: lines as they were said, a surface once; what is off the wall or cannot be is said where it stands."""

from fractions import Fraction

import pytest

from darby.job import JobError, loads
from darby.job.joints import GapWanted, JointsWanted

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
[[house]]
id = "crew"
walls = ["14'", "12'", "14'"]
closed = false
height = "8'"
base = "frame"
"""


def said(keys: str, surface: str = "front") -> tuple[JointsWanted, ...]:
    return loads(f'{JOB}[[joints]]\nsurface = "{surface}"\n{keys}\n').joints


def test_lines_are_kept_as_they_were_said():
    keys = 'upright = ["15\'"]\nnot_level = ["4\'"]\nblock = []\nchoose = "through"'
    assert said(keys) == (
        JointsWanted("front", upright=(15 * FT,), not_level=((4 * FT, None),), block=(), choose="through"),
    )


def test_spans_framing_through_joints_and_limits():
    keys = """not_upright = ["7'", "10' to 13'"]
framing = ["4'"]
through = ["20'"]
through_level = ["8'"]
curved = true
area = "120 sq ft"
side = "16'"
ratio = "2"
"""
    assert said(keys) == (
        JointsWanted(
            "front", not_upright=((7 * FT, None), (10 * FT, 13 * FT)), framing=(4 * FT,), through=(20 * FT,),
            through_level=(8 * FT,), curved=True, area=120 * FT**2, side=16 * FT, ratio=Fraction(2),
        ),
    )  # fmt: skip


def test_gaps_in_either_scale():
    keys = 'gap = { hot = "50 C", cold = "14 F", installed = "41 °F", sealant = "50", tolerance = "1/8 in"'
    keys += ", shrinkage = true }"
    gap = said(keys)[0].gap
    assert gap == GapWanted(Fraction(50), Fraction(-10), Fraction(5), None, "50", FT / 96, None, shrinkage=True)


@pytest.mark.parametrize(("written", "degrees"), [("108 F", 60), ("60 C", 60), ("130 °F", Fraction(650, 9))])
def test_a_swing_is_a_difference(written, degrees):
    assert said(f'gap = {{ swing = "{written}", moisture = "0.02 %" }}')[0].gap == GapWanted(
        swing=Fraction(degrees), moisture=Fraction(1, 5000)
    )


def test_gaps_of_every_surface_and_of_a_house():
    text = JOB + '[[joints]]\ngap = { swing = "60 C" }\n[[joints]]\nsurface = "crew"\nfloors = ["4\'"]\n'
    assert [(j.surface, j.gap is not None) for j in loads(text).joints] == [("", True), ("crew", False)]


def test_nobody_looked_is_not_none_there():
    assert said("")[0].block is None


@pytest.mark.parametrize(
    ("keys", "code", "place"),
    [
        ('upright = ["0\'"]', "measure.not-positive", "joints 1, upright 1"),
        ('upright = ["12\'", "31\'"]', "joints.pin-off-wall", "joints 1, upright 2"),
        ('level = ["9\'"]', "joints.pin-off-wall", "joints 1, level 1"),
        ('framing = ["30\'"]', "joints.pin-off-wall", "joints 1, framing 1"),
        ('through_level = ["12\'"]', "joints.pin-off-wall", "joints 1, through_level 1"),
        ('block = ["40\'"]', "joints.block-joint-off-wall", "joints 1, block 1"),
        ('floors = ["10\'"]', "joints.floor-off-wall", "joints 1, floors 1"),
        ('not_upright = ["31\'"]', "job.forbidden-off-wall", "joints 1, not_upright 1"),
        ('not_upright = ["8\' to 5\'"]', "joints.forbidden-backwards", "joints 1, not_upright 1"),
        ('not_upright = ["8\' to 9\' to 10\'"]', "measure.unreadable", "joints 1, not_upright 1"),
        ('not_upright = ["eight"]', "measure.unreadable", "joints 1, not_upright 1"),
        ('upright = ["12\'"]\nnot_upright = ["10\' to 13\'"]', "joints.pin-forbidden", "joints 1, upright 1"),
        ('through = ["12\'"]\nnot_upright = ["12\'"]', "joints.pin-forbidden", "joints 1, through 1"),
        ('choose = "pretty"', "job.not-one-of", "joints 1, choose"),
        ('ratio = "1/2"', "joints.limit-not-positive", "joints 1, ratio"),
        ('side = "0\'"', "measure.not-positive", "joints 1, side"),
        ('gap = { hot = "20 F", cold = "30 F" }', "joints.hot-below-cold", "joints 1, gap, hot"),
        ('gap = { hot = "90 F", cold = "0 F", swing = "80 F" }', "joints.swing-or-both", "joints 1, gap, swing"),
        ('gap = { installed = "60 F" }', "joints.installed-alone", "joints 1, gap, installed"),
        ('gap = { swing = "0 F" }', "measure.not-positive", "joints 1, gap, swing"),
        ('gap = { cold = "500 F" }', "job.out-of-span", "joints 1, gap, cold"),
        ('gap = { cold = "5" }', "measure.no-unit", "joints 1, gap, cold"),
        ('gap = { sealant = "30" }', "job.not-one-of", "joints 1, gap, sealant"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said(keys, code, place):
    with pytest.raises(JobError) as error:
        said(keys)
    assert [(f.code, f.place) for f in error.value.faults] == [(code, place)]


@pytest.mark.parametrize(
    ("text", "code", "place"),
    [
        ('[[joints]]\nsurface = "frnt"\n', "job.no-such-surface", "joints 1, surface"),
        ('[[joints]]\nsurface = "front"\n[[joints]]\nsurface = "front"\n', "job.twice", "joints 2, surface"),
        ('[[joints]]\nupright = ["4\'"]\n', "job.not-here", "joints 1, upright"),
        # on every wall of the house, and the second is 12 ft long
        ('[[joints]]\nsurface = "crew"\nupright = ["13\'"]\n', "joints.pin-off-wall", "joints 1, upright 1"),
    ],
)  # fmt: skip
def test_what_goes_with_no_surface_is_said(text, code, place):
    with pytest.raises(JobError) as error:
        loads(JOB + text)
    assert [(f.code, f.place) for f in error.value.faults] == [(code, place)]
