"""Batch tickets, filled from the answers: what goes into one batch, how many, and the part batch at the end."""

from __future__ import annotations

from math import floor
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.papers.filled.mixing import material, mix_called, parts_said, so_much
from darby.papers.filled.standing import both_standing, leaning
from darby.papers.filled.writer import Writer
from darby.papers.model import Both, BothCaution, Ticket, TicketPaper, TicketPart
from darby.words import Verbatim

if TYPE_CHECKING:
    from darby.mix import Batch, CoatMix, Mixes
    from darby.mix.model import Ingredient
    from darby.words import Language
    from darby.working import Quantity

MEASURED = {"gal": Fraction(1, 2)}
"""Water is measured at the mixer to so much of a unit, else to whole ones."""

HALF = Fraction(1, 2)


def tickets(writer: Writer, mixes: Mixes) -> TicketPaper | None:
    """A ticket for every mix that is mixed; None if nothing is."""
    mixed = [mix for mix in mixes.coats if mix.batch is not None and mix.batches is not None]
    if not mixed:
        return None
    return TicketPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.tickets.title", name=Verbatim(writer.answers.job.name)),
        tickets=tuple(_ticket(writer, mix) for mix in mixed),
        languages=writer.crew_languages,
    )


def _ticket(writer: Writer, mix: CoatMix) -> Ticket:
    batch, batches = mix.batch, mix.batches
    assert batch is not None
    assert batches is not None
    only = batches.whole == 0 and batches.last is not None
    shown = batches.last if only and batches.last is not None else batch
    count = "one" if only else ("count" if batches.last is None else "and-part") + ("-one" * (batches.whole == 1))
    return Ticket(
        mix=Both(*(mix_called(writer, mix, name) for name in writer.crew_languages)),
        where=Both(*(writer.listed(_where(writer, mix), name) for name in writer.crew_languages)),
        makes=writer.both("paper.tickets.makes", mortar=shown.mortar),
        batches=writer.both(f"paper.tickets.{count}", whole=batches.whole),
        boxes=max(batches.whole + (batches.last is not None), 1),
        parts=tuple(_parts(writer, mix, shown)),
        last=_last(writer, mix, batches.last) if batches.last is not None and not only else Both(""),
        notes=tuple(_notes(writer, mix, shown)),
        cautions=(BothCaution(writer.both("paper.opening.safety.cement"), writer.both("paper.tickets.cement")),),
    )


def _where(writer: Writer, mix: CoatMix) -> list[str]:
    """The surfaces this mix goes on."""
    name = mix.id.removeprefix("mix/")
    return [
        writer.place(surface)
        for surface, volumes in writer.answers.good("volumes").items()
        if any(m.mix == name for m in volumes.by_mix)
    ]


def _parts(writer: Writer, mix: CoatMix, batch: Batch) -> list[TicketPart]:
    parts = []
    for ingredient in batch.ingredients:
        what = Both(*(material(writer, mix, ingredient.material, name) for name in writer.crew_languages))
        parts.append(_counted(writer, what, _bags(writer, ingredient), ingredient.bags))
    if batch.sand is not None:
        kind = "shovels" if batch.sand.count.unit.name == "shovels" else "buckets"
        sand = writer.both("paper.material.sand")
        parts.append(_counted(writer, sand, writer.both(f"paper.tickets.{kind}"), batch.sand.count))
    if batch.water_usual is not None:
        parts.append(_water(writer, batch, batch.water_usual))
    return parts


def _bags(writer: Writer, ingredient: Ingredient) -> Both:
    """Whole and half bags are counted; any other part of a bag is weighed."""
    halves = Fraction(ingredient.bags.value).limit_denominator(1000) / HALF
    code = "paper.tickets.bags" if halves.denominator == 1 else "paper.tickets.weigh"
    return writer.both(code, mass=ingredient.mass)


def _water(writer: Writer, batch: Batch, usual: Quantity) -> TicketPart:
    least, most = batch.water_least or usual, batch.water_most or usual
    if least.value == most.value:
        return TicketPart(
            writer.both("paper.material.water"), writer.both("paper.tickets.by-label"), writer.write(usual)
        )
    return TicketPart(
        what=writer.both("paper.material.water"),
        measure=writer.both("paper.tickets.by-feel"),
        count=writer.span(least, most, MEASURED),
        note=writer.both("paper.tickets.hold-back"),
    )


def _counted(writer: Writer, what: Both, measure: Both, count: Quantity) -> TicketPart:
    """Tally marks for whole ones, a short stroke for a part, and the figure."""
    value = Fraction(count.value).limit_denominator(1000)
    return TicketPart(what, measure, writer.count(value), floor(value), part=value != floor(value))


def _notes(writer: Writer, mix: CoatMix, batch: Batch) -> list[Both]:
    notes = []
    if mix.parts is not None:
        said = [
            writer.say("paper.tickets.by-volume", name, parts=Verbatim(parts_said(writer, mix, name)))
            for name in writer.crew_languages
        ]
        notes.append(Both(*said))
    notes.append(writer.both("paper.tickets.use-within", within=mix.use_within))
    behind = (batch.mortar, batch.water_least, batch.water_most)
    if leaning(writer, *behind):
        how_sure = both_standing(writer, *behind)
        texts = (how_sure.first, how_sure.second)[: len(writer.crew_languages)]
        said = [
            writer.say("paper.tickets.leans", name, standing=Verbatim(text))
            for name, text in zip(writer.crew_languages, texts, strict=True)
        ]
        notes.append(Both(*said))
    return notes


def _last(writer: Writer, mix: CoatMix, last: Batch) -> Both:
    """What the part batch at the end takes."""
    return Both(*(writer.say("paper.tickets.last", name, parts=Verbatim(_taken(writer, mix, last, name)))
                  for name in writer.crew_languages))  # fmt: skip


def _taken(writer: Writer, mix: CoatMix, last: Batch, language: Language) -> str:
    taken = [(writer.counted(i.bags, language), material(writer, mix, i.material, language)) for i in last.ingredients]
    if last.sand is not None:
        taken.append((writer.counted(last.sand.count, language), writer.say("paper.material.sand", language)))
    if last.water_usual is not None and last.water_least is None:
        taken.append((writer.write(last.water_usual, language), writer.say("paper.material.water", language)))
    return ", ".join(so_much(writer, count, what, language) for count, what in taken)
