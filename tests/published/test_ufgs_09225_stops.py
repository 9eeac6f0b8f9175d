"""Unified Facilities Guide Specification 09225: where a day's work stops, and when the brown is damped."""

from darby.rulebook import default
from tests.published import checked
from tests.published.asking import first_cause, number

SOURCE = "Unified Facilities Guide Specification 09225 Stucco, 3.7.2 to 3.7.5"


@checked("copied figure", SOURCE)
def test_the_brown_is_damped_not_longer_ahead():
    assert number("ask.damp-before-finish.ufgs") == (1,)


@checked("copied figure", SOURCE)
def test_work_stops_at_a_natural_line():
    rule = default().rule("ask.stop").figure
    assert all(word in rule.written for word in ("break", "opening", "damp the edge"))
    behind, english, _ = first_cause("fault.lap-mark")
    assert behind is rule
    assert "opening" in english
