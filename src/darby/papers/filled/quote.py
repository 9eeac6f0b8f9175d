"""The customer's quote, filled from the answers."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta
from typing import TYPE_CHECKING

from darby.answers.alternatives import alternatives
from darby.answers.match import painted_sides
from darby.buildup.model import OLD
from darby.papers.filled.cautions import set_backs
from darby.papers.filled.patch import found_besides
from darby.papers.filled.pictures import MOST, cut_marks, cut_picture, elevations
from darby.papers.filled.places import zone_called
from darby.papers.filled.standing import standing
from darby.papers.model import Alternative, Caution, Cut, KeyItem, Picture, Place, PriceRow, QuotePaper, WorkRow
from darby.words import Verbatim, day
from darby.working import Amount

if TYPE_CHECKING:
    from darby.buildup import BuildUp, Option
    from darby.job import Job
    from darby.job.model import Wanted
    from darby.papers.filled.writer import Writer
    from darby.price.model import Price, QuoteLine
    from darby.quantities.model import ZoneArea
    from darby.working import Note

STANDS = 30
"""Days a price stands where the job does not say: the quote then says so itself."""

CUSTOMERS = {
    "safety.lead-applies": "lead", "safety.lead-ask": "lead", "safety.asbestos-ask": "asbestos",
    "buildup.sprinklers": "sprinklers", "buildup.earth-behind": "earth", "buildup.smooth-finish": "smooth",
}  # fmt: skip
"""Cautions that a customer has to hear, in words of his own, and what opens them; the crew's stand on its sheets."""

BLOCK = ("joints.block-without-joints", "joints.block-far-apart")
"""Where the block itself may crack: the owner hears it before, not after."""

CUTS = 2
"""So many ways of building up are shown in a cut."""


def stands_until(job: Job) -> date:
    """The last day on which the price stands."""
    return job.as_of + timedelta(days=job.price.stands_days or STANDS)


def quote(writer: Writer, price: Price) -> QuotePaper:
    """The letter with the price. It is a price only where ``price.complete``."""
    job = writer.answers.job
    until = stands_until(job)
    pictures, key, abreast = _elevations(writer)
    return QuotePaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.quote.title", name=Verbatim(job.name)),
        customer=job.customer,
        place=job.address,
        until=writer.say("paper.quote.until", day=Verbatim(day(until, writer.language, weekday=False))),
        opening=_opening(writer),
        work=_work(writer),
        prices=tuple(_price_row(writer, line) for line in price.quote),
        total=writer.write(price.total),
        elevations=pictures,
        key=key,
        abreast=abreast,
        cuts=tuple(_cuts(writer)),
        alternatives=tuple(_alternatives(writer)),
        not_included=tuple(_not_included(writer)),
        expect=tuple(_expect(writer)),
        cautions=tuple(cautions(writer)),
        area_head=writer.say("paper.quote.area-us" if writer.system == "us" else "paper.quote.area-metric"),
        language=writer.language,
    )


def _opening(writer: Writer) -> str:
    job, days = writer.answers.job, writer.answers.answered("days")
    said = [writer.say("paper.quote.opening")]
    if any(b.chosen.parting for c in writer.answers.good("coats").values() for _, b in c.zones):
        said.append(writer.say("paper.quote.opening-parted"))
    if job.patches:
        said.append(writer.say("paper.quote.opening-patch"))
    if days is not None:
        said.append(writer.say("paper.quote.opening-days", trips=days.count, span=days.span))
    return " ".join([*said, job.price.says] if job.price.says else said)


# --- what goes on ------------------------------------------------------------------------------------------


def _zones(writer: Writer) -> list[tuple[str, str, BuildUp, ZoneArea | None]]:
    """Every zone of every surface: (surface, zone, build-up, its area)."""
    volumes = writer.answers.good("volumes")
    found = []
    for surface, coats in writer.answers.good("coats").items():
        areas = {a.zone: a for a in volumes[surface].areas} if surface in volumes else {}
        found += [(surface, zone, built, areas.get(zone)) for zone, built in coats.zones]
    return found


def _work(writer: Writer) -> tuple[WorkRow, ...]:
    """What goes on, in as few rows as say it: the same on several walls for the same reason is said once."""
    rows: dict[tuple[str, str, str], list[Place]] = defaultdict(list)
    job = writer.answers.job
    for surface, zone, built, area in _zones(writer):
        base, option = job.base(surface, zone), built.chosen
        what = [writer.say(f"buildup.option.{option.id}"), writer.write(option.nominal)]
        finish = job.coats.wanted(surface, zone).finish or job.coats.finish
        if finish != "none":
            what.append(writer.say(f"paper.finish.{finish}"))
        why = writer.say(f"paper.why.{'lath' if option.lath and base.kind == 'block' else base.kind}")
        why = " ".join([why, *_own_reason(job.coats.wanted(surface, zone))])
        number = writer.area(area.area).split(" ")[0] if area is not None else ""
        rows[(", ".join(what), why, _standing(writer, option))].append(
            Place(zone_called(job, surface, zone, writer.language), number)
        )
    return tuple(WorkRow(tuple(places), *said) for said, places in rows.items())


def _own_reason(wanted: Wanted) -> list[str]:
    """His own words, where he chose the thickness himself."""
    if wanted.total is None or not wanted.why:
        return []
    return [f"{wanted.why[:1].upper()}{wanted.why[1:].rstrip('.')}."]


def _standing(writer: Writer, option: Option) -> str:
    """How sure the thickness is, where it is not published."""
    sure = standing(writer, option.nominal)
    return f"{sure[:1].upper()}{sure[1:]}." if sure else ""


def _price_row(writer: Writer, line: QuoteLine) -> PriceRow:
    if line.kind == "surface":
        surface, _, zone = line.at.partition("/")
        volumes = writer.answers.good("volumes")[surface]
        area = next((a.area for a in volumes.areas if a.zone == zone), None)
        area = area or next((side for at, side in painted_sides(writer.answers.job) if at == line.at), None)
        where = zone_called(writer.answers.job, surface, zone, writer.language)
        return PriceRow(where, writer.area(area) if area is not None else "", writer.write(line.amount))
    if line.kind == "also":
        what = writer.say(f"paper.also.{line.what}")
        return PriceRow(f"{what}: {line.says}" if line.says else what, "", writer.write(line.amount))
    if line.kind == "access":
        return PriceRow(writer.say("paper.access", kind=line.what), "", writer.write(line.amount))
    return PriceRow(writer.say("paper.quote.all-walls"), "", writer.write(line.amount))


# --- drawings ----------------------------------------------------------------------------------------------


def _elevations(writer: Writer) -> tuple[tuple[Picture, ...], tuple[KeyItem, ...], int]:
    """The walls that say most: those with openings or old work beside them, the largest of them, in the job's order."""
    job, walls = writer.answers.job, writer.answers.good("wall")
    known = [s for s in job.surfaces if s.id in walls]
    told = [s for s in known if s.openings or any(e.meets for e in s.edges)] or known
    largest = sorted(told, key=lambda s: -float(walls[s.id].gross))[:MOST]
    return elevations(writer, [s for s in told if s in largest])


def _cuts(writer: Writer) -> list[Cut]:
    """A cut through the commonest ways of building up, full size, each with its reason."""
    area: dict[tuple[str, str], float] = defaultdict(float)
    first: dict[tuple[str, str], tuple[str, str, BuildUp]] = {}
    for surface, zone, built, measured in _zones(writer):
        sort: tuple[str, str] = (writer.answers.job.base(surface, zone).kind, built.chosen.id)
        area[sort] += float(measured.area) if measured is not None else 0.0
        first.setdefault(sort, (surface, zone, built))
    chosen = sorted(first, key=lambda sort: -area[sort])[:CUTS]
    cuts = []
    for sort in (sort for sort in first if sort in chosen):
        surface, zone, built = first[sort]
        base = writer.answers.job.base(surface, zone)
        marks, alt = cut_marks(writer, built.chosen, base.kind, base.joints)
        reason = writer.note(built.chosen.reasons[0]) if built.chosen.reasons else ""
        if base.kind in OLD and built.chosen.id == "heavy-skim":
            reason = writer.say("paper.letter.skim-reason")
        opening = f"{writer.say(f'paper.base.{base.kind}')}. {writer.say('paper.full-size')}"
        cuts.append(Cut(cut_picture(marks, alt), opening, reason))
    return cuts


# --- what else a customer reads ----------------------------------------------------------------------------


def _alternatives(writer: Writer) -> list[Alternative]:
    rows = []
    for other in alternatives(writer.answers):
        walls = Verbatim(writer.listed(writer.places(other.surfaces)))
        what = writer.say(f"paper.rather.{other.code}", walls=walls)
        way = "paper.rather.add" if other.change > 0 else "paper.rather.less"
        rows.append(Alternative(what, writer.say(way, amount=Amount(abs(other.change)))))
    return rows


def _not_included(writer: Writer) -> list[str]:
    job = writer.answers.job
    codes = ["mending", "permit", "hidden"]
    if not job.coats.paint:
        codes.insert(0, "paint-new" if painted_sides(job) else "paint")
    if any(e.meets is not None for s in job.surfaces for e in s.edges):
        codes.append("lead-test")
    return [*(writer.say(f"paper.not.{code}") for code in codes), *found_besides(writer)]


def _expect(writer: Writer) -> list[str]:
    job = writer.answers.job
    codes = ["tone"]
    if any(b.kind == "block" for b in job.bases):
        codes.insert(0, "joints")
    if any(s.openings for s in job.surfaces):
        codes.insert(0, "hairlines")
    said = [writer.say(f"paper.expect.{code}") for code in codes]
    ph = writer.answers.book.number("cure.paint-ph")
    return [*said, writer.say("paper.expect.paint", ph=Verbatim(ph.written))]


def cautions(writer: Writer) -> list[Caution]:
    """Frost, what old work may hold, and where new and old would not come flush."""
    book = writer.answers.book
    frost = writer.say("paper.customer.frost-text", cold=book.number("cure.cold"), hold=book.number("cure.hold-warm"))
    told_of = [Caution(writer.say("paper.customer.frost"), frost)]
    told: dict[tuple[str, tuple[tuple[str, object], ...]], list[Note]] = defaultdict(list)
    for note in writer.answers.notes:
        if note.code in CUSTOMERS:
            told[(note.code, note.values)].append(note)
    for notes in told.values():
        walls = Verbatim(writer.listed(writer.places(n.at for n in notes)))
        opening = writer.say(f"paper.customer.{CUSTOMERS[notes[0].code]}")
        told_of.append(Caution(opening, writer.note(notes[0], to="customer", wall=walls)))
    bare = [n for n in writer.answers.notes if n.code in BLOCK]
    if bare:
        walls = Verbatim(writer.listed(writer.places(n.at for n in bare)))
        text = writer.say("paper.customer.block-text", walls=walls)
        told_of.append(Caution(writer.say("paper.customer.block"), text))
    for note in set_backs(writer):
        wall = Verbatim(writer.place(note.at))
        text = writer.note(note, to="customer", wall=wall)
        told_of.append(Caution(writer.say("paper.customer.set-back"), text))
    return told_of
