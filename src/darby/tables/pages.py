"""Answers as tables in words. Every number here was answered; nothing is computed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

from darby.answers import Waiting, with_later
from darby.answers.moves import moves
from darby.measure.writing import shown
from darby.tables.laid import cuts_page, grounds_pages, joints_pages, straightedge_pages
from darby.tables.lath import lath_pages, sheets_pages
from darby.tables.matched import match_pages
from darby.tables.page import Page
from darby.tables.parting import ways_to_part
from darby.tables.parts import parts_line
from darby.tables.places import coat_called, edge_called, mix_called, place, places
from darby.tables.recoated import recoat_pages, ways_pages
from darby.tables.setting import Setting
from darby.tables.surveyed import patch_pages, survey_pages
from darby.tables.waiting import lack
from darby.words import Verbatim, catalogue, day, package_said, unit_names, units_said
from darby.working import Amount, Note, Quantity

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.days.model import Piece, Visits
    from darby.mix import CoatMix, Mixes
    from darby.price.model import Price
    from darby.quantities import Order, OrderLine

SERIOUS = ("stop", "caution")
SET_BACK = "buildup.set-back"
USUAL = ("price.usual-bags", "price.usual-pace")
"""Bags and a day's area as this firm usually has them; what is not usual is asked among what to take care of."""


def pages(answers: Answers, setting: Setting, *, moved: bool = True) -> list[Page]:
    """One page for each thing that is answered, then what was assumed, who governs, and what waits.

    Sizes and mortar, which the others are made from, stand only where they are asked for (``page_of``). ``moved``:
    with what moves the price most and the ways over bare masonry, for which the job is answered several times over.
    """
    return [page for _, make in _makers(answers, setting, moved=moved) for page in make()]


def _makers(answers: Answers, setting: Setting, *, moved: bool) -> list[tuple[str, Callable[[], list[Page]]]]:
    """What makes the pages of each stage, in their order: for one stage the others are not made."""
    good = {stage: answers.answered(stage) for stage in ("mixes", "order", "days", "price")}
    made: list[tuple[str, Callable[[], list[Page]]]] = [
        ("job", lambda: [_head(answers, setting)]),
        ("coats", lambda: [_coats(answers, setting)]),
        ("survey", lambda: survey_pages(answers, setting)),
        ("patch", lambda: patch_pages(answers, setting)),
        ("recoat", lambda: recoat_pages(answers, setting)),
        ("joints", lambda: joints_pages(answers, setting)),
        ("lath", lambda: lath_pages(answers, setting)),
        ("match", lambda: match_pages(answers, setting)),
    ]
    mixed, ordered, planned, priced = good.values()
    if mixed is not None:
        made.append(("mixes", lambda: [_mixes(mixed, answers, setting)]))
    if ordered is not None:
        made.append(("order", lambda: [_order(ordered, setting)]))
    if planned is not None:
        made.append(("days", lambda: [_days(planned, answers, setting)]))
    made.append(("paint", lambda: _paint(answers, setting)))
    if priced is not None:
        made.append(("price", lambda: [_price(priced, answers, setting)]))
        if moved:
            made.append(("price", lambda: ways_pages(answers, setting)))
    made.append(("cautions", lambda: [_cautions(answers, setting)]))
    made.append(("assumed", lambda: [_assumed(answers, setting)]))
    if moved:
        made.append(("assumed", lambda: _moves(answers, setting)))
    if answers.unanswered():
        made.append(("waiting", lambda: [_waiting(answers, setting)]))
    return made


def page_of(stage: str, answers: Answers, setting: Setting) -> list[Page]:
    """The pages of one stage."""
    if stage == "wall":
        return [_walls(answers, setting)]
    if stage == "volumes":
        return [_volumes(answers, setting)]
    if stage == "joints":
        return [*joints_pages(answers, setting), *ways_to_part(answers, setting)]
    if stage in ("lath", "sheets"):
        return sheets_pages(answers, setting)
    if stage == "grounds":
        return grounds_pages(with_later(answers), setting)
    if stage == "match":
        return match_pages(answers, setting, alone=True)
    if stage == "cuts":
        return [cuts_page(with_later(answers), setting)]
    if stage == "straightedge":
        return straightedge_pages(with_later(answers), setting)
    return [page for of, make in _makers(answers, setting, moved=True) if of == stage for page in make()]


# --- notes ---------------------------------------------------------------------------------------------


def assumed_lines(notes: Iterable[Note], setting: Setting) -> list[str]:
    """What was taken for granted, each thing said once with the places it holds for, as the file writes them."""
    return gathered([n for n in notes if n.grade == "assumed"], setting)


def gathered(notes: Iterable[Note], setting: Setting, answers: Answers | None = None) -> list[str]:
    """Notes in words; the same words at several places stand once, with the places."""
    at: dict[str, list[str]] = defaultdict(list)
    for note in notes:
        at[note_line(note, setting, answers)].append(note.at)
    return [_with_places(said, ats, setting, answers) for said, ats in at.items()]


def _with_places(said: str, ats: list[str], setting: Setting, answers: Answers | None) -> str:
    if answers is None:
        named = list(dict.fromkeys(at for at in ats if at not in ("", "job")))
    else:
        named = places(answers, ats, setting)
    return f"{said} ({'; '.join(named)})" if named else said


def note_line(note: Note, setting: Setting, answers: Answers | None = None) -> str:
    """One note in words. What is said edge by edge is said of all edges together, if there is a sentence for that."""
    together = f"cli.together.{note.code}"
    values = dict(note.values)
    if answers is not None and together in catalogue("en"):
        said = setting.say(together)
    else:
        if answers is not None and isinstance(values.get("place"), str):
            values["place"] = place(answers, str(values["place"]), setting)
        if answers is not None and isinstance(values.get("edge"), str):
            values["edge"] = Verbatim(edge_called(answers, note.at, str(values["edge"]), setting))
        said = setting.say(note.code, **values)
    return f"{setting.say('cli.stop')} {said}" if note.grade == "stop" else said


# --- the pages -----------------------------------------------------------------------------------------


def _head(answers: Answers, setting: Setting) -> Page:
    job = answers.job
    text = [setting.say("cli.head.for", customer=job.customer, address=job.address)] if job.customer else []
    text.append(
        setting.say(
            "cli.head.made", as_of=day(job.as_of, setting.language, weekday=False), job=answers.job_hash[:8],
            revision=str(job.revision), book=answers.book_version, made=answers.made_with,
        )
    )  # fmt: skip
    if job.invented:
        text.append(setting.say("common.invented"))
    return Page("job", job.name, text=tuple(text))


def _coats(answers: Answers, setting: Setting) -> Page:
    rows, notes = [], []
    volumes = answers.good("volumes")
    for surface, coats in answers.good("coats").items():
        areas = {a.zone: a.area for a in volumes[surface].areas} if surface in volumes else {}
        for zone, built in coats.zones:
            option = built.chosen
            notes += [n for n in (*option.cautions, *built.notes) if n.code.startswith(SET_BACK)]
            rows.append(
                (
                    place(answers, f"{surface}/{zone}", setting),
                    setting.write(areas[zone]) if zone in areas else "",
                    setting.say(f"buildup.option.{option.id}"),
                    _added([c.nominal for c in option.coats], setting),
                    setting.write(option.nominal),
                )
            )
    heads = tuple(setting.say(f"cli.coats.{h}") for h in ("where", "area", "what", "coats", "total"))
    lines = tuple(gathered(notes, setting, answers))
    return Page("coats", setting.say("cli.coats.title"), heads, tuple(rows), lines=lines, right=frozenset({1, 4}),
                whole=frozenset({1, 3, 4}))  # fmt: skip


def _walls(answers: Answers, setting: Setting) -> Page:
    rows = tuple(
        (
            place(answers, surface, setting) + (f" × {wall.count}" if wall.count > 1 else ""),
            *(setting.write(x) for x in (wall.gross, wall.openings, wall.net)),
        )
        for surface, wall in answers.good("wall").items()
    )
    heads = tuple(setting.say(f"cli.walls.{h}") for h in ("where", "gross", "openings", "net"))
    numbers = frozenset({1, 2, 3})
    return Page("wall", setting.say("cli.walls.title"), heads, rows, right=numbers, whole=numbers)


def _volumes(answers: Answers, setting: Setting) -> Page:
    rows = []
    for surface, volumes in answers.good("volumes").items():
        for coat in volumes.coats:
            more = [f"{setting.say(f'cli.allowance.{a.name}')} {setting.write(a.volume)}" for a in coat.allowances]
            where = place(answers, f"{surface}/{coat.zone}", setting)
            what = coat_called(coat.coat, setting)
            rows.append((where, what, setting.write(coat.net), "\n".join(more), setting.write(coat.total)))
    heads = tuple(setting.say(f"cli.volumes.{h}") for h in ("where", "coat", "net", "more", "total"))
    return Page("volumes", setting.say("cli.volumes.title"), heads, tuple(rows), right=frozenset({2, 4}),
                whole=frozenset({2, 3, 4}))  # fmt: skip


def _added(quantities: Sequence[Quantity], setting: Setting) -> str:
    """ "3/8 + 1/8 in.": the unit once, at the end."""
    written = [setting.write(q) for q in quantities]
    unit = " " + written[-1].partition(" ")[2].rpartition(" ")[2]
    *first, last = written
    return " + ".join([*(w.removesuffix(unit) for w in first), last])


def _mixes(mixes: Mixes, answers: Answers, setting: Setting) -> Page:
    rows = tuple(_mix_row(mix, answers, setting) for mix in mixes.coats if mix.batches is not None)
    heads = tuple(setting.say(f"cli.mixes.{h}") for h in ("mix", "parts", "batch", "makes", "batches"))
    notes = [n for mix in mixes.coats for n in mix.notes if n.grade in SERIOUS and n.code.startswith("mix.sand")]
    return Page("mixes", setting.say("cli.mixes.title"), heads, rows, lines=tuple(gathered(notes, setting, answers)),
                right=frozenset({3}), whole=frozenset({3}))  # fmt: skip


def _mix_row(mix: CoatMix, answers: Answers, setting: Setting) -> tuple[str, ...]:
    assert mix.batches is not None
    batch, parts = "", ""
    if mix.bagged is not None:
        parts = mix.bagged.name
    elif mix.parts is not None:
        parts = parts_line(mix.parts, setting)
    shown_batch = mix.batch or mix.batches.last
    if mix.batch is not None:
        sand = [setting.write(mix.batch.sand.count)] if mix.batch.sand is not None else []
        batch = ", ".join([setting.write(mix.batch.bags), *sand])
    makes = setting.write(shown_batch.mortar) if shown_batch is not None else ""
    count = str(mix.batches.whole)
    if mix.batches.last is not None:
        part = setting.say("cli.mixes.part", bags=mix.batches.last.bags)
        count = f"{count} + {part}" if mix.batches.whole else part
    return mix_called(answers, mix.id, setting), parts, batch, makes, count


def _order(order: Order, setting: Setting) -> Page:
    by_supplier: dict[str, list[OrderLine]] = defaultdict(list)
    for line in sorted(order.lines, key=lambda x: (x.supplier == "", x.supplier)):
        by_supplier[line.supplier].append(line)
    rows: list[tuple[str, ...]] = []
    for supplier, lines in by_supplier.items():
        if supplier or len(by_supplier) > 1:
            rows.append((f"{supplier or setting.say('cli.order.no-supplier')}:",))
        rows += [(_item(x, setting), _needed(x, setting), _packages(x, setting)) for x in lines]
    ordered = tuple(
        setting.say(f"cli.order.{x.standing}", item=_item(x, setting), ordered=x.ordered, more=x.more, over=x.over)
        for x in order.lines
        if x.standing != "not ordered"
    )
    heads = tuple(setting.say(f"cli.order.{h}") for h in ("item", "needed", "packages"))
    return Page("order", setting.say("cli.order.title"), heads, tuple(rows), lines=ordered, right=frozenset({1}),
                whole=frozenset({1}))  # fmt: skip


def _item(line: OrderLine, setting: Setting) -> str:
    own = "" if line.name == line.item else line.name
    name = own or setting.say(line.says)
    return name[:1].upper() + name[1:]


def _needed(line: OrderLine, setting: Setting) -> str:
    """Loose goods in the other measure too: sand by the yard and the ton."""
    other = [part.amount for part in line.also if part.amount.unit.dim != line.needed.unit.dim]
    also = ", ".join(setting.write(amount) for amount in other) if not line.each else ""
    return f"{setting.write(line.needed)}{f' ({also})' if also else ''}"


def _packages(line: OrderLine, setting: Setting) -> str:
    """ "14 × 94 lb bag"; loose goods by the yard or ton alone."""
    if line.packages is None:
        return ""
    if not line.each:
        return f"{setting.write(line.packages)} {units_said(line.written, setting.language)}".strip()
    package = package_said(line.written, line.each, setting.language)
    return f"{setting.write(line.packages).partition(' ')[0]} × {package}"


def _days(days: Visits, answers: Answers, setting: Setting) -> Page:
    rows = []
    for trip in days.trips:
        work: dict[str, list[str]] = defaultdict(list)
        for piece in trip.pieces:
            work[_work(piece, setting)].append(piece.at)
        named = {what: places(answers, at, setting) for what, at in work.items()}
        done = [f"{what}: {'; '.join(at)}" if at else what for what, at in named.items()]
        if trip.why == "wait":
            done.append(setting.say("cli.days.wait", place=place(answers, trip.waited_at, setting)))
        if trip.why == "done":
            done.append(setting.say("cli.days.done"))
        rows.append((str(trip.number), day(trip.day, setting.language), setting.write(trip.hours), "\n".join(done)))
    heads = tuple(setting.say(f"cli.days.{h}") for h in ("trip", "day", "hours-head", "work"))
    lines = (
        setting.say("cli.days.sum", trips=days.count, forced=days.forced, span=days.span),
        setting.say("cli.days.no-weather"),
    )
    return Page("days", setting.say("cli.days.title"), heads, tuple(rows), lines=lines, right=frozenset({0, 2}),
                whole=frozenset({0, 2}))  # fmt: skip


def _paint(answers: Answers, setting: Setting) -> list[Page]:
    """Painting, where anything is painted: its hours; its date is the wall's to say."""
    paint = answers.answered("paint")
    if paint is None or paint.total is None:
        return []
    lines = (setting.say("cli.paint.line", hours=paint.total, trips=paint.trips),)
    rows = tuple((place(answers, at, setting), setting.write(hours)) for at, hours in paint.hours)
    heads = (setting.say("cli.coats.where"), setting.say("cli.days.hours-head"))
    return [Page("paint", setting.say("cli.part.paint"), heads, rows, lines=lines, right=frozenset({1}))]


def _work(piece: Piece, setting: Setting) -> str:
    """What is done: a coat, something else that has to be done, or access that is set up."""
    for code in (f"cli.work.{piece.coat}", f"cli.also.{piece.coat}"):
        if code in catalogue("en"):
            return setting.say(code)
    return setting.say("cli.work.set-up", kind=piece.coat)


def _price(price: Price, answers: Answers, setting: Setting) -> Page:
    rows = []
    for line in price.quote:
        what = place(answers, line.at, setting) if line.kind == "surface" else line.says or line.what
        if line.kind == "also":
            called = setting.say(f"cli.also.{line.what}")
            what = f"{called}: {line.says}" if line.says else called
        if line.kind == "access":
            what = setting.say("cli.price.access", kind=line.what)
        rows.append((what, setting.write(line.amount)))
    last = (setting.say("cli.price.total"), setting.write(price.total))
    lines = [
        setting.say(f"price.set-by-{price.set_by.replace(' ', '-')}", by_area=price.by_area, forced=price.forced,
                    total=price.total),
        setting.say("price.markup-margin", markup=price.markup, margin=price.margin),
    ]  # fmt: skip
    if price.per_area is not None:
        per_area = shown(price.per_area.value, price.per_area.unit, setting.system, 2, unit_names(setting.language))
        lines.append(setting.say("cli.price.per-area", per_area=per_area, area=price.area))
    lines += [setting.say(n.code, **dict(n.values)) for n in answers.notes if n.code in USUAL]
    if not price.complete:
        lines.insert(0, setting.say("cli.price.lacks", items=price.lacks))
    if answers.left_out:
        without = "; ".join(places(answers, answers.left_out, setting))
        lines.insert(0, setting.say("cli.price.without", places=without))
    heads = (setting.say("cli.price.line"), setting.say("cli.price.amount"))
    return Page("price", setting.say("cli.price.title"), heads, tuple(rows), last, tuple(lines),
                right=frozenset({1}), whole=frozenset({1}))  # fmt: skip


def _cautions(answers: Answers, setting: Setting) -> Page:
    """Stops first, then what the walls ask for, then what holds for the whole job."""
    notes = [n for n in answers.notes if n.grade in SERIOUS and not n.code.startswith(SET_BACK)]
    notes.sort(key=lambda n: (n.grade != "stop", n.at == "job"))
    lines = [*gathered(notes, setting, answers), setting.say("common.local-code")]
    return Page("cautions", setting.say("cli.cautions.title"), lines=tuple(lines))


def _assumed(answers: Answers, setting: Setting) -> Page:
    notes = [n for n in answers.notes if n.grade == "assumed"]
    return Page("assumed", setting.say("cli.assumed.title"), lines=tuple(gathered(notes, setting, answers)))


def _moves(answers: Answers, setting: Setting) -> list[Page]:
    """The three assumptions that move the price most."""
    rows = tuple(
        (setting.say(f"answers.move.{m.name}"), f"{'+' if m.change > 0 else ''}{setting.write(Amount(m.change))}")
        for m in moves(answers)
    )
    if not rows:
        return []
    heads = (setting.say("cli.moves.if"), setting.say("cli.moves.then"))
    return [Page("assumed", setting.say("cli.moves.title"), heads, rows, right=frozenset({1}), whole=frozenset({1}))]


def _waiting(answers: Answers, setting: Setting) -> Page:
    lines = []
    for (stage, at), why in answers.unanswered().items():
        where = place(answers, at, setting)
        part = _part(stage, setting) + (f" ({where})" if where else "")
        if isinstance(why, Waiting):
            lacks: Sequence[str] = [lack(code, setting) for code in why.lacks]
            behind = [_part(s, setting).lower() for s, _ in why.behind]
            lines.append(setting.say("cli.waiting.line", part=part, lacks=", ".join([*lacks, *behind])))
        else:
            named = place(answers, why.place, setting) or why.place
            said = setting.say(why.code, place=named, found=why.found, allowed=why.allowed, nearest=why.nearest)
            lines.append(setting.say("cli.waiting.fault", part=part, why=said))
    return Page("waiting", setting.say("cli.waiting.title"), lines=tuple(lines))


def _part(stage: str, setting: Setting) -> str:
    code = f"cli.part.{stage}"
    return setting.say(code) if code in catalogue("en") else stage
