"""International Building Code, 2512: how many coats, how long each is kept moist, how long the next one waits."""

from datetime import date, timedelta

import pytest

from tests.buildup.asking import chosen, days, printed
from tests.published import checked

TABLE = "IBC 2018, Table 2512.6"


@checked("copied figure", TABLE)
@pytest.mark.parametrize(
    ("figure", "value"),
    [("cure.moist.ibc", 48), ("cure.wait.scratch.ibc", 48), ("cure.wait.brown.ibc", 7), ("cure.hold-warm.ibc", 48)],
)
def test_the_table_stands_in_the_book(figure, value):
    assert printed(figure) == (value,)


@checked("copied figure", "IBC 2512.1 and 2512.2 (hosted text): fewest coats")
@pytest.mark.parametrize(("figure", "value"), [("thickness.coats.lath.ibc", 3), ("thickness.coats.solid.ibc", 2)])
def test_the_fewest_coats_stand_in_the_book(figure, value):
    assert printed(figure) == (value,)


@checked("our arithmetic", f"{TABLE}: scratch on 1 June 2026")
def test_three_coats_from_the_first_of_june():
    scratch, brown, _ = chosen(base="frame", cure="ibc").coats
    on = date(2026, 6, 1) + timedelta(days=days(scratch.wait_least))
    assert on == date(2026, 6, 3)
    assert on + timedelta(days=days(brown.wait_least)) == date(2026, 6, 10)
