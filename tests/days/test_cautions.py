"""Cautions bind where the work calls for them; lead and asbestos are never waved through."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.days import cautions
from darby.days.cautions import fall_protection, lead
from darby.measure.units import unit
from darby.words import say

FT, SQFT = float(unit("ft").scale), float(unit("sq ft").scale)
WORKS = [
    "mix",
    "cut",
    "grind",
    "drill",
    "disturb old plaster",
    "disturb paint",
    "replace window",
    "scaffold",
    "roof edge",
]


def codes(**asked):
    return {n.code for n in cautions(**asked)}


def test_cement_and_silica_where_cement_is_mixed():
    assert codes(works=["mix"], materials=["portland", "sand"]) == {"safety.cement", "safety.silica-mix"}
    assert codes(works=["mix"]) == set()


@pytest.mark.parametrize(("work", "tool"), [("cut", "saw"), ("grind", "grinder"), ("drill", "drill")])
def test_silica_where_something_is_cut_by_the_row_of_its_tool(work, tool):
    assert codes(works=[work]) == {"safety.silica-cut", f"safety.silica-{tool}"}
    (row,) = (n for n in cautions(works=[work]) if n.code == f"safety.silica-{tool}")
    assert row.rules == (f"safety.silica.{tool}.table-1",)


@pytest.mark.parametrize(
    ("year", "area", "answer"),
    [(1960, None, "applies"), (1977, 21, "applies"), (1960, 20, "ask"), (1960, 1, "ask"), (1978, None, "ask"),
     (2026, 500, "ask"), (None, None, "ask"), (None, 500, "ask")],
)  # fmt: skip
def test_lead_applies_or_is_asked(year, area, answer):
    assert lead(year, None if area is None else area * SQFT) == answer


@given(
    st.none() | st.integers(1600, 2100),
    st.none() | st.floats(0, 1e4),
    st.sets(st.sampled_from(WORKS)),
    st.floats(0, 99),
)
def test_nothing_ever_says_that_a_rule_does_not_apply(year, area, works, height):
    for note in cautions(year_built=year, works=works, painted_area=area, platform=height, materials=["lime"]):
        assert note.grade == "caution" and note.rules
        assert "does not apply" not in say(note.code, note.values)
        assert "no aplica" not in say(note.code, note.values, "es")


@pytest.mark.parametrize("work", ["disturb old plaster", "disturb paint", "replace window"])
@pytest.mark.parametrize("year", [None, 1950, 2020])
def test_old_work_that_is_disturbed_is_always_asked_about(work, year):
    found = codes(works=[work], year_built=year)
    assert "safety.asbestos-ask" in found
    assert (work == "disturb old plaster") or found & {"safety.lead-ask", "safety.lead-applies"}
    assert ("safety.lead-window" in found) == (work == "replace window")


def test_heights():
    assert codes(platform=0) == set()
    assert codes(platform=5 * FT) == {"safety.power-lines"}
    assert codes(platform=6 * FT) == {"safety.power-lines", "safety.fall-edge"}
    assert codes(platform=9 * FT, works=["scaffold"]) == {"safety.power-lines", "safety.scaffold-face"}
    assert "safety.fall-scaffold" in codes(platform=11 * FT, works=["scaffold"])
    assert "safety.fall-edge" in codes(platform=2 * FT, works=["scaffold", "roof edge"])


@pytest.mark.parametrize(("feet", "needed"), [(5.9, False), (6, True), (12, True)])
def test_an_edge_counts_from_its_limit_on(feet, needed):
    assert fall_protection(feet * FT, scaffold=False) is needed
