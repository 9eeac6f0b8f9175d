"""Masonry Construction, Stuccoing over masonry: when masonry asks for lath."""

from darby.buildup.model import Tried
from tests.buildup.asking import BOOK, option, up
from tests.published import checked


@checked("copied figure", "Masonry Construction, stuccoing over masonry: poor bond, poor plane, extra thickness")
def test_lath_where_masonry_cannot_bond():
    figure = BOOK.rule("prep.lath-needed").figure
    assert (figure.id, figure.standing) == ("prep.lath-needed.masonry-construction", "read")
    answer = up(base="painted block", tests=Tried(pull="let go"))
    assert (answer.verdict, answer.chosen.id) == ("lath over", "lath-three-coat")
    assert any(figure.id in n.rules for n in answer.chosen.reasons)
    assert any(figure.id in n.rules for n in option("lath-three-coat", base="brick").reasons)
