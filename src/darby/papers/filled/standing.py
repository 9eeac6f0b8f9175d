"""How sure a number is: by the figures that it stands on, through every step behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.papers.model import Both
from darby.working import Amount, Quantity

if TYPE_CHECKING:
    from darby.papers.filled.writer import Writer

SOFT = ("memory", "common practice", "trial")
"""Standings that are printed where a figure decides, the weakest first."""


def leaning(writer: Writer, *numbers: Quantity | Amount | None) -> str:
    """The weakest of ``SOFT`` among the figures behind the numbers; "" if all of them are published."""
    book, steps = writer.answers.book, writer.steps
    local = {f.id: f for f in book.local}
    found: set[str] = set()
    todo, seen = [n.key for n in numbers if n is not None], set[str]()
    while todo:
        step = steps.get(key := todo.pop())
        if step is None or key in seen:
            continue
        seen.add(key)
        todo += step.after
        for rule in step.rules:
            figure = local.get(rule) or book.figures.get(rule)
            if figure is not None:
                found.add(figure.standing)
    return next((s for s in SOFT if s in found), "")


def standing(writer: Writer, *numbers: Quantity | Amount | None) -> str:
    """The same in words, in the language of customer and supplier; "" if there is nothing to say."""
    weakest = leaning(writer, *numbers)
    return writer.say(f"standing.{weakest}") if weakest else ""


def both_standing(writer: Writer, *numbers: Quantity | Amount | None) -> Both:
    """The same in the crew's languages."""
    weakest = leaning(writer, *numbers)
    return writer.both(f"standing.{weakest}") if weakest else Both("")
