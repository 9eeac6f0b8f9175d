"""What every paper of a job needs: how to say and write things in its languages, who it is from, what it is of."""

from __future__ import annotations

from calendar import timegm
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.measure.exact import fraction_of
from darby.measure.limits import whole
from darby.measure.units import IN, UNITS, System, Unit
from darby.measure.writing import rounded, shown, write
from darby.papers.filled.places import place
from darby.papers.model import Both, Firm, Stamp
from darby.words import LANGUAGES, Language, Verbatim, catalogue, day, measured, say, unit_names, written
from darby.words.surfaces import names_of
from darby.working import Amount, Found, Note, Quantity, Step

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.working.model import Real

SIXTEENTHS = 16
FEW = 4
"""So many names stand in a list before the rest of them is counted."""

FIGURES = 3


@dataclass(frozen=True)
class Writer:
    """The answers of a job and the languages of its papers."""

    answers: Answers

    @property
    def system(self) -> System:
        """How the firm's sheets are measured."""
        return self.answers.job.system

    @cached_property
    def crew_languages(self) -> tuple[Language, ...]:
        """The languages of the crew's papers in the firm's own order, two at the most."""
        named: dict[str, Language] = {name: name for name in LANGUAGES}
        return tuple(named[name] for name in self.answers.job.languages if name in named)[:2] or ("en",)

    @property
    def language(self) -> Language:
        """What customer and supplier read."""
        return self.crew_languages[0]

    # --- sentences -------------------------------------------------------------------------------------------

    def say(self, code: str, /, language: Language | None = None, **values: object) -> str:
        """A sentence. A name that people gave is handed in as ``Verbatim``."""
        return say(code, values, language or self.language, self.system)

    def both(self, code: str, /, **values: object) -> Both:
        """A sentence in the crew's languages."""
        return Both(*(self.say(code, name, **values) for name in self.crew_languages))

    def knows(self, code: str) -> bool:
        """Whether the catalogue has a sentence."""
        return code in catalogue(self.language)

    def note(self, note: Note, language: Language | None = None, to: str = "note", **more: object) -> str:
        """A note in words, its places called by their names.

        ``to``: whom it is for ("crew", "customer"); where the papers have a sentence of their own for him, it is said.
        """
        spoken = language or self.language
        own = [code for code in (f"paper.{to}.{note.code}", f"paper.note.{note.code}") if self.knows(code)]
        text = say([*own, note.code][0], self._named(note, spoken) | more, spoken, self.system)
        return text[:1].upper() + text[1:]

    def both_note(self, note: Note, to: str = "note") -> Both:
        """A note in the crew's languages."""
        return Both(*(self.note(note, name, to) for name in self.crew_languages))

    def _named(self, note: Note, language: Language) -> dict[str, object]:
        surface = note.at.partition("/")[0]
        values = dict(note.values)
        for name, value in values.items():
            if name == "place" and isinstance(value, str):
                values[name] = Verbatim(self.place(value, language))
            if name == "edge" and isinstance(value, str):
                values[name] = Verbatim(self.edge(note.at, value, language))
            if name == "joints" and isinstance(value, tuple):
                from darby.papers.filled.parting import joint_called

                joints = [joint_called(self, surface, str(one), language) or str(one) for one in value]
                values[name] = Verbatim(", ".join(dict.fromkeys(joints)))
            if name == "grounds" and isinstance(value, tuple):
                from darby.papers.filled.truing import ground_called

                values[name] = Verbatim("; ".join(ground_called(self, surface, str(g), language) for g in value))
            if name == "piece" and isinstance(value, str) and "/" in value:
                from darby.papers.filled.sawing import piece_called

                values[name] = Verbatim(piece_called(self, value, language))
            if name == "parts" and isinstance(value, tuple):
                lengths = (self.feet(p.value, language, SIXTEENTHS) for p in value if isinstance(p, Quantity))
                values[name] = Verbatim(", ".join(lengths))
            if name == "openings" and isinstance(value, tuple):
                words = catalogue(language)
                values[name] = Verbatim(", ".join(words.get(f"drawing.opening.{one}", str(one)) for one in value))
            if name == "installed" and isinstance(value, Quantity) and self.system == "us":
                values[name] = Verbatim(self.feet(value.value, language, SIXTEENTHS))  # what a rule shows
            if isinstance(value, Quantity) and value.unit.name == "ft-in":
                values[name] = Verbatim(self.feet(value.value, language, SIXTEENTHS))
        return values

    def gathered(self, notes: Iterable[Note]) -> list[tuple[Note, str]]:
        """Each note once where its words are the same at several places: (note, places in words; "" = the job)."""
        places: dict[str, tuple[Note, dict[str, list[str]]]] = {}
        for note in notes:
            _, at = places.setdefault(self.note(note), (note, {}))
            surface = note.at.partition("/")[0] if not note.at.startswith("mix/") else note.at
            parts = at.setdefault(surface, [])
            part = self.place(note.at).removeprefix(self.place(surface)).lstrip(", ")
            if part and part not in parts:
                parts.append(part)
        return [(note, "; ".join(self._with_parts(at))) for note, at in places.values()]

    def _with_parts(self, at: Mapping[str, list[str]]) -> list[str]:
        """Whole walls together, then each of which only parts are meant, with these."""
        parted = [f"{self.place(wall)}: {self.listed(parts)}" for wall, parts in at.items() if parts]
        return [*self.places(wall for wall, parts in at.items() if not parts), *parted]

    # --- numbers ---------------------------------------------------------------------------------------------

    def write(self, value: object, language: Language | None = None) -> str:
        """A number with its unit."""
        return written(value, language or self.language, self.system)

    def about(self, value: Quantity, language: Language | None = None) -> str:
        """Three figures of it: what is only compared, or rounded to packages, needs no more."""
        unit: Unit = value.unit.on(self.system)
        amount = Fraction(unit.from_si(value.value))
        places = max(FIGURES - len(str(int(abs(amount)))), 0)
        return self.write(Quantity(unit.to_si(rounded(amount, places)), unit), language)

    def area(self, area: Quantity, language: Language | None = None) -> str:
        """An area as a customer or a crew wants it: whole square feet, tenths of a square metre."""
        names = unit_names(language or self.language)
        text = shown(area.value, area.unit, self.system, 0 if self.system == "us" else 1, names)
        return text if fraction_of(text.split(" ")[0].replace(",", "")) else self.write(area, language)

    def count(self, value: Real) -> str:
        """A bare number, sixteenths as fractions: "7 1/2", "13", "1.2"."""
        exact = Fraction(value).limit_denominator(10_000)
        return _mixed(exact) if (exact * SIXTEENTHS).denominator == 1 else shown(value, None)

    def counted(self, amount: Quantity, language: Language | None = None) -> str:
        """So many of what is counted, parts as fractions: "9 bags", "3 1/2 buckets", "1/2 bag"."""
        one = Quantity(1, amount.unit) if 0 < amount.value <= 1 else amount
        return f"{self.count(amount.value)} {self.write(one, language).partition(' ')[2]}"

    def span(self, low: Quantity, high: Quantity, step: Mapping[str, Fraction]) -> str:
        """Two amounts with one unit, to whole steps of it: the span is never narrower than what was answered."""
        unit: Unit = high.unit.on(self.system)
        size = step.get(unit.name, Fraction(1))
        least, most = (Fraction(unit.from_si(q.value)) / size for q in (low, high))
        ends = [-whole(-float(least)) * size, whole(float(most)) * size]
        word = self.write(high).partition(" ")[2]
        return f"{'–'.join(dict.fromkeys(_mixed(end) for end in ends))} {word}"

    def per(self, amount: Amount) -> str:
        """Money by area, to the cent: nobody pays ten-thousandths."""
        return shown(amount.value, amount.unit, self.system, 2, unit_names(self.language))

    def feet(self, length: Real, language: Language | None = None, to: int = 2) -> str:
        """A length [m] as it is measured along a wall and said in a sentence: 24 ft 6 in., or metres."""
        if self.system == "metric":
            return shown(length, UNITS["m"], "metric", 2)
        text = write(length, "sentence", to)
        return measured(text, language or self.language)

    # --- names -----------------------------------------------------------------------------------------------

    def place(self, at: str, language: Language | None = None) -> str:
        """What people call a place; "" for the whole job."""
        if at.startswith("mix/"):
            from darby.papers.filled.mixing import mix_called

            mixes = self.answers.answered("mixes")
            ids = [m for m in mixes.coats if f"{at}/".startswith(f"{m.id}/")] if mixes is not None else []
            mix = max(ids, key=lambda m: len(m.id), default=None)
            if mix is not None:
                return mix_called(self, mix, language or self.language)
        return place(self.answers.job, at, language or self.language)

    def places(self, ats: Iterable[str], language: Language | None = None) -> list[str]:
        """Several places, each name once; a shape by its own name where all its faces are among them."""
        named = {at: self.place(at, language) for at in ats}
        return names_of(named, self.answers.job.surfaces, language or self.language)

    def edge(self, at: str, edge: str, language: Language) -> str:
        """An edge of the surface at ``at``, without the surface's name: "the left edge"."""
        surface = at.partition("/")[0]
        whole = edge if edge.startswith(f"{surface}/") else f"{surface}/{edge}"
        return place(self.answers.job, whole, language, alone=True) or edge

    def listed(self, names: Sequence[str], language: Language | None = None, most: int = FEW) -> str:
        """Names in a row; of many the first few, and how many more."""
        if len(names) <= most + 1:
            return "; ".join(names)
        some = Verbatim("; ".join(names[:most]))
        return self.say("paper.and-more", language, names=some, count=len(names) - most)

    @cached_property
    def firm(self) -> Firm:
        """Who the papers are from."""
        firm = self.answers.job.firm
        more = tuple(x for x in (firm.phone, firm.email, firm.license) if x)
        return Firm(firm.name, firm.line, firm.address, more)

    @cached_property
    def stamp(self) -> Stamp:
        """What every page says at its foot."""
        job = self.answers.job
        return Stamp(
            job=job.name,
            number=job.number,
            revision=str(job.revision),
            job_hash=self.answers.job_hash[:8],
            book=self.answers.book_version,
            made_with=self.answers.made_with,
            date=day(job.as_of, self.language, weekday=False),
            seconds=timegm(job.as_of.timetuple()),
            invented=job.invented or job.firm.invented,
        )

    @cached_property
    def steps(self) -> dict[str, Step | Found]:
        """Every step by its key."""
        return {step.key: step for step in self.answers.steps()}


def _mixed(value: Fraction) -> str:
    return write(value * IN, "in", SIXTEENTHS).removesuffix('"')
