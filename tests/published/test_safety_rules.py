"""Figures of the safety rules, as printed by those who report them, and what follows from them."""

import pytest

from darby.days import cautions
from darby.days.cautions import fall_protection, lead
from darby.measure.units import unit
from darby.rulebook import default
from tests.published import checked

FT, SQFT = float(unit("ft").scale), float(unit("sq ft").scale)

COPIED = [
    ("safety.silica.pel", "50", "29 CFR 1926.1153, as set out by CPWR: exposure limit"),
    ("safety.silica.action", "25", "UNLV on 29 CFR 1926.1153: action level"),
    ("safety.silica.tasks", "18", "29 CFR 1926.1153 Table 1: tasks"),
    ("safety.lead.year", "1978", "J. J. Keller on 40 CFR 745 Subpart E: year"),
    ("safety.lead.exterior", "20 sq ft", "sdcpm.com on 40 CFR 745: outside"),
    ("safety.asbestos.area", "160 sq ft", "Monterey Bay district on 40 CFR 61 Subpart M: area"),
    ("safety.asbestos.percent", "1 %", "Arizona DEQ on NESHAP: percent"),
    ("safety.fall.scaffold", "10 ft", "EC&M on 29 CFR 1926.451(g)"),
    ("safety.fall.edge", "6 ft", "29 CFR 1926.501(b)(1), in a copy"),
    ("safety.scaffold.face", "18 in", "WAC 296-874-20054: plastering and lathing"),
    ("weather.frost.guard", "24 h", "West Virginia examination item: hours after set"),
]


@pytest.mark.parametrize(("subject", "written", "source"), COPIED, ids=[row[0] for row in COPIED])
@checked("copied figure", "safety rules as reported: see each case")
def test_figures_as_printed(subject, written, source):
    figure = default().number(subject)
    number, _, name = written.partition(" ")
    assert figure.written == written and figure.standing == "second-hand" and source
    assert figure.number == pytest.approx(float(unit(name).to_si(float(number))))


def test_power_lines_are_from_memory_and_say_so():
    figure = default().number("safety.power-lines")  # from memory, not checked against the standard
    assert (figure.written, figure.standing) == ("10 ft", "memory")
    assert figure.number == pytest.approx(10 * FT)


@checked("our arithmetic", "EC&M on 29 CFR 1926.451(g): a platform 11 ft up")
def test_a_platform_11_ft_up_needs_fall_protection():
    assert fall_protection(11 * FT, scaffold=True) is True
    assert fall_protection(10 * FT, scaffold=True) is False
    assert any(n.code == "safety.fall-scaffold" for n in cautions(platform=11 * FT, works=["scaffold"]))


@checked("our arithmetic", "sdcpm.com on 40 CFR 745: 18 sq ft outside, a window replaced, built 1960")
def test_eighteen_square_feet_and_a_window_is_ask_and_never_a_pass():
    """The window exception itself is from memory (40 CFR 745.83)."""
    assert lead(1960, 18 * SQFT) == "ask"
    notes = cautions(year_built=1960, works=["replace window"], painted_area=18 * SQFT)
    assert {"safety.lead-ask", "safety.lead-window"} <= {n.code for n in notes}
