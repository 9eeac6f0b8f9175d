"""Cut lists of trade size against a plain CP-SAT assignment model: proved in the box, ratio of times, same answers.

The lists are invented, with a fixed seed. Nine in ten are jobs: jambs, heads, sills and corners as they are measured,
to 1/4, 1/8 or 1/16 in., two or three stock lengths whose prices by the foot differ a little, with and without a blade.
One in ten is cut up from whole bars, three pieces from each with nothing left over, so that its best is known.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from random import Random
from statistics import median
from time import perf_counter

from ortools.sat.python import cp_model

from darby.measure.units import IN
from darby.quantities import CutList, Piece, Stock, cut_list

PER_INCH = 16
BOX = 2.0


@dataclass(frozen=True)
class List:
    """Pieces and bars in sixteenths of an inch, prices in cents; ``best`` in cents where it is known."""

    pieces: tuple[int, ...]
    stock: tuple[tuple[int, int], ...]
    kerf: int
    best: int | None = None


def lists(count: int = 100, seed: int = 1961) -> tuple[List, ...]:
    """``count`` invented lists of 20 to 200 pieces."""
    random = Random(seed)
    return tuple(triples(random) if n % 10 == 9 else job(random) for n in range(count))


def job(random: Random) -> List:
    """Openings, some alike, corners, and odd lengths."""
    feet = random.choice([(8, 10), (10, 12), (8, 10, 12), (8, 12)])
    cents = random.uniform(3.5, 8)
    stock = tuple((12 * f * PER_INCH, round(12 * f * cents * random.uniform(0.95, 1.06))) for f in feet)
    step = random.choice([1, 2, 2, 4])
    count = random.randint(20, 200)

    def near(inches: float, under: float = 1, over: float = 2) -> int:
        return round((inches + random.uniform(-under, over)) * PER_INCH / step) * step

    pieces: list[int] = []
    while len(pieces) < count:
        what = random.random()
        if what < 0.6:
            across, up = near(random.choice([24, 30, 32, 36, 48, 60, 72])), near(random.choice([24, 36, 48, 60, 80]))
            opening = [across, up, up, *([across] if random.random() < 0.7 else [])]
            pieces += opening * random.choice([1, 1, 1, 2, 3])
        elif what < 0.8:
            pieces += [near(random.choice([96, 100, 108, 114]), 6, 0)] * random.choice([1, 2, 4])
        else:
            pieces.append(near(48, 42, 42))
    longest = max(length for length, _ in stock)
    return List(tuple(p for p in pieces[:count] if p <= longest), stock, random.choice([0, 0, 1, 2]))


def triples(random: Random) -> List:
    """Whole bars cut in three: at a price by the foot nothing can be cheaper than those bars."""
    feet = random.choice([(8, 10), (10, 12), (8, 10, 12)])
    cents = random.randint(4, 9)
    stock = tuple((12 * f * PER_INCH, 12 * f * cents) for f in feet)
    pieces: list[int] = []
    best = 0
    for _ in range(random.randint(7, 40)):
        length, price = random.choice(stock)
        best += price
        while True:
            one, other = (random.randint(length // 4, length // 2) for _ in range(2))
            if length // 4 <= length - one - other <= length // 2:
                break
        pieces += [one, other, length - one - other]
    return List(tuple(pieces), stock, 0, best)


def ours(given: List, seconds: float = BOX) -> CutList:
    """darby's cut list."""
    unit = IN / PER_INCH
    pieces = [Piece(str(n), length * unit) for n, length in enumerate(given.pieces)]
    stock = [Stock(length * unit, Decimal(cents) / 100) for length, cents in given.stock]
    return cut_list(pieces, stock, kerf=given.kerf * unit, seconds=seconds)


def peer(given: List, most_cents: int, seconds: float = BOX) -> tuple[int | None, bool]:
    """The plain model: each piece in a bar, each bar of one stock length. Cents, and whether it is proved.

    ``most_cents`` is what first fit costs: no better plan has more bars than that buys of the cheapest.
    """
    model = cp_model.CpModel()
    bars = range(most_cents // min(cents for _, cents in given.stock))
    laid = [[model.new_bool_var("") for _ in bars] for _ in given.pieces]
    cut_from = [[model.new_bool_var("") for _ in given.stock] for _ in bars]
    for row in laid:
        model.add_exactly_one(row)
    for b in bars:
        model.add_at_most_one(cut_from[b])
        room = sum((length + given.kerf) * x for (length, _), x in zip(given.stock, cut_from[b], strict=True))
        model.add(sum((p + given.kerf) * row[b] for p, row in zip(given.pieces, laid, strict=True)) <= room)
    model.minimize(sum(cents * x for row in cut_from for (_, cents), x in zip(given.stock, row, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None, False
    return round(solver.objective_value), status == cp_model.OPTIMAL


def short(count: int = 40, seed: int = 1963) -> tuple[List, ...]:
    """Lists of 8 to 16 pieces of the same kind, which the plain model proves too."""
    random = Random(seed)
    found = []
    for _ in range(count):
        given = job(random)
        found.append(List(given.pieces[: random.randint(8, 16)], given.stock, given.kerf))
    return tuple(found)


@dataclass
class Tally:
    """What one group of lists came to: times [s], and answers that may not be."""

    times: list[float]
    both: list[tuple[float, float]]
    proved: int = 0
    by_peer: int = 0
    unlike: int = 0
    saved: Decimal = Decimal(0)


def held_against(every: tuple[List, ...]) -> Tally:
    """Each list by darby and by the peer, both in the same box."""
    tally = Tally([], [])
    for given in every:
        started = perf_counter()
        mine = ours(given)
        took = perf_counter() - started
        started = perf_counter()
        theirs, sure = peer(given, int(Decimal(mine.first_fit) * 100))
        peer_took = perf_counter() - started
        cents, bound = int(Decimal(mine.cost) * 100), int(Decimal(mine.bound) * 100)
        tally.times.append(took)
        tally.proved += mine.proved_best
        tally.by_peer += sure
        tally.saved += Decimal(mine.saved)
        if sure and mine.proved_best:
            tally.both.append((took, peer_took))
        wrong = [
            given.best is not None and mine.proved_best and cents != given.best,
            theirs is not None and theirs < bound,
            sure and theirs is not None and theirs > cents,
        ]
        tally.unlike += any(wrong)
    return tally


def main() -> None:
    """One run: how many are proved, how long it takes, and how many times as long the peer takes."""
    ours(lists(1)[0])
    peer(short(1)[0], 10_000)
    for name, every in (("trade size", lists()), ("short", short())):
        tally = held_against(every)
        sizes = [len(given.pieces) for given in every]
        print(f"cut lists, {name}: {len(every)} lists of {min(sizes)} to {max(sizes)} pieces, {BOX:g} s each")
        print(
            f"  proved best: {tally.proved} (the plain CP-SAT model: {tally.by_peer}); answers at odds: {tally.unlike}"
        )
        print(f"  median {median(tally.times) * 1000:.0f} ms, slowest {max(tally.times) * 1000:.0f} ms")
        print(f"  saved against longest first: ${tally.saved / len(every):.2f} a list")
        mine, theirs = (sum(pair[k] for pair in tally.both) for k in (0, 1))
        print(
            f"  on the {len(tally.both)} that both prove CP-SAT takes {theirs / mine:.0f} times as long "
            f"(median of the ratios {median(b / a for a, b in tally.both):.0f})"
        )


if __name__ == "__main__":
    main()
