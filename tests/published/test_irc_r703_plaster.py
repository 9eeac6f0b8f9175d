"""International Residential Code, R703.7 (third-party transcription): waits, framing under lath, weep screed."""

from datetime import date, timedelta

import pytest

from tests.buildup.asking import chosen, codes, days, inch, printed, up
from tests.published import checked

SOURCE = "IRC R703.7 (third-party transcription)"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(
    ("figure", "value"),
    [("cure.wait.scratch.irc", 48), ("cure.wait.base.irc", 7), ("prep.framing.irc", 24), ("prep.weep.earth.irc", 4),
     ("prep.weep.paving.irc", 2)],
)  # fmt: skip
def test_the_figures_stand_in_the_book(figure, value):
    assert printed(figure) == (value,)


@checked("our arithmetic", f"{SOURCE}: two-coat and three-coat work from 1 June 2026")
def test_the_finish_waits_seven_days_in_two_coat_work():
    first = date(2026, 6, 1)
    (base, _) = chosen(cure="irc").coats
    assert first + timedelta(days=days(base.wait_least)) == date(2026, 6, 8)
    (scratch, brown, _) = chosen(base="frame", cure="irc").coats
    assert first + timedelta(days=days(scratch.wait_least) + days(brown.wait_least)) == date(2026, 6, 10)


@checked("our arithmetic", f"{SOURCE}: 4-1/2 in. above earth and 2-1/4 in. above paving")
def test_a_screed_four_and_a_half_above_earth_passes():
    said = codes(up(base="frame", above_earth=inch("4-1/2"), above_paving=inch("2-1/4")).notes)
    assert not {"weep-low-earth", "weep-low-paving"} & said
