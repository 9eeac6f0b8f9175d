"""Lengths as whole numbers: the least common unit of all that was given, so that nothing is ever rounded.

A bar of n pieces takes n - 1 cuts between them, and one more where something is left over; if less than a kerf is
left over the last cut takes just that. So n pieces go into a bar where their lengths and n - 1 kerfs do: where the
sum of (length + kerf) is at most bar + kerf. That turns the blade into a plain packing of whole numbers.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import reduce
from math import gcd, lcm
from typing import Literal

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.faults import Fault, Unreadable
from darby.measure.surface import Length
from darby.measure.writing import write
from darby.quantities.cutting.model import Aim, Cut, Offcut, Piece, Splice, Stock

_BYTE = 2 * 2 * 2
FINE = 2 ** (2 * _BYTE + 2)
"""Units in a bar beyond which sums of lengths are no longer written out: a bar of 10 ft in hundredths of a mm."""

_ROUND = 2 ** (_BYTE + 2 * 2)
"""Units to a bar that lengths are rounded to where they are finer than that."""


@dataclass(frozen=True, slots=True)
class Kind:
    """Bars of one kind: room in whole units, cost in whole units of money, how many there are (None = any number).

    ``room`` is the largest sum of pieces that the bar can hold, which may be less than its length.
    """

    room: int
    cost: int
    most: int | None
    length: Length
    price: Decimal | None = None
    offcut: str | None = None
    held: Cut | None = None


@dataclass(frozen=True, slots=True)
class Packing:
    """Pieces of ``sizes`` (longest first, ``counts`` of each) into bars of ``kinds``: bought ones first, then offcuts.

    ``money`` is one unit of cost in dollars (or metres), ``unit`` one unit of size in metres.
    """

    sizes: tuple[int, ...]
    counts: tuple[int, ...]
    lengths: tuple[Length, ...]
    kinds: tuple[Kind, ...]
    bought: int
    money: Fraction
    unit: Fraction
    coarse: bool = False

    @property
    def free(self) -> tuple[int, ...]:
        """How many of each kind lie on the truck; nought of those that are bought."""
        return tuple(kind.most or 0 for kind in self.kinds)

    def cost(self, buy: Sequence[int]) -> int:
        """What so many bars of each kind cost."""
        return sum(n * kind.cost for n, kind in zip(buy, self.kinds, strict=True))


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked, checked and made exact: single cuts by length, what lies on the truck, what is bought."""

    cuts: dict[Length, list[Cut]]
    stock: tuple[Stock, ...]
    offcuts: tuple[Offcut, ...]
    held: tuple[tuple[Offcut, Cut], ...]
    kerf: Length
    aim: Aim


def exact(value: Fraction | float) -> Fraction:
    """A length as it was meant: a float by the shortest decimal that it prints as."""
    return fraction_of(repr(value)) if isinstance(value, float) else Fraction(value)


def checked(
    pieces: Iterable[Piece],
    stock: Iterable[Stock],
    kerf: Length,
    offcuts: Iterable[Offcut],
    splice: Splice | None,
    at: str,
) -> Asked:
    """What was asked with every length exact, long pieces spliced or laid on an offcut that holds them.

    Raises
    ------
    Unreadable
        ``cutting.empty``, ``cutting.no-stock``, ``cutting.length``, ``cutting.count``, ``cutting.kerf``,
        ``cutting.price``, ``cutting.price-missing``, ``cutting.too-long``, ``cutting.splice``.
    """
    wanted, bars, on_truck = list(pieces), list(stock), list(offcuts)
    _refuse(wanted, bars, on_truck, kerf, at)
    aim: Aim = "money" if bars[0].price is not None else "length"
    cuts: dict[Length, list[Cut]] = {}
    held: list[tuple[Offcut, Cut]] = []
    longest = max(bar.length for bar in bars)
    of: Counter[str] = Counter()
    for piece in wanted:
        of[piece.id] += piece.count
    before: Counter[str] = Counter()
    for piece in sorted(wanted, key=lambda p: (-p.length, p.id)):
        for _ in range(piece.count):
            before[piece.id] += 1
            n = before[piece.id]
            one = Cut(piece.id, piece.length, n, of[piece.id])
            if piece.length <= longest:
                cuts.setdefault(piece.length, []).append(one)
                continue
            there = _holds(on_truck, piece.length)
            if there is not None:
                held.append((there, one))
                continue
            parts = _spliced(piece, bars, splice, aim, at)
            for k, part in enumerate(parts, start=1):
                cut = Cut(piece.id, part, n, of[piece.id], k, len(parts))
                cuts.setdefault(part, []).append(cut)
    return Asked(cuts, tuple(bars), tuple(on_truck), tuple(held), kerf, aim)


def _refuse(wanted: list[Piece], bars: list[Stock], on_truck: list[Offcut], kerf: Length, at: str) -> None:
    if not wanted:
        raise Unreadable(Fault("cutting.empty", at, "0", "1"))
    if not bars:
        raise Unreadable(Fault("cutting.no-stock", at, "0", "1"))
    if kerf < 0:
        raise Unreadable(Fault("cutting.kerf", at, write(kerf), "0"))
    things: tuple[Piece | Stock | Offcut, ...] = (*wanted, *bars, *on_truck)
    for thing in things:
        place = getattr(thing, "id", "") or at
        if thing.length <= 0:
            raise Unreadable(Fault("cutting.length", place, write(thing.length), "> 0"))
        count = getattr(thing, "count", 1)
        if count != int(count) or count < 1:
            raise Unreadable(Fault("cutting.count", place, str(count), "1, 2 ..."))
    prices = [bar.price for bar in bars]
    if any(price is None for price in prices) and any(price is not None for price in prices):
        lacking = next(bar.length for bar in bars if bar.price is None)
        raise Unreadable(Fault("cutting.price-missing", at, write(lacking), "$"))
    for price in prices:
        if price is not None and not (price.is_finite() and price > 0):
            raise Unreadable(Fault("cutting.price", at, str(price), "> 0"))


def _holds(on_truck: list[Offcut], length: Length) -> Offcut | None:
    """The shortest offcut that holds a piece longer than any bar, taken off the truck."""
    fits = [o for o in on_truck if o.length >= length]
    if not fits:
        return None
    best = min(fits, key=lambda o: (o.length, o.id))
    at = on_truck.index(best)
    on_truck[at : at + 1] = [Offcut(best.length, best.count - 1, best.id)] if best.count > 1 else []
    return Offcut(best.length, 1, best.id)


def _spliced(piece: Piece, bars: Sequence[Stock], splice: Splice | None, aim: Aim, at: str) -> list[Length]:
    """The parts of a piece longer than any bar: whole bars of the cheapest by the foot, then the rest.

    A rest shorter than the least is made up to it from the last whole bar.
    """
    longest = max(bar.length for bar in bars)
    if splice is None or splice.least is None:
        raise Unreadable(Fault("cutting.too-long", piece.id or at, write(piece.length), write(longest)))
    least = splice.least
    for bar in sorted(bars, key=lambda b: (_rate(b, aim), -b.length)):
        whole, rest = divmod(piece.length, bar.length)
        parts = [bar.length] * int(whole)
        if rest and rest < least and parts:
            parts[-1] -= least - rest
            rest = least
        parts += [rest] if rest else []
        if min(parts) >= least:
            return parts
    raise Unreadable(Fault("cutting.splice", piece.id or at, write(piece.length), write(least)))


def _rate(bar: Stock, aim: Aim) -> Fraction:
    return Fraction(bar.price) / bar.length if aim == "money" and bar.price is not None else Fraction(1)


def packing(asked: Asked, rounded: Literal["up", "down"] | None = None) -> Packing | None:
    """What was asked as whole numbers; None where everything is laid on offcuts already.

    Where units are too fine (``coarse``) pieces can be ``rounded``: what goes in with pieces rounded up goes in; what
    does not go in with pieces rounded down does not.
    """
    lengths = sorted(asked.cuts, reverse=True)
    if not lengths:
        return None
    kerf = asked.kerf
    sides = [*lengths, kerf, *(s.length for s in asked.stock), *(o.length for o in asked.offcuts)]
    sides += [o.length for o, _ in asked.held] + [cut.length for _, cut in asked.held]
    units = reduce(lcm, (side.denominator for side in sides), 1)
    sizes = [int((length + kerf) * units) for length in lengths]
    step = reduce(gcd, sizes)
    sizes = [size // step for size in sizes]
    counts = [len(asked.cuts[length]) for length in lengths]
    kinds = [*_bought(asked), *_on_truck(asked)]
    rooms = [int((kind.length + kerf) * units) // step for kind in kinds]
    rooms = [
        int((kind.length - kind.held.length) * units) // step if kind.held is not None else room
        for kind, room in zip(kinds, rooms, strict=True)
    ]
    grain = 1 if rounded is None else -(-max(rooms) // _ROUND)
    rooms = [room // grain for room in rooms]
    if rounded == "up":  # a piece that takes the whole of the longest bar stays alone in it
        sizes = [min(-(-size // grain), max(rooms[: len(asked.stock)])) for size in sizes]
    else:
        sizes = [size // grain for size in sizes]
    coarse = max(rooms) > FINE
    if not coarse:
        rooms = _reached(sizes, counts, rooms)
    scale = reduce(lcm, (_price(kind, asked.aim).denominator for kind in kinds), 1)
    costs = [int(_price(kind, asked.aim) * scale) for kind in kinds]
    per = reduce(gcd, costs) or 1
    made = [
        Kind(room, cost // per, kind.most, kind.length, kind.price, kind.offcut, kind.held)
        for room, cost, kind in zip(rooms, costs, kinds, strict=True)
    ]
    kept = _undominated(made)
    return Packing(
        tuple(sizes),
        tuple(counts),
        tuple(lengths),
        tuple(kept),
        sum(kind.most is None for kind in kept),
        Fraction(per, scale),
        Fraction(step * grain, units),
        coarse,
    )


def _bought(asked: Asked) -> list[Kind]:
    return [Kind(0, 0, None, s.length, s.price) for s in asked.stock]


def _on_truck(asked: Asked) -> list[Kind]:
    """Offcuts of one length and name are one kind; one that holds a long piece already is a kind of its own."""
    alike: Counter[tuple[Length, str]] = Counter()
    for o in asked.offcuts:
        alike[o.length, o.id] += o.count
    plain = [Kind(0, 0, n, length, None, name) for (length, name), n in sorted(alike.items())]
    return plain + [Kind(0, 0, 1, o.length, None, o.id, cut) for o, cut in asked.held]


def _price(kind: Kind, aim: Aim) -> Fraction:
    if kind.offcut is not None:
        return Fraction(0)
    return Fraction(kind.price) if aim == "money" and kind.price is not None else kind.length


def _reached(sizes: Sequence[int], counts: Sequence[int], rooms: Sequence[int]) -> list[int]:
    """The largest sum of pieces within each room: what a bar can hold of these pieces at the very best."""
    top = max(rooms)
    mask = (1 << (top + 1)) - 1
    sums = 1
    for size, count in zip(sizes, counts, strict=True):
        for _ in range(min(count, top // size)):
            sums |= (sums << size) & mask
    return [(sums & ((1 << (room + 1)) - 1)).bit_length() - 1 for room in rooms]


def _undominated(kinds: Sequence[Kind]) -> list[Kind]:
    """Without bars that hold no more than a cheaper one (the shorter where alike), and offcuts that hold nothing."""
    kept: list[Kind] = []
    bought = sorted((k for k in kinds if k.most is None), key=lambda k: (-k.room, k.cost, k.length))
    for kind in bought:
        if kind.room > 0 and (not kept or kind.cost < kept[-1].cost):
            kept.append(kind)
    return kept + [k for k in kinds if k.most is not None and k.room > 0]
