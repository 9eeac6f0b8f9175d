"""A public bid specification: fiber to a sack of cement."""

from tests.published import checked
from tests.published.asking import number


@checked("copied figure", "Public bid specification, portland cement plaster, section 2.02")
def test_fiber_to_a_sack():
    assert [float(n) for n in number("ask.fiber.bid")] == [1.5]
