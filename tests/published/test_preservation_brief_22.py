"""Preservation Brief 22: old stucco was mostly lime; and what is put on soft work is no harder than it is."""

from tests.buildup.asking import BOOK, codes, up
from tests.published import checked


@checked("copied figure", "Preservation Brief 22: lime before the late 1800s")
def test_soft_brick_gets_no_harder_plaster():
    figure = BOOK.rule("prep.no-harder").figure
    assert (figure.id, figure.standing) == ("prep.no-harder.brief-22", "second-hand")
    (note,) = (n for n in up(base="brick", brick="soft").notes if n.code == "buildup.soft-brick")
    assert note.rules == (figure.id,)
    assert "soft-brick" not in codes(up(base="brick", brick="sound").notes)
