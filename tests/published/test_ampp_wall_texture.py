"""AMPP 2022, concrete surface profile: how the texture of an upright face is measured."""

from tests.finish.asking import BOOK, matched
from tests.published import checked


@checked("copied figure", "AMPP 2022, abstract: a putty replica, or a depth micrometer on the face")
def test_a_wall_takes_no_sand_patch():
    figure = BOOK.rule("match.no-patch").figure
    assert (figure.id, figure.standing) == ("match.no-patch.ampp", "read")
    (note,) = (n for n in matched(mils=(40, 50), read_by="putty").notes if n.code == "finish.read-by-putty")
    assert note.rules == (figure.id,)
