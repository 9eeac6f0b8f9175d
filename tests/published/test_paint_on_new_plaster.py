"""Paint on new plaster: a trade bulletin on pH, a trade magazine on the days that labels give."""

import pytest

from tests.buildup.asking import printed, said, up
from tests.published import checked


@checked("copied figure", "When can I paint my stucco? (trade bulletin); inPAINT, painting fresh stucco")
@pytest.mark.parametrize(("figure", "value"), [("cure.paint-ph.bulletin", 10), ("cure.paint-days.label", 28)])
def test_the_figures_stand_in_the_book(figure, value):
    assert printed(figure) == (value,)


@checked("our arithmetic", "When can I paint my stucco? (trade bulletin): time alone does not decide")
def test_both_are_said_and_neither_is_a_date():
    note = said(up(paint=True).notes, "paint-waits")
    assert (note["ph"].number, note["days"].number) == (10, 28 * 86_400)
    assert all(c.wait_least is None for c in up(paint=True).chosen.coats[-1:])
