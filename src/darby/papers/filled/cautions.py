"""What the crew has to be warned of on one wall, and where new and old would not come flush."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.papers.model import Both, BothCaution, SetBack
from darby.words import Verbatim

if TYPE_CHECKING:
    from darby.answers.coats import SurfaceCoats
    from darby.papers.filled.writer import Writer
    from darby.words import Language
    from darby.working import Note

SERIOUS = ("stop", "caution")

SAID_WITH = {"safety.frozen-base": "safety.cold", "safety.silica-cut": "safety.silica-saw"}
"""Cautions of which the crew hears another one: its sentence says the same, or says it of his tool."""

FIRST = (
    "safety.cement", "safety.silica-mix", "safety.silica-cut", "safety.silica-saw", "safety.silica-grinder",
    "safety.silica-drill", "safety.lead-applies", "safety.lead-ask",
    "safety.lead-window", "safety.asbestos-ask", "safety.fall-scaffold", "safety.fall-edge", "safety.scaffold-face",
    "safety.power-lines", "safety.cold", "safety.hot",
)  # fmt: skip
"""What hurts, in the order in which it is said; others after it, in the order in which they were answered."""

TIGHT = "condition.recoat.short."
"""Where a re-coat comes out too far."""

OLD = ("safety.lead", "safety.asbestos")
SCAFFOLD = ("safety.scaffold-face", "safety.fall-scaffold")


def cautions(writer: Writer, surface: str) -> tuple[BothCaution, ...]:
    """What can hurt, first; then what this wall's build-up warns of. Each is said once."""
    notes = [n for n in writer.answers.notes if n.grade in SERIOUS and n.code.startswith("safety.")]
    codes = {n.code for n in notes}
    notes = [n for n in notes if SAID_WITH.get(n.code) not in codes and _concerns(writer, n.code, surface)]
    coats: SurfaceCoats = writer.answers.of("coats", surface)
    own = {n for _, built in coats.zones for n in (*built.chosen.cautions, *built.notes) if n.grade in SERIOUS}
    large = set(set_backs(writer, surface))
    tight = (n for n in writer.answers.notes if n.code.startswith(TIGHT) and n.at.partition("/")[0] == surface)
    notes += [*tight, *(n for n in writer.answers.notes if n in own and n not in large)]
    alike: dict[tuple[object, ...], list[Note]] = {}
    for note in sorted(notes, key=lambda n: FIRST.index(n.code) if n.code in FIRST else len(FIRST)):
        alike.setdefault((note.code, *(v for v in note.values if v[0] != "edge")), []).append(note)
    said: dict[Both, BothCaution] = {}
    for same in alike.values():
        text = _together(writer, same)
        said.setdefault(text, BothCaution(_opening(writer, same[0]), text))
    return tuple(said.values())


def _together(writer: Writer, notes: list[Note]) -> Both:
    """What is the same at several edges is said once, of all of them."""
    note = notes[0]
    if len(notes) == 1 or "edge" not in dict(note.values):
        return writer.both_note(note, "crew")

    def said(language: Language) -> str:
        edges = dict.fromkeys(writer.edge(n.at, str(dict(n.values)["edge"]), language) for n in notes)
        return writer.note(note, language, "crew", edge=Verbatim(", ".join(edges)))

    return Both(*(said(name) for name in writer.crew_languages))


def _concerns(writer: Writer, code: str, surface: str) -> bool:
    """Old paint and plaster concern the walls that meet them; scaffold those that need one. In doubt, all."""
    answers = writer.answers
    if code.startswith(OLD):
        meets = {name for name, w in answers.good("wall").items() for r in w.runs
                 if r.meets is not None and r.meets.what == "old plaster"}  # fmt: skip
        return not meets or surface in meets
    if code in SCAFFOLD:
        days = answers.answered("days")
        hired = [at for hire in days.hires for at in hire.at] if days is not None else []
        return not hired or any(at.partition("/")[0] == surface for at in hired)
    return True


def _opening(writer: Writer, note: Note) -> Both:
    code = f"paper.opening.{note.code}"
    return writer.both(code if writer.knows(code) else "paper.opening.caution")


def set_backs(writer: Writer, surface: str = "") -> list[Note]:
    """Where the base has to move, or to be measured, so that new and old come flush; on one surface or on all."""
    return [
        note
        for name, coats in writer.answers.good("coats").items()
        if surface in ("", name)
        for _, built in coats.zones
        for note in (*built.chosen.cautions, *built.notes)
        if note.code.startswith("buildup.set-back-") and writer.knows(f"paper.customer.{note.code}")
    ]


def crew_set_backs(writer: Writer, surface: str) -> tuple[SetBack, ...]:
    """The same for the crew's sheet, the size large."""
    return tuple(_set_back(writer, note) for note in dict.fromkeys(set_backs(writer, surface)))


def _set_back(writer: Writer, note: Note) -> SetBack:
    text = writer.both_note(note, "crew")
    values = dict(note.values)
    if "by" not in values:
        return SetBack(writer.both("paper.crew.measure-first"), Both(""), text)
    who = "framer" if note.code.endswith("-frame") else "mason"
    way = "forward" if "-forward" in note.code else "back"
    size = writer.both(f"paper.crew.size-{way}", by=values["by"])
    return SetBack(writer.both(f"paper.crew.tell-{who}"), size, text)
