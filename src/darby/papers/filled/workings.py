"""The working package, filled from the answers: every line that a number of this job stands on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import TYPE_CHECKING

from darby.papers.filled.writer import Writer
from darby.papers.model import Ledger, LedgerRow, NoteRow, RuleRow, WorkingGroup, WorkingLine, WorkingPaper
from darby.words import unit_names
from darby.working import Found, Note, Step
from darby.working.printing import line

if TYPE_CHECKING:
    from darby.rulebook import Figure

SOFT = ("memory", "common practice", "trial")


def working_package(writer: Writer) -> WorkingPaper:
    """Steps of the chosen way, figures, notes. The ways that were not chosen stay with ``darby why``."""
    steps = list(_steps(writer))
    by_place: dict[str, list[Step | Found]] = defaultdict(list)
    for step in steps:
        by_place[step.key.partition("/")[0]].append(step)
    notes = writer.answers.notes
    return WorkingPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.working.title", name=writer.answers.job.name),
        groups=tuple(
            WorkingGroup(_group(writer, place), tuple(_line(writer, step) for step in found))
            for place, found in by_place.items()
        ),
        rules=tuple(_rules(writer, steps, notes)),
        ledgers=tuple(_ledgers(writer)),
        stops=tuple(_notes(writer, notes, "stop")),
        cautions=tuple(_notes(writer, notes, "caution")),
        assumed=tuple(_notes(writer, notes, "assumed")),
        facts=tuple(_notes(writer, notes, "fact")),
        language=writer.language,
    )


def _steps(writer: Writer) -> Iterator[Step | Found]:
    """Every step but those of build-ups that were not chosen."""
    chosen = {
        f"{surface}/{zone}/build-up/{built.chosen.id}/"
        for surface, coats in writer.answers.good("coats").items()
        for zone, built in coats.zones
    }
    for step in writer.answers.steps():
        if "/build-up/" not in step.key or any(step.key.startswith(start) for start in chosen):
            yield step


def _group(writer: Writer, place: str) -> str:
    known = {"job": "paper.working.of-job", "mix": "paper.working.of-mix"}
    return writer.say(known[place]) if place in known else writer.place(place)


def _line(writer: Writer, step: Step | Found) -> WorkingLine:
    text = line(step, writer.system, unit_names(writer.language))
    rules = step.rules if isinstance(step, Step) else ()
    return WorkingLine(writer.say(step.says), text, tuple(dict.fromkeys(rules)))


def _rules(writer: Writer, steps: list[Step | Found], notes: tuple[Note, ...]) -> Iterator[RuleRow]:
    """Every figure that was used, with its source and standing."""
    book = writer.answers.book
    used = [rule for step in steps if isinstance(step, Step) for rule in step.rules]
    used += [rule for note in notes for rule in note.rules]
    local = {f.id: f for f in book.local}
    for name in sorted(set(used)):
        figure = local.get(name) or book.figures.get(name)
        if figure is not None:
            yield RuleRow(
                id=figure.id,
                says=figure.says,
                value=_value(writer, figure),
                source=_source(writer, figure),
                standing=writer.say(f"standing.{figure.standing}"),
                why=figure.why,
            )


def _value(writer: Writer, figure: Figure) -> str:
    return figure.written if figure.kind == "rule" else writer.write(figure)


def _source(writer: Writer, figure: Figure) -> str:
    source = writer.answers.book.sources.get(figure.source)
    title = ", ".join(x for x in (source.title, source.publisher, source.year) if x) if source else figure.source
    return f"{title}; {figure.where}"


def _notes(writer: Writer, notes: tuple[Note, ...], grade: str) -> Iterator[NoteRow]:
    for note, places in writer.gathered(n for n in notes if n.grade == grade):
        yield NoteRow(places, writer.note(note), note.rules)


def _ledgers(writer: Writer) -> Iterator[Ledger]:
    """The answers at a glance: build-up by place, order, price."""
    rows = []
    for surface, coats in writer.answers.good("coats").items():
        for zone, built in coats.zones:
            what = f"{writer.say(f'buildup.option.{built.chosen.id}')}, {writer.write(built.chosen.nominal)}"
            soft = bool(built.chosen.voices) and built.chosen.voices[0].standing in SOFT
            rows.append(LedgerRow(writer.place(f"{surface}/{zone}"), what, soft))
    yield Ledger(writer.say("paper.working.put-on"), tuple(rows))
    order = writer.answers.good("order").get("job")
    if order is not None:
        yield Ledger(
            writer.say("paper.working.order"),
            tuple(LedgerRow(x.name or writer.say(x.says), writer.write(x.packages or x.needed)) for x in order.lines),
        )
    price = writer.answers.good("price").get("job")
    if price is not None:
        yield Ledger(
            writer.say("paper.working.money"),
            (
                LedgerRow(writer.say("price.labor"), writer.write(price.loaded.labor)),
                LedgerRow(writer.say("price.material"), writer.write(price.loaded.material)),
                LedgerRow(writer.say("price.rest"), writer.write(price.loaded.rest)),
                LedgerRow(writer.say("price.cost"), writer.write(price.loaded.cost)),
                LedgerRow(writer.say("price.overhead-all"), writer.write(price.loaded.overhead)),
                LedgerRow(writer.say("price.profit"), writer.write(price.loaded.profit)),
                LedgerRow(writer.say("price.total"), writer.write(price.total)),
                LedgerRow(writer.say("price.markup"), writer.write(price.markup)),
                LedgerRow(writer.say("price.margin"), writer.write(price.margin)),
            ),
        )
