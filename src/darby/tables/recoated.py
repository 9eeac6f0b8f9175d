"""A re-coat, its ladder, and the ways over bare masonry, as tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.answers.ladder import ladder
from darby.answers.recoat import coated
from darby.answers.ways import ways
from darby.tables.page import Page
from darby.tables.places import edge_called, place, places
from darby.tables.setting import Setting
from darby.words import Verbatim
from darby.working import Amount

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.answers.ladder import Rung
    from darby.condition.recoat_model import Check, Recoat

OPENINGS = ("frame", "return")
"""Kinds of places that are called by their opening."""


def recoat_pages(answers: Answers, setting: Setting) -> list[Page]:
    """What fits at every place, and the three rungs beside each other; [] where nothing is coated anew."""
    got: Recoat | None = answers.answered("recoat")
    if got is None or not coated(answers.job):
        return []
    return [_fits(got, answers, setting), *_ladder(ladder(answers), answers, setting)]


# --- what fits -----------------------------------------------------------------------------------------


def _fits(got: Recoat, answers: Answers, setting: Setting) -> Page:
    rows = tuple(
        (
            where(check, answers, setting),
            *(setting.write(q) if q is not None else "" for q in (check.room, check.added, check.left)),
            setting.write(check.keep) if check.keep.value else "",
            _short(check, setting),
        )
        for check in got.checks
    )
    heads = tuple(setting.say(f"cli.recoat.{h}") for h in ("where", "room", "added", "left", "keep", "short"))
    lines = [setting.say("cli.recoat.practice")] if rows else []
    if got.mask is not None:
        code = "cli.recoat.mask" if got.cover is None else "cli.recoat.mask-cover"
        lines.append(setting.say(code, length=got.mask, area=got.cover))
    if got.wash is not None:
        lines.append(setting.say("cli.recoat.wash", area=got.wash))
    if got.rough is not None:
        lines.append(setting.say("cli.recoat.rough", area=got.rough))
    if got.off_hours is not None:
        lines.append(setting.say("cli.recoat.off", hours=got.off_hours))
    numbers = frozenset({1, 2, 3, 4, 5})
    return Page("recoat", setting.say("cli.recoat.title"), heads, rows, lines=tuple(lines), right=numbers,
                whole=numbers)  # fmt: skip


def _short(check: Check, setting: Setting) -> str:
    if check.renewed:
        return setting.say("paper.letter.new-screed")
    return setting.write(check.short) if check.short is not None else ""


def where(check: Check, answers: Answers, setting: Setting) -> str:
    """A place as people call it: "House 1, front door", "House 2, gable vent", "House 3, weep screed"."""
    wall = place(answers, check.at, setting)
    if check.kind in OPENINGS:
        name = edge_called(answers, check.at, check.name, setting)
    elif check.kind == "weep":
        name = setting.say("cli.recoat.kind.weep")
    else:
        name = setting.write(check.name)
    return f"{wall}, {name}" + (f" × {check.count}" if check.count > 1 else "")


# --- the ladder ----------------------------------------------------------------------------------------


def _ladder(rungs: tuple[Rung, ...], answers: Answers, setting: Setting) -> list[Page]:
    rows = tuple(_rung(rung, setting) for rung in rungs)
    heads = tuple(setting.say(f"cli.ladder.{h}") for h in ("what", "adds", "short", "trips", "days", "hours", "price"))
    lines = [line for rung in rungs for line in _said(rung, answers, setting)]
    lines.append(setting.say("cli.ladder.lasts", width=answers.book.number("recoat.cracks-return")))
    numbers = frozenset({1, 2, 3, 4, 5, 6})
    return [Page("recoat", setting.say("cli.ladder.title"), heads, rows, lines=tuple(lines), right=numbers,
                 whole=numbers)]  # fmt: skip


def _rung(rung: Rung, setting: Setting) -> tuple[str, ...]:
    name = setting.say(f"answers.rung.{rung.code}")
    name = f"{name} {setting.say('cli.ladder.chosen')}" if rung.chosen else name
    if rung.barred:
        return name, "", "", "", "", "", ""
    count, everywhere = Verbatim(len(rung.short)), Verbatim(len(rung.checks))
    tight = setting.say("cli.ladder.places", count=count, all=everywhere) if rung.short else ""
    return (
        name,
        setting.write(rung.added) if rung.added is not None and rung.added.value else "",
        tight or setting.say("cli.ladder.nowhere"),
        setting.write(rung.trips).partition(" ")[0] if rung.trips is not None else "",
        setting.write(rung.span) if rung.span is not None else "",
        setting.write(rung.hours) if rung.hours is not None else "",
        setting.write(rung.total) if rung.total is not None else setting.say("cli.ladder.no-price"),
    )


def _said(rung: Rung, answers: Answers, setting: Setting) -> list[str]:
    """What it does and does not, what forbids it, what is tried first, and painting after it."""
    name = Verbatim(setting.say(f"answers.rung.{rung.code}"))
    said = []
    for bar in rung.barred:
        at = Verbatim("; ".join(places(answers, bar.surfaces, setting)))
        said.append(
            setting.say("cli.ladder.barred", rung=name, why=setting.say(f"answers.barred.{bar.code}"), places=at)
        )
    cures = "; ".join(setting.say(f"answers.cures.{c}") for c in rung.cures)
    leaves = "; ".join(setting.say(f"answers.leaves.{c}") for c in rung.leaves)
    if not rung.barred:
        said.append(setting.say("cli.ladder.does", rung=name, cures=Verbatim(cures), leaves=Verbatim(leaves)))
    if rung.first and not rung.barred:
        tests = Verbatim("; ".join(setting.say(f"answers.first.{t}") for t in rung.first))
        said.append(setting.say("cli.ladder.first", rung=name, tests=tests))
    if rung.paint_trips is not None and rung.paint_hours is not None:
        said.append(setting.say("cli.ladder.paint", rung=name, trips=rung.paint_trips, hours=rung.paint_hours))
    return said


# --- bare masonry --------------------------------------------------------------------------------------


def ways_pages(answers: Answers, setting: Setting) -> list[Page]:
    """One heavy coat against a base coat and a finish on bare block and brick; [] where there is no such wall."""
    found = ways(answers)
    if len(found) < 2:
        return []
    rows = tuple(
        (
            setting.say(f"answers.way.{way.code}"),
            setting.write(way.trips).partition(" ")[0],
            setting.write(way.hours),
            setting.write(Amount(way.total)),
        )
        for way in found
    )
    heads = tuple(setting.say(f"cli.ladder.{h}") for h in ("what", "trips", "hours", "price"))
    at = "; ".join(places(answers, found[0].surfaces, setting))
    numbers = frozenset({1, 2, 3})
    return [Page("price", setting.say("cli.ways.title"), heads, rows, lines=(at,), right=numbers, whole=numbers)]
