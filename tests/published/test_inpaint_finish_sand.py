"""inPAINT magazine, quoting the Stucco Manufacturers Association: sand is the key to a match."""

from tests.buildup.asking import BOOK, up
from tests.published import checked


@checked("copied figure", "inPAINT, tips for coating exterior stucco: 20/30 fine, 16/20 medium")
def test_the_same_sand_is_called_by_two_names():
    figure = BOOK.rule("finish.sand-names").figure
    assert (figure.id, figure.standing) == ("finish.sand-names.sma", "second-hand")
    assert "20/30 is fine" in figure.written
    assert "16/20 medium" in figure.written
    (note,) = (n for n in up(sand="16/20").notes if n.code == "buildup.sand-by-sieve")
    assert figure.id in note.rules
