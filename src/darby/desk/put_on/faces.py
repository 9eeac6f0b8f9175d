"""An old face as the page shows it: its grains as bars, its boards as cards, and what was filled in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.utils.safestring import SafeString, mark_safe

from darby.desk.put_on.matching import ROWS, SAND, SIGNED
from darby.desk.put_on.reader import reader
from darby.papers.filled.boards import board_paper
from darby.tables.pages import note_line
from darby.tables.places import place

if TYPE_CHECKING:
    from collections.abc import Mapping

    from darby.answers import Answers
    from darby.finish import Match
    from darby.papers.model import BoardCard, OldFace
    from darby.tables.setting import Setting

WIDE, HIGH = 160, 14
MORE = 2
"""Empty rows beneath those that are filled in."""


@dataclass(frozen=True, slots=True)
class Grain:
    """A grade of grains: between which sieves, its share, and that share as a bar."""

    between: str
    share: str
    bar: SafeString


@dataclass(frozen=True, slots=True)
class Face:
    """One old face with its boards."""

    surface: str
    title: str
    face: OldFace
    grains: tuple[Grain, ...]
    read: tuple[tuple[str, str], ...]
    cards: tuple[BoardCard, ...]
    facts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Filled:
    """A form of one face, filled in from its entry."""

    surface: str
    title: str
    by: str
    rows: tuple[tuple[int, str, str], ...]
    depths: str
    says: str
    paint_coats: str
    signed: dict[str, str]


def faces_of(answers: Answers, setting: Setting) -> list[Face]:
    """Every face that was read, in words and bars."""
    paper = board_paper(reader(answers, setting))
    if paper is None:
        return []
    found: dict[str, Match] = answers.good("match")
    made = []
    for (surface, match), face in zip(found.items(), paper.faces, strict=True):
        several = len(match.sand.grades)
        said = [(what.first, much.first) for what, much in face.read]
        shares = [float(grade.share.value) for grade in match.sand.grades]
        grains = tuple(
            Grain(what, much, _bar(share)) for (what, much), share in zip(said[:several], shares, strict=True)
        )
        facts = tuple(note_line(n, setting, answers) for n in match.notes if n.grade in ("fact", "assumed"))
        title = place(answers, surface, setting)
        made.append(Face(surface, title, face, grains, tuple(said[several:]), face.cards, facts))
    return made


def _bar(share: float) -> SafeString:
    """So much of the whole, as a drawing; the figure stands beside it."""
    return mark_safe(
        f'<svg class="grain" width="{WIDE}" height="{HIGH}" viewBox="0 0 {WIDE} {HIGH}" aria-hidden="true">'
        f'<rect x="0.5" y="0.5" width="{WIDE - 1}" height="{HIGH - 1}" class="whole"/>'
        f'<rect x="0.5" y="0.5" width="{max(share * (WIDE - 1), 0):.1f}" height="{HIGH - 1}" class="part"/></svg>'
    )


def form_of(entry: Mapping[str, Any], answers: Answers, setting: Setting) -> Filled:
    """What stands in an entry of [[match]], as it is written there, with empty rows to go on."""
    by = next((name for name in SAND if name in entry), SAND[0])
    raw = entry.get(by, [])
    pairs = [(str(r[0]), str(r[1])) for r in raw if isinstance(r, list) and len(r) > 1]
    pairs += [("", "")] * (MORE if pairs else MORE * 3)
    signed = entry.get("signed", {})
    surface = str(entry.get("surface", ""))
    return Filled(
        surface,
        place(answers, surface, setting) if surface else "",
        by,
        tuple((n, *pair) for n, pair in enumerate(pairs[:ROWS])),
        "\n".join(str(d) for d in entry.get("depths", [])),
        str(entry.get("says", "")),
        str(entry.get("paint_coats", "")),
        {name: str(signed.get(name, "")) for name in SIGNED} if isinstance(signed, dict) else {},
    )
