"""A new job: from one shape's few things, or from several walls, a line each; and the document that they make."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from darby.desk.forms import filled_in
from darby.desk.sketching.lines import SHAPES as LINE_SHAPES
from darby.desk.sketching.lines import Misspelled, Part, said_line, said_opening
from darby.desk.sketching.spelling import begins, spellings
from darby.desk.spelled import NUMBERED, read_lines
from darby.measure.faults import Fault
from darby.words import Language, catalogue

HEAD = ("job.name", "job.customer", "job.address")
LAST = ("coats.finish", "coats.paint")
BY_LINES = "lines"
"""The shape of a job whose walls are written a line each."""
MOST = 20000
SIDES = ("head", "sill", "left", "right")


@dataclass(frozen=True, slots=True)
class Shape:
    """A shape that a job can begin with: what is asked, what stands in the form already, which sections it writes."""

    name: str
    asked: tuple[str, ...]
    begin: Mapping[str, Any]
    sections: tuple[str, ...] = ()

    @property
    def ways(self) -> tuple[str, ...]:
        """All that is asked, in order."""
        return (*HEAD, *self.asked, *LAST)

    @property
    def written(self) -> tuple[str, ...]:
        """The sections that it fills in."""
        return ("job", *(self.sections or (self.name,)), "coats")


def _of(section: str, *keys: str) -> tuple[str, ...]:
    return tuple(f"{section}.0.{key}" for key in keys)


SHAPES: Mapping[str, Shape] = {
    shape.name: shape
    for shape in (
        Shape(BY_LINES, ("job.built", "coats.sand"), {}, ("job",)),
        Shape(
            "garden_wall",
            _of("garden_wall", "length", "height", "thick", "facing", "base", "block", "joints", "out_of_plane",
                "pilasters.every", "pilasters.width", "pilasters.out", "cap", "sprinklers"),
            {"garden_wall": [{"id": "wall", "thick": "8 in", "base": "block", "joints": "flush", "cap": "drip"}]},
        ),
        Shape(
            "wall",
            _of("wall", "name", "length", "height", "facing", "base", "block", "joints", "out_of_plane", "openings"),
            {"wall": [{"id": "wall", "base": "block", "joints": "flush"}]},
        ),
        Shape(
            "house",
            _of("house", "walls", "height", "facing", "base", "sheathing", "studs", "block", "openings", "gables"),
            {"house": [{"id": "house", "base": "frame"}]},
        ),
        Shape(
            "recoat",
            ("job.built", *_of("house", "walls", "height", "gables", "facing", "base", "behind", "studs",
             "tests.scrape", "tests.water", "tests.tap", "tests.pull", "above_earth", "above_paving", "openings"),
             "recoat.returns", "recoat.weep"),
            {"house": [{"id": "house", "base": "painted plaster", "behind": "frame", "base_edge": "base",
                        "top": "soffit"}]},
            ("house", "recoat"),
        ),
        Shape(
            "patch",
            ("job.built", *_of("ring", "name", "size", "width", "wall", "at", "up", "foot", "facing", "base",
             "sheathing", "studs", "thickness", "proud", "replaced"),
             *_of("patch", *(f"hollow.{side}" for side in SIDES), *(f"lines.{side}" for side in SIDES), "flange",
                  "old", "cut"), "coats.sand"),
            {"ring": [{"id": "window", "base": "frame"}], "patch": [{"surface": "window"}]},
            ("ring", "patch"),
        ),
        Shape(
            "chimney",
            ("job.built", *_of("box", "name", "kind", "sides", "height", "roof", "foot", "facing", "base", "brick",
             "block", "joints", "out_of_plane", "cap")),
            {"box": [{"id": "chimney", "kind": "chimney", "base": "brick", "joints": "flush", "cap": "drip"}]},
            ("box",),
        ),
        Shape(
            "soffit",
            _of("strip", "name", "kind", "length", "width", "foot", "facing", "base", "sheathing", "studs",
                "left.kind", "right.kind"),
            {"strip": [{"id": "soffit", "kind": "soffit", "base": "frame"}]},
            ("strip",),
        ),
    )
}  # fmt: skip


def blank(shape: Shape, today: date) -> dict[str, Any]:
    """The document before anything is filled in; ``today`` counts the days."""
    return {"darby": 1, "job": {"name": "", "as_of": today}, **shape.begin, "coats": {"finish": "float"}}


def document_of(shape: Shape, posted: Mapping[str, str], today: date) -> dict[str, Any]:
    """The document that was filled in."""
    return filled_in("", blank(shape, today), posted, shape.written)


def with_names(tables: Mapping[str, Any], language: Language) -> dict[str, Any]:
    """``tables`` with a name for each shape that was given none, as papers call it: "Garden wall", "Wall 2"."""
    words, made = catalogue(language), dict(tables)
    taken = [str(e["name"]) for s in LINE_SHAPES for e in tables.get(s, ()) if e.get("name")]
    for section in LINE_SHAPES:
        entries = []
        for entry in tables.get(section, ()):
            spelled = words.get(f"desk.line.shape.{entry.get('kind', section)}", "").partition("|")[0].capitalize()
            stem, number = spelled, 1
            while spelled in taken:
                number += 1
                spelled = f"{stem} {number}"
            if spelled and not entry.get("name"):
                taken.append(spelled)
                entry = {**entry, "name": spelled}
            entries.append(entry)
        if entries:
            made[section] = entries
    return made


UNSAID: Mapping[str, Mapping[str, str]] = {
    "wall": {"base": "block"}, "house": {"base": "frame"}, "garden_wall": {"base": "block", "cap": "drip"},
    "box": {"base": "brick", "cap": "drip"}, "strip": {"base": "frame"},
}  # fmt: skip
"""What a shape is made of, and how its top is kept dry, where a line does not say; as in the forms of one shape."""


def with_lines(
    tables: Mapping[str, Any], text: str, language: Language = "en"
) -> tuple[dict[str, Any], tuple[tuple[int, str, Fault], ...]]:
    """``tables`` with a shape for each line of ``text``, and what cannot be read: (number of the line, what, why).

    A line that begins as an opening does (``window 3040 at 10', sill 3'``) stands in the wall above it; with a number
    before it (``2: door 3068 at 4'``) in that wall of the house or that side of the box above it. What a shape must
    have and nobody says is as the forms begin with it.
    """
    made = dict(tables)
    faults: list[tuple[int, str, Fault]] = []
    last: dict[str, Any] | None = None
    for number, line in enumerate(text[:MOST].replace("\r\n", "\n").split("\n"), 1):
        if not line.strip():
            continue
        try:
            if last is not None and _opened(last, line.strip()):
                continue
            said = said_line(line, made, None, language)
        except Misspelled as wrong:
            faults.append((number, line[wrong.start : wrong.stop] or line, wrong.fault))
            continue
        last = {**said.entry, **{k: v for k, v in UNSAID.get(said.section, {}).items() if k not in said.entry}}
        made[said.section] = [*made.get(said.section, []), last]
    return made, tuple(faults)


def _opened(entry: dict[str, Any], line: str) -> bool:
    """Whether the line is an opening of ``entry``, which then has it."""
    numbered = NUMBERED.fullmatch(line)
    text = numbered["rest"] if numbered else line
    kind, rest = begins(text, spellings("opening"))
    if not kind or not rest:
        return False
    by_number = "walls" in entry or "sides" in entry
    if by_number != bool(numbered):
        raise Misspelled(_place_fault(line, by_number=by_number), Part(line, 0))
    opening = read_lines([text], "opening", None)[0]
    if isinstance(opening, str):
        opening = said_opening(text)
    if numbered:
        entry.setdefault("openings", {}).setdefault(numbered["number"], []).append(opening)
    else:
        entry.setdefault("openings", []).append(opening)
    return True


def _place_fault(line: str, *, by_number: bool) -> Fault:
    return Fault("desk.line.part", "line", line, "2: window 3040 at 10', sill 3'" if by_number else "3068 at 4'")
