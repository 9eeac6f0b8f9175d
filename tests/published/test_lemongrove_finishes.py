"""A Californian stucco contractor's list of finishes against their sand."""

from tests.buildup.asking import printed, said, up
from tests.published import checked

LIST = "lemongrovestucco.com, finish descriptions"


@checked("our arithmetic", f"{LIST}: No. 30 silica only; that sieve is 0.6 mm")
def test_the_smoothest_float_is_of_number_thirty():
    assert printed("finish.sand.thirty.lemongrove") == (0.6,)
    assert up(sand="30").chosen.coats[-1].sand == "finish-30"


@checked("copied figure", f"{LIST}: 20/30, fine float, skip trowel")
def test_a_skip_trowel_finish_is_of_twenty_thirty():
    answer = up(finish="skip trowel")
    assert answer.chosen.coats[-1].sand == "finish-20-30"
    assert said(answer.notes, "sand-by-sieve")["sieves"] == "20/30"
    (note,) = (n for n in answer.notes if n.code == "buildup.sand-by-sieve")
    assert "finish.skip-trowel.lemongrove" in note.rules
    assert up(finish="skip trowel", sand="16/20").chosen.coats[-1].sand == "finish-16-20"  # he knows better
