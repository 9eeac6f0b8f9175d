"""The garden wall and the chimney by hand: every expected number is worked out in the comment beside it."""

import tomllib
from decimal import Decimal
from fractions import Fraction

import pytest

import darby
from darby.answers.ways import ways
from darby.job import loads
from tests.answers.jobs import EXAMPLES, FIRM

FT = Fraction("0.3048")
SQ_FT, CU_FT = FT**2, FT**3


@pytest.fixture(scope="module")
def garden():
    return darby.answer(darby.load(EXAMPLES / "garden-wall.toml"))


@pytest.fixture(scope="module")
def chimney():
    return darby.answer(darby.load(EXAMPLES / "chimney-soffit.toml"))


def near(value, unit=1):
    return pytest.approx(float(value * unit), rel=1e-9)


def notes(answers, code):
    return [n for n in answers.notes if n.code == code]


# --- effort --------------------------------------------------------------------------------------------------


def entries(thing):
    """How many values somebody typed: every number, text, date and yes or no, one by one."""
    if isinstance(thing, dict):
        return sum(entries(value) for value in thing.values())
    if isinstance(thing, list):
        return sum(entries(value) for value in thing)
    return 1


def typed(text):
    return entries(tomllib.loads(text))


TWO_OPENINGS = """darby = 1
[job]
name = "Front wall"
as_of = 2026-09-30
firm = "firm.toml"
[[wall]]
id = "front"
length = "24'"
height = "8'"
base = "block"
block = "dense"
joints = "flush"
out_of_plane = "1/4 in"
openings = ["door 3068 at 4', reveal 4\\"", "window 3' x 4' at 12' up 3'"]
"""


def test_a_garden_wall_takes_at_most_twenty_five_entries():
    assert typed((EXAMPLES / "garden-wall.toml").read_text(encoding="utf-8")) <= 25


def test_a_wall_with_two_openings_takes_at_most_fifteen():
    assert typed(TWO_OPENINGS) <= 15
    answers = darby.answer(loads(TWO_OPENINGS, folder=EXAMPLES))
    assert answers.unanswered() == {}
    assert answers.of("price").complete


# --- the garden wall -------------------------------------------------------------------------------------------


def test_faces_returns_and_ends(garden):
    found = {name: float(v.area.value) for name, v in garden.good("volumes").items()}
    assert found == {
        "wall-front": near(360, SQ_FT), "wall-back": near(360, SQ_FT),  # 60 x 6
        "wall-left": near(4, SQ_FT), "wall-right": near(4, SQ_FT),  # 8 in. x 6 ft
        "wall-front-returns": near(20, SQ_FT), "wall-back-returns": near(20, SQ_FT),  # 5 x 2 x 4 in. x 6 ft
    }  # fmt: skip
    assert float(garden.of("price").area.value) == near(768, SQ_FT)


def test_arris_is_a_hundred_and_forty_four_feet(garden):
    # 10 pilasters have 2 each, the ends 4: 24 of 6 ft
    (corner,) = (line for line in garden.of("order").edges if line.item == "corner bead")
    assert corner.length == 144 * FT
    (inside,) = (line for line in garden.of("order").edges if line.because.endswith("inside-corner-solid"))
    assert inside.length == 120 * FT
    # two faces of 60 ft, two ends of 8 in., twenty sides of 4 in.
    (drip,) = (line for line in garden.of("order").edges if line.item == "drip screed")
    assert drip.length == 128 * FT


def test_thirty_two_cubic_feet_at_half_an_inch(garden):
    # 768 x 1/24, before what is allowed for spread and waste; nothing has keys
    net = sum(float(c.net.value) for v in garden.good("volumes").values() for c in v.coats)
    assert net == near(32, CU_FT)
    for coats in garden.good("coats").values():
        assert [float(built.chosen.nominal.value) for _, built in coats.zones] == [near(FT / 24)]


def test_the_block_itself_wants_a_joint_every_nine_feet(garden):
    # 1.5 x 6 ft, on both faces
    said = notes(garden, "joints.block-without-joints")
    assert [n.at for n in said] == ["wall-front", "wall-back"]
    for n in said:
        assert n.grade == "caution"
        assert float(dict(n.values)["spacing"].value) == near(9 * FT)


def test_sprinklers_and_a_free_wall_bring_their_cautions(garden):
    assert {n.code for n in garden.notes} >= {"buildup.sprinklers", "buildup.place.garden-wall"}
    earth = (EXAMPLES / "garden-wall.toml").read_text(encoding="utf-8").replace("sprinklers = true", 'retains = "2\'"')
    held = darby.answer(loads(earth, firm=FIRM))
    assert "buildup.earth-behind" in {n.code for n in held.notes}
    # two feet of the back are under the earth: 60 x 4, its sides 10 x 4 in. x 4 ft
    assert float(held.of("volumes", "wall-back").area.value) == near(240, SQ_FT)
    assert float(held.of("volumes", "wall-back-returns").area.value) == near(Fraction(40, 3), SQ_FT)


def test_everything_is_answered(garden, chimney):
    for answers in (garden, chimney):
        assert answers.unanswered() == {}
        assert answers.of("price").complete


def test_one_heavy_coat_or_a_finish_over_a_base_each_with_its_time_and_cost(garden):
    found = {way.code: way for way in ways(garden)}
    assert set(found) == {"one-coat", "float", "dash", "wet-dash"}
    assert all(set(way.surfaces) == set(garden.good("coats")) for way in found.values())
    assert found["float"].total == garden.of("price").total.value
    assert found["one-coat"].hours.value < found["float"].hours.value
    assert found["one-coat"].trips.value < found["float"].trips.value
    assert found["one-coat"].total < found["float"].total < found["wet-dash"].total
    assert found["one-coat"].cautions == ("buildup.fewer-coats", "buildup.no-code-row")
    assert found["wet-dash"].cautions == ("buildup.past-no-lath",)


def test_a_finish_goes_at_its_own_pace_where_the_firm_has_one(garden):
    # 768 sq ft at 60 sq ft/h instead of 120: 12.8 h instead of 6.4
    text = (EXAMPLES / "garden-wall.toml").read_text(encoding="utf-8").replace('finish = "float"', 'finish = "dash"')
    firm = FIRM.replace('finish = "120 sq ft/h"', 'finish = "120 sq ft/h"\ndash = "60 sq ft/h"')
    slow = darby.answer(loads(text, firm=firm))
    hours = {
        which: sum(float(c.hours.value) for c in answers.of("days").coats if c.coat == "finish") / 3600
        for which, answers in (("slow", slow), ("as before", darby.answer(loads(text, firm=FIRM))))
    }
    assert hours == {"slow": near(12.8), "as before": near(6.4)}
    assert not notes(slow, "job.assumed-pace")
    assert notes(darby.answer(loads(text, firm=FIRM)), "job.assumed-pace")


# --- the chimney, the soffits, the plinth ------------------------------------------------------------------------


def test_a_chimney_on_a_roof_of_six_in_twelve(chimney):
    # 4 ft wide and 2 2/3 ft deep: up the roof it rises 1 1/3 ft of its 6
    found = {name: float(v.area.value) for name, v in chimney.good("volumes").items()}
    deep, rise = Fraction(8, 3), Fraction(4, 3)
    assert found == {
        "chimney-1": near(24, SQ_FT),
        "chimney-2": near(deep * (6 - rise / 2), SQ_FT),
        "chimney-3": near(4 * (6 - rise), SQ_FT),
        "chimney-4": near(deep * (6 - rise / 2), SQ_FT),
        "eave": near(64, SQ_FT), "porch": near(60, SQ_FT), "plinth": near(48, SQ_FT),
    }  # fmt: skip
    assert chimney.of("wall", "chimney-1").reach == 18 * FT


def test_what_goes_on_each_of_them(chimney):
    chosen = {name: c.zones[0][1].chosen for name, c in chimney.good("coats").items()}
    thick = {name: Fraction(float(o.nominal.value)).limit_denominator(10**7) / (FT / 12) for name, o in chosen.items()}
    assert thick["eave"] == pytest.approx(Fraction(5, 8))  # lath overhead
    assert thick["porch"] == pytest.approx(Fraction(3, 8))  # concrete overhead, the most without lath
    assert thick["plinth"] == pytest.approx(Fraction(1, 2))
    assert chimney.of("coats", "plinth").zones[0][1].verdict == "roughen and bond"
    assert "grind" in chimney.kept[("cautions", "job")].ask.works
    assert "roof edge" in chimney.kept[("cautions", "job")].ask.works


def test_paint_of_1958_over_twenty_square_feet_comes_under_the_rule(chimney):
    codes = {n.code for n in chimney.notes}
    assert {"safety.lead-applies", "safety.asbestos-ask", "safety.silica-grinder", "safety.fall-edge"} <= codes


# --- tests first, windows replaced ---------------------------------------------------------------------------------

OLD = """darby = 1
[job]
name = "Old wall"
as_of = 2026-09-30
built = 1960
[[wall]]
id = "old"
name = "Old wall"
length = "20'"
height = "9'"
base = "painted plaster"
behind = "frame"
"""

RING = """darby = 1
[job]
name = "Window"
as_of = 2026-09-30
built = 1960
[[ring]]
id = "patch"
size = "3' x 4'"
width = "12 in"
base = "frame"
replaced = true
"""


def test_nobody_tested_so_testing_first_is_a_line_of_the_price():
    answers = darby.answer(loads(OLD, firm=FIRM))
    assert notes(answers, "buildup.verdict.test-first")[0].grade == "stop"
    (line,) = (q for q in answers.of("price").quote if q.kind == "also")
    assert (line.what, line.says) == ("test", "Old wall")
    # 3 h (common practice) of one person at the crew's average: (3 x 34 + 2 x 24) / 5 x 1.42 = $42.60/h
    (labor,) = (x for x in answers.of("price").lines if x.what == "test")
    assert labor.amount.value == 3 * Decimal("42.60")
    tested = darby.answer(loads(OLD + 'tests = { tap = "sound", pull = "held" }\n', firm=FIRM))
    assert not [q for q in tested.of("price").quote if q.kind == "also"]


def test_his_own_line_for_testing_takes_the_place_of_ours():
    his = '[[also]]\nwhat = "test"\nsays = "patches"\nhours = "5 h"\n'
    answers = darby.answer(loads(OLD + his, firm=FIRM))
    assert [(q.what, q.says) for q in answers.of("price").quote if q.kind == "also"] == [("test", "patches")]


def test_lath_over_old_plaster_on_a_frame_is_ordered_as_on_a_frame():
    text = OLD + 'tests = { pull = "let go" }\n'
    items = {line.item for line in darby.answer(loads(text, firm=FIRM)).of("order").lines}
    assert {"lath", "paper", "lath fasteners", "weep screed"} <= items
    block = text.replace('behind = "frame"', 'behind = "block"')
    items = {line.item for line in darby.answer(loads(block, firm=FIRM)).of("order").lines}
    assert {"lath", "masonry lath fasteners"} <= items
    assert items.isdisjoint({"paper", "lath fasteners", "weep screed"})


def test_a_window_replaced_in_a_1960_house_at_eighteen_square_feet_answers_ask():
    answers = darby.answer(loads(RING, firm=FIRM))
    # (3 + 2)(4 + 2) - 12 = 18 sq ft
    assert float(answers.of("volumes", "patch").area.value) == near(18, SQ_FT)
    codes = {n.code for n in answers.notes}
    assert {"safety.lead-ask", "safety.lead-window", "safety.asbestos-ask"} <= codes
    assert "safety.lead-applies" not in codes
    wider = darby.answer(loads(RING.replace("12 in", "14 in"), firm=FIRM))  # 21.8 sq ft
    assert "safety.lead-applies" in {n.code for n in wider.notes}
