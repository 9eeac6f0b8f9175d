"""A small invented job to price: one block wall, two coats."""

from decimal import Decimal
from fractions import Fraction

from darby.measure.units import unit
from darby.price.model import (
    Also,
    Crew,
    Hire,
    Item,
    Place,
    PriceAsk,
    Profit,
    Share,
    TripTerms,
    TripTime,
    Work,
)
from darby.rulebook import default
from darby.working import Quantity

H, DAY = 3600, 86_400
HOURS, SQFT, BAGS, TRIPS = unit("h"), unit("sq ft"), unit("bags"), unit("trips")

CREW = (Crew("plasterer", 3, Decimal("34.00")), Crew("tender", 2, Decimal("24.00")))
BURDEN = (Share("burden", Fraction(42, 100), "wage"),)
OVERHEAD = (Share("overhead", Fraction(22, 100), "cost"),)
MARKUP = Profit("markup", Fraction(12, 100), "cost and overhead")


def hours(x):
    return Quantity(Fraction(str(x)) * H, HOURS)


def sq_ft(x):
    return Quantity(SQFT.to_si(Fraction(str(x))), SQFT)


def trips(*worked):
    return tuple(TripTime(hours(w)) for w in worked)


def ask_of(**more):
    base = {
        "book": default(),
        "crew": CREW,
        "burden": BURDEN,
        "work": (Work("a", "base", hours(4)), Work("a", "finish", hours("3.2")), Work("b", "base", hours("1.1"))),
        "places": (Place("a", sq_ft(380)), Place("b", sq_ft("104.5"))),
        "order": (
            Item("portland", Quantity(11, BAGS), Decimal("16.80")),
            Item("sand", Quantity(Fraction(5, 2)), Decimal("46.00")),
        ),
        "also": (Also("protect", "shrubs", hours=3 * H), Also("dispose", cost=Decimal("180.00"))),
        "terms": TripTerms(Decimal("85.00"), Fraction(3 * H, 2), 4 * H, 8 * H),
        "trips": trips("6.5", "1.8"),
        "alone": Quantity(2, TRIPS),
        "hires": (Hire("scaffold", Quantity(5 * DAY, unit("day")), Decimal("95.00"), 8 * H),),
        "overheads": OVERHEAD,
        "profit": MARKUP,
        "least_charge": Decimal("1450.00"),
    }
    return PriceAsk(**{**base, **more})
