"""What has to be said beside the numbers, as notes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from darby.grounds.model import Grounds, GroundsAsk, Straightedge
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.measure.writing import HAIR
from darby.working.model import Grade, Note, Quantity, Working, note

IN, FT_IN = unit("in"), unit("ft-in")


def notes_of(ask: GroundsAsk, answer: Grounds, rules: tuple[Straightedge, ...], working: Working) -> Grounds:
    """The answer with its notes, which the working gets too."""
    notes = (
        *_measured(ask, answer),
        *_faces(ask, answer, rules),
        *_spots(ask, answer),
        *_hollows(ask, answer),
        *_grounds(ask, answer),
    )
    working.notes.extend(notes)
    return replace(answer, notes=notes)


def _length(value: float) -> Quantity:
    return Quantity(value, FT_IN)


def _measured(ask: GroundsAsk, answer: Grounds) -> list[Note]:
    """What the readings leave open."""
    times, plane = ask.book.number("grounds.wild"), ask.book.number("thickness.base-plane")
    cover = answer.coverage
    where: dict[str, Any] = {"across": _length(cover.u), "up": _length(cover.v)}
    notes = [
        note("grounds.plumb-line", "assumed", ask.at),
        note("grounds.between", "fact", ask.at, count=len(ask.readings), radius=cover.radius, **where),
    ]
    if cover.outlines:
        notes.append(note("grounds.thin", "caution", ask.at, thin=cover.thin, reach=cover.reach, **where))
    for w in answer.wild:
        values = {
            "number": w.number,
            "off": Quantity(abs(float(w.off)), IN),
            "across": _length(w.u),
            "up": _length(w.v),
        }
        code = "grounds.wild-high" if float(w.off) > 0 else "grounds.wild-low"
        notes.append(note(code, "caution", ask.at, rules=(times.id, plane.id), **values))
    return notes


def _faces(ask: GroundsAsk, answer: Grounds, rules: tuple[Straightedge, ...]) -> list[Note]:
    """Each face in a sentence; what cannot be flush; what truing takes."""
    book = ask.book
    plane, over = book.number("thickness.base-plane"), book.number("thickness.base-plane-length")
    notes = []
    for face in answer.faces:
        values: dict[str, Any] = {"volume": face.volume, "most": face.most}
        used: tuple[str, ...] = ()
        if face.name != "plumb":
            values |= {"lean": face.lean, "over": over}
            used = (plane.id, over.id)
        if face.name == "wandering":
            worst = max(face.gaps, key=lambda g: float(g.gap) / float(g.length), default=None)
            values |= {"gaps": tuple(g.gap for g in face.gaps), "lengths": tuple(g.length for g in face.gaps)}
            if ask.straightedges is None and worst is not None:
                used += tuple(book.number(f"grounds.{w}-{x}").id for w in ("short", "long") for x in ("edge", "gap"))
        notes.append(note(face.look, "fact", ask.at, rules=used, **values))
        if face.misses is not None:
            notes.append(note("grounds.not-flush", "caution", ask.at, face=f"grounds.face.{face.name}",
                              misses=face.misses))  # fmt: skip
    notes.append(note("grounds.truing", "fact", ask.at, face=f"grounds.face.{ask.face}", truing=answer.truing,
                      untrued=answer.untrued, volume=answer.chosen.volume))  # fmt: skip
    if ask.straightedges is not None:
        notes += [note("grounds.own-rule", "fact", ask.at, gap=Quantity(r.gap, IN), length=Quantity(r.length, FT_IN))
                  for r in rules]  # fmt: skip
    return notes


def _spots(ask: GroundsAsk, answer: Grounds) -> list[Note]:
    knock = ask.book.number("grounds.knock")
    notes = []
    for spot in answer.spots:
        values: dict[str, Any] = {"number": spot.number, "across": _length(spot.u), "up": _length(spot.v),
                                     "by": spot.by, "saves": spot.saves, "knocked": spot.knocked}  # fmt: skip
        code = "grounds.spot"
        if spot.saves_money is not None:
            values |= {"saves_money": spot.saves_money, "knocked_money": spot.knocked_money}
            code = "grounds.spot-money"
        notes.append(note(code, "fact", ask.at, rules=(knock.id,), **values))
    return notes


def _hollows(ask: GroundsAsk, answer: Grounds) -> list[Note]:
    """Past the limit: where, how it is held, or that he has to say how."""
    if answer.limit is None or not answer.patches:
        return []
    rules = (answer.limit.id, ask.book.number("thickness.no-lath-rule").id)
    uneven, one = ask.book.number("thickness.uneven"), ask.book.number("thickness.one-pass")
    notes = [
        note("grounds.hollow", "caution", ask.at, rules=rules, number=n, across=_length(p.u), up=_length(p.v),
             deepest=p.deepest, area=p.area, limit=answer.limit, lifts=p.lifts, excess=p.excess)
        for n, p in enumerate(answer.patches, 1)
        if not p.slight
    ]  # fmt: skip
    slight = [p for p in answer.patches if p.slight]
    if slight:
        to = ask.book.number("grounds.to")
        area = Quantity(sum(float(p.area) for p in slight), unit("sq ft"))
        fill = ask.book.number("grounds.least-fill")
        notes.append(note("grounds.hollows-slight", "fact", ask.at, rules=(*rules, to.id, fill.id), count=len(slight),
                          area=area, limit=answer.limit, to=to, fill=fill))  # fmt: skip
    if ask.base not in ("block", "concrete"):
        notes.append(note("grounds.limit-as-block", "assumed", ask.at, rules=rules, limit=answer.limit))
    if ask.held is None:
        notes.append(note("grounds.how-held", "caution", ask.at, rules=rules, limit=answer.limit))
        return notes
    way = next(h for h in answer.holdings if h.how == ask.held)
    values: dict[str, Any] = {"area": way.area, "lifts": way.lifts, "most": one, "volume": way.volume}
    code = f"grounds.held.{ask.held.replace(' ', '-')}"
    grade: Grade = "caution" if ask.held == "dub out" else "fact"
    off = {"off": way.off} if way.off is not None else {}
    used = (*rules, one.id, *((uneven.id,) if ask.held == "follow" else ()))
    notes.append(note(code, grade, ask.at, rules=used, **values, **off))
    return notes


def _grounds(ask: GroundsAsk, answer: Grounds) -> list[Note]:
    """Depths that nobody measured, and those of them that come under the least."""
    to = ask.book.number("grounds.to")
    notes = [note("grounds.set", "fact", ask.at, rules=(to.id,), count=len(answer.grounds), to=to)]
    every = (*answer.grounds, *answer.corners)
    unknown = [g for g in every if not g.known]
    if unknown:
        notes.append(note("grounds.not-measured", "caution", ask.at, grounds=tuple(g.id for g in unknown),
                          reach=answer.coverage.reach))  # fmt: skip
    short = [g for g in every if not at_most(float(ask.least), float(g.depth) + to.number / 2 + float(HAIR))]
    if short:
        notes.append(note("grounds.under-least", "caution", ask.at, grounds=tuple(g.id for g in short),
                          least=Quantity(ask.least, IN)))  # fmt: skip
    return notes
