"""Puts the rule book's figures into an entry, and says of each who speaks and how sure that is."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from darby.measure.units import System, unit
from darby.measure.writing import shown
from darby.rulebook import Book, Figure, Source
from darby.rulebook.model import Standing
from darby.words.asking.model import Entry, Question, Wanted
from darby.words.catalogue import Language, catalogue, unit_names, written

SOFT: tuple[Standing, ...] = ("common practice", "memory", "trial")
"""Standings that are said in the sentence itself; the others are said beneath it."""


@dataclass(frozen=True, slots=True)
class Told:
    """A figure that the answer stands on: its value as printed ("" for a rule in words), and where it comes from."""

    figure: Figure
    value: str
    source: Source


@dataclass(frozen=True, slots=True)
class Cause:
    """One likely cause, and the figure that supports it; None = common practice, no source."""

    text: str
    stands: Told | None


@dataclass(frozen=True, slots=True)
class Filled:
    """An entry as it is read out. A question has ``answer`` and ``more``; a symptom ``causes``, ``checks`` and a cure.

    ``told``: every figure behind it, in the order they appear; what has none is common practice.
    """

    id: str
    kind: Literal["question", "fault"]
    title: str
    answer: str
    more: str
    causes: tuple[Cause, ...]
    checks: tuple[str, ...]
    cure: str
    caution: str
    told: tuple[Told, ...]
    drawing: str


def fill(entry: Entry, book: Book, language: Language = "en", system: System = "us") -> Filled:
    """``entry`` in ``language``, its figures as ``book`` rules them (local rules and the firm's voices with them).

    Raises
    ------
    KeyError
        if the book does not speak on a subject that the entry asks for.
    BookError
        if the book is at odds with itself there.
    """
    pen = _Pen(book, language, system)
    values = {want.name: pen.value(want) for want in entry.figures}
    if isinstance(entry, Question):
        said = entry.said[language]
        answer, more = pen.put((said.answer, said.more), values)
        for rest in entry.rests:
            pen.tell(pen.figure(rest), "")
        return Filled(
            entry.id, "question", said.asked[0], answer, more, (), (), "", "", pen.told(), entry.drawing
        )  # fmt: skip
    seen = entry.said[language]
    *texts, cure, caution = pen.put((*seen.causes, *seen.checks, seen.cure, seen.caution), values)
    count = len(seen.causes)
    stands = [pen.tell(book[name], "") if name else None for name in entry.stands]
    stands += [None] * (count - len(stands))
    return Filled(
        id=entry.id,
        kind="fault",
        title=seen.asked[0],
        answer="",
        more="",
        causes=tuple(Cause(text, told) for text, told in zip(texts[:count], stands, strict=True)),
        checks=tuple(texts[count:]),
        cure=cure,
        caution=caution,
        told=pen.told(),
        drawing=entry.drawing,
    )


class _Pen:
    """Writes figures of one book in one language and system, and remembers which."""

    def __init__(self, book: Book, language: Language, system: System) -> None:
        self.book, self.language, self.system = book, language, system
        self._told: dict[str, Told] = {}

    def told(self) -> tuple[Told, ...]:
        return tuple(self._told.values())

    def figure(self, want: Wanted) -> Figure:
        if want.voice:
            return self.book[want.subject]
        return self.book.rule(want.subject, **dict(want.where)).figure

    def value(self, want: Wanted) -> tuple[str, str]:
        """The value as printed, and the phrase of its standing where that is soft."""
        figure = self.figure(want)
        text = self.write(want, figure)
        self.tell(figure, written(figure, self.language, self.system) if want.form in ("low", "high") else text)
        soft = figure.standing in SOFT and not figure.why
        return text, catalogue(self.language)[f"standing.{figure.standing}"] if soft else ""

    def tell(self, figure: Figure, value: str) -> Told:
        found = self._told.get(figure.id)
        if found is None:
            found = self._told[figure.id] = Told(figure, value, self.book.source_of(figure))
        return found

    def write(self, want: Wanted, figure: Figure) -> str:
        if want.form == "written":
            return figure.written
        names = unit_names(self.language)
        if want.form in ("low", "high"):
            end = figure.low if want.form == "low" else figure.high
            return shown(end if end is not None else figure.number, figure.unit, self.system, names=names)
        if want.unit and self.system == "us" and figure.value is not None:
            return shown(figure.value, unit(want.unit), self.system, names=names)
        return written(figure, self.language, self.system)

    def put(self, texts: Iterable[str], values: Mapping[str, tuple[str, str]]) -> list[str]:
        """``texts`` with the values in; a soft standing stands beside its figure where it is named first."""
        said: set[str] = set()
        return [self._put(text, values, said) for text in texts]

    def _put(self, text: str, values: Mapping[str, tuple[str, str]], said: set[str]) -> str:
        shown_here = {}
        for name, (value, standing) in values.items():
            first = standing and name not in said and f"{{{name}}}" in text
            said |= {name} if first else set()
            shown_here[name] = f"{value} ({standing})" if first else value
        return tidy(text.format_map(shown_here))


def tidy(text: str) -> str:
    """An abbreviated unit at the end of a sentence keeps one full stop: "1/2 in.." is "1/2 in."."""
    return text.replace("..", ".")
