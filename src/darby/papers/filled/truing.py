"""A wall that was read, on paper: the crew's sheet of grounds, and the letter with the ways and their money."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quicktions import Fraction
from shapely import Point

from darby.drawing import METRIC_PAPERS, PAPERS, key, opening_called, sheet_for, to_svg
from darby.drawing.grounds import Set, grounds_on
from darby.drawing.map import thickness_map
from darby.measure.checks import SLIVER
from darby.measure.limits import at_most
from darby.measure.outline import polygon
from darby.measure.units import IN, unit
from darby.measure.writing import HAIR
from darby.papers.filled.cautions import cautions
from darby.papers.filled.parting import drawn_joints
from darby.papers.filled.pictures import WIDE
from darby.papers.model import (
    Both,
    BothCaution,
    FaceRow,
    GroundRow,
    HoldRow,
    HollowRow,
    KeyItem,
    Picture,
    SpotRow,
    TruingPaper,
)
from darby.words import Verbatim
from darby.working import Quantity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from darby.drawing import Mark
    from darby.grounds.model import Face, Ground, Grounds, GroundsAsk, Holding, Patch, Spot
    from darby.papers.filled.writer import Writer
    from darby.words import Language
    from darby.working import Note

TO = 16
HIGH = 270.0
"""How high a wall is drawn at the most [pt]."""
NOTED = ("grounds.plumb-line", "grounds.between", "grounds.thin", "grounds.wild-high", "grounds.wild-low",
         "grounds.not-flush", "grounds.limit-as-block", "grounds.own-rule", "grounds.under-least")  # fmt: skip
"""What is said of the readings and the faces beside the tables."""
HURTS = ("safety.cement", "safety.silica-grinder", "safety.silica-saw", "safety.lead-", "safety.asbestos-")
"""What can hurt whoever knocks a wall down and fills it; the crew sheet says the rest."""

Languages = tuple["Language", ...]


def truing_papers(writer: Writer) -> dict[str, TruingPaper]:
    """For every wall that was read: the crew's sheet, and the letter with money; {} where none was."""
    made: dict[str, TruingPaper] = {}
    for surface, found in writer.answers.good("grounds").items():
        made[f"grounds-{surface}.pdf"] = _paper(writer, surface, found, money=False)
        made[f"truing-{surface}.pdf"] = _paper(writer, surface, found, money=True)
    return made


def _paper(writer: Writer, surface_id: str, found: Grounds, *, money: bool) -> TruingPaper:
    languages: Languages = (writer.language,) if money else writer.crew_languages
    name = Verbatim(writer.place(surface_id))
    finish = Quantity(writer.answers.kept[("grounds", surface_id)].ask.finish, unit("in"))
    values = {"count": str(len(_readings(writer, surface_id))), "face": f"grounds.face.{found.chosen.name}",
              "volume": found.volume, "untrued": found.untrued, "finish": finish}  # fmt: skip
    return TruingPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.truing.title-money" if money else "paper.truing.title", wall=name),
        wall=Both(*(writer.place(surface_id, one) for one in languages)),
        opening=_both(writer, languages, "paper.truing.opening" if money else "paper.truing.opening-crew", **values),
        picture=_grounds_picture(writer, surface_id, found),
        map=_map_picture(writer, surface_id, found),
        hollows=tuple(_hollow(writer, p, languages) for p in found.patches if not p.slight),
        hollows_note=_hollows_note(writer, found, languages),
        spots=tuple(_spot(writer, spot, languages, money=money) for spot in found.spots),
        faces=tuple(_face(writer, face, found) for face in found.faces) if money else (),
        holdings=tuple(_holding(writer, way, found) for way in found.holdings) if money else (),
        held=_held(writer, found, languages, money=money),
        grounds=() if money else _grounds(writer, surface_id, found, languages),
        notes=tuple(
            Both(*(_said(writer, surface_id, note, found, one) for one in languages))
            for note in found.notes
            if note.code in NOTED
        ),
        cautions=() if money else _hurts(writer, surface_id),
        money=money,
        languages=languages,
    )


def _both(writer: Writer, languages: Languages, code: str, /, **values: object) -> Both:
    return Both(*(writer.say(code, one, **values) for one in languages))


def _said(writer: Writer, surface: str, note: Note, found: Grounds, language: Language) -> str:
    """A note with its grounds called by name and its thicknesses to what a rule shows."""
    more: dict[str, object] = {}
    every = {g.id: g for g in (*found.grounds, *found.corners)}
    for name, value in note.values:
        if name == "grounds" and isinstance(value, tuple):
            called = [ground_called(writer, surface, one, language) for one in value if one in every]
            more[name] = Verbatim("; ".join(called))
        elif isinstance(value, Quantity) and value.unit.name == "in":
            more[name] = Verbatim(_thick(writer, value, language))
    return writer.note(note, language, "note", **more)


def _hurts(writer: Writer, surface: str) -> tuple[BothCaution, ...]:
    wanted = {writer.both_note(n, "crew") for n in writer.answers.notes if n.code.startswith(HURTS)}
    return tuple(caution for caution in cautions(writer, surface) if caution.text in wanted)


def _readings(writer: Writer, surface: str) -> tuple[tuple[float, float], ...]:
    ask: GroundsAsk = writer.answers.kept[("grounds", surface)].ask
    return tuple(dict.fromkeys((float(u), float(v)) for u, v, _ in ask.readings))


def _feet(writer: Writer, length: float, language: Language) -> str:
    return writer.feet(Fraction(length).limit_denominator(10**6), language, TO)


def _thick(writer: Writer, thickness: Quantity, language: Language | None = None) -> str:
    """To the sixteenth of an inch that a rule shows; whole millimetres."""
    if writer.system == "metric":
        return writer.write(Quantity(round(float(thickness) * 1000) / 1000, unit("mm")), language)
    return writer.feet(thickness.value, language, TO)


# --- drawings ----------------------------------------------------------------------------------------------


def _past(writer: Writer, found: Grounds, ground: Ground) -> bool:
    """Whether the plaster at a ground is past what may hang without lath; within a part on lath it is not."""
    if found.limit is None or at_most(float(ground.depth), found.limit.number + float(HAIR)):
        return False
    ask: GroundsAsk = writer.answers.kept[("grounds", found.at)].ask
    around = polygon(ask.outline).intersection(Point(ground.u, ground.v).buffer(float(IN)))
    for outline in (*(o.outline for o in ask.openings), *ask.lathed):
        around = around.difference(polygon(outline))
    return bool(around.area > SLIVER)


def _grounds_picture(writer: Writer, surface_id: str, found: Grounds) -> Picture:
    surface = writer.answers.job.surface(surface_id)
    sets = [Set(g.u, g.v, float(g.depth), _past(writer, found, g), g.known) for g in (*found.grounds, *found.corners)]
    marks = grounds_on(surface, sets, joints=drawn_joints(writer, surface_id), language=writer.language,
                       system=writer.system)  # fmt: skip
    code = "paper.truing.grounds" if writer.system == "us" else "paper.truing.grounds.metric"
    return _picture(writer, writer.place(surface_id), marks, code, "paper.truing.alt")


def _map_picture(writer: Writer, surface_id: str, found: Grounds) -> Picture:
    surface = writer.answers.job.surface(surface_id)
    past = [outline for patch in found.patches if not patch.slight for outline in patch.outlines]
    marks = thickness_map(
        surface, found.map.points, found.map.thickness, found.map.triangles, past=past,
        unread=found.coverage.outlines, readings=_readings(writer, surface_id), language=writer.language,
        system=writer.system,
    )  # fmt: skip
    return _picture(writer, writer.place(surface_id), marks, "paper.truing.map", "paper.truing.alt-map")


def _picture(writer: Writer, name: str, marks: Sequence[Mark], caption: str, alt: str) -> Picture:
    sheet = sheet_for(marks, WIDE, HIGH, PAPERS if writer.system == "us" else METRIC_PAPERS)
    scale = writer.say("drawing.scale" if writer.system == "us" else "drawing.scale.ratio", scale=sheet.words)
    said = writer.say(alt, wall=Verbatim(name))
    items = tuple(KeyItem(entry.svg, entry.text) for entry in key(marks, sheet, writer.language, writer.system))
    return Picture(to_svg(marks, sheet, title=said), said,
                   writer.say(caption, wall=Verbatim(name), scale=Verbatim(scale)), items)  # fmt: skip


# --- tables ------------------------------------------------------------------------------------------------


def _face(writer: Writer, face: Face, found: Grounds) -> FaceRow:
    over = writer.answers.book.number("thickness.base-plane-length")
    lean = writer.say("paper.truing.lean", lean=Verbatim(_thick(writer, face.lean)), over=over)
    gaps = ", ".join(
        writer.say("paper.truing.gap", gap=Verbatim(_thick(writer, g.gap)),
                   length=Verbatim(writer.feet(g.length.value))) for g in face.gaps
    )  # fmt: skip
    return FaceRow(
        name=writer.say(f"grounds.face.{face.name}"),
        volume=writer.write(face.volume),
        cost=writer.write(face.cost) if face.cost is not None else "",
        most=_thick(writer, face.most),
        lean=lean if float(face.lean) > float(HAIR) else "0",
        look=writer.say(f"paper.truing.look.{face.name}", gaps=Verbatim(gaps)),
        chosen=face.name == found.chosen.name,
    )


def _holding(writer: Writer, way: Holding, found: Grounds) -> HoldRow:
    name = way.how.replace(" ", "-")
    off = Verbatim(_thick(writer, way.off)) if way.off is not None else ""
    return HoldRow(
        name=writer.say(f"grounds.held.name.{name}"),
        says=writer.say(f"paper.truing.way.{name}", area=way.area, lifts=_count(way.lifts), most=way.most, off=off),
        volume=writer.write(way.volume),
        cost=writer.write(way.cost) if way.cost is not None else "",
        chosen=way.how == found.held,
    )


def _count(lifts: Quantity) -> str:
    return str(int(float(lifts)))


def _held(writer: Writer, found: Grounds, languages: Languages, *, money: bool) -> Both:
    """What was said of how it is held; that nobody has said; that nothing is past the limit; nothing on lath."""
    if found.limit is None:
        return Both("")
    if not found.holdings:
        return _both(writer, languages, "paper.truing.none-past")
    if found.held is None:
        return _both(writer, languages, "paper.truing.ask" if money else "paper.truing.ask-crew")
    code = f"grounds.held.name.{found.held.replace(' ', '-')}"
    return Both(
        *(writer.say("paper.truing.said", one, way=Verbatim(writer.say(code, one).lower())) for one in languages)
    )


def _hollows_note(writer: Writer, found: Grounds, languages: Languages) -> Both:
    if found.limit is None or not found.patches:
        return Both("")
    most = writer.answers.book.number("thickness.one-pass")
    said = _both(writer, languages, "paper.truing.first-note", most=most, limit=found.limit)
    if not any(p.slight for p in found.patches):
        return said
    more = _both(writer, languages, "paper.truing.slight")
    return Both(f"{said.first} {more.first}", f"{said.second} {more.second}".strip())


def _hollow(writer: Writer, patch: Patch, languages: Languages) -> HollowRow:
    return HollowRow(
        where=_at(writer, patch.u, patch.v, languages),
        deepest=_thick(writer, patch.deepest),
        area=writer.write(patch.area),
        lifts=_count(patch.lifts),
        excess=writer.write(patch.excess),
    )


def _at(writer: Writer, u: float, v: float, languages: Languages) -> Both:
    said = [
        writer.say("paper.truing.at", one, across=Verbatim(_feet(writer, u, one)), up=Verbatim(_feet(writer, v, one)))
        for one in languages
    ]
    return Both(*said)


def _spot(writer: Writer, spot: Spot, languages: Languages, *, money: bool) -> SpotRow:
    at = _at(writer, spot.u, spot.v, languages)
    pairs = zip(languages, (at.first, at.second), strict=False)
    where = Both(
        *(writer.say("paper.truing.reading", one, number=str(spot.number), at=Verbatim(a)) for one, a in pairs)
    )
    if not money:
        return SpotRow(where, _thick(writer, spot.by), saves=writer.write(spot.knocked))
    return SpotRow(
        where=where,
        by=_thick(writer, spot.by),
        saves=writer.write(spot.saves),
        saves_money=writer.write(spot.saves_money) if spot.saves_money is not None else "",
        knocked=writer.write(spot.knocked),
        knocked_money=writer.write(spot.knocked_money) if spot.knocked_money is not None else "",
    )


def _grounds(writer: Writer, surface: str, found: Grounds, languages: Languages) -> tuple[GroundRow, ...]:
    return tuple(_ground(writer, surface, g, found, languages) for g in (*found.grounds, *found.corners))


def _ground(writer: Writer, surface: str, ground: Ground, found: Grounds, languages: Languages) -> GroundRow:
    first = languages[0]
    return GroundRow(
        name=Both(*(ground_called(writer, surface, ground.id, one) for one in languages)),
        across=_feet(writer, ground.u, first),
        up=_feet(writer, ground.v, first),
        depth=_thick(writer, ground.depth, first),
        ground=_thick(writer, ground.ground, first),
        line=_thick(writer, found.from_line(ground), first),
        past=_past(writer, found, ground),
        known=ground.known,
    )


def ground_called(writer: Writer, surface: str, ground: str, language: Language) -> str:
    """A crossing by its number, a corner by what it is the corner of."""
    first, _, corner = ground.partition("/")
    opening = next((o for o in writer.answers.job.surface(surface).openings if o.id == first), None)
    if opening is not None:
        return f"{opening_called(opening, language)}, {_corner(writer, corner, language)}"
    return ground if ground[:1].isdigit() else _corner(writer, ground, language)


def _corner(writer: Writer, name: str, language: Language) -> str:
    code = f"paper.truing.corner.{name}"
    return writer.say(code if writer.knows(code) else "paper.truing.corner", language)
