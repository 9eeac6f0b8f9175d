"""What a panel on lath may be: the limits, read exactly from the book or from him, and what is left to each."""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from darby.joints.model import Limits, Position
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most, whole
from darby.measure.units import unit
from darby.rulebook.book import Book
from darby.rulebook.model import Figure
from darby.working.formula import exact
from darby.working.model import Note, Quantity, note

SQ_FT, FT, PLAIN = unit("sq ft"), unit("ft"), unit("")


@dataclass(frozen=True, slots=True)
class Allowed:
    """Most area [m2], longest side [m], most length to width of a panel, all exact.

    ``given``: the three as a step takes them; ``rules``: ids of the figures they come from.
    """

    area: Fraction
    side: Fraction
    ratio: Fraction
    given: tuple[Figure | Quantity, ...] = ()
    rules: tuple[str, ...] = ()

    def broken(self, area: Fraction, width: Fraction, height: Fraction) -> tuple[str, ...]:
        """Which limits a panel is past: "area", "side", "ratio"; nothing where it holds them all."""
        long, short = max(width, height), min(width, height)
        past = []
        if not at_most(area, self.area):
            past.append("area")
        if not at_most(long, self.side):
            past.append("side")
        if not at_most(long, self.ratio * short):
            past.append("ratio")
        return tuple(past)

    def reach(self, across: Fraction) -> Fraction:
        """How long a panel may be that is ``across`` wide [m]."""
        return min(self.side, self.ratio * across, self.area / across)

    def parts(self, length: Fraction, across: Fraction) -> int:
        """How few equal parts of ``length`` keep within the limits, where the strip is ``across`` wide [m]."""
        return max(whole(length / self.reach(across)), 1)


def allowed(book: Book, own: Limits, position: Position, at: str) -> tuple[Allowed, tuple[Note, ...]]:
    """The limits that hold, and a note for each that he set himself, with the figure he leaves.

    Raises
    ------
    Unreadable
        "joints.limit-not-positive" for a limit of nought or below, or a ratio below one.
    """
    place = "vertical" if position == "vertical" else "horizontal"
    figures = (
        ("area", book.number("parting.panel-area", position=place), own.area, SQ_FT),
        ("side", book.number("parting.panel-side"), own.side, FT),
        ("ratio", book.number("parting.panel-ratio"), own.ratio, PLAIN),
    )
    values: dict[str, Fraction] = {}
    given: list[Figure | Quantity] = []
    rules: list[str] = []
    notes: list[Note] = []
    for name, figure, his, shown in figures:
        if his is None:
            values[name] = of(figure)
            given.append(figure)
            rules.append(figure.id)
            continue
        least = 1 if name == "ratio" else 0
        if his < least or not his:
            raise Unreadable(Fault("joints.limit-not-positive", at, f"{name} {float(his):g}", f"{least} …"))
        values[name] = Fraction(his)
        given.append(Quantity(his, shown))
        if his != of(figure):
            code = "joints.own-limit" if at_most(his, of(figure)) else "joints.own-limit-past"
            grade = "fact" if code == "joints.own-limit" else "caution"
            notes.append(
                note(code, grade, at, rules=(figure.id,), own=Quantity(his, shown), figure=figure,  # type: ignore[arg-type]
                     what=f"joints.limit.{name}")
            )  # fmt: skip
    return Allowed(values["area"], values["side"], values["ratio"], tuple(given), tuple(rules)), tuple(notes)


def of(figure: Figure) -> Fraction:
    """A figure's number, exactly as its unit says it [SI]."""
    return exact(figure.number, figure.unit)
