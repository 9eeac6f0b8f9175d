"""Three notes on block that shows: a surveyors' glossary, a case of dust, a producer's photograph."""

from darby.rulebook import default
from tests.published import checked
from tests.published.asking import first_cause


@checked("copied figure", "Building Compliance Testing, glossary, Grinning or ghosting, 2024")
def test_it_comes_as_the_wall_begins_to_dry():
    assert "begins to dry after rain" in default().rule("fault.block-lines.drying").figure.written


@checked("copied figure", "Building Preservation, The case of pattern staining")
def test_dust_can_mark_joints_with_no_damp():
    rule, english, _ = first_cause("fault.dust-lines")
    assert "no damp" in rule.written
    assert "warmer or colder" in english


@checked("copied figure", "westernblended.com, Block walls, note to a photograph (no test behind it)")
def test_uneven_suction_when_it_went_on():
    rule, english, _ = first_cause("fault.baked-in-pattern")
    assert rule.standing == "second-hand"
    assert "drank unevenly" in rule.written
    assert "drank unevenly" in english
