"""Batch tickets, filled from the answers: what goes into one batch, how many, and the part batch at the end."""

from __future__ import annotations

from math import floor
from typing import TYPE_CHECKING

from darby.papers.filled.mixing import mix_called, parts_said
from darby.papers.filled.writer import Writer
from darby.papers.model import Both, BothCaution, Ticket, TicketPaper, TicketPart

if TYPE_CHECKING:
    from darby.mix import Batch, CoatMix, Mixes


def tickets(writer: Writer, mixes: Mixes) -> TicketPaper:
    """A ticket for every mix that is mixed."""
    mixed = [mix for mix in mixes.coats if mix.batch is not None and mix.batches is not None]
    return TicketPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("papers.tickets.title", name=writer.answers.job.name),
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
    count = "papers.tickets.one" if only else "papers.tickets.count" if batches.last is None else "papers.tickets.and-part"
    return Ticket(
        mix=Both(*(mix_called(writer, mix, name) for name in two)),
        where=Both(where),
        makes=writer.both("papers.tickets.makes", mortar=shown.mortar),
        batches=writer.both(count, whole=str(batches.whole)),
        boxes=max(batches.whole + (batches.last is not None), 1),
        parts=tuple(_parts(writer, mix, shown)),
        last=_last(writer, mix, batches.last) if batches.last is not None and not only else Both(""),
        notes=(Both(*(parts_said(writer, mix, name) for name in two)),
               writer.both("papers.tickets.use-within", within=mix.use_within)),
        cautions=(BothCaution(writer.both("papers.opening.safety.cement"), writer.both("papers.tickets.cement")),),
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
    if mix.bagged is not None:
        parts.append(_counted(writer, Both(mix.bagged.name), writer.both("papers.tickets.bags"), batch.bags))
    for ingredient in batch.ingredients:
        what = writer.both(f"papers.material.{ingredient.material}")
        measure = writer.both("papers.tickets.bags-mass", mass=ingredient.mass)
        parts.append(_counted(writer, what, measure, ingredient.bags))
    if batch.sand is not None:
        kind = "shovels" if batch.sand.count.unit.name == "shovels" else "buckets"
        parts.append(
            _counted(
                writer, writer.both("papers.material.sand"), writer.both(f"papers.tickets.{kind}"), batch.sand.count
            )
        )
    if batch.water_usual is not None:
        least, most = batch.water_least or batch.water_usual, batch.water_most or batch.water_usual
        parts.append(
            TicketPart(
                what=writer.both("papers.material.water"),
                measure=writer.both("papers.tickets.by-feel"),
                count=_span(writer.write(least), writer.write(most)),
                note=writer.both("papers.tickets.hold-back"),
            )
        )
    return parts


def _span(low: str, high: str) -> str:
    number, _, unit = low.partition(" ")
    other = high.partition(" ")[0]
    return f"{number}–{other} {unit}" if number != other else low


def _counted(writer: Writer, what: Both, measure: Both, count: object) -> TicketPart:
    """Tally marks for whole ones, a short stroke for a part, and the figure."""
    value = float(count)  # type: ignore[arg-type]
    whole = floor(value + 1e-9)
    return TicketPart(what, measure, writer.write(count).split(" bag")[0].split(" saco")[0].split(" buck")[0].split(" cubet")[0],
                      whole, part=value - whole > 1e-9)  # fmt: skip


def _last(writer: Writer, mix: CoatMix, last: Batch) -> Both:
    """What the part batch at the end takes."""
    texts = []
    for name in writer.crew_languages[:2]:
        said = [f"{writer.write(i.bags, name)} {writer.say(f'papers.material.{i.material}', name)}" for i in last.ingredients]
        if mix.bagged is not None:
            said = [f"{writer.write(last.bags, name)} {mix.bagged.name}"]
        if last.sand is not None:
            said.append(f"{writer.write(last.sand.count, name)} {writer.say('papers.material.sand', name)}")
        texts.append(writer.say("papers.tickets.last", name, parts=", ".join(said)))
    return Both(*texts)
