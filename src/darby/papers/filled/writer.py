"""What every paper of a job needs: how to say and write things in its languages, and what places are called."""

from __future__ import annotations

from calendar import timegm
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from darby.drawing import (
    CUT_PAPER,
    Coat,
    cut_title,
    elevation,
    key,
    section,
    sheet_for,
    titled,
    to_svg,
)
from darby.measure.units import System
from darby.measure.writing import write
from darby.papers.model import Both, Firm, KeyItem, Picture, Stamp
from darby.words import LANGUAGES, Language, catalogue, day, say, written
from darby.working import Note, Quantity

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.buildup import Option
    from darby.measure.surface import Surface

WIDE = 6.6 * 72
"""Width of the text on a letter sheet [pt]."""


@dataclass(frozen=True)
class Writer:
    """The answers of a job and the languages of its papers."""

    answers: Answers

    @property
    def system(self) -> System:
        """How the firm's sheets are measured."""
        return self.answers.job.system

    @cached_property
    def languages(self) -> tuple[Language, ...]:
        """The firm's languages, first one first."""
        return tuple(name for name in LANGUAGES if name in self.answers.job.languages) or ("en",)

    @cached_property
    def crew_languages(self) -> tuple[Language, ...]:
        """The crew sheet's languages in the firm's own order."""
        named: dict[str, Language] = {name: name for name in LANGUAGES}
        return tuple(named[name] for name in self.answers.job.languages if name in named) or ("en",)

    @property
    def language(self) -> Language:
        """What customer and supplier read."""
        return self.crew_languages[0]

    def say(self, code: str, /, language: Language | None = None, **values: object) -> str:
        """A sentence."""
        return say(code, values, language or self.language, self.system)

    def write(self, value: object, language: Language | None = None) -> str:
        """A number with its unit."""
        return written(value, language or self.language, self.system)

    def both(self, code: str, /, **values: object) -> Both:
        """A sentence in the crew's languages."""
        return Both(*(say(code, values, name, self.system) for name in self.crew_languages[:2]))

    def note(self, note: Note, language: Language | None = None) -> str:
        """A note in words, its places called by their names."""
        return say(note.code, self._named(note), language or self.language, self.system)

    def both_note(self, note: Note) -> Both:
        """A note in the crew's languages."""
        return Both(*(self.note(note, name) for name in self.crew_languages[:2]))

    def _named(self, note: Note) -> dict[str, object]:
        return {k: self.place(v) if k == "place" and isinstance(v, str) else v for k, v in note.values}

    def knows(self, code: str) -> bool:
        """Whether the catalogue has a sentence."""
        return code in catalogue(self.language)

    def feet(self, length: object) -> str:
        """A length as it is measured along a wall: 24 ft 6 in., or metres."""
        if self.system == "metric":
            return self.write(length)
        return write(length.value if isinstance(length, Quantity) else length, "sentence", to=2)  # type: ignore[arg-type]

    def place(self, at: str) -> str:
        """What people call a place: "bay-south/hollow" is the surface's name, and the zone's where it has one."""
        surface, _, zone = at.partition("/")
        named = {s.id: s.name for s in self.answers.job.surfaces}
        base = next((b for b in self.answers.job.bases if b.surface == surface and b.zone == zone), None)
        whole = named.get(surface, at)
        return f"{whole}, {base.name}" if base is not None and base.name else whole

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

    def elevation(self, surface: Surface, high: float = 300) -> Picture:
        """The wall to scale, with its sizes and its key, fitted to the sheet."""
        marks = elevation(surface, language=self.language, system=self.system)
        sheet = sheet_for(marks, WIDE, high)
        alt = titled(surface, self.language, self.system)
        items = tuple(KeyItem(entry.svg, entry.text) for entry in key(marks, sheet, self.language))
        caption = self.say("paper.elevation", name=surface.name, scale=sheet.words)
        return Picture(to_svg(marks, sheet, title=alt), alt, caption, items)

    def cut(self, option: Option, base: str, joints: str | None) -> Picture:
        """The cut through the wall, full size."""
        coats = tuple(
            Coat(
                self.say(f"buildup.coat.{c.name}").lower(),
                c.nominal.value,
                "finish" if c.name == "finish" else "base",
            )
            for c in option.coats
        )
        on = "lath over block" if option.lath is not None and base in ("block", "concrete") else base
        marks = section(coats, on, joints=joints or "", language=self.language, system=self.system)  # type: ignore[arg-type]
        alt = cut_title(coats, on, self.language, self.system)
        return Picture(to_svg(marks, CUT_PAPER, title=alt), alt)

    def gathered(self, notes: Iterable[Note]) -> list[tuple[Note, str]]:
        """Each note once where its words are the same at several places: (note, places in words; "" = the job)."""
        places: dict[str, tuple[Note, list[str]]] = {}
        for note in notes:
            _, at = places.setdefault(self.note(note), (note, []))
            name = "" if note.at in ("job", "") else self.place(note.at)
            if name and name not in at:
                at.append(name)
        return [(note, "; ".join(at)) for note, at in places.values()]
