"""What was found on an old wall, by hand: an area or a line tapped on it, and the list that says the same."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from darby.desk.sketching.spelling import exactly
from darby.job.places import Loc, place

if TYPE_CHECKING:
    from darby.job import Job
    from darby.job.condition import Survey
    from darby.measure.units import System

Kind = Literal["hollow", "crack", "loose"]
KINDS: tuple[Kind, ...] = ("hollow", "crack", "loose")
POINTS: Mapping[str, str] = {"hollow": "outline", "crack": "line", "loose": "outline"}
"""Kind of a finding to the key of its points in the job file."""
MORE: Mapping[str, tuple[str, ...]] = {
    "hollow": ("name", "push", "lath"),
    "crack": ("name", "width"),
    "loose": ("name",),
}
CHOICES: Mapping[str, tuple[str, ...]] = {"push": ("firm", "gives"), "lath": ("tight", "loose")}
BOXED = ("size", "at", "up")
FIRST = "points"


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a finding: its name in the form, its key in the file, what stands in it, what is wrong with it."""

    name: str
    key: str
    text: str
    choices: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding of the list. ``number`` counts those of its kind, from 1."""

    kind: Kind
    n: int
    name: str
    fields: tuple[Field, ...]

    @property
    def number(self) -> int:
        """As people count."""
        return self.n + 1


def survey_of(job: Job, at: str) -> Survey | None:
    """What the job says of one wall, a surface or a wall that is only looked at."""
    return next((s for s in job.survey if at in (s.surface, s.wall.id if s.wall is not None else "")), None)


def index_of(tables: Mapping[str, Any], at: str) -> int | None:
    """Which [[survey]] of the document is this wall's."""
    rows = tables.get("survey", [])
    return next((n for n, row in enumerate(rows) if at in (row.get("surface"), row.get("id"))), None)


def findings(
    tables: Mapping[str, Any], job: Job, at: str, system: System,
    posted: Mapping[str, str] | None = None, faults: Mapping[str, Sequence[str]] | None = None,
) -> list[Finding]:  # fmt: skip
    """Every finding of one wall with its fields; ``posted`` and ``faults`` as they come back with the page."""
    n, said = index_of(tables, at), survey_of(job, at)
    if n is None or said is None:
        return []
    corners = {"hollow": [h.outline for h in said.hollow], "loose": [x.outline for x in said.loose]}
    made = []
    for kind in KINDS:
        for m, row in enumerate(tables["survey"][n].get(kind, [])):
            name = f"{kind}.{m}"
            rows = row.get(POINTS[kind]) or [
                f"{exactly(u, system)}, {exactly(v, system)}" for u, v in corners.get(kind, [])[m]
            ]
            texts = {FIRST: "\n".join(rows), **{key: str(row.get(key, "")) for key in MORE[kind]}}
            fields = tuple(
                Field(f"{name}.{key}", key, (posted or {}).get(f"{name}.{key}", text).replace("\r\n", "\n"),
                      CHOICES.get(key, ()), tuple((faults or {}).get(f"{name}.{key}", ())))
                for key, text in texts.items()
            )  # fmt: skip
            made.append(Finding(kind, m, str(row.get("name", "")), fields))
    return made


def added(tables: Mapping[str, Any], at: str, posted: Mapping[str, str]) -> dict[str, Any]:
    """The document with one finding more, as the form said it."""
    made = deepcopy(dict(tables))
    kind = posted.get("kind", "")
    kind = kind if kind in KINDS else KINDS[0]
    row: dict[str, Any] = {POINTS[kind]: _points(posted.get(FIRST, ""))}
    row |= {key: posted[key].strip() for key in MORE[kind] if posted.get(key, "").strip()}
    n = index_of(made, at)
    if n is None:
        made["survey"] = [*made.get("survey", []), {"surface": at}]
        n = len(made["survey"]) - 1
    entry = made["survey"][n]
    entry[kind] = [*entry.get(kind, []), row]
    return made


def changed(tables: Mapping[str, Any], there: Sequence[Finding], at: str, posted: Mapping[str, str]) -> dict[str, Any]:
    """The document with what is new in the list; what was not touched stays as he wrote it."""
    made = deepcopy(dict(tables))
    n = index_of(made, at)
    if n is None:
        return made
    entry = made["survey"][n]
    for finding in there:
        _rewritten(entry[finding.kind][finding.n], finding, posted)
    for kind in KINDS:
        rows = [row for m, row in enumerate(entry.get(kind, [])) if not posted.get(f"{kind}.{m}.gone")]
        if rows:
            entry[kind] = rows
        else:
            entry.pop(kind, None)
    taps = posted.get("taps")
    if taps is not None and taps.split() != entry.get("taps", []):
        entry["taps"] = taps.split()
        if not entry["taps"]:
            del entry["taps"]
    if set(entry) == {"surface"}:
        made["survey"].pop(n)
    if not made["survey"]:
        del made["survey"]
    return made


def _rewritten(row: dict[str, Any], finding: Finding, posted: Mapping[str, str]) -> None:
    """One finding with what is new of it; a box that is moved is written by its corners."""
    for field in finding.fields:
        text = posted.get(field.name, field.text).replace("\r\n", "\n").strip()
        if text == field.text:
            continue
        if field.key == FIRST:
            for key in BOXED:
                row.pop(key, None)
            row[POINTS[finding.kind]] = _points(text)
        elif text:
            row[field.key] = text
        else:
            row.pop(field.key, None)


def _points(text: str) -> list[str]:
    return [line.strip() for line in text.replace("\r\n", "\n").split("\n") if line.strip()]


def where(tables: Mapping[str, Any], at: str, *, new: str = "") -> dict[str, str]:
    """Places of the document, as faults call them, to the field that says it; of ``new`` the last is the form's."""
    n = index_of(tables, at)
    if n is None:
        return {}
    found: dict[str, str] = {}
    entry = tables["survey"][n]
    for kind in KINDS:
        rows = entry.get(kind, [])
        for m, row in enumerate(rows):
            start = "" if kind == new and m == len(rows) - 1 else f"{kind}.{m}."
            loc: Loc = ("survey", n, kind, m)
            ways: dict[Loc, str] = {loc: FIRST, (*loc, POINTS[kind]): FIRST}
            ways |= {(*loc, POINTS[kind], p): FIRST for p in range(len(row.get(POINTS[kind], [])))}
            ways |= {(*loc, key): key for key in MORE[kind]}
            found |= {place(tables, way): f"{start}{key}" for way, key in ways.items()}
    found |= {place(tables, ("survey", n, "taps", m)): "taps" for m in range(len(entry.get("taps", [])))}
    found[place(tables, ("survey", n, "taps"))] = "taps"
    return found
