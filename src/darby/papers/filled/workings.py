"""The working package, filled from the answers: every line that a number of this job stands on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import TYPE_CHECKING

from darby.answers import Waiting
from darby.papers.filled.ledgers import ledgers
from darby.papers.filled.parts import label, part_called
from darby.papers.model import NoteRow, RuleRow, WorkingGroup, WorkingLine, WorkingPaper, WorkingPart
from darby.words import Verbatim, figure_says, figure_value, figure_where, measured, source_words, unit_names
from darby.working import Found, Note, Step
from darby.working.printing import line

if TYPE_CHECKING:
    from darby.measure.faults import Fault
    from darby.papers.filled.writer import Writer
    from darby.rulebook import Figure

SIGNS = ((" / ", " ÷ "), (" -", " −"), (" <= ", " ≤ "), (" .. ", " – "))
"""Real signs for what a terminal has no key for."""

LATER = ("answers.later",)
"""What a stage lacks that is only run when it is asked for: nothing stands still for that."""

GROUPS = {"job": "paper.working.of-job", "mix": "paper.working.of-mix"}


def working_package(writer: Writer) -> WorkingPaper:
    """Steps of the chosen way, figures, notes. The ways that were not chosen stay with ``darby why``."""
    steps = list(_steps(writer))
    notes = writer.answers.notes
    return WorkingPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.working.title", name=Verbatim(writer.answers.job.name)),
        groups=tuple(_groups(writer, steps)),
        rules=tuple(_rules(writer, steps, notes)),
        ledgers=tuple(ledgers(writer)),
        stops=(*_waiting(writer), *_notes(writer, notes, "stop")),
        cautions=tuple(_notes(writer, notes, "caution")),
        assumed=tuple(_notes(writer, notes, "assumed")),
        facts=tuple(_notes(writer, notes, "fact")),
        language=writer.language,
    )


def _steps(writer: Writer) -> Iterator[Step | Found]:
    """Every step but those of build-ups and of layouts of joints that were not chosen."""
    left = tuple(
        f"{surface}/{zone}/build-up/{option.id}/"
        for surface, coats in writer.answers.good("coats").items()
        for zone, built in coats.zones
        for option in built.options
        if option.id != built.chosen.id
    )
    left += tuple(
        f"{surface}/joints/{layout.name}/"
        for surface, joints in writer.answers.good("joints").items()
        for layout in joints.layouts
        if layout.name != joints.chosen.name
    )
    return (step for step in writer.answers.steps() if not (step.key.startswith(left) or _says_nothing(step)))


def _says_nothing(step: Step | Found) -> bool:
    """A number that is only handed on, with no figure behind it: its line would be "x = x"."""
    return isinstance(step, Step) and not step.rules and len(step.given) == 1 and step.formula == step.given[0][0]


def _groups(writer: Writer, steps: list[Step | Found]) -> Iterator[WorkingGroup]:
    """Steps by surface and by what they are about; each in the order in which it was answered."""
    places: dict[str, dict[str, list[WorkingLine]]] = defaultdict(lambda: defaultdict(list))
    for step in steps:
        place = step.key.partition("/")[0]
        places[place][part_called(writer, step)].append(_line(writer, step))
    for place in sorted(places, key=lambda name: list(GROUPS).index(name) if name in GROUPS else -1):
        title = writer.say(GROUPS[place]) if place in GROUPS else writer.place(place)
        yield WorkingGroup(title, tuple(WorkingPart(name, tuple(some)) for name, some in places[place].items()))


def _line(writer: Writer, step: Step | Found) -> WorkingLine:
    names = dict(unit_names(writer.language))
    if isinstance(step, Found) and writer.knows(step.method):
        names[step.method] = writer.say(step.method)
    text = line(step, writer.system, names)
    if isinstance(step, Found):  # what proves it is written in the units of the book
        text = measured(text, writer.language)
    for typed, printed in SIGNS:
        text = text.replace(typed, printed)
    return WorkingLine(label(writer, step), text, tuple(dict.fromkeys(step.rules)))


def _rules(writer: Writer, steps: list[Step | Found], notes: tuple[Note, ...]) -> Iterator[RuleRow]:
    """Every figure that was used, with its standing, by source."""
    book = writer.answers.book
    used = {rule for thing in (*steps, *notes) for rule in thing.rules}
    local = {f.id: f for f in book.local}
    figures = [figure for name in used if (figure := local.get(name) or book.figures.get(name)) is not None]
    for figure in sorted(figures, key=lambda f: (_source(writer, f), f.id)):
        yield RuleRow(
            id=figure.id,
            says=figure_says(figure, writer.language),
            value=figure_value(figure, writer.language, writer.system),
            source=_source(writer, figure),
            standing=writer.say(f"standing.{figure.standing}"),
            why=figure.why,
            where=figure_where(figure, writer.language),
        )


def _source(writer: Writer, figure: Figure) -> str:
    if figure.why:
        return writer.say("common.local-rule")
    source = writer.answers.book.sources.get(figure.source)
    return ", ".join(x for x in source_words(source, writer.language) if x) if source else figure.source


def _notes(writer: Writer, notes: tuple[Note, ...], grade: str) -> Iterator[NoteRow]:
    for note, places in writer.gathered(n for n in notes if n.grade == grade):
        yield NoteRow(places, writer.note(note), note.rules)


def _waiting(writer: Writer) -> Iterator[NoteRow]:
    """What is not answered, and what it lacks; what only stands behind another is not said."""
    for (stage, at), why in writer.answers.unanswered().items():
        if isinstance(why, Waiting) and why.lacks in ((), LATER):
            continue
        name = f"paper.stage.{stage}"
        called = writer.say(name) if writer.knows(name) else stage
        place = writer.place(at)
        text = _lacks(writer, why.lacks) if isinstance(why, Waiting) else _fault(writer, why)
        yield NoteRow(f"{called}, {place}" if place else called, text)


def _lacks(writer: Writer, codes: tuple[str, ...]) -> str:
    lacks = []
    for code in codes:
        head, dash, work = code.partition("-")
        called = f"paper.work.{work}"
        paced = bool(dash) and head.endswith(".pace")
        lacks.append(writer.say(head, work=writer.say(called) if writer.knows(called) else work) if paced
                     else writer.say(code))  # fmt: skip
    return writer.say("paper.working.waits", lacks=Verbatim(", ".join(lacks)))


def _fault(writer: Writer, fault: Fault) -> str:
    return writer.say(
        fault.code,
        place=Verbatim(writer.place(fault.place)),
        found=Verbatim(fault.found),
        allowed=fault.allowed,
        nearest=Verbatim(fault.nearest),
    )
