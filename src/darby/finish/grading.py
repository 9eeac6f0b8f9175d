"""The grains of the old face: shares between sieves, the largest that counts, the most common, the median."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from darby.finish.model import Grade, MatchAsk, Sand, Sieve
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.working.model import Given, Quantity, Working

PERCENT, MM, COUNT = unit("%"), unit("mm"), unit("")
NOTHING = Quantity(0, PERCENT)


def graded(ask: MatchAsk, working: Working) -> Sand:
    """The old face's sand.

    Raises
    ------
    Unreadable
        "finish.no-grains" if nothing was caught or compared.
    """
    key = f"{ask.at}/match/sand"
    grades = {"retained": _retained, "passing": _passing, "grains": _compared}[ask.by](ask, key, working)
    if not grades:
        raise Unreadable(Fault("finish.no-grains", ask.at, "0", "1 …"))
    least = ask.book.number("match.largest")
    counted = [g for g in grades if at_most(least.number, g.share.value)]
    common = max(grades, key=lambda g: float(g.share.value))
    return Sand(ask.by, grades, (counted or [common])[0], common, _median(grades, key, working), least)


def _retained(ask: MatchAsk, key: str, working: Working) -> tuple[Grade, ...]:
    """Shares of all that was sieved. Percentages leave the rest to the pan; amounts are taken whole."""
    rows = ask.sand
    if all(not row.amount.value for row in rows):
        return ()
    given = {f"on_{n}": row.amount for n, row in enumerate(rows, 1)}
    shares = rows[0].amount.unit is PERCENT
    if shares:
        parts = [row.amount for row in rows]
        if rows[-1].sieve is not None:
            parts.append(working.step(f"{key}/pan", f"1 - ({' + '.join(given)})", PERCENT, "finish.pan", rules=(),
                                      **given))  # fmt: skip
    else:
        each = rows[0].amount.unit
        total = working.step(f"{key}/total", " + ".join(given), each, "finish.total", rules=(), **given)
        parts = [
            working.step(f"{key}/share-{n}", "kept / total", PERCENT, "finish.share", kept=row.amount, total=total)
            for n, row in enumerate(rows, 1)
        ]
        if rows[-1].sieve is not None:
            working.note("finish.no-pan", "assumed", ask.at, sieve=rows[-1].sieve.name)
    return _between([row.sieve for row in rows if row.sieve is not None], parts)


def _passing(ask: MatchAsk, key: str, working: Working) -> tuple[Grade, ...]:
    before = Quantity(1, PERCENT)
    parts = []
    for n, row in enumerate(ask.sand, 1):
        parts.append(working.step(f"{key}/share-{n}", "before - through", PERCENT, "finish.share", before=before,
                                  through=row.amount))  # fmt: skip
        before = row.amount
    return _between([row.sieve for row in ask.sand if row.sieve is not None], [*parts, before])


def _between(used: list[Sieve], parts: list[Quantity]) -> tuple[Grade, ...]:
    """Grades between sieves; past the sieves only if there is something."""
    edges: list[Sieve | None] = [None, *used, None]
    pairs = zip(edges[1:], edges, strict=False)
    grades = (Grade(fine, coarse, part) for (fine, coarse), part in zip(pairs, parts, strict=False))
    return tuple(g for g in grades if float(g.share) > 0 or (g.fine is not None and g.coarse is not None))


def _compared(ask: MatchAsk, key: str, working: Working) -> tuple[Grade, ...]:
    counts = Counter(ask.grains)
    total = Quantity(len(ask.grains), COUNT)
    ranked = sorted(counts.items(), key=lambda pair: (-float(pair[0][1].opening), -float(pair[0][0].opening)))
    return tuple(
        Grade(fine, coarse, working.step(f"{key}/share-{n}", "grains / compared", PERCENT, "finish.share",
                                         grains=Quantity(count, COUNT), compared=total))
        for n, ((fine, coarse), count) in enumerate(ranked, 1)
    )  # fmt: skip


def _median(grades: tuple[Grade, ...], key: str, working: Working) -> Quantity | None:
    """Half is finer: along a straight line between the two sieves. None where it falls past the sieves.

    Sticks may overlap; of grains that were compared there is no line to read it from.
    """
    if any(a.fine != b.coarse for a, b in pairwise(grades)):
        return None
    for n, grade in enumerate(grades):
        under = grades[n + 1 :]
        below = sum(float(g.share) for g in under)
        if below + float(grade.share) < 1 / 2 or below > 1 / 2:
            continue
        if grade.fine is None or grade.coarse is None:
            return None
        names: dict[str, Given] = {f"finer_{k}": g.share for k, g in enumerate(under, 1)}
        passed = working.step(f"{key}/finer", " + ".join(names), PERCENT, "finish.finer", rules=(), **names) if names \
            else NOTHING  # fmt: skip
        return working.step(
            f"{key}/median", "fine + (coarse - fine) * (1 / 2 - finer) / share", MM, "finish.median",
            fine=Quantity(grade.fine.opening, MM), coarse=Quantity(grade.coarse.opening, MM), finer=passed,
            share=grade.share,
        )  # fmt: skip
    return None
