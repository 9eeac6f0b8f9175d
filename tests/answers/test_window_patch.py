"""The example of a patch: a window replaced upstairs in a painted house of 1960, part hollow."""

import tomllib
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

import darby
from darby.measure.units import unit

EXAMPLES = Path(__file__).parents[2] / "examples"
TEXT = (EXAMPLES / "window-patch.toml").read_text(encoding="utf-8")
FIRM = (EXAMPLES / "firm.toml").read_text(encoding="utf-8")
IN, SQ_FT = unit("in"), unit("sq ft")


@cache
def answered(*edits):
    text = TEXT
    for old, new in edits:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return darby.answer(_load(text))


def _load(text):
    from darby.job import loads

    return loads(text, firm=FIRM)


def test_all_of_it_is_answered_and_priced():
    answers = answered()
    assert answers.unanswered() == {}
    assert answers.of("price").complete
    assert TEXT.startswith("# An invented job") and tomllib.loads(TEXT)["job"]["invented"]


def test_a_window_replaced_in_a_1960_house_at_18_sq_ft_answers_ask():
    answers = answered()
    (patch,) = answers.of("patch").patches
    assert float(SQ_FT.from_si(float(patch.area))) == pytest.approx(18)
    codes = {n.code for n in answers.notes}
    assert {"safety.lead-ask", "safety.lead-window", "safety.asbestos-ask"} <= codes
    assert "safety.lead-applies" not in codes


@pytest.mark.parametrize(("width", "area"), [("6 in", 8), ("14 in", 21.778)])
def test_the_ring_of_the_issue(width, area):
    lines = ", ".join(f'{side} = "{width}"' for side in ("head", "sill", "left", "right"))
    answers = answered(
        ('width = "12 in"', f'width = "{width}"'),
        ('lines = { head = "12 in", sill = "12 in", left = "12 in", right = "12 in" }', f"lines = {{ {lines} }}"),
    )
    (patch,) = answers.of("patch").patches
    assert float(SQ_FT.from_si(float(patch.drawn))) == pytest.approx(area, abs=1e-3)
    # at 6 in. the hollow (10 in. and the margin) is not cut out: that is said
    assert (patch.short is not None) == (width == "6 in")
    assert ("condition.patch.short" in {n.code for n in answers.notes}) == (width == "6 in")


def test_it_comes_as_deep_as_the_old_work_whatever_the_table_says():
    def coats(*edits):
        (_, built), *_ = answered(*edits).of("coats", "window").zones
        return [round(float(IN.from_si(float(c.nominal))), 6) for c in built.chosen.coats]

    assert coats() == [0.375, 0.5, 0.125]  # 1 in.
    seven = (('thickness = "1 in"', 'thickness = "7/8 in"'), ('proud = "1 in"', 'proud = "7/8 in"'))
    assert sum(coats(*seven)) == pytest.approx(0.875)
    assert sum(coats(('proud = "1 in"', 'proud = "1-1/8 in"'))) == pytest.approx(1.125)


def test_a_patch_that_ends_on_old_plaster_has_no_weep_screed():
    (_, built), *_ = answered().of("coats", "window").zones
    assert "weep-screed" not in built.chosen.preparation
    door = (('width = "12 in"', 'width = "12 in"\nsides = ["head", "left", "right"]'), ('sill = "12 in", ', ""))
    (_, round_a_door), *_ = answered(*door).of("coats", "window").zones
    assert "weep-screed" in round_a_door.chosen.preparation


def test_the_days_need_no_fewer_trips_than_the_waits():
    answers = answered()
    (patch,) = answers.of("patch").patches
    assert (int(float(patch.trips)), answers.of("days").count.value) == (3, 3)
    assert float(answers.of("days").span) == pytest.approx(float(patch.days))


def test_cutting_back_is_a_line_of_the_price_and_his_own_word_stands():
    lines = {line.what: line for line in answered().of("price").quote}
    assert lines["cut back"].amount.value > Decimal(0)
    # 18 sq ft at 6 sq ft an hour are 3 h of one person
    assert dict(answered().working.steps)["window/patch/hours"].value == pytest.approx(3 * 3600)
    protect = '[[also]]\nwhat = "protect"'
    own = ((protect, f'[[also]]\nwhat = "cut back"\ncost = "$100.00"\n\n{protect}'),)
    assert [line.what for line in answered(*own).of("price").quote].count("cut back") == 1


def test_rubble_is_priced_by_his_own_entry_or_said_to_be_in_no_price():
    assert "condition.patch.not-hauled" not in {n.code for n in answered().notes}
    start = TEXT.index('[[also]]\nwhat = "dispose"')
    assert "condition.patch.not-hauled" in {n.code for n in answered((TEXT[start:], "")).notes}


def test_tapping_that_is_still_to_do_is_priced_and_what_is_done_is_not():
    assert "sound" not in {line.what for line in answered().of("price").quote}
    start = TEXT.index("taps = [")
    untapped = ((TEXT[start : TEXT.index("]\n", start) + 2], ""),)
    assert "sound" in {line.what for line in answered(*untapped).of("price").quote}


def test_what_was_found():
    (wall,) = answered().of("survey").walls
    assert [(f.kind, f.does) for f in wall.findings] == [
        ("hollow", "cut out"), ("hollow", "test first"), ("crack", "leave"), ("crack", "test first"),
        ("loose", "test first"),
    ]  # fmt: skip
    still, moving = wall.of("crack")
    assert (still.movement, moving.movement, moving.follows) == ("not moving so far", "moving", "cold")


def test_a_changed_patch_runs_only_what_it_moves():
    first = answered()
    again = darby.answer(_load(TEXT.replace('flange = "1-3/8 in"', 'flange = "1-1/4 in"')), since=first)
    assert 0 < again.asked < first.asked / 2
    assert darby.answer(_load(TEXT), since=first).asked == 0
