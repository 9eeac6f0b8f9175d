"""`darby sum`: one wall in one line, with the rule of thumb beside it."""

import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.measure import Unreadable
from darby.tables.quick import quick_wall
from tests.cli.running import darby


def summed(*words, **env):
    result = darby("sum", *words, **env)
    assert result.exit_code == 0, result.stderr
    return re.sub(r"\n(?=[a-z])", " ", result.stdout)


def test_a_garden_wall_both_faces():
    said = summed("60' x 6' x 2, 1/2 block")
    # 60 x 6 x 2 = 720 sq ft; at half an inch 720 / 24 = 30 cu ft: the published 24 sq ft per cubic foot
    assert "720 sq ft at 1/2 in.: 30 cu ft of mortar (24 sq ft/cu ft)" in said
    # 1 : 1 : 6 makes 5.30 cu ft a bag (94 lb portland, 40 lime, 480 sand by absolute volumes): 30 / 5.30 = 5.66
    assert "mixed 1 : 1 : 6 (portland, lime, sand), 5.66 bags of portland (6 bags to carry)" in said
    # six cubic feet a bag: 34 cu ft = 1.26 cu yd
    assert "1.26 cu yd of damp sand" in said
    assert "By the rule of thumb" in said
    assert "Net: nothing is added" in said


def test_on_lath():
    said = summed("60' x 6' x 2, 7/8 lath")
    # 720 x 7/8 / 12 = 52.5; a cubic foot covers 12 / (7/8) = 13.71
    assert "52.5 cu ft of mortar (13.71 sq ft/cu ft)" in said


@pytest.mark.parametrize(
    ("text", "area"),
    [
        ("24' x 8', 1/2 block", "192 sq ft"),
        ("24' x 8', 1/2", "192 sq ft"),
        ("24' x 8', 1/2 in block", "192 sq ft"),
        ("24' x 8', 1/2\" block", "192 sq ft"),
        ("24' × 8', 0.5 block", "192 sq ft"),
        ("24' X 8' x 1, 12.7 mm concrete", "192 sq ft"),
        ("7' 6\" x 8', 7/8 frame", "60 sq ft"),
        ("10 m x 3 m, 12 mm block", "322.9 sq ft"),
    ],
)
def test_ways_of_saying_it(text, area):
    assert summed(text).startswith(area)


def test_words_need_no_quotes_where_the_shell_leaves_them_whole():
    assert summed("24ft", "x", "8ft,", "1/2", "block") == summed("24ft x 8ft, 1/2 block")


@pytest.mark.parametrize(
    "text",
    [
        "", "60'", "60' x 6'", "60' x 6',", "60 x 6, 1/2", "60' x 6' x 0, 1/2", "60' x 6' x two, 1/2", "60' x 6', 1/0",
        "60' x 6' x 2 x 2, 1/2", "-60' x 6', 1/2", "0' x 6', 1/2", "60' x 6', 0", "60' x 6', thick",
        "60' x 6', 1/2 brik", "60' x 6', 1,5 block", "60' x 6' x ², 1/2", f"60' x 6' x {'9' * 5000}, 1/2",
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_refused(text):
    result = darby("sum", text)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert result.stderr.strip()
    assert "Traceback" not in result.stderr


def test_json():
    found = json.loads(darby("sum", "60' x 6' x 2, 1/2 block", "--json").stdout)
    assert found["area_m2"] == pytest.approx(720 * 0.3048**2)
    assert found["mortar_m3"] == pytest.approx(30 * 0.3048**3)
    assert found["thickness_m"] == pytest.approx(0.0127)
    assert found["whole_bags"] == 6
    assert found["parts"] == {"portland": 1, "lime": 1, "sand": 6}


def test_metric_and_spanish():
    said = summed("10 m x 3 m, 12 mm block", "--metric", "--es")
    # 30 m2 x 12 mm = 0.36 m3
    assert said.startswith("30 m² a 12 mm: 0.36 m³ de mezcla")


PIECES = (
    "60'", "6'", "7' 10 1/2\"", "3 m", "x", " x ", "×", "*", ",", ", ", "1/2", "7/8", "0", "-1", "²", "½", "1e9",
    "9" * 40, "block", "lath", "in", "mm", "'", '"', "/", ".", "1.5", "nan", "inf", "\x00", "¼ in", "kg",
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.text(max_size=30), st.lists(st.sampled_from(PIECES), max_size=9).map("".join)))
def test_any_line_is_a_wall_or_is_refused(text):
    """Whatever is typed: a sum or a sentence that says what is wanted, nothing else."""
    try:
        wall = quick_wall(text)
    except Unreadable as error:
        assert error.fault.allowed
    else:
        assert wall.sum.area.value == wall.length * wall.height * wall.faces > 0
        assert wall.thickness > 0
        assert wall.base in ("block", "concrete", "lath", "frame")
