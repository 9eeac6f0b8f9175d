"""What is said of a finish: its sand by the sieve, its stone, what it shows, and who carries the color."""

from __future__ import annotations

from darby.buildup.model import BuildUpAsk
from darby.working.model import Note, note

SANDED = ("float", "skip trowel", "scraped")
"""Finishes whose look is the size of their sand."""

STONE = ("wet dash", "pebble")


def said(ask: BuildUpAsk) -> list[Note]:
    """Notes on the finish of this zone. Sources: ``rulebook/finishes.toml``, ``preparing.toml``."""
    book, at = ask.book, ask.at
    notes: list[Note] = []
    if ask.finish == "smooth":
        smooth = book.number("prep.smooth-cracks")
        notes.append(note("buildup.smooth-finish", "caution", at, rules=(smooth.id,)))
    if ask.finish in SANDED:
        notes += _sand(ask)
    if ask.finish in STONE:
        stone = book.number("finish.stone", finish=ask.finish)
        even = (book.number("finish.stone-even").id,) if ask.finish == "pebble" else ()
        slug = ask.finish.replace(" ", "-")
        notes.append(note(f"buildup.stone.{slug}", "caution", at, rules=(stone.id, *even), stone=stone))
    if ask.colored and ask.finish != "none":
        notes.append(note("buildup.colored", "caution", at))
    return notes


def sand_of(ask: BuildUpAsk) -> str | None:
    """The finish sand by its sieves: as said; of a skip trowel finish as the book has it; else None."""
    if ask.sand is not None:
        return ask.sand
    return ask.book.number("finish.skip-trowel").written if ask.finish == "skip trowel" else None


def _sand(ask: BuildUpAsk) -> list[Note]:
    sand = sand_of(ask)
    if sand is None:
        return []
    names = ask.book.number("finish.sand-names")
    opening = ask.book.number("finish.sand", sand=sand)
    rules = [opening.id, names.id]
    if ask.sand is None:
        rules.append(ask.book.number("finish.skip-trowel").id)
    return [note("buildup.sand-by-sieve", "fact", ask.at, rules=tuple(rules), sieves=sand, opening=opening)]
