"""Frost and heat are said with their figures, whatever the plan."""

from darby.days.weather import limits
from darby.rulebook import default
from darby.words import say


def test_the_limits_are_said_in_both_languages_and_systems():
    notes = limits(default())
    us = " ".join(say(n.code, n.values) for n in notes)
    metric = " ".join(say(n.code, n.values, "es", "metric") for n in notes)
    assert all(x in us for x in ("40 °F", "48 h", "24 h", "100 °F", "90 °F", "8 mph"))
    assert "4.4 °C" in metric
    assert {n.grade for n in notes} == {"caution"} and all(n.rules for n in notes)


def test_what_is_from_memory_says_so():
    assert default().number("weather.frost.base").standing == "memory"
