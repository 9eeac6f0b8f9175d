"""Two plain extensions: hours a foot at a crew's rate, and a price a square yard over a house."""

from decimal import Decimal
from fractions import Fraction

from darby.measure.units import unit
from darby.price import price
from darby.price.model import Crew, Place, PriceAsk, Span, Usual, Work
from darby.rulebook import default
from darby.working import Quantity
from tests.published import checked


@checked("worked elsewhere", "markupandprofit.com: Unit cost estimating, wall assembly example")
def test_crew_hours_a_foot_at_the_crew_s_rate():
    work = Work("wall", "a foot of it", Quantity(Fraction("0.375") * 3600, unit("h")))
    answer, _ = price(PriceAsk(book=default(), crew=(Crew("crew", 1, Decimal(62)),), work=(work,)))
    assert answer.loaded.labor.value == Decimal("23.25")


@checked("worked elsewhere", "S. B. Reed: Modern House Plans for Everybody, estimate of a village house, plastering")
def test_841_square_yards_at_28_cents():
    """Reed takes openings off whole and calls the half-opening custom unjust."""
    yard = unit("sq yd").scale
    a_yard = Quantity(Fraction("0.28") / yard, unit("$/sq ft"))
    ask = PriceAsk(
        book=default(),
        crew=(Crew("plasterer", 1, Decimal(1)),),
        places=(Place("house", Quantity(841 * yard, unit("sq yd"))),),
        usual=Usual(price=Span(a_yard, a_yard)),
    )
    answer, _ = price(ask)
    assert answer.usual_low.value == answer.usual_high.value == Decimal("235.48")
