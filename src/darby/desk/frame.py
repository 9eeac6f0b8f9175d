"""The common frame of a stage's page: cautions, tables, and every number with its working opening in place.

Nothing is computed: rows come from ``darby.tables``, lines of working from ``darby.working``. For the crew, whatever
holds money is left out here, and refused at the door if it should come through all the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING, Any

from darby.desk.money import MONEY
from darby.desk.once import once, once_a_step
from darby.job import schema
from darby.measure.writing import shown
from darby.tables.page import Page
from darby.tables.pages import note_line, page_of, pages
from darby.tables.places import place
from darby.tables.standing import figure_of, others_line, rule_line, said, way_of, ways_not_chosen
from darby.words import catalogue, measured, unit_names
from darby.working import Found, Note, Step
from darby.working.printing import line

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.desk.places import StagePage
    from darby.desk.reading import Read
    from darby.tables.setting import Setting

SERIOUS = ("stop", "caution")
MOST_LINES = 7
"""Lines of working in a row that is opened; the rest is one tap further, on the page of the whole working."""
AT_ONCE = 16
"""More rows than this open place by place."""
LEANS = ("memory", "common practice")


@dataclass(frozen=True, slots=True)
class Caution:
    """A bar: a bold opening, a sentence."""

    opening: str
    text: str
    stop: bool


@dataclass(frozen=True, slots=True)
class Line:
    """A line of arithmetic: what it is, the left side, the result."""

    title: str
    left: str
    right: str


@dataclass(frozen=True, slots=True)
class Row:
    """A number of the ledger. ``soft``: it leans on memory, habit or an assumption."""

    key: str
    title: str
    value: str
    lines: tuple[Line, ...]
    sources: tuple[str, ...]
    soft: bool
    more: bool


@dataclass(frozen=True, slots=True)
class Group:
    """Rows of one place."""

    title: str
    rows: tuple[Row, ...]
    open: bool


def made(page: StagePage, answers: Answers, setting: Setting, *, owner: bool, at: str = "") -> dict[str, Any]:
    """Cautions, tables and ledger of a page: all that hangs on nothing but the answers and who reads."""
    return {
        "cautions": cautions_of(page.stages, answers, setting, owner=owner, at=at) if page.notes else [],
        "tables": tables_of(page, answers, setting, owner=owner),
        "ledger": ledger(page.stages, answers, setting, owner=owner, at=at),
    }


# --- tables --------------------------------------------------------------------------------------------


def tables_of(page: StagePage, answers: Answers, setting: Setting, *, owner: bool) -> list[Page]:
    """The tables of a page's stages, as the terminal prints them."""
    found = [table for stage in page.stages for table in page_of(stage, answers, setting)]
    return found if owner else [without_money(table) for table in found]


def without_money(table: Page) -> Page:
    """The table without columns, rows and sentences that hold money."""
    columns = [n for n in range(len(table.heads)) if not any(len(r) > n and MONEY.search(r[n]) for r in table.rows)]

    def kept(row: tuple[str, ...]) -> tuple[str, ...]:
        return row if len(row) == 1 else tuple(cell for n, cell in enumerate(row) if n in columns)

    at = {old: new for new, old in enumerate(columns)}
    rows = tuple(kept(row) for row in table.rows if not (len(row) == 1 and MONEY.search(row[0])))
    return replace(
        table,
        heads=tuple(table.heads[n] for n in columns),
        rows=rows,
        last=() if any(MONEY.search(cell) for cell in table.last) else kept(table.last),
        lines=tuple(text for text in table.lines if not MONEY.search(text)),
        text=tuple(text for text in table.text if not MONEY.search(text)),
        right=frozenset(at[n] for n in table.right if n in at),
        whole=frozenset(at[n] for n in table.whole if n in at),
    )


# --- cautions ------------------------------------------------------------------------------------------


def cautions_of(
    stages: Sequence[str], answers: Answers, setting: Setting, *, owner: bool, at: str = ""
) -> list[Caution]:
    """What the notes of these stages ask him to take care of, stops first, each said once with its places."""
    own = {id(n) for (stage, _), k in answers.kept.items() if stage in stages for n in k.working.notes}
    notes = [n for n in answers.notes if n.grade in SERIOUS and id(n) in own and _at(n, at)]
    notes.sort(key=lambda n: (n.grade != "stop", n.at == "job"))
    return bars(notes, answers, setting, owner=owner)


def bars(notes: Iterable[Note], answers: Answers, setting: Setting, *, owner: bool) -> list[Caution]:
    """Notes as bars; the same words at several places stand once."""
    places: dict[tuple[str, bool], list[str]] = {}
    for note in notes:
        text = note_line(note, setting, answers)
        if not owner and MONEY.search(text):
            continue
        called = place(answers, note.at, setting)
        at = places.setdefault((text, note.grade == "stop"), [])
        if called and called not in at:
            at.append(called)
    return [Caution("; ".join(at), text, stop) for (text, stop), at in places.items()]


def _at(note: Note, at: str) -> bool:
    return not at or note.at == "job" or note.at.partition("/")[0] == at or at.startswith(f"{note.at}-")


# --- numbers and their working -------------------------------------------------------------------------


def ledger(stages: Sequence[str], answers: Answers, setting: Setting, *, owner: bool, at: str = "") -> list[Group]:
    """The numbers that these stages hand on, grouped by place; each opens to its working and sources."""
    steps = {k: s for (name, _), kept in answers.kept.items() if name in stages for k, s in kept.working.steps.items()}
    beneath = {key for step in steps.values() for key in step.after}
    ways = ways_not_chosen(answers)
    groups: dict[str, list[Row]] = {}
    for key, step in steps.items():
        if key in beneath or way_of(key) in ways or (at and key.partition("/")[0] != at):
            continue
        row = row_of(step, answers, setting)
        if owner or not _money_in(row):
            groups.setdefault(place(answers, key, setting), []).append(row)
    few = sum(map(len, groups.values())) <= AT_ONCE
    return [Group(t, _told_apart(rows, setting), few or n == 0) for n, (t, rows) in enumerate(groups.items())]


NAMES = ("quantities.item", "buildup.coat", "buildup.option", "grounds.face", "cli.work")
"""Where a part of a key may have its name."""


def _told_apart(rows: Sequence[Row], setting: Setting) -> tuple[Row, ...]:
    """Rows with the same title get what their keys differ in: the item, the coat, the number of the trip."""
    by_title: dict[str, list[Row]] = {}
    for row in rows:
        by_title.setdefault(row.title, []).append(row)
    words = catalogue(setting.language)

    def named(part: str) -> str:
        codes = (f"{start}.{part.replace(' ', '-')}" for start in NAMES)
        stem, _, number = part.rpartition("-")
        counted = words.get(f"desk.part.{stem}", "").format(number=number) if number.isdigit() else ""
        return next((words[c] for c in codes if c in words), counted) or (part if part[-1:].isdigit() else "")

    def apart(row: Row) -> Row:
        alike = by_title[row.title]
        common = set.intersection(*(set(r.key.split("/")) for r in alike))
        own = [name for part in row.key.split("/") if part not in common for name in [named(part)] if name]
        return replace(row, title=f"{row.title}: {', '.join(own).lower()}") if len(alike) > 1 and own else row

    return tuple(apart(row) for row in rows)


def row_of(step: Step | Found, answers: Answers, setting: Setting, *, only: bool = False) -> Row:
    """One number with the lines it was made of, the last one last, and who says so; ``only`` its own line."""
    order: list[Step | Found] = []
    ahead = [step]
    while ahead and len(order) < MOST_LINES:
        here = ahead.pop(0)
        if here in order:
            continue
        order.append(here)
        ahead += [] if only else [answers.step(key) for key in here.after]
    cited: set[str] = set()
    sources: list[str] = []
    soft = False
    for one in order:
        for rule in dict.fromkeys(one.rules):
            figure = figure_of(answers, rule)
            soft = soft or (figure is not None and figure.standing in LEANS)
            if rule not in cited:
                sources.append(rule_line(answers, rule, setting, cited))
                if others := others_line(answers, rule, setting):
                    sources.append(others)
    lines = [part for one in reversed(order) for part in _lines(one, setting)]
    return Row(step.key, setting.say(step.says), _value(step, setting), tuple(lines), tuple(sources), soft, bool(ahead))


def _value(step: Step | Found, setting: Setting) -> str:
    return shown(step.value, step.unit, setting.system, names=unit_names(setting.language))


def _lines(step: Step | Found, setting: Setting) -> list[Line]:
    return once_a_step(step, setting, make=lambda: _lines_of(step, setting))


def _lines_of(step: Step | Found, setting: Setting) -> list[Line]:
    title = setting.say(step.says)
    if isinstance(step, Found):
        return [
            Line(title, setting.say(step.method), _value(step, setting)),
            *(Line("", measured(proof, setting.language), "") for proof in step.proof),
        ]
    made = []
    for text in said(line(step, setting.system, unit_names(setting.language)), alone=True):
        left, equals, right = text.rpartition(" = ")
        made.append(Line(title, left, right) if equals else Line(title, "", text))
    return made


def _money_in(row: Row) -> bool:
    texts = (
        row.title,
        row.value,
        *row.sources,
        *(t for part in row.lines for t in (part.title, part.left, part.right)),
    )
    return any(MONEY.search(text) for text in texts)


# --- what went in, what waits, what changed ------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Given:
    """A section of the job file that went into the page: its key, its name, its entries: (name, what it says)."""

    key: str
    title: str
    entries: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


def given(page: StagePage, read: Read, setting: Setting, at: str = "") -> list[Given]:
    """The sections of the job that this page's answers are made from; one that is not there can be begun.

    ``at``: of named entries only the one that wrote this surface.
    """
    found = []
    for key in page.sections:
        value = read.tables.get(key)
        entries = value if isinstance(value, list) else [value] if value is not None else []
        found.append(
            Given(key, section_title(key, setting), tuple(_entry(e, key, setting) for e in entries if _wrote(e, at)))
        )
    return found


def section_title(key: str, setting: Setting) -> str:
    """What a section of the job file is called."""
    return catalogue(setting.language).get(f"desk.section.{key}", key.replace("_", " "))


def field_title(key: str, setting: Setting, within: str = "") -> str:
    """What a key of the job file is called, ``within`` that table; the file's own word where it has no other name."""
    words = catalogue(setting.language)
    return words.get(f"desk.field.{within}.{key}") or words.get(f"desk.field.{key}", key.replace("_", " "))


def _wrote(entry: object, at: str) -> bool:
    """Whether an entry wrote the surface: "bay-south" itself, "wall" of a garden wall its "wall-front"."""
    id = entry.get("id") if isinstance(entry, dict) else None
    return not at or id is None or at == id or at.startswith(f"{id}-")


NAMED_BY = ("name", "id", "what", "item")
"""Keys by which an entry of the job file is known, the best first."""


@cache
def _chosen() -> Mapping[str, frozenset[str]]:
    """By key of the job file the words that can be chosen there."""
    found: dict[str, set[str]] = {}

    def walk(key: str, node: Mapping[str, Any]) -> None:
        found.setdefault(key, set()).update(map(str, node.get("enum", ())))
        for inner, its in (*node.get("properties", {}).items(), *((key, one) for one in node.get("oneOf", ()))):
            walk(inner, its)
        if isinstance(node.get("items"), Mapping):
            walk(key, node["items"])

    whole = schema("job")
    for part in (whole, *whole["$defs"].values()):
        walk("", part)
    return {key: frozenset(chosen) for key, chosen in found.items() if chosen}


def _entry(entry: object, section: str, setting: Setting) -> tuple[str, tuple[tuple[str, str], ...]]:
    if not isinstance(entry, dict):
        return str(entry), ()
    named = next((key for key in NAMED_BY if entry.get(key)), "")
    name = _short(entry[named], named, setting) if named else ""
    said = [
        (field_title(k, setting, section), _short(v, k, setting)) for k, v in entry.items() if k not in ("id", "name")
    ]
    return name, tuple(said)


def _short(value: object, key: str, setting: Setting) -> str:
    """What stands under a key, in the reader's words where it was chosen from words; of a table a line a key."""
    if isinstance(value, bool):
        return setting.say("desk.yes" if value else "desk.no")
    if isinstance(value, dict):
        parts = ((field_title(k, setting, key), _short(v, k, setting)) for k, v in value.items() if k != "id")
        return "\n".join(f"{title}: {said}" for title, said in parts)
    if isinstance(value, list):
        parted = "\n" if any(isinstance(one, dict) for one in value) else ", "
        return parted.join(_short(v, key, setting) for v in value[:4]) + (" …" if len(value) > 4 else "")
    words = catalogue(setting.language)
    if key == "facing":
        return words.get(f"desk.line.facing.{value}", str(value))
    if isinstance(value, str) and value in _chosen().get(key, ()):
        return words.get(f"desk.choice.{value}") or words.get(f"word.{value}", value)
    return str(value)


@dataclass(frozen=True, slots=True)
class Change:
    """An answer that is another than before."""

    where: str
    what: str
    was: str
    now: str


def changed(before: Answers | None, after: Answers, setting: Setting, *, owner: bool) -> list[Change]:
    """Every cell of every table that reads differently now."""
    if before is None:
        return []
    found = differences(all_tables(before, setting), all_tables(after, setting))
    return [c for c in found if owner or not MONEY.search(f"{c.where} {c.what} {c.was} {c.now}")]


def differences(before: Iterable[Page], after: Iterable[Page]) -> list[Change]:
    """Every cell that reads differently in ``after``."""
    old, new = ({_label(t, r): (t, r) for t in tables for r in _rows(t)} for tables in (before, after))
    found: list[Change] = []
    for label in dict.fromkeys([*old, *new]):
        found += _cells(label, old.get(label), new.get(label))
    return found


def all_tables(answers: Answers, setting: Setting) -> list[Page]:
    """Every table that needs no slow stage."""

    def made() -> list[Page]:
        tables = [table for stage in ("wall", "volumes") for table in page_of(stage, answers, setting)]
        return [*tables, *pages(answers, setting, moved=False)]

    return once(answers, "all tables", setting, make=made)


Labelled = tuple[Page, tuple[str, ...]]


def _rows(table: Page) -> list[tuple[str, ...]]:
    return [row for row in (*table.rows, table.last) if len(row) > 1]


def _label(table: Page, row: tuple[str, ...]) -> tuple[str, str]:
    """A row is known by its first cell; of a joint or a bar by all but the last."""
    return table.title, row[0] if table.stage not in ("joints", "cuts") else " ".join(row[:-1])


def _cells(label: tuple[str, str], old: Labelled | None, new: Labelled | None) -> list[Change]:
    table, name = label
    if old is None or new is None:
        gone, come = (" · ".join(filter(None, x[1][1:])) if x is not None else "" for x in (old, new))
        return [Change(table, name, gone, come)]
    heads = new[0].heads
    pairs = zip(old[1][1:], new[1][1:], strict=False)
    return [
        Change(table, name if len(heads) < 3 else f"{name}, {heads[n + 1].lower()}", was, now)
        for n, (was, now) in enumerate(pairs)
        if was != now and n + 1 < len(heads)
    ]
