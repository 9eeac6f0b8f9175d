"""H. Colin Campbell, Practical Concrete Work, 1917: pebbles of half an inch; Better Homes, 1920s: of one size."""

from tests.buildup.asking import chosen, printed, up
from tests.published import checked


@checked("copied figure", "Campbell 1917, surface finish of concrete, part 6: about 1/2 in.")
def test_the_greatest_pebble():
    assert printed("finish.stone.campbell") == (0.5,)


@checked("copied figure", "Better Homes, stucco finishes, A to F: dry-dash stone of one size")
def test_pebbles_are_of_one_size_and_say_so():
    (note,) = (n for n in up(finish="pebble").notes if n.code == "buildup.stone.pebble")
    assert note.rules == ("finish.stone.campbell", "finish.stone-even.better-homes")
    assert chosen(finish="pebble").coats[-1].notes == ("throw-pebbles",)
