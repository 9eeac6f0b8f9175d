"""A figure of the trade: one voice of one source on one subject, with the standing of that source."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal

from darby.measure.units import Unit

Standing = Literal["read", "second-hand", "common practice", "memory", "trial"]
STANDINGS: tuple[Standing, ...] = ("read", "second-hand", "common practice", "trial", "memory")
"""Best first. A ruling is never "memory" while a better standing speaks on the subject."""

Kind = Literal["number", "range", "rule"]
KINDS: tuple[Kind, ...] = ("number", "range", "rule")
NOTHING: Mapping[str, frozenset[str]] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Source:
    """A publication: what it is called, who put it out, when, and where it can be read."""

    id: str
    title: str
    publisher: str
    year: str
    address: str


@dataclass(frozen=True, slots=True)
class Figure:
    """One voice of one source. ``low``, ``value``, ``high`` are SI of ``unit``; ``written`` is the book's own text."""

    id: str
    subject: str
    kind: Kind
    low: float | None
    value: float | None
    high: float | None
    unit: Unit
    written: str
    says: str
    source: str
    where: str
    edition: str
    standing: Standing
    applies: Mapping[str, frozenset[str]] = field(default_factory=lambda: NOTHING, hash=False)
    voice: str = ""
    """Short name of whoever speaks ("ibc", "pca", "sma"): a firm follows a voice by this name."""
    why: str = ""
    """A local rule's reason; empty for a published figure."""

    def __post_init__(self) -> None:
        if self.kind == "number" and self.value is None:
            raise ValueError(f"{self.id}: a number needs a value")

    @property
    def number(self) -> float:
        """The value in SI.

        Raises
        ------
        TypeError
            if the figure is a rule in words, or a range without a value.
        """
        if self.value is None:
            raise TypeError(f"{self.id} is a {self.kind}, not a number")
        return self.value

    def speaks_at(self, where: Mapping[str, str]) -> bool:
        """Whether the figure speaks of this place. A kind of place that is not given is not held against it."""
        return all(where[kind] in allowed for kind, allowed in self.applies.items() if kind in where)


Why = Literal["only voice", "best standing", "book's order", "firm follows", "local rule"]


@dataclass(frozen=True, slots=True)
class Ruled:
    """What the book answers on a subject: the ruling figure, the other voices, and why this one rules.

    ``displaced`` is the figure that would rule had the firm not followed a voice or laid a local rule on top, if that
    is another one; both are shown. ``silent`` names the voice the firm follows where it says nothing for this place.
    """

    figure: Figure
    others: tuple[Figure, ...]
    why: Why
    displaced: Figure | None = None
    silent: str = ""


class BookError(Exception):
    """The rule book is at odds with itself, or with the firm's choice; names the figures."""
