"""Packages, counts, rates and openings: the price list and the measuring sheet."""

from __future__ import annotations

from fractions import Fraction as Fr

import pytest

from darby.measure import Unreadable, counted, opening_line, opening_size, package, rate
from darby.measure.openings import OpeningLine
from darby.measure.units import FT, GAL, IN, LB, UNITS, YD

SQFT = FT**2


@pytest.mark.parametrize(
    ("text", "amount", "unit", "word", "sheet"),
    [
        ("94 lb bag", 94 * LB, "lb", "bag", None),
        ("25 kg bag", Fr(25), "kg", "bag", None),
        ("27 x 97 in sheet", 27 * 97 * IN**2, "sq ft", "sheet", (27 * IN, 97 * IN)),
        ('27" x 97" sheet', 27 * 97 * IN**2, "sq ft", "sheet", (27 * IN, 97 * IN)),
        ("0.7 x 2.5 m sheet", Fr("1.75"), "m2", "sheet", (Fr("0.7"), Fr("2.5"))),
        ("3' x 150' roll", 450 * SQFT, "sq ft", "roll", (3 * FT, 150 * FT)),
        ("10 ft piece", 10 * FT, "ft", "piece", None),
        ("10' stick", 10 * FT, "ft", "stick", None),
        ("box of 1000", Fr(1000), "", "box", None),
        ("Box of 1,000", Fr(1000), "", "box", None),
        ("box of 100 screws", Fr(100), "", "box", None),
        ("cu yd", YD**3, "cu yd", "", None),
        ("ton", 2000 * LB, "ton", "", None),
        ("1/2 cu yd", YD**3 / 2, "cu yd", "", None),
        ("162 sq ft roll", 162 * SQFT, "sq ft", "roll", None),
        ("5 gal pail", 5 * GAL, "gal", "pail", None),
        ("10.1 fl oz tube", Fr("10.1") * GAL / 128, "fl oz", "tube", None),
        ("each", Fr(1), "", "piece", None),
        ("pail", Fr(1), "", "pail", None),
    ],
)
def test_package(text, amount, unit, word, sheet):
    found = package(text)
    assert (found.amount, found.unit, found.word, found.sheet) == (amount, UNITS[unit], word, sheet)


@pytest.mark.parametrize(
    ("text", "code", "nearest"),
    [
        ("94 lb bagg", "package", "bag"),
        ("shett", "package", "sheet"),
        ("94 lbz bag", "unknown-unit", "lb"),
        ("0 lb bag", "not-positive", ""),
        ("-5 gal pail", "not-positive", ""),
        ("0 x 97 in sheet", "not-positive", ""),
        ("94 bag", "no-unit", ""),
        ("27 x 97 sheet", "no-unit", ""),
        ("2 x 3 x 4 in sheet", "unreadable", ""),
        ("box of 1.5", "count", ""),
        ("boxx of 100", "package", "box"),
        ("40 F bag", "unknown-unit", None),
        ("7 day roll", "package", ""),
        ("ft", "package", ""),
        ("", "empty", ""),
    ],
)
def test_package_refused(text, code, nearest):
    with pytest.raises(Unreadable) as refused:
        package(text)
    assert refused.value.fault.code == f"measure.{code}"
    if nearest is not None:
        assert refused.value.fault.nearest == nearest


@pytest.mark.parametrize(
    ("text", "amount", "unit", "word"),
    [
        ("20 bags", Fr(20), "bags", "bag"),
        ("1 bag", Fr(1), "bags", "bag"),
        ("16 1/2 bags", Fr(33, 2), "bags", "bag"),
        ("1,200 nails", Fr(1200), "nails", "nail"),
        ("3 boxes", Fr(3), "boxes", "box"),
        ("2 people", Fr(2), "people", "person"),
        ("2 cu yd", 2 * YD**3, "cu yd", ""),
        ("1.5 tons", 3000 * LB, "ton", ""),
    ],
)
def test_counted(text, amount, unit, word):
    found = counted(text)
    assert (found.amount, found.unit, found.word) == (amount, UNITS[unit], word)


@pytest.mark.parametrize(
    ("text", "code", "nearest"),
    [("20", "no-unit", ""), ("20 bgs", "unknown-unit", "bags"), ("bags", "unreadable", ""), (20, "no-unit", "")],
)
def test_counted_refused(text, code, nearest):
    with pytest.raises(Unreadable) as refused:
        counted(text)
    assert (refused.value.fault.code, refused.value.fault.nearest) == (f"measure.{code}", nearest)


HOUR, DAY = 3600, 86_400


@pytest.mark.parametrize(
    ("text", "low", "high", "unit", "word"),
    [
        ("$34.00/h", Fr(34, HOUR), None, "$/h", ""),
        ("$34 per hour", Fr(34, HOUR), None, "$/h", ""),
        ("75 sq ft/h", 75 * SQFT / HOUR, None, "sq ft/h", ""),
        ("60 ft/h", 60 * FT / HOUR, None, "ft/h", ""),
        ("7 m²/h", Fr(7, HOUR), None, "m2/h", ""),
        ("$8 to $34/sq ft", 8 / SQFT, 34 / SQFT, "$/sq ft", ""),
        ("$8 to 34 / sq ft", 8 / SQFT, 34 / SQFT, "$/sq ft", ""),
        ("$450/100 sq ft", Fr("4.5") / SQFT, None, "$/sq ft", ""),
        ("$450/1,000 sq ft", Fr("0.45") / SQFT, None, "$/sq ft", ""),
        ("$40.50/sq yd", Fr("40.5") / YD**2, None, "$/sq ft", ""),
        ("$0.085/lb", Fr("0.085") / LB, None, "$/lb", ""),
        ("$95.00/day", Fr(95, DAY), None, "$/day", ""),
        ("$16.80/bag", Fr("16.8"), None, "$", "bag"),
        ("6 to 26 bags/100 sq ft", Fr(6, 100) / SQFT, Fr(26, 100) / SQFT, "/sq ft", "bag"),
        ("150 to 900 sq ft/day", 150 * SQFT / DAY, 900 * SQFT / DAY, "sq ft/day", ""),
        ("150 sq ft to 900 sq ft/day", 150 * SQFT / DAY, 900 * SQFT / DAY, "sq ft/day", ""),
        ("1/2 h/sq ft", HOUR / SQFT / 2, None, "h/sq ft", ""),
        ("400 sq ft/gal", 400 * SQFT / GAL, None, "sq ft/gal", ""),
        ("3.4 lb/sq yd", Fr("3.4") * LB / YD**2, None, "lb/sq yd", ""),
        ("24 sq ft/cu ft", 24 / FT, None, "sq ft/cu ft", ""),
    ],
)
def test_rate(text, low, high, unit, word):
    found = rate(text)
    assert (found.low, found.high) == (low, low if high is None else high)
    assert (found.unit, found.word) == (UNITS[unit], word)
    if high is None:
        assert found.value == low
    else:
        with pytest.raises(ValueError, match="range"):
            _ = found.value


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("$34.00", "unreadable"),
        ("34/h", "unknown-unit"),
        ("$34 to $8/sq ft", "range"),
        ("$8 to $9 to $34/sq ft", "unreadable"),
        ("75 sqq ft/h", "unknown-unit"),
        ("75 sq ft/hr day", "unknown-unit"),
        ("$1,250/ton", "ambiguous"),
        ("$34/0 sq ft", "not-positive"),
        ("75 h/h to", "unknown-unit"),
        ("2 lb/m", "unknown-unit"),
        ("$34/h per day", "unreadable"),
        ("sq ft/h", "unreadable"),
        ("1 ft to 2 m/h", "unreadable"),
        ("75 sq ft/", "unreadable"),
        (75, "unreadable"),
    ],
)
def test_rate_refused(text, code):
    with pytest.raises(Unreadable) as refused:
        rate(text)
    assert refused.value.fault.code == f"measure.{code}"


@pytest.mark.parametrize(
    ("text", "width", "height"),
    [
        ("3068", 3 * FT, 6 * FT + 8 * IN),
        ("2868", 2 * FT + 8 * IN, 6 * FT + 8 * IN),
        ("3' x 4'", 3 * FT, 4 * FT),
        ("3’ × 4’", 3 * FT, 4 * FT),
        ("3-0 x 6-8", 3 * FT, 6 * FT + 8 * IN),
        ("36 x 80 in", 3 * FT, 6 * FT + 8 * IN),
        ("900 x 2100 mm", Fr("0.9"), Fr("2.1")),
    ],
)
def test_opening_size(text, width, height):
    assert opening_size(text) == (width, height)


def test_an_opening_on_one_line():
    assert opening_line('door 3068 at 1\'-8", up 0", reveal 4"') == OpeningLine(
        "door", 3 * FT, 6 * FT + 8 * IN, 20 * IN, Fr(0), 4 * IN
    )
    assert opening_line("window 3' x 4' at 5' up 3'") == OpeningLine("window", 3 * FT, 4 * FT, 5 * FT, 3 * FT)
    assert opening_line("Door 3068 at 9'").up == 0
    assert opening_line('door 3068 reveal 4", at 9\' frame 1 1/2"').frame == Fr("1.5") * IN
    assert opening_line("window 1.2 x 1.5 at 2 up 0.9", "m") == OpeningLine(
        "window", Fr("1.2"), Fr("1.5"), Fr(2), Fr("0.9")
    )


@pytest.mark.parametrize(
    ("text", "code", "place", "nearest"),
    [
        ("dor 3068 at 9'", "opening-kind", "", "door"),
        ("3068 at 9'", "opening-kind", "", ""),
        ("door at 9'", "empty", "size", ""),
        ("door 30688 at 9'", "opening-size", "size", ""),
        ("door 0068 at 9'", "not-positive", "size", ""),
        ("door 3' at 9'", "opening-size", "size", ""),
        ("door 3' x 4' x 5' at 9'", "opening-size", "size", ""),
        ("door 3068", "opening-lacks", "", "at"),
        ("window 3' x 4' at 5'", "opening-lacks", "", "up"),
        ("window 3' x 4' at 5' up 3", "no-unit", "up", ""),
        ("window 3' x 4' at 5' up 3' at 6'", "opening-twice", "", "at"),
        ("window 3' x 4' at -5' up 3'", "not-positive", "at", ""),
        ("window 3' x 4' near 5' up 3'", "unknown-unit", "size", ""),
    ],
)
def test_opening_refused(text, code, place, nearest):
    with pytest.raises(Unreadable) as refused:
        opening_line(text)
    fault = refused.value.fault
    assert (fault.code, fault.place, fault.nearest) == (f"measure.{code}", place, nearest)
