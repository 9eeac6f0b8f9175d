"""What an entry is: a question with its answer, or a symptom with its causes; both languages, no number in either."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from darby.words.catalogue import Language

Form = Literal["value", "written", "low", "high"]
"""How a figure is put in: with its unit, as the book writes it (years), or one end of a range."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A placeholder and the figure that fills it: a subject at a place, so that rules decide, or one voice by its id.

    ``unit`` names another unit to show it in ("" = the figure's own); in metric the figure's own twin stands.
    """

    name: str
    subject: str
    where: tuple[tuple[str, str], ...] = ()
    voice: bool = False
    form: Form = "value"
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Said:
    """A question in one language: how people ask it, other words they use, the answer, one more for the apprentice.

    ``here`` is the line for each wall of an open job, ``reckoned`` the line of a sum; "" where there is none.
    """

    asked: tuple[str, ...]
    also: tuple[str, ...]
    answer: str
    more: str
    here: str = ""
    reckoned: str = ""


@dataclass(frozen=True, slots=True)
class Question:
    """Something people ask. ``wall`` and ``sum`` name what ``darby.answers.asked`` puts in; ``notes`` codes of a job's.

    ``rests``: subjects of rules in words that the answer rests on without naming a number.
    """

    id: str
    said: Mapping[Language, Said]
    figures: tuple[Wanted, ...] = ()
    rests: tuple[Wanted, ...] = ()
    drawing: str = ""
    wall: str = ""
    sum: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Seen:
    """A symptom in one language: what people see, causes, what to look at next, what cures it, what not to promise."""

    asked: tuple[str, ...]
    also: tuple[str, ...]
    causes: tuple[str, ...]
    checks: tuple[str, ...]
    cure: str
    caution: str


@dataclass(frozen=True, slots=True)
class Symptom:
    """Something people see. ``stands``: the figure's id behind each cause, "" where a cause is common practice."""

    id: str
    said: Mapping[Language, Seen]
    stands: tuple[str, ...] = ()
    figures: tuple[Wanted, ...] = ()
    drawing: str = ""
    notes: tuple[str, ...] = ()


Entry = Question | Symptom
