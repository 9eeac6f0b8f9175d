"""How the old face may have been made, and the sample boards that settle it."""

from __future__ import annotations

from darby.finish.model import THROWN, Board, Candidate, MatchAsk, Method, Sand, Sieve, Step, Varies
from darby.finish.relief import within_grain
from darby.finish.sieves import coarser, finer
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.working.model import Quantity, Working

INCH, MM = unit("in"), unit("mm")
LOW: tuple[Method, ...] = ("float", "scraped", "skip trowel")
HIGH: tuple[Method, ...] = ("dash", "skip trowel", "lace")
STONE: tuple[Method, ...] = ("wet dash", "pebble")
STEPS: tuple[Step, ...] = ("finer", "as read", "coarser")


def candidates(ask: MatchAsk, sand: Sand, before: Quantity | None, working: Working) -> tuple[Candidate, ...]:
    """What the old face may be, likeliest first: what he sees, then what grain and relief allow."""
    names, because = _by_grain(ask, sand, before, working)
    found = [(name, because) for name in names if name != ask.looks]
    if ask.looks is not None:
        found.insert(0, (ask.looks, "finish.because.looks"))
    return tuple(Candidate(m, why, f"finish.tell.{_slug(m)}") for m, why in found[: len(LOW)])


def _by_grain(ask: MatchAsk, sand: Sand, before: Quantity | None, working: Working) -> tuple[tuple[Method, ...], str]:
    grain = sand.largest.coarse or sand.largest.fine
    stone = ask.book.number("match.stone")
    if sand.largest.fine is not None and at_most(stone.number, sand.largest.fine.opening):
        working.note("finish.stone", "fact", ask.at, rules=(stone.id,), stone=stone, fine=named(sand.largest.fine))
        return STONE, "finish.because.stone"
    if before is None or grain is None:
        return tuple(dict.fromkeys((*LOW[:1], *HIGH[:1], *LOW))), "finish.because.not-read"
    low, figure = within_grain(ask, before, grain.opening)
    code = "within" if low else "past"
    working.note(f"finish.relief-{code}", "fact", ask.at, rules=(figure.id,), relief=before, grain=named(grain),
                 share=figure)  # fmt: skip
    return (LOW, "finish.because.within") if low else (HIGH, "finish.because.past")


def boards_of(
    ask: MatchAsk, sand: Sand, method: Method, most: Quantity | None, working: Working
) -> tuple[tuple[Board, ...], Varies]:
    """The three boards that bracket the old face, or his own.

    One thing changes from board to board: the sand; or the throw, where a thrown face's bare sand went over sieves.
    """
    if ask.boards:
        own = [
            _board(ask, n, None, b.fine, b.coarse, b.method or method, most, working, own=b.how, thickness=b.thickness)
            for n, b in enumerate(ask.boards, 1)
        ]
        return tuple(own), "own"
    fine, coarse = _closed(ask, sand)
    throw = method in THROWN and ask.by != "grains" and not ask.painted and sand.largest.coarse is not None
    sands: list[tuple[Step, Sieve | None, Sieve | None]] = [(step, fine, coarse) for step in STEPS]
    if not throw:
        under = finer(ask.book, fine.opening) if fine is not None else None
        over = coarser(ask.book, coarse.opening) if coarse is not None else None
        sands[0], sands[-1] = (STEPS[0], under, fine), (STEPS[-1], coarse, over)
    made = [
        _board(ask, n, step, low, high, method, most, working, throw=throw)
        for n, (step, low, high) in enumerate(((s, a, b) for s, a, b in sands if a is not None and b is not None), 1)
    ]
    if len(made) < len(STEPS):
        working.note("finish.ladder-short", "caution", ask.at)
    return tuple(made), "throw" if throw else "sand"


def _closed(ask: MatchAsk, sand: Sand) -> tuple[Sieve | None, Sieve | None]:
    """The largest grade between two sieves: past his own, the book's next ones stand in."""
    fine, coarse = sand.largest.fine, sand.largest.coarse
    if coarse is None and fine is not None:
        return fine, coarser(ask.book, fine.opening)
    if fine is None and coarse is not None:
        fine = finer(ask.book, coarse.opening)
    return fine, coarse


def _board(
    ask: MatchAsk, number: int, step: Step | None, fine: Sieve, coarse: Sieve, method: Method, most: Quantity | None,
    working: Working, *, own: str = "", thickness: object = None, throw: bool = False,
) -> Board:  # fmt: skip
    """A board, as thick as the coat that goes on, and no thinner than its largest grain or its own relief."""
    if thickness is not None:
        thick = Quantity(thickness, INCH)  # type: ignore[arg-type]  # a length, as the ask has it
    else:
        key = f"{ask.at}/match/board-{number}/thickness"
        coat, grain = Quantity(ask.coat, INCH), Quantity(coarse.opening, INCH)
        if most is not None:
            thick = working.step(key, "max(coat, grain, relief)", INCH, "finish.thickness", coat=coat, grain=grain,
                                 relief=most)  # fmt: skip
        else:
            thick = working.step(key, "max(coat, grain)", INCH, "finish.thickness", coat=coat, grain=grain)
    way = step if throw and step is not None else "as read"
    return Board(
        number, step, fine, coarse, method, f"finish.how.{_slug(method)}.{_slug(way)}", own, thick,
        signed=ask.signed is not None and ask.signed.board == number,
    )  # fmt: skip


def order_of(ask: MatchAsk, boards: tuple[Board, ...]) -> tuple[int, ...]:
    """As read first. Paint hides the edges of grains: then the coarser before the finer; else the finer first."""
    ranks: dict[Step | None, int] = {"as read": 0, "coarser": 1 if ask.painted else 2, "finer": 2 if ask.painted else 1}
    return tuple(b.number for b in sorted(boards, key=lambda b: (ranks.get(b.step, 0), b.number)))


def named(sieve: Sieve) -> str:
    """A sieve by its name and its opening: "No. 16 (1.18 mm)"."""
    size = f"{float(MM.from_si(sieve.opening)):g} mm"
    return size if sieve.name == size else f"{sieve.name} ({size})"


def method_word(method: str) -> str:
    """The code of a finish's name."""
    return f"finish-{_slug(method)}"


def _slug(name: str) -> str:
    return name.replace(" ", "-")
