"""What the core exports for the page, and what happens when the core is not as the page is wired for."""

import sys
from fractions import Fraction

import pytest

from darby.job import JobError
from darby.measure.writing import shown
from darby.pocket import lines as pocket_lines
from darby.pocket.asking import Asker
from darby.pocket.calendar import Calendar
from darby.pocket.lines import lines
from darby.pocket.packing import Pool, Table, number, steps
from darby.pocket.wording import in_both, questions, words
from darby.rulebook import default
from tests.answers.jobs import FIRM as FIRM_TEXT
from tests.pocket.conftest import FIRM


def firm_with(folder, text):
    path = folder / "firm.toml"
    path.write_text(FIRM_TEXT + text, encoding="utf-8")
    return path


RULE = '\n[[rule]]\nsubject = "{subject}"\nvalue = "{value}"\nwhy = "ours"\n'


# --- lines: the core's own formulas and figures ----------------------------------------------------------


def test_a_line_is_the_core_s_formula_with_the_book_s_figures():
    found = lines(Asker(FIRM))
    assert found["volume-net"] == {"formula": "area * thickness", "unit": "cu ft", "figures": {}}
    keys = found["volume-keys"]
    assert keys["formula"] == "area * volume / each"
    assert shown(keys["figures"]["volume"], default().number("lath.key.volume").unit) == "8 cu ft"
    assert shown(keys["figures"]["each"], default().number("lath.key.area").unit) == "100 sq yd"


def test_a_local_rule_changes_the_line(tmp_path):
    changed = firm_with(tmp_path, RULE.format(subject="lath.key.volume", value="12 cu ft"))
    before, after = lines(Asker(FIRM))["volume-keys"], lines(Asker(changed))["volume-keys"]
    assert after["figures"]["volume"] == pytest.approx(before["figures"]["volume"] * 12 / 8)
    assert after["figures"]["each"] == before["figures"]["each"]


def test_a_line_that_the_core_no_longer_has_stops_the_sheet(monkeypatch):
    monkeypatch.setattr(pocket_lines, "LINES", (pocket_lines.Line("x", "*/no-such-step", ()),))
    with pytest.raises(ValueError, match="no step of the core"):
        lines(Asker())


def test_a_formula_that_takes_something_else_stops_the_sheet(monkeypatch):
    monkeypatch.setattr(pocket_lines, "LINES", (pocket_lines.Line("x", "*/volume-net", ("area", "depth")),))
    with pytest.raises(ValueError, match="has no depth"):
        lines(Asker())


def test_a_number_that_is_no_figure_stops_the_sheet(monkeypatch):
    monkeypatch.setattr(pocket_lines, "LINES", (pocket_lines.Line("x", "*/volume-net", ("area",)),))
    with pytest.raises(ValueError, match="takes thickness from no figure"):
        lines(Asker())


# --- waits as days -----------------------------------------------------------------------------------------

H = 3600


@pytest.mark.parametrize(
    ("moist", "wait", "days"),
    [
        (0, 0, [0, 0]),
        (48 * H, 48 * H, [2, 2]),
        (24 * H, 24 * H, [1, 1]),
        (48 * H, 7 * 24 * H, [7, 2]),
        (0, 49 * H, [3, 0]),  # more than two days is three
        (0, 4 * H, [0, 0]),  # doubled back the same day
        (0, 8 * H, [1, 0]),  # longer than what is left of a working day: the next
    ],
)
def test_waits_are_whole_days_counted_from_the_day_of_the_coat(moist, wait, days):
    assert Calendar(Asker(FIRM)).after(moist, wait) == days


def test_worked_days_run_from_sunday():
    assert Calendar(Asker()).table() == {"worked": [False, True, True, True, True, True, False]}


# --- words, questions ----------------------------------------------------------------------------------------


def test_both_systems_in_one_text():
    assert in_both("least 1/2 in. here", "least 13 mm here") == "least {1/2 in.|13 mm} here"
    assert in_both("the same", "the same") == "the same"
    assert in_both("3/8 in.", "10 mm") == "{3/8 in.|10 mm}"
    with pytest.raises(ValueError, match="braces"):
        in_both("a {b}", "a c")


def test_questions_say_the_firm_s_own_rule(tmp_path):
    changed = firm_with(tmp_path, RULE.format(subject="thickness.joints-show", value="9/16 in"))
    ours, theirs = (questions(Asker(file))["en"] for file in (changed, FIRM))
    assert "9/16 in." in str(ours) and "9/16 in." not in str(theirs)
    assert len(ours) == len(theirs) >= 60


def test_a_darby_without_questions_exports_none(monkeypatch):
    monkeypatch.setitem(sys.modules, "darby.words.asking", None)
    assert questions(Asker()) == {"en": [], "es": []}


def test_words_are_those_that_are_said_in_both_languages():
    found = words({"note": ["safety.cement", "caution", {"x": "scaffold"}]})
    assert set(found["en"]) == set(found["es"])
    assert {"safety.cement", "word.scaffold", "pocket.title", "measure.no-unit"} <= set(found["en"])
    assert "safety.hot" not in found["en"] and "measure.box-sides" not in found["en"]


# --- packing, asking -------------------------------------------------------------------------------------------


def test_rows_come_back_as_they_were_put_in():
    table = Table(("a", "b"))
    rows = [("x", [1]), ("y", [1]), ("x", [1]), ("x", [2])]
    assert [table.put(a=a, b=b) for a, b in rows] == [0, 1, 0, 2]
    packed = table.packed()
    assert packed == {"a": {"values": ["x", "y"], "rows": [0, 1, -1]}, "b": {"values": [[1], [2]], "rows": [0, 0, 1]}}
    assert steps([3, 3, 9, 0]) == [3, 0, 6, -9]
    pool = Pool()
    assert [pool.put(x) for x in ("a", ["a"], "a", 1.0, "1")] == [0, 1, 0, 2, 3]


def test_exact_numbers_stay_exact():
    assert [number(x) for x in (Fraction(3, 8), 5, 0.1, Fraction(2))] == ["3/8", "5", 0.1, "2"]


def test_a_wrong_firm_is_refused_before_anything_is_asked(tmp_path):
    path = tmp_path / "broken.toml"
    path.write_text('darby_firm = 1\nname = "X"\n[measures]\nmixer = "9"\n', encoding="utf-8")
    with pytest.raises(JobError, match="measures, mixer"):
        lines(Asker(path))
