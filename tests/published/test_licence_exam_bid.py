"""Contractor licence examination, estimating flashcards, card 1: two overheads on different bases, then profit."""

from decimal import Decimal
from fractions import Fraction

from darby.price import loaded
from darby.price.loading import Cost, left_at
from darby.price.model import Profit, Share
from darby.working import Amount, Working
from tests.published import checked

SOURCE = "Brainscape: Estimating flashcards, card 1"
COST = Cost(Amount(Decimal(3000)), Amount(Decimal(6000)), Amount(Decimal(1000)))
OVERHEADS = (
    Share("project overhead", Fraction(1, 5), "labor"),
    Share("overhead", Fraction(1, 10), "labor and material"),
)


@checked("worked elsewhere", f"{SOURCE}: the bid")
def test_the_bid():
    answer = loaded("bid", COST, OVERHEADS, Profit("markup", Fraction(1, 10), "cost and overhead"), Working())
    assert [row.amount.value for row in answer.loadings] == [600, 900]
    assert (answer.profit.value, answer.built.value) == (1150, 12_650)


@checked("worked elsewhere", f"{SOURCE}: what an offer of 12000 leaves")
def test_what_an_offer_leaves():
    assert left_at(Amount(Decimal(12_000)), COST, OVERHEADS, Working()).value == 500
