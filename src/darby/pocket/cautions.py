"""What can hurt people, as ``answers`` says it of walls of every height, with old work beside them and without."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from quicktions import Fraction

from darby.job import Job
from darby.measure.units import IN
from darby.pocket.asking import Asker
from darby.pocket.builds import Host
from darby.pocket.packing import Pool, said

A_HAIR = IN / 16
"""How much higher a wall is built to see whether a limit is passed."""

PLATFORM = "platform"
"""The value of a note that goes by the wall's height: the page puts it in."""


LOW = "4'"
"""Nobody stands on anything to plaster a wall as low as this."""


def cautions(ask: Asker, hosts: Sequence[Host]) -> dict[str, Any]:
    """Notes of low walls by what they are, of walls of each height at which they change, of walls that meet old work.

    Heights are those at which the firm changes its access, and those at which a rule of the book begins to bind: the
    notes at it, and past it. ``ground`` [m] is in reach without any.
    """
    book, notes = ask.ruled, Pool()
    rows = [row.up_to for row in ask.firm.access]
    ground = min(rows, default=Fraction(book.number("access.ground-reach").number))
    limits = [Fraction(book.number(f"safety.fall.{where}").number) for where in ("scaffold", "edge")]
    heights = sorted({ground, *rows, *(ground + limit for limit in limits)})

    def of(job: Job) -> list[int]:
        noted = ask.answers(job, "cautions").of("cautions").notes
        return [notes.put(_without_platform(said(note))) for note in noted]

    first = hosts[0]
    low = [host.entries(f"w{n}", height=LOW) for n, host in enumerate(hosts)]
    at = [first.entries(f"at{n}", height=_inches(h)) for n, h in enumerate(heights)]
    past = [first.entries(f"past{n}", height=_inches(h + A_HAIR)) for n, h in enumerate(heights)]
    old = first.entries("old", height=LOW, left={"kind": "meets old work", "proud": "1 in"})
    of_low, of_at, of_past = ([of(job) for job in ask.jobs(walls)] for walls in (low, at, past))
    return {
        "of": of_low,
        "ground": float(ground),
        "heights": [[float(h), *both] for h, *both in zip(heights, of_at, of_past, strict=True)],
        "old": of(ask.job([old])),
        "notes": notes.things,
    }


def _inches(height: Fraction) -> str:
    inches = height / IN
    return f"{inches.numerator}/{inches.denominator} in"


def _without_platform(note: list[Any]) -> list[Any]:
    code, grade, values = note
    return [code, grade, {name: PLATFORM if name == PLATFORM else value for name, value in values.items()}]
