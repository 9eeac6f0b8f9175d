"""The customer's quote, filled from the answers."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from darby.answers.alternatives import alternatives
from darby.papers.filled.writer import Writer
from darby.papers.model import Alternative, Caution, Cut, Picture, PriceRow, QuotePaper, WorkRow
from darby.words import day
from darby.working import Amount

if TYPE_CHECKING:
    from darby.answers.coats import SurfaceCoats
    from darby.price.model import Price, QuoteLine

STANDS = 30
"""Days a price stands where the job does not say: the quote then says so itself."""

CUSTOMERS = ("safety.lead-applies", "safety.lead-ask", "safety.asbestos-ask", "buildup.cure-cold", "buildup.cold")
"""Cautions that a customer has to hear; the crew's own stand on the crew's sheets."""


def quote(writer: Writer, price: Price) -> QuotePaper:
    """The letter with the price."""
    job = writer.answers.job
    days = writer.answers.good("days").get("job")
    until = job.as_of + timedelta(days=job.price.stands_days or STANDS)
    weeks = writer.say("paper.quote.opening-days", trips=days.count, span=days.span) if days is not None else ""
    return QuotePaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.quote.title", name=job.name),
        customer=job.customer,
        place=job.address,
        until=writer.say("paper.quote.until", day=day(until, writer.language, weekday=False)),
        opening=" ".join(x for x in (writer.say("paper.quote.opening"), weeks, job.price.says) if x),
        work=tuple(_work(writer)),
        prices=tuple(_price_row(writer, line) for line in price.quote),
        total=writer.write(price.total),
        payment=writer.say("paper.quote.incomplete", items=price.lacks) if not price.complete else "",
        elevations=_elevations(writer),
        cuts=tuple(_cuts(writer)),
        alternatives=tuple(_alternatives(writer)),
        not_included=tuple(_not_included(writer)),
        expect=tuple(_expect(writer)),
        cautions=tuple(_cautions(writer)),
        area_head=writer.say("paper.quote.area-us" if writer.system == "us" else "paper.quote.area-metric"),
        language=writer.language,
    )


def _work(writer: Writer) -> list[WorkRow]:
    """One line a zone: where, how much, what, why."""
    rows = []
    volumes = writer.answers.good("volumes")
    for surface, coats in writer.answers.good("coats").items():
        areas = {a.zone: a.area for a in volumes[surface].areas} if surface in volumes else {}
        for zone, built in coats.zones:
            option = built.chosen
            base = writer.answers.job.base(surface, zone)
            what = writer.say(f"buildup.option.{option.id}")
            rows.append(
                WorkRow(
                    where=writer.place(f"{surface}/{zone}"),
                    area=writer.write(areas[zone]).split(" ")[0] if zone in areas else "",
                    what=f"{what}, {writer.write(option.nominal)}",
                    why=writer.say(f"paper.why.{'lath' if option.lath and base.kind == 'block' else base.kind}"),
                    standing=_standing(writer, option.voices),
                )
            )
    return rows


def _standing(writer: Writer, voices: tuple[object, ...]) -> str:
    """The standing of the ruling figure, where it is not published."""
    standing = getattr(voices[0], "standing", "") if voices else ""
    return writer.say(f"standing.{standing}") if standing in ("memory", "common practice", "trial") else ""


def _price_row(writer: Writer, line: QuoteLine) -> PriceRow:
    if line.kind == "surface":
        surface, _, zone = line.at.partition("/")
        volumes = writer.answers.good("volumes")[surface]
        area = next(a.area for a in volumes.areas if a.zone == zone)
        return PriceRow(writer.place(line.at), writer.write(area), writer.write(line.amount))
    if line.kind == "also":
        what = writer.say(f"paper.also.{line.what}")
        return PriceRow(f"{what}: {line.says}" if line.says else what, "", writer.write(line.amount))
    return PriceRow(writer.say("paper.access", kind=line.what), "", writer.write(line.amount))


def _elevations(writer: Writer) -> tuple[Picture, ...]:
    """The walls that say most: those with openings or with old work beside them, three at the most."""
    told = [s for s in writer.answers.job.surfaces if s.openings or any(e.meets for e in s.edges)]
    return tuple(writer.elevation(s, high=250) for s in (told or list(writer.answers.job.surfaces))[:3])


def _cuts(writer: Writer) -> list[Cut]:
    """One cut for each way of building up, full size, with its reason beside it."""
    cuts: dict[tuple[str, str], Cut] = {}
    for surface, coats in writer.answers.good("coats").items():
        answered: SurfaceCoats = coats
        for zone, built in answered.zones:
            base = writer.answers.job.base(surface, zone)
            sort = (base.kind, built.chosen.id)
            if sort not in cuts:
                reason = built.chosen.reasons[0] if built.chosen.reasons else None
                cuts[sort] = Cut(
                    writer.cut(built.chosen, base.kind, base.joints),
                    writer.say("paper.quote.full-size"),
                    writer.note(reason) if reason is not None else "",
                )
    return list(cuts.values())[:3]


def _alternatives(writer: Writer) -> list[Alternative]:
    rows = []
    for other in alternatives(writer.answers):
        what = writer.say(f"paper.rather.{other.code}", walls="; ".join(writer.place(s) for s in other.surfaces))
        way = "paper.rather.add" if other.change > 0 else "paper.rather.less"
        rows.append(Alternative(what, writer.say(way, amount=Amount(abs(other.change)))))
    return rows


def _not_included(writer: Writer) -> list[str]:
    job = writer.answers.job
    codes = ["mending", "permit", "hidden"]
    if not job.coats.paint:
        codes.insert(0, "paint")
    if any(e.meets is not None for s in job.surfaces for e in s.edges):
        codes.append("lead-test")
    return [writer.say(f"paper.not.{code}") for code in codes]


def _expect(writer: Writer) -> list[str]:
    book = writer.answers.book
    codes = ["hairlines", "tone"]
    if any(b.kind == "block" for b in writer.answers.job.bases):
        codes.insert(1, "joints")
    said = [writer.say(f"paper.expect.{code}") for code in codes]
    return [*said, writer.say("paper.expect.paint", ph=book.number("cure.paint-ph").written)]


def _cautions(writer: Writer) -> list[Caution]:
    """Frost, and what old work may hold."""
    book = writer.answers.book
    cautions = [
        Caution(
            writer.say("paper.caution.frost"),
            writer.say("paper.caution.frost-text", cold=book.number("cure.cold"), hold=book.number("cure.hold-warm")),
        )
    ]
    for note, _ in writer.gathered(n for n in writer.answers.notes if n.code in CUSTOMERS):
        cautions.append(Caution(writer.say("paper.caution.old-work"), writer.note(note)))
    for surface, coats in writer.answers.good("coats").items():
        for _, built in coats.zones:
            cautions += [
                Caution(writer.say("paper.caution.set-back", wall=writer.place(surface)), writer.note(n))
                for n in (*built.chosen.cautions, *built.notes)
                if n.code.startswith("buildup.set-back")
            ]
    return cautions
