"""A working plasterer's column on cold weather, Stucco News, March 2015."""

from tests.published import checked
from tests.published.asking import first_cause, number, written

SOURCE = "Stucco News, Cold weather stucco, March 2015"


@checked("copied figure", SOURCE)
def test_when_setting_mortar_freezes():
    assert number("ask.freeze.at.column") == (28,)
    assert written("ask.freeze.at.column") == ("28 deg F", "read")


@checked("copied figure", SOURCE)
def test_how_long_it_takes_to_set():
    assert number("ask.freeze.set.column") == (5, 7)


@checked("copied figure", f"{SOURCE}: frozen before it set")
def test_frozen_plaster_turns_to_powder():
    rule, english, spanish = first_cause("fault.powdery")
    assert "powdery" in rule.written
    assert "froze" in english
    assert "heló" in spanish
