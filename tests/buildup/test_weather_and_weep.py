"""What the air calls for, and how high a weep screed must stand."""

import pytest

from darby.buildup import care
from darby.measure.units import unit

from .asking import BOOK, codes, inch, up


def at(deg_f, mph=0.0, humidity=None):
    wind = float(unit("mph").to_si(mph))
    return care(BOOK, "job", air_c=float(unit("deg F").to_si(float(deg_f))), wind=wind, humidity=humidity)


@pytest.mark.parametrize(
    ("deg_f", "mph", "said"),
    [(40, 0, set()), (39.9, 0, {"cold"}), (100, 0, set()), (100.1, 0, {"hot"}), (90, 30, set()), (90.1, 8, set()),
     (90.1, 8.1, {"hot-wind"}), (101, 20, {"hot"}), (70, 20, set())],
)  # fmt: skip
def test_the_edges_of_cold_and_hot(deg_f, mph, said):
    assert codes(at(deg_f, mph)) == said


def test_cold_stops_and_heat_cautions():
    assert [n.grade for n in at(35)] == ["stop"]
    assert [n.grade for n in at(105)] == ["caution"]


def test_humidity_says_whether_water_is_added():
    assert codes(at(70, humidity=0.70)) == {"dry-air"}
    assert codes(at(70, humidity=0.71)) == {"damp-air"}
    assert codes(at(70)) == set()


def test_a_weep_screed_stands_high_enough_or_is_cautioned():
    def notes(earth=None, paving=None, base="frame"):
        lengths = (None if x is None else inch(x) for x in (earth, paving))
        return codes(up(base=base, **dict(zip(("above_earth", "above_paving"), lengths, strict=True))).notes)

    assert "weep-screed" in notes()
    assert not {"weep-low-earth", "weep-low-paving"} & notes("4", "2")
    assert "weep-low-earth" in notes("3-15/16", "2")
    assert "weep-low-paving" in notes("4", "1-15/16")
    assert "no-weep-on-masonry" in notes(base="block")
    assert "weep-screed" not in notes("1", "1", base="block")
    assert "weep-screed" not in codes(up(base="frame", position="horizontal").notes)
