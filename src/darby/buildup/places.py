"""What is said of where a wall is: water behind it and on it, tops, parapets, foundations, chimneys, soffits."""

from __future__ import annotations

from darby.buildup.model import BuildUpAsk
from darby.measure.units import unit
from darby.working.model import Note, Quantity, note

OPEN = ("parapet", "top", "garden wall")
"""Places that are rained on from both sides or from above."""

SPOKEN_OF = (*OPEN, "foundation", "chimney", "planter", "soffit")


def said(ask: BuildUpAsk) -> list[Note]:
    """Cautions of the place, of earth behind and of sprinklers."""
    book, at = ask.book, ask.at
    notes: list[Note] = []
    behind = book.number("prep.water-behind")
    if ask.retains is not None:
        earth = Quantity(ask.retains, unit("ft-in"))
        notes.append(note("buildup.earth-behind", "caution", at, rules=(behind.id,), earth=earth))
    if ask.sprinklers:
        notes.append(note("buildup.sprinklers", "caution", at, rules=(behind.id,)))
    if ask.place in SPOKEN_OF:
        rules = (book.number("prep.top").id,) if ask.place in OPEN else ()
        rules = (behind.id,) if ask.place == "planter" else rules
        slug = ask.place.replace(" ", "-")
        notes.append(note(f"buildup.place.{slug}", "caution", at, rules=rules))
    return notes
