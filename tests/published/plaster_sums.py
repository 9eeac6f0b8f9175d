"""What the published plaster sums are worked with: darby's own functions, given each page's figures and no others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from darby.measure.units import unit
from darby.quantities import (
    Allowances,
    BagLabel,
    Coat,
    DryVolume,
    Mortar,
    Opening,
    OrderAsk,
    OrderLine,
    Reveal,
    Volumes,
    VolumesAsk,
    Zone,
    order,
    volumes,
)
from darby.quantities.model import Buy
from darby.rulebook import Book, Source, default
from darby.rulebook.load import figure_of
from darby.working import Quantity

LITRE = Fraction(1, 1000)
CUBIC_FOOT = Fraction(3048, 10000) ** 3
NOTHING = Allowances(Fraction(0), Fraction(0), Fraction(0), Fraction(0), Fraction(0), Fraction(0))


def exact(text: str | int | Fraction) -> Fraction:
    """A printed decimal, exactly."""
    return Fraction(text)


def of(found: DryVolume) -> dict[str, float]:
    """The results of a dry-volume sum by the names the pages use."""
    return {
        "wet m3": float(found.wet),
        "dry m3": float(found.dry),
        "cement m3": float(found.cement),
        "cement kg": float(found.cement_kg),
        "cement bags": float(found.bags),
        "whole bags": float(found.whole_bags),
        "sand m3": float(found.sand),
        "sand ft3": float(found.sand) / float(CUBIC_FOOT),
        **{f"running {n} m3": float(v) for n, v in enumerate(found.running)},
    }


def page_says(**figures: str) -> Book:
    """The rule book with a page's own figures on top, as local rules: ``coating__spread__prime="400 sq ft/gal"``."""
    page = Source("page", "the page's own figure", "the page", "n.d.", "")
    local = [
        figure_of(
            {
                "id": f"page.{name}",
                "subject": name.replace("__", ".").replace("_", "-"),
                "value": value,
                "says": "as the page has it",
                "source": "page",
                "where": "given",
                "standing": "read",
                "why": "so that the sum is worked with the page's own figure",
            },
            {"page": page},
        )
        for name, value in figures.items()
    ]
    book = default()
    return Book(book.figures.values(), {**book.sources, "page": page}, local=local)


def hole(width: str | int, height: str | int, number: int = 1, reveals: Sequence[Reveal] = ()) -> list[Opening]:
    """So many equal openings, metres."""
    return [Opening(f"{width}x{height}-{n}", exact(width) * exact(height), tuple(reveals)) for n in range(number)]


def laid(
    gross: Fraction | float,
    thickness: Fraction | float = Fraction(1, 100),
    openings: Sequence[Opening] = (),
    *,
    allow: Allowances = NOTHING,
    faces: int = 1,
    rule: str | None = None,
    lathed: bool = False,
    paint: int = 0,
    primer: int = 0,
    book: Book | None = None,
) -> Volumes:
    """One wall with one coat."""
    zone = Zone(
        "wall", "frame" if lathed else "block", gross, (Coat("coat", thickness, "mix"),), tuple(openings),
        lathed=lathed, studs=Fraction(4064, 10000) if lathed else None, paint=paint, primer=primer,
    )  # fmt: skip
    return volumes(VolumesAsk("wall", (zone,), faces=faces, opening_rule=rule, allow=allow, book=book or default()))[0]


def bought(
    walls: Volumes | Sequence[Volumes],
    mortar: Mortar | BagLabel | None = None,
    buys: Sequence[Buy] = (),
    *,
    allow: Allowances = NOTHING,
    book: Book | None = None,
) -> Mapping[str, OrderLine]:
    """The order for walls laid with one mortar, by item."""
    every = (walls,) if isinstance(walls, Volumes) else tuple(walls)
    some = mortar or Mortar("mix")
    ask = OrderAsk(every, (some,), buys=tuple(buys), allow=allow, book=book or default())
    return {x.item: x for x in order(ask)[0].lines}


def shown(q: Quantity | None) -> float:
    """A quantity in its own unit."""
    assert q is not None
    return float(q.unit.from_si(float(q)))


def per(value: str | int, name: str) -> Quantity:
    """A printed number in a unit."""
    u = unit(name)
    return Quantity(exact(value) * u.scale, u)
