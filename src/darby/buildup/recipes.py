"""The ways to build plaster up, by base: which coats, which of them levels, on whose thickness."""

from __future__ import annotations

from dataclasses import dataclass

from darby.buildup.doubts import verdict
from darby.buildup.model import OLD, BuildUpAsk, CoatName, OptionId


@dataclass(frozen=True, slots=True)
class Recipe:
    """One way: coats in order, the one that ``levels`` the base, the subject of its whole thickness.

    ``table`` is the base as the thickness tables know it: block, concrete, or lath whatever is behind it.
    """

    id: OptionId
    coats: tuple[CoatName, ...]
    levels: CoatName
    subject: str
    table: str

    @property
    def lath(self) -> bool:
        """Hung on lath."""
        return self.table == "lath"

    @property
    def skim(self) -> bool:
        """One coat that levels nothing."""
        return self.id == "heavy-skim"


_THREE: tuple[CoatName, ...] = ("scratch", "brown", "finish")
_TWO: tuple[CoatName, ...] = ("base", "finish")


def recipes(ask: BuildUpAsk) -> tuple[Recipe, ...]:
    """The ways open for this base, in the order an old hand would think of them.

    Brick, stone and old plaster are taken as block is, for the tables call it all unit masonry or say nothing of it.
    """
    on_lath = Recipe("lath-three-coat", _THREE, "brown", "thickness.lath.three-coat", "lath")
    if not ask.solid:
        doubled = Recipe("double-back", _THREE, "brown", "thickness.lath.three-coat", "lath")
        return (doubled, on_lath) if ask.cure == "double-back" else (on_lath, doubled)
    if verdict(ask) == "do not":
        return (on_lath,)
    overhead = ask.position == "horizontal"
    # a block ceiling is taken as a concrete one: nobody wrote a table for it
    table = "concrete" if overhead else ask.taken
    two = Recipe("two-coat", _TWO, "base", f"thickness.{table}.two-coat", table)
    if overhead:
        return (two, on_lath)
    three = Recipe("three-coat", _THREE, "brown", f"thickness.{table}.three-coat", table)
    dub = Recipe("dub-out", ("scratch", *_TWO), "base", f"thickness.{table}.two-coat", table)
    if ask.base in ("concrete", "stone", "painted block"):
        return (two, three, on_lath, dub)
    single = Recipe("single-base", _TWO, "base", "thickness.block.single-base", table)
    one = Recipe("one-coat", ("base",), "base", "thickness.block.single-base", table)
    skim = Recipe("heavy-skim", ("finish",), "finish", "thickness.block.heavy-skim", table)
    floated = (one,) if ask.finish == "float" else ()
    if ask.base in OLD:
        return (two, on_lath, dub, *floated, *((skim,) if ask.finish not in UNSKIMMED else ()))
    if ask.base == "brick":
        return (two, three, on_lath, dub, *floated)
    if ask.finish in UNSKIMMED:
        return (two, single, three, on_lath, dub)
    return (two, single, three, on_lath, dub, *floated, skim)


UNSKIMMED = ("none", "wet dash", "pebble")
"""Finishes that are no skim coat."""


def named(ask: BuildUpAsk, choose: str) -> str:
    """The id meant by a plasterer's shorter name: "skim", or "three-coat" where all work is on lath."""
    if choose == "skim":
        return "heavy-skim"
    if choose == "three-coat" and not ask.solid:
        return "lath-three-coat"
    return choose
