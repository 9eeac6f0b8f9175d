"""Answers as pages for a terminal. Every number here was answered; nothing is computed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from darby.answers import Waiting
from darby.answers.moves import moves
from darby.cli.setting import Setting
from darby.cli.tables import Page
from darby.words import catalogue, day, written
from darby.working import Amount, Note

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.days.model import Visits
    from darby.mix import CoatMix, Mixes
    from darby.price.model import Price
    from darby.quantities import Order

SERIOUS = ("stop", "caution")


def pages(answers: Answers, setting: Setting) -> list[Page]:
    """One page for each thing that is answered, then what waits, what was assumed, and who governs."""
    made = [_head(answers, setting), _coats(answers, setting)]
    good = {stage: answers.good(stage).get("job") for stage in ("mixes", "order", "days", "price")}
    if good["mixes"] is not None:
        made.append(_mixes(good["mixes"], setting))
    if good["order"] is not None:
        made.append(_order(good["order"], setting))
    if good["days"] is not None:
        made.append(_days(good["days"], answers, setting))
    if good["price"] is not None:
        made.append(_price(good["price"], answers, setting))
    made += [_cautions(answers, setting), _assumed(answers, setting), _moves(answers, setting)]
    if answers.unanswered():
        made.append(_waiting(answers, setting))
    return made


def place(answers: Answers, at: str) -> str:
    """ "bay-south/hollow" as people call it: the surface's name, and the zone's where it has one."""
    surface, _, zone = at.partition("/")
    named = {s.id: s.name for s in answers.job.surfaces}
    base = next((b for b in answers.job.bases if b.surface == surface and b.zone == zone), None)
    return f"{named.get(surface, surface)}, {base.name}" if base is not None and base.name else named.get(surface, at)


def assumed_lines(notes: Iterable[Note], setting: Setting) -> list[str]:
    """What was taken for granted, each thing said once with the places it holds for."""
    return gathered([n for n in notes if n.grade == "assumed"], setting)


def gathered(notes: Iterable[Note], setting: Setting, answers: Answers | None = None) -> list[str]:
    """Notes in words; the same words at several places stand once, with the places."""
    places: dict[str, list[str]] = defaultdict(list)
    for note in notes:
        said = setting.say(note.code, **dict(note.values))
        at = place(answers, note.at) if answers is not None else note.at
        if at not in places[said]:
            places[said].append(at)
    return [said if at in (["job"], [""]) else f"{said}  ({'; '.join(at)})" for said, at in places.items()]


def _head(answers: Answers, setting: Setting) -> Page:
    job = answers.job
    lines = [setting.say("cli.head.for", customer=job.customer, address=job.address)] if job.customer else []
    lines.append(
        setting.say(
            "cli.head.made", as_of=day(job.as_of, setting.language, weekday=False), job=answers.job_hash[:8],
            revision=str(job.revision), book=answers.book_version, made=answers.made_with,
        )
    )  # fmt: skip
    if job.invented:
        lines.append(setting.say("common.invented"))
    return Page("job", job.name, lines=tuple(lines))


def _coats(answers: Answers, setting: Setting) -> Page:
    rows = []
    volumes = answers.good("volumes")
    for surface, coats in answers.good("coats").items():
        areas = {a.zone: a.area for a in volumes[surface].areas} if surface in volumes else {}
        for zone, built in coats.zones:
            option = built.chosen
            depths = " + ".join(written(c.nominal, setting.language, setting.system) for c in option.coats)
            rows.append(
                (
                    place(answers, f"{surface}/{zone}"),
                    written(areas[zone], setting.language, setting.system) if zone in areas else "",
                    setting.say(f"buildup.option.{option.id}"),
                    depths,
                    written(option.nominal, setting.language, setting.system),
                    written(option.set_back, setting.language, setting.system) if option.set_back is not None else "",
                )
            )
    heads = tuple(setting.say(f"cli.coats.{h}") for h in ("where", "area", "what", "coats", "total", "set-back"))
    return Page("coats", setting.say("cli.coats.title"), heads, tuple(rows), right=frozenset({1, 4, 5}))


def _mixes(mixes: Mixes, setting: Setting) -> Page:
    rows = tuple(_mix_row(mix, setting) for mix in mixes.coats if mix.batches is not None)
    heads = tuple(setting.say(f"cli.mixes.{h}") for h in ("mix", "parts", "batch", "makes", "batches"))
    notes = [n for mix in mixes.coats for n in mix.notes if n.grade in SERIOUS and n.code.startswith("mix.sand")]
    return Page("mixes", setting.say("cli.mixes.title"), heads, rows, lines=tuple(gathered(notes, setting)),
                right=frozenset({3, 4}))  # fmt: skip


def _mix_row(mix: CoatMix, setting: Setting) -> tuple[str, ...]:
    assert mix.batches is not None
    name = mix.id.removeprefix("mix/")
    words = catalogue(setting.language)
    batch, parts = "", ""
    if mix.bagged is not None:
        parts = mix.bagged.name
    elif mix.parts is not None:
        parts = " : ".join(written(getattr(mix.parts, m.split()[0]), setting.language) for m in mix.parts.used)
        parts += f" ({', '.join(words.get(f'mix.material.{m}', m) for m in mix.parts.used)})"
    if mix.batch is not None:
        batch = ", ".join(
            [written(mix.batch.bags, setting.language)]
            + ([written(mix.batch.sand.count, setting.language)] if mix.batch.sand is not None else [])
        )
    makes = written(mix.batch.mortar, setting.language, setting.system) if mix.batch is not None else ""
    more = " + " + setting.say("cli.mixes.last") if mix.batches.last is not None else ""
    return name, parts, batch, makes, f"{mix.batches.whole}{more}"


def _order(order: Order, setting: Setting) -> Page:
    rows = []
    for line in sorted(order.lines, key=lambda x: (x.supplier == "", x.supplier)):
        package = written(line.packages, setting.language, setting.system) if line.packages is not None else ""
        rows.append(
            (
                line.supplier or setting.say("cli.order.no-supplier"),
                line.name or setting.say(line.says),
                written(line.needed, setting.language, setting.system),
                f"{package} {line.written}".strip() if line.written else package,
                written(line.ordered, setting.language, setting.system) if line.ordered is not None else "",
                _difference(line, setting),
            )
        )
    heads = tuple(setting.say(f"cli.order.{h}") for h in ("supplier", "item", "needed", "packages", "ordered", "still"))
    return Page("order", setting.say("cli.order.title"), heads, tuple(rows), right=frozenset({2, 4}))


def _difference(line: object, setting: Setting) -> str:
    standing = getattr(line, "standing", "")
    amount = getattr(line, {"short": "more", "over": "over"}.get(standing, ""), None)
    if standing == "not ordered":
        return ""
    shown = written(amount, setting.language, setting.system) if amount is not None else ""
    return setting.say(f"cli.order.{standing}", amount=shown)


def _days(days: Visits, answers: Answers, setting: Setting) -> Page:
    rows = []
    for trip in days.trips:
        work: dict[str, list[str]] = defaultdict(list)
        for piece in trip.pieces:
            coat = setting.say(f"cli.work.{piece.coat}") if f"cli.work.{piece.coat}" in catalogue("en") else piece.coat
            work[coat].append(place(answers, piece.at))
        done = "; ".join(f"{coat}: {', '.join(dict.fromkeys(at))}" for coat, at in work.items())
        because = setting.say(f"cli.days.{trip.why}", place=place(answers, trip.waited_at)) if trip.why else ""
        rows.append((str(trip.number), day(trip.day, setting.language),
                     written(trip.hours, setting.language, setting.system), done, because))  # fmt: skip
    heads = tuple(setting.say(f"cli.days.{h}") for h in ("trip", "day", "hours-head", "work", "because"))
    lines = (
        setting.say("cli.days.sum", trips=days.count, forced=days.forced, span=days.span),
        setting.say("cli.days.no-weather"),
    )
    return Page("days", setting.say("cli.days.title"), heads, tuple(rows), lines=lines, right=frozenset({0, 2}))


def _price(price: Price, answers: Answers, setting: Setting) -> Page:
    rows = []
    for line in price.quote:
        what = place(answers, line.at) if line.kind == "surface" else line.says or line.what
        if line.kind == "also":
            what = f"{setting.say(f'cli.also.{line.what}')}: {line.says}" if line.says else line.what
        if line.kind == "access":
            what = setting.say("cli.price.access", kind=line.what)
        rows.append((what, written(line.amount, setting.language, setting.system)))
    last = (setting.say("cli.price.total"), written(price.total, setting.language, setting.system))
    lines = [
        setting.say(f"price.set-by-{price.set_by.replace(' ', '-')}", by_area=price.by_area, forced=price.forced,
                    total=price.total),
        setting.say("price.markup-margin", markup=price.markup, margin=price.margin),
    ]  # fmt: skip
    if price.per_area is not None:
        lines.append(setting.say("cli.price.per-area", per_area=price.per_area, area=price.area))
    if not price.complete:
        lines.insert(0, setting.say("cli.price.lacks", items=price.lacks))
    heads = (setting.say("cli.price.line"), setting.say("cli.price.amount"))
    return Page("price", setting.say("cli.price.title"), heads, tuple(rows), last, tuple(lines), frozenset({1}))


def _cautions(answers: Answers, setting: Setting) -> Page:
    notes = [n for n in answers.notes if n.grade in SERIOUS]
    lines = [*gathered(notes, setting, answers), setting.say("common.local-code")]
    return Page("cautions", setting.say("cli.cautions.title"), lines=tuple(lines))


def _assumed(answers: Answers, setting: Setting) -> Page:
    notes = [n for n in answers.notes if n.grade == "assumed"]
    return Page("assumed", setting.say("cli.assumed.title"), lines=tuple(gathered(notes, setting, answers)))


def _moves(answers: Answers, setting: Setting) -> Page:
    """The three assumptions that move the price most."""
    rows = tuple(
        (setting.say(f"answers.move.{m.name}"), setting.say("cli.moves.change", change=Amount(m.change)))
        for m in moves(answers)
    )
    heads = (setting.say("cli.moves.if"), setting.say("cli.moves.then"))
    return Page("assumed", setting.say("cli.moves.title"), heads, rows, right=frozenset({1}))


def _waiting(answers: Answers, setting: Setting) -> Page:
    lines = []
    for (stage, at), why in answers.unanswered().items():
        where = "" if at == "job" else place(answers, at)
        if isinstance(why, Waiting):
            lacks: Sequence[str] = [_lack(code, setting) for code in why.lacks]
            behind = [f"{s}" for s, _ in why.behind]
            said = ", ".join([*lacks, *behind])
            lines.append(setting.say("cli.waiting.line", stage=stage, where=where, lacks=said))
        else:
            said = setting.say(why.code, place=why.place, found=why.found, allowed=why.allowed, nearest=why.nearest)
            lines.append(setting.say("cli.waiting.fault", stage=stage, where=where, why=said))
    return Page("waiting", setting.say("cli.waiting.title"), lines=tuple(lines))


def _lack(code: str, setting: Setting) -> str:
    head, _, work = code.partition("answers.lacks.pace-")
    return setting.say("answers.lacks.pace", work=work) if not head and work else setting.say(code)
