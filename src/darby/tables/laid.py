"""Joints, grounds and cut lists as pages for a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers import Waiting
from darby.measure.faults import Fault
from darby.measure.surface import Length
from darby.measure.units import unit
from darby.tables.page import Page
from darby.tables.places import edge_called, place
from darby.tables.setting import Setting
from darby.words import Verbatim, catalogue
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.grounds.model import Face, Ground, Grounds
    from darby.joints import Joint
    from darby.quantities.cutting.model import Bar, CutLists
    from darby.working import Note

FEET = unit("ft-in")


def joints_pages(answers: Answers, setting: Setting) -> list[Page]:
    """Every joint of the chosen layouts; [] where there is none."""
    rows = [
        (place(answers, surface, setting), *_joint(joint, setting))
        for surface, laid in answers.good("joints").items()
        for joint in laid.chosen.joints
    ]
    if not rows:
        return []
    heads = tuple(setting.say(f"cli.joints.{head}") for head in ("where", "kind", "at", "length"))
    return [Page("joints", setting.say("cli.joints.title"), heads, tuple(rows), right=frozenset({3}))]


def _feet(length: Length, setting: Setting) -> str:
    return setting.write(Quantity(length, FEET))


def _joint(joint: Joint, setting: Setting) -> tuple[str, ...]:
    upright = joint.axis == "vertical"
    at = joint.start[0] if upright else joint.start[1]
    way = "upright" if upright else "level" if joint.axis == "horizontal" else "along"
    said = setting.say(f"cli.joints.{way}", at=Verbatim(_feet(at, setting)))
    return setting.say(f"cli.joints.kind.{joint.kind}"), said, _feet(joint.length, setting)


def grounds_pages(answers: Answers, setting: Setting) -> list[Page]:
    """For every wall that was read: the three faces side by side, the depth at every ground, what has to be known."""
    pages = []
    for surface, found in answers.good("grounds").items():
        name = Verbatim(place(answers, surface, setting))
        heads = tuple(setting.say(f"cli.faces.{head}") for head in ("face", "volume", "cost", "most", "past"))
        rows = tuple(_face(face, setting) for face in found.faces)
        pages.append(
            Page("grounds", setting.say("cli.faces.title", wall=name), heads, rows, right=frozenset({1, 2, 3, 4}))
        )
        heads = tuple(setting.say(f"cli.grounds.{head}") for head in ("ground", "across", "up", "depth", "line"))
        grounds = tuple(_ground(ground, found, answers, setting) for ground in (*found.grounds, *found.corners))
        lines = tuple(setting.say(note.code, **dict(note.values)) for note in found.notes)
        if found.holdings:
            pages.append(_held(found, setting))
        title = setting.say("cli.grounds.title", face=setting.say(f"grounds.face.{found.chosen.name}"))
        pages.append(Page("grounds", title, heads, grounds, lines=lines, right=frozenset({1, 2, 3, 4})))
    return pages or [Page("grounds", setting.say("cli.part.grounds"), lines=(setting.say("cli.grounds.none"),))]


def straightedge_pages(answers: Answers, setting: Setting) -> list[Page]:
    """Every finished face that was read: what shows under each straightedge, and what may."""
    pages = []
    heads = tuple(setting.say(f"cli.straightedge.{head}") for head in ("edge", "gap", "allowed"))
    for surface, found in answers.good("straightedge").items():
        rows = tuple(
            (setting.write(one.worst.length), setting.write(one.worst.gap), setting.write(one.allowed))
            for one in found.rolled
            if one.worst is not None and one.allowed is not None
        )
        lines = tuple(setting.say(note.code, **dict(note.values)) for note in found.notes)
        title = setting.say("cli.straightedge.title", wall=Verbatim(place(answers, surface, setting)))
        pages.append(Page("straightedge", title, heads if rows else (), rows, lines=lines, right=frozenset({1, 2})))
    none = Page("straightedge", setting.say("cli.part.straightedge"), lines=(setting.say("cli.straightedge.none"),))
    return pages or [none]


def laid_faults(answers: Answers, stage: str) -> list[Fault]:
    """What stops a slow stage, or one profile of the cut lists."""
    found = [a for (name, _), a in answers.by.items() if name == stage and isinstance(a, Fault)]
    lists = answers.answered("cuts") if stage == "cuts" else None
    return found + [x.fault for x in (lists.lists if lists is not None else ()) if x.fault is not None]


def _face(face: Face, setting: Setting) -> tuple[str, ...]:
    cost = setting.write(face.cost) if face.cost is not None else ""
    return (
        setting.say(f"grounds.face.{face.name}"),
        setting.write(face.volume),
        cost,
        setting.write(face.most),
        setting.write(face.past),
    )


def _ground(ground: Ground, found: Grounds, answers: Answers, setting: Setting) -> tuple[str, ...]:
    depth = setting.write(ground.depth)
    shown = depth if ground.known else setting.say("cli.grounds.not-read", depth=Verbatim(depth))
    u, v = (_feet(Fraction(x).limit_denominator(10**6), setting) for x in (ground.u, ground.v))
    return _called(ground, found, answers, setting), u, v, shown, setting.write(found.from_line(ground))


def _held(found: Grounds, setting: Setting) -> Page:
    """Each way to hold what is past the limit, answered; the one that was said is marked."""
    rows = []
    for way in found.holdings:
        name = way.how.replace(" ", "-")
        off = Verbatim(setting.write(way.off)) if way.off is not None else ""
        said = setting.say(
            f"paper.truing.way.{name}", area=way.area, lifts=str(int(float(way.lifts))), most=way.most, off=off
        )
        cost = setting.write(way.cost) if way.cost is not None else ""
        mark = "→ " if way.how == found.held else ""
        rows.append((mark + setting.say(f"grounds.held.name.{name}"), said, setting.write(way.volume), cost))
    heads = (setting.say("papers.truing.way"), "", setting.say("cli.faces.volume"), setting.say("cli.faces.cost"))
    return Page("grounds", setting.say("papers.truing.held"), heads, tuple(rows), right=frozenset({2, 3}))


def _called(ground: Ground, found: Grounds, answers: Answers, setting: Setting) -> str:
    """A crossing by its number, a corner by what it is the corner of."""
    if ground.id[:1].isdigit():
        return ground.id
    first, _, last = ground.id.rpartition("/")
    code = f"paper.truing.corner.{last}"
    corner = setting.say(code if code in catalogue("en") else "paper.truing.corner")
    return f"{edge_called(answers, found.at, first, setting)}, {corner}" if first else corner


def cuts_page(answers: Answers, setting: Setting) -> Page:
    """The bars of every profile and how to saw them."""
    lists: CutLists | Waiting | Fault = answers.of("cuts")
    title = setting.say("cli.cuts.title")
    if isinstance(lists, (Waiting, Fault)):
        return Page("cuts", title, lines=(setting.say("answers.lacks.bars"),))
    rows: list[tuple[str, ...]] = []
    for found in lists.lists:
        item = found.item.replace(" ", "-")
        rows.append((setting.say(f"quantities.item.{item}") + ":",))
        if found.cuts is None:
            continue
        rows += [_bar(bar, setting) for bar in found.cuts.bars]
        if found.cuts.aim == "length":
            rows.append(("", setting.say("cli.cuts.unpriced", bars=str(len(found.cuts.bars))), ""))
            continue
        code = "cli.cuts.proved" if found.cuts.proved_best else "cli.cuts.best-found"
        rows.append(("", setting.say(code, cost=found.cost, saved=found.saved, bars=str(len(found.cuts.bars))), ""))
    heads = tuple(setting.say(f"cli.cuts.{head}") for head in ("bar", "cuts", "left"))
    notes = answers.kept[("cuts", "job")].working.notes
    lines = (setting.say("cli.cuts.note"), *(_said(note, answers, setting) for note in notes))
    return Page("cuts", title, heads, tuple(rows), lines=lines, right=frozenset({2}))


def _said(note: Note, answers: Answers, setting: Setting) -> str:
    """A note of the cut lists, its piece called by its place."""
    values = dict(note.values)
    if isinstance(values.get("piece"), str):
        values["piece"] = Verbatim(place(answers, str(values["piece"]), setting))
    said = setting.say(note.code, **values)
    return f"{setting.say('cli.stop')} {said}" if note.grade == "stop" else said


def _bar(bar: Bar, setting: Setting) -> tuple[str, ...]:
    cuts = ", ".join(f"{_feet(cut.length, setting)} {cut.piece}" for cut in bar.cuts)
    called = f"{bar.number}. {_feet(bar.stock, setting)}"
    if bar.offcut is not None:
        length = " ".join(filter(None, (_feet(bar.stock, setting), bar.offcut)))
        called = setting.say("cli.cuts.on-truck", n=str(bar.number), length=Verbatim(length))
    return called, cuts, _feet(bar.left, setting)
