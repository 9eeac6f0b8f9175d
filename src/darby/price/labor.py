"""What an hour costs: wage and burden, by person and by crew."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.units import unit
from darby.price.columns import column
from darby.price.model import Crew, Share
from darby.working import Amount, Quantity, Working

PER_HOUR = unit("$/h")
PERCENT = unit("%")


@dataclass(frozen=True, slots=True)
class Hour:
    """Cost of an hour [$/h]: of the whole crew, of one person on average, of one person of each role."""

    crew: Amount
    person: Amount
    by_role: tuple[tuple[str, Amount], ...]

    def of(self, role: str) -> Amount:
        """An hour of one person of ``role``; on average where no role is named.

        Raises
        ------
        Unreadable
            if nobody of the crew has the role.
        """
        if not role:
            return self.person
        for name, amount in self.by_role:
            if name == role:
                return amount
        raise Unreadable(Fault("price.no-role", "", role, ", ".join(name for name, _ in self.by_role)))


def burden_of(shares: Iterable[Share], working: Working, key: str = "job/burden") -> Quantity:
    """The burden on a wage: its parts added up (not one on top of another).

    Raises
    ------
    Unreadable
        if a part is not of the wage.
    """
    parts = tuple(shares)
    for share in parts:
        if share.of != "wage":
            raise Unreadable(Fault("price.burden-of", share.name, share.of, "wage"))
    if not parts:
        return Quantity(Fraction(0), PERCENT)
    given: dict[str, Any] = {f"part_{n}": Quantity(share.part, PERCENT) for n, share in enumerate(parts, 1)}
    return working.step(key, " + ".join(given), PERCENT, "price.burden", **given)


def hour_of(crew: tuple[Crew, ...], burden: Iterable[Share], working: Working) -> Hour:
    """Built up from the wage: wage x (1 + burden) for each person, then the crew's hour.

    Raises
    ------
    Unreadable
        if there is no crew.
    """
    people = sum(c.people for c in crew)
    if people < 1:
        raise Unreadable(Fault("price.no-crew", "", str(people), "1"))
    on_wage = burden_of(burden, working)
    roles: list[tuple[str, Amount]] = []
    rows: list[Amount] = []
    for n, c in enumerate(crew, 1):
        key = f"job/{c.role.replace(' ', '-')}-{n}"
        wage = Quantity(PER_HOUR.to_si(Fraction(c.wage)), PER_HOUR)
        one = working.money(f"{key}/hour", "wage * (1 + burden)", "price.person-hour", unit=PER_HOUR,
                            wage=wage, burden=on_wage)  # fmt: skip
        roles.append((c.role, one))
        rows.append(working.money(f"{key}/hours", "people * hour", "price.role-hour", unit=PER_HOUR,
                                  people=Quantity(c.people, unit("people")), hour=one))  # fmt: skip
    whole = column("job/crew-hour", rows, "price.crew-hour", working, PER_HOUR)
    person = working.money("job/person-hour", "crew / people", "price.average-hour", unit=PER_HOUR,
                           crew=whole, people=Quantity(people, unit("people")))  # fmt: skip
    return Hour(whole, person, tuple(roles))
