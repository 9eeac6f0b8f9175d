"""Civil at Work: teaching pages that work plaster sums by hand, 2015 and 2019."""

from __future__ import annotations

import pytest

from darby.quantities import Opening, Volumes, by_dry_volume
from tests.published import checked
from tests.published.plaster_sums import exact, hole, laid, of


@checked("worked elsewhere", "civilatwork 2019: How to calculate cement and sand in plaster, worked sum")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("dry m3", 0.01596, 1e-5),
        ("cement kg", 3.28, 0.01),
        ("cement bags", 0.0656, 1e-4),
        ("sand ft3", 0.483, 0.001),
    ],
)
def test_1m2_of_12mm_1_to_6(what: str, printed: float, within: float) -> None:
    # the page's sand line prints a multiplier of 1.226; its answer follows from 35.31 cubic feet a cubic metre
    found = of(by_dry_volume(exact("0.012"), exact("1.33"), (1, 6), cement_density=1440, bag_kg=50))
    assert found[what] == pytest.approx(printed, abs=within)


@checked("worked elsewhere", "civilatwork 2019: How to calculate plaster quantity (external), worked example")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("wet m3", 2.0, 0.001),
        ("running 1 m3", 2.4, 0.001),
        ("dry m3", 3.2, 0.001),
        ("cement m3", 0.64, 0.001),
        ("cement bags", 18.3, 0.05),
        ("whole bags", 19, 0),
        ("sand m3", 2.56, 0.001),
    ],
)
def test_100m2_of_20mm_1_to_4(what: str, printed: float, within: float) -> None:
    # waste first, then a third more: compounded, as that page does
    found = of(by_dry_volume(exact(2), exact("4/3"), (1, 4), before=(exact("0.2"),), bag_m3=exact("0.035")))
    assert found[what] == pytest.approx(printed, abs=within)


@checked("worked elsewhere", "civilatwork 2015: How to calculate ceiling plaster quantity, store room")
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("wet m3", 0.0396, 1e-4),
        ("dry m3", 0.0495, 1e-4),
        ("cement m3", 0.0099, 1e-4),
        ("cement bags", 0.297, 0.0005),
        ("sand m3", 0.0396, 1e-4),
    ],
)
def test_ceiling_of_6mm_1_to_4(what: str, printed: float, within: float) -> None:
    # one allowance and no dry-volume factor at all
    found = of(
        by_dry_volume(exact("2.2") * 3 * exact("0.006"), 1, (1, 4), before=(exact("0.25"),), bag_m3=exact("1/30"))
    )
    assert found[what] == pytest.approx(printed, abs=within)


EXTERNAL = "civilatwork 2015: External plastering quantity, second floor example"


def external() -> Volumes:
    """Eight runs 6.4 m high (printed once as 64 m), every opening off in full, no reveals, 20 mm."""
    runs = [exact(r) for r in ("11.6", "9.8", "10.8", "4.5", "2.9", "2.3", "4.2", "2.3")]
    openings = hole("1.2", "1.2", 24) + [Opening(f"vent-{n}", exact("0.675")) for n in range(8)]
    openings += [Opening(f"big-vent-{n}", exact("1.44")) for n in range(8)]
    return laid(sum(runs) * exact("6.4"), exact("0.02"), openings)


@checked("worked elsewhere", EXTERNAL)
def test_external_wet_volume() -> None:
    """258.28 m2 net, less every opening, at 20 mm."""
    assert float(external().area) == pytest.approx(258.28, abs=0.01)
    assert float(external().coats[0].net) == pytest.approx(5.16, abs=0.01)


@checked("worked elsewhere", EXTERNAL)
@pytest.mark.parametrize(
    ("what", "printed", "within"),
    [
        ("running 1 m3", 6.7, 0.02),
        ("dry m3", 8.37, 0.03),
        ("cement m3", 1.67, 0.01),
        ("whole bags", 51, 0),
    ],
)
def test_external_mortar(what: str, printed: float, within: float) -> None:
    wet = external().coats[0].net
    found = of(by_dry_volume(wet, exact("1.25"), (1, 4), before=(exact("0.3"),), bag_m3=exact("1/30")))
    assert found[what] == pytest.approx(printed, abs=within)


@checked("our arithmetic", f"{EXTERNAL}, sand, corrected")
def test_external_sand() -> None:
    """Printed 8.37 x 4 = 33.48 m3: the division by five parts is missing, five times too much."""
    found = of(by_dry_volume(external().coats[0].net, exact("1.25"), (1, 4), before=(exact("0.3"),)))
    assert found["sand m3"] == pytest.approx(6.7, abs=0.02)
