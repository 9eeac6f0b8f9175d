"""Batch tickets, filled from the answers: what goes into one batch, how many, and the part batch at the end."""

from __future__ import annotations

from fractions import Fraction
from math import floor
from typing import TYPE_CHECKING

from darby.measure.writing import shown as _shown
from darby.papers.filled.mixing import mix_called, parts_said
from darby.papers.filled.writer import Writer
from darby.papers.model import Both, BothCaution, Ticket, TicketPaper, TicketPart
from darby.words import Language
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.mix import Batch, CoatMix, Mixes


def tickets(writer: Writer, mixes: Mixes) -> TicketPaper:
    """A ticket for every mix that is mixed."""
    mixed = [mix for mix in mixes.coats if mix.batch is not None and mix.batches is not None]
    return TicketPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.tickets.title", name=writer.answers.job.name),
        tickets=tuple(_ticket(writer, mix) for mix in mixed),
        languages=writer.crew_languages[:2],
    )


def _ticket(writer: Writer, mix: CoatMix) -> Ticket:
    batch, batches = mix.batch, mix.batches
    assert batch is not None
    assert batches is not None
    two = writer.crew_languages[:2]
    where = "; ".join(_where(writer, mix.id.removeprefix("mix/")))
    only = batches.whole == 0 and batches.last is not None
    shown = batches.last if only and batches.last is not None else batch
    count = (
        "paper.tickets.one" if only else "paper.tickets.count" if batches.last is None else "paper.tickets.and-part"
    )
    return Ticket(
        mix=Both(*(mix_called(writer, mix, name) for name in two)),
        where=Both(where),
        makes=writer.both("paper.tickets.makes", mortar=shown.mortar),
        batches=writer.both(count, whole=str(batches.whole)),
        boxes=max(batches.whole + (batches.last is not None), 1),
        parts=tuple(_parts(writer, mix, shown)),
        last=_last(writer, mix, batches.last) if batches.last is not None and not only else Both(""),
        notes=(Both(*(parts_said(writer, mix, name) for name in two)),
               writer.both("paper.tickets.use-within", within=mix.use_within)),
        cautions=(BothCaution(writer.both("paper.opening.safety.cement"), writer.both("paper.tickets.cement")),),
    )  # fmt: skip


def _where(writer: Writer, name: str) -> list[str]:
    """The surfaces this mix goes on."""
    return [
        writer.place(surface)
        for surface, volumes in writer.answers.good("volumes").items()
        if any(m.mix == name for m in volumes.by_mix)
    ]


def _parts(writer: Writer, mix: CoatMix, batch: Batch) -> list[TicketPart]:
    parts = []
    for ingredient in batch.ingredients:
        what = Both(*(_called(writer, mix, ingredient.material, name) for name in writer.crew_languages[:2]))
        measure = writer.both("paper.tickets.bags-mass", mass=ingredient.mass)
        parts.append(_counted(what, measure, ingredient.bags))
    if batch.sand is not None:
        kind = "shovels" if batch.sand.count.unit.name == "shovels" else "buckets"
        parts.append(
            _counted(writer.both("paper.material.sand"), writer.both(f"paper.tickets.{kind}"), batch.sand.count)
        )
    if batch.water_usual is not None:
        least, most = batch.water_least or batch.water_usual, batch.water_most or batch.water_usual
        parts.append(
            TicketPart(
                what=writer.both("paper.material.water"),
                measure=writer.both("paper.tickets.by-feel"),
                count=_span(writer.write(least), writer.write(most)),
                note=writer.both("paper.tickets.hold-back"),
            )
        )
    return parts


def _called(writer: Writer, mix: CoatMix, material: str, language: Language) -> str:
    """A material in the crew's words; a bagged one by the name on its bag."""
    if mix.bagged is not None:
        return mix.bagged.name
    return writer.say(f"paper.material.{material}", language)


def _span(low: str, high: str) -> str:
    number, _, unit = low.partition(" ")
    other = high.partition(" ")[0]
    return f"{number}–{other} {unit}" if number != other else low


def _counted(what: Both, measure: Both, count: Quantity) -> TicketPart:
    """Tally marks for whole ones, a short stroke for a part, and the figure."""
    value = Fraction(count.value).limit_denominator(16)
    return TicketPart(what, measure, _shown(value, None), floor(value), part=value != floor(value))


def _last(writer: Writer, mix: CoatMix, last: Batch) -> Both:
    """What the part batch at the end takes."""
    texts = []
    for name in writer.crew_languages[:2]:
        said = [f"{writer.write(i.bags, name)} {_called(writer, mix, i.material, name)}" for i in last.ingredients]
        if last.sand is not None:
            said.append(f"{writer.write(last.sand.count, name)} {writer.say('paper.material.sand', name)}")
        texts.append(writer.say("paper.tickets.last", name, parts=", ".join(said)))
    return Both(*texts)
