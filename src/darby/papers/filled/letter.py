"""The letter that sets ways of doing it side by side: paint, skim or lath on old walls, and ways over bare masonry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.answers.ladder import ladder
from darby.answers.ways import ways
from darby.papers.filled.pictures import cut_marks, cut_picture
from darby.papers.filled.quote import cautions
from darby.papers.filled.standing import standing
from darby.papers.model import Cut, LetterPaper, LetterRow, Tight, WayRow
from darby.words import Verbatim
from darby.working import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from darby.answers.ladder import Rung
    from darby.answers.ways import Way
    from darby.condition.recoat_model import Check, Recoat
    from darby.papers.filled.writer import Writer

HAZARDS = ("safety.lead-applies", "safety.lead-ask", "safety.asbestos-ask")
"""What old paint and plaster may hold: the owner is asked whether anybody has looked."""

RETURNING = "recoat.cracks-return"
OPENINGS = ("frame", "return")


def letter(writer: Writer, *, with_ways: bool = False) -> LetterPaper | None:
    """The letter; None where there is nothing to choose between. Ways over bare masonry are slow to answer."""
    job = writer.answers.job
    rungs = ladder(writer.answers)
    found = ways(writer.answers) if with_ways else ()
    others = tuple(_ways(writer, found))
    if not rungs and len(others) < 2:
        return None
    tight = tuple(_tight(writer, rungs))
    return LetterPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.letter.title", name=Verbatim(job.name)),
        customer=job.customer,
        place=job.address,
        opening=" ".join(_opening(writer, rungs)),
        rungs=tuple(writer.say(f"answers.rung.{rung.code}") for rung in rungs),
        rows=tuple(_rows(writer, rungs)),
        cuts=tuple(_cuts(writer, rungs)),
        tight_heads=tuple(writer.say(f"answers.rung-short.{rung.code}") for rung in _thick(rungs)),
        tight=tight,
        tight_note=writer.say("paper.letter.fits-note") if tight else "",
        lasts=writer.say("paper.letter.lasts", width=writer.answers.book.number(RETURNING)) if rungs else "",
        ways=others if len(others) > 1 else (),
        ways_at=_ways_at(writer, found) if len(others) > 1 else "",
        before=tuple(_before(writer)) if rungs else (),
        questions=tuple(_questions(writer, rungs)) if rungs else (),
        cautions=tuple(cautions(writer)),
        language=writer.language,
    )


def _opening(writer: Writer, rungs: tuple[Rung, ...]) -> Iterator[str]:
    yield writer.say("paper.letter.opening" if rungs else "paper.letter.opening-ways")
    chosen = next((rung for rung in rungs if rung.chosen and not rung.barred), None)
    if chosen is not None:
        rung = Verbatim(_lower(writer.say(f"answers.rung.{chosen.code}")))
        yield writer.say("paper.letter.priced", rung=rung)


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


# --- the ladder ----------------------------------------------------------------------------------------


def _rows(writer: Writer, rungs: tuple[Rung, ...]) -> Iterator[LetterRow]:
    """One row for everything that is compared; a rung that is forbidden says why in the first, and is silent then."""
    if not rungs:
        return
    cells = {
        "way": _way, "adds": _adds, "weighs": _weighs, "cures": _cures, "leaves": _leaves, "short": _fits,
        "first": _first, "trips": _trips, "hours": _hours, "price": _price,
    }  # fmt: skip
    for name, cell in cells.items():
        said = tuple(cell(writer, rung) if not rung.barred or name == "way" else "" for rung in rungs)
        barred = tuple(bool(rung.barred) and name == "way" for rung in rungs)
        yield LetterRow(writer.say(f"paper.letter.row.{name}"), said, barred, strong=name == "price")


def _way(writer: Writer, rung: Rung) -> str:
    if not rung.barred:
        return writer.say(f"paper.letter.way.{rung.code}{'-off' if rung.off else ''}")
    said = []
    for bar in rung.barred:
        why = Verbatim(writer.say(f"answers.barred.{bar.code}"))
        walls = Verbatim(writer.listed(writer.places(bar.surfaces)))
        code = "paper.letter.all-walls" if bar.surfaces == rung.surfaces else "paper.letter.at-walls"
        said.append(writer.say(code, why=why, walls=walls))
    return " ".join(said)


def _adds(writer: Writer, rung: Rung) -> str:
    if rung.added is None:
        return _upper(writer.say("paper.letter.depth-decides"))
    if not rung.added.value:
        return _upper(writer.say("paper.letter.nothing"))
    sure = standing(writer, rung.added)
    return f"{writer.write(rung.added)} ({sure})" if sure else writer.write(rung.added)


def _weighs(writer: Writer, rung: Rung) -> str:
    return writer.about(rung.weight) if rung.weight is not None else "–"


def _cures(writer: Writer, rung: Rung) -> str:
    return _upper("; ".join(writer.say(f"answers.cures.{code}") for code in rung.cures))


def _leaves(writer: Writer, rung: Rung) -> str:
    return _upper("; ".join(writer.say(f"answers.leaves.{code}") for code in rung.leaves))


def _fits(writer: Writer, rung: Rung) -> str:
    count, everywhere = Verbatim(len(rung.short)), Verbatim(len(rung.checks))
    if not rung.checks:
        return ""
    unmeasured = sum(1 for check in rung.checks if check.room is None)
    if rung.added is None or not rung.added.value:
        unmeasured = 0
    if rung.short:
        said = writer.say("paper.letter.tight", count=count, all=everywhere)
    elif unmeasured:
        said = ""
    else:
        said = writer.say("paper.letter.fits", all=everywhere)
    more = writer.say("paper.letter.unmeasured", count=Verbatim(unmeasured)) if unmeasured else ""
    return _upper("; ".join(filter(None, (said, more))))


def _first(writer: Writer, rung: Rung) -> str:
    if not rung.first:
        return _upper(writer.say("paper.letter.done"))
    return _upper("; ".join(writer.say(f"answers.first.{code}") for code in rung.first))


def _trips(writer: Writer, rung: Rung) -> str:
    if rung.trips is None or rung.span is None:
        return ""
    return writer.say("paper.letter.over", trips=rung.trips, span=rung.span)


def _hours(writer: Writer, rung: Rung) -> str:
    if rung.hours is None:
        return ""
    said = [writer.about(rung.hours)]
    if rung.paint_trips is not None and rung.paint_hours is not None:
        hours = Verbatim(writer.about(rung.paint_hours))
        said.append(writer.say("paper.letter.then-paint", trips=rung.paint_trips, hours=hours))
    return ", ".join(said)


def _price(writer: Writer, rung: Rung) -> str:
    return writer.write(rung.total) if rung.total is not None else _upper(writer.say("paper.letter.no-price"))


# --- cuts, full size -----------------------------------------------------------------------------------


def _cuts(writer: Writer, rungs: tuple[Rung, ...]) -> Iterator[Cut]:
    """What the rungs with plaster look like, on the first of the walls."""
    for rung in _thick(rungs):
        surface = rung.surfaces[0]
        zone, built = writer.answers.of("coats", surface).zones[-1]
        option = next((o for name in rung.options if (o := built.option(name)) is not None), None)
        if option is None:
            continue
        base = writer.answers.job.base(surface, zone)
        marks, alt = cut_marks(writer, option, base.kind, base.joints)
        opening = f"{writer.say(f'answers.rung-short.{rung.code}')}. {writer.say('paper.full-size')}"
        yield Cut(cut_picture(marks, alt), opening, "")


def _thick(rungs: tuple[Rung, ...]) -> tuple[Rung, ...]:
    """The rungs that add something and are open."""
    return tuple(rung for rung in rungs if not rung.barred and rung.added is not None and rung.added.value)


# --- where it gets tight -------------------------------------------------------------------------------


def _tight(writer: Writer, rungs: tuple[Rung, ...]) -> Iterator[Tight]:
    """Every place that some rung leaves short, or that nobody measured; alike places of several walls in one row."""
    thick = _thick(rungs)
    if not thick:
        return
    rows: dict[tuple[str, ...], list[str]] = {}
    for checks in zip(*(rung.checks for rung in thick), strict=True):
        if all(c.short is None and c.room is not None and not c.renewed for c in checks):
            continue
        first = checks[0]
        room = writer.write(first.room) if first.room is not None else writer.say("paper.letter.not-measured")
        keep = writer.write(first.keep) if first.keep.value else ""
        said = tuple(_cell(writer, check) for check in checks)
        rows.setdefault((_called(writer, first), room, keep, *said), []).append(
            writer.place(first.at.partition("/")[0])
        )
    for (name, room, keep, *cells), walls in rows.items():
        several = list(dict.fromkeys(walls))
        everywhere = [writer.place(s) for s in thick[0].surfaces]
        at = writer.say("paper.letter.everywhere") if several == everywhere and several[1:] else writer.listed(several)
        yield Tight(_upper(name), at, room, keep, tuple(cells))


def _called(writer: Writer, check: Check) -> str:
    if check.kind in OPENINGS:
        wall, _, _ = check.at.partition("/")
        name = writer.place(check.at).removeprefix(writer.place(wall)).lstrip(", ")
    elif check.kind == "weep":
        name = writer.say("paper.letter.weep-at")
    else:
        name = writer.write(check.name)
    if check.count > 1:
        return writer.say("paper.letter.several", name=Verbatim(name), count=Verbatim(check.count))
    return name


def _cell(writer: Writer, check: Check) -> str:
    if check.renewed:
        return writer.say("paper.letter.new-screed")
    if check.room is None:
        return "?"
    return writer.say("paper.letter.short-by", short=check.short) if check.short is not None else ""


# --- bare masonry --------------------------------------------------------------------------------------


def _ways(writer: Writer, found: tuple[Way, ...]) -> Iterator[WayRow]:
    for way in found:
        against = [writer.say(code) for code in way.cautions if writer.knows(code) and "{" not in _raw(writer, code)]
        yield WayRow(
            writer.say(f"answers.way.{way.code}"),
            writer.write(way.trips).partition(" ")[0],
            writer.about(way.hours),
            writer.write(Amount(way.total)),
            writer.say("paper.letter.against", what=Verbatim(" ".join(against))) if against else "",
        )


def _raw(writer: Writer, code: str) -> str:
    from darby.words import catalogue

    return catalogue(writer.language)[code]


def _ways_at(writer: Writer, found: tuple[Way, ...]) -> str:
    return writer.listed(writer.places(found[0].surfaces))


# --- what goes before, and what is asked ---------------------------------------------------------------


def _before(writer: Writer) -> Iterator[str]:
    got: Recoat | None = writer.answers.answered("recoat")
    job = writer.answers.job
    if got is None or job.recoat is None:
        return
    if got.wash is not None:
        yield writer.say("paper.letter.before.wash", area=Verbatim(writer.area(got.wash)))
    if got.rough is not None:
        yield writer.say("paper.letter.before.rough", area=Verbatim(writer.area(got.rough)))
    if got.mask is not None:
        yield writer.say("paper.letter.before.mask", length=Verbatim(writer.about(got.mask)))
    if job.recoat.fixtures:
        what = writer.listed([f"{f.count} × {f.what}" for f in job.recoat.fixtures])
        yield writer.say("paper.letter.before.off", what=Verbatim(what))
    if got.mask_hours is not None and (got.wash is None or got.wash_hours is not None):
        yield writer.say("paper.letter.before.in-price")


def _questions(writer: Writer, rungs: tuple[Rung, ...]) -> Iterator[str]:
    codes = ["choose", "cracks", "water", "paint"]
    if any(rung.short for rung in rungs):
        codes.append("frames")
    if any(check.room is None for rung in rungs for check in rung.checks):
        codes.append("measure")
    if any(note.code in HAZARDS for note in writer.answers.notes):
        codes.append("tested")
    for code in codes:
        yield writer.say(f"paper.letter.ask.{code}")
