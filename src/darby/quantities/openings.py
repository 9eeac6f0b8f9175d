"""Openings come off by a custom. The custom is a voice the firm follows; its effect against the net area is printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.quantities.lines import total
from darby.quantities.model import Area, Opening
from darby.rulebook import Book, Figure
from darby.working import Quantity, Working


@dataclass(frozen=True, slots=True)
class OpeningRule:
    """A custom: its figure, and the figures it works by. None = the custom has none of that kind.

    ``none_under``: an opening up to this stays in, and pays for its own reveals; ``one_face_up_to``: up to this an
    opening comes off one face only and brings no reveals in; ``share``: how much of an opening comes off.
    """

    figure: Figure
    none_under: Figure | None = None
    one_face_up_to: Figure | None = None
    share: Figure | None = None

    @property
    def voice(self) -> str:
        """Short name of the custom."""
        return self.figure.voice


@dataclass(frozen=True, slots=True)
class Measured:
    """Areas of one zone [m2], each a step: ``gross`` - ``off`` + ``reveals`` = ``area``; ``by_net`` by the net rule."""

    gross: Quantity
    off: Quantity
    reveals: Quantity
    area: Quantity
    by_net: Quantity
    against_net: Quantity


def opening_rule(book: Book, voice: str | None = None) -> OpeningRule:
    """The custom that the book follows, or the one called ``voice``.

    Raises
    ------
    Unreadable
        if no custom has that name.
    """
    ruled = book.rule("openings.rule")
    voices = {f.voice: f for f in (ruled.figure, *ruled.others)}
    figure = ruled.figure if voice is None else voices.get(voice)
    if figure is None:
        raise Unreadable(Fault("quantities.opening-rule", "openings", str(voice), ", ".join(sorted(voices))))

    def of(subject: str) -> Figure | None:
        spoken = book.rule(subject)
        return next((f for f in (spoken.figure, *spoken.others) if f.voice == figure.voice), None)

    return OpeningRule(figure, of("openings.none-under"), of("openings.one-face-up-to"), of("openings.share"))


def measured_area(
    working: Working,
    at: str,
    gross: Area,
    openings: Sequence[Opening],
    rule: OpeningRule,
    *,
    count: int = 1,
    faces: int = 1,
) -> Measured:
    """The area of one zone by ``rule``, step by step, and beside it the net area.

    Parameters
    ----------
    at
        where the steps lie, "bay-south/main".
    gross
        area before openings [m2]; of both faces together where ``faces`` is 2.
    count
        equal surfaces, all of them measured here.

    Raises
    ------
    Unreadable
        if the openings are larger than the wall.
    """
    square = unit("sq ft")
    all_of = working.step(
        f"{at}/area-gross", "area * count", square, "quantities.area-gross", area=Quantity(gross, square), count=count
    )
    off, brought, off_net, brought_net = [], [], [], []
    for o in openings:
        hole = Quantity(o.area, square)
        taken, used = _faces_off(o, rule, faces)
        net = working.step(
            f"{at}/{o.id}/opening",
            "area * faces * count",
            square,
            "quantities.opening",
            area=hole,
            faces=faces,
            count=count,
        )
        off_net.append(net)
        sides = [
            working.step(
                f"{at}/{o.id}/{r.side}/reveal",
                "length * depth * count",
                square,
                "quantities.reveal",
                length=Quantity(r.length, unit("ft-in")),
                depth=Quantity(r.depth, unit("in")),
                count=count,
            )
            for r in o.reveals
        ]
        brought_net += sides
        if taken and rule.share is not None:
            off.append(
                working.step(
                    f"{at}/{o.id}/opening-off",
                    "area * share",
                    square,
                    "quantities.opening-off",
                    rules=(rule.figure.id,),
                    area=net,
                    share=rule.share,
                )
            )
        elif taken == faces:
            off.append(net)
        elif taken:
            off.append(
                working.step(
                    f"{at}/{o.id}/opening-off",
                    "area * faces * count",
                    square,
                    "quantities.opening-off",
                    rules=used,
                    area=hole,
                    faces=taken,
                    count=count,
                )
            )
        else:
            working.note("quantities.opening-stays-in", "fact", at, rules=used, opening=o.id, area=hole)
        if _brings_reveals(o, rule, taken):
            brought += sides
    taken_off = total(working, f"{at}/area-off", "quantities.area-off", square, off)
    reveals = total(working, f"{at}/area-reveals", "quantities.area-reveals", square, brought)
    area = working.step(
        f"{at}/area",
        "gross - openings + reveals",
        square,
        "quantities.area",
        rules=(rule.figure.id,),
        gross=all_of,
        openings=taken_off,
        reveals=reveals,
    )
    if not at_most(float(taken_off), float(all_of) + float(reveals)):
        raise Unreadable(Fault("quantities.openings-larger-than-wall", at, _feet(taken_off), _feet(all_of)))
    by_net = area
    if off != off_net or brought != brought_net:
        net_off = total(working, f"{at}/area-off-net", "quantities.area-off-net", square, off_net)
        net_reveals = total(working, f"{at}/area-reveals-net", "quantities.area-reveals", square, brought_net)
        by_net = working.step(
            f"{at}/area-net",
            "gross - openings + reveals",
            square,
            "quantities.area-net",
            gross=all_of,
            openings=net_off,
            reveals=net_reveals,
        )
    against = working.step(
        f"{at}/area-against-net", "area - net", square, "quantities.area-against-net", area=area, net=by_net
    )
    return Measured(all_of, taken_off, reveals, area, by_net, against)


def _faces_off(o: Opening, rule: OpeningRule, faces: int) -> tuple[int, tuple[str, ...]]:
    """From how many faces the opening comes off, and the figures that decided it."""
    whole = o.area if o.whole is None else o.whole
    if rule.none_under is not None and at_most(whole, rule.none_under.number):
        return 0, (rule.none_under.id,)
    if rule.one_face_up_to is not None and at_most(whole, rule.one_face_up_to.number):
        return 1, (rule.one_face_up_to.id,)
    return faces, (rule.figure.id,)


def _brings_reveals(o: Opening, rule: OpeningRule, taken: int) -> bool:
    """An opening that stays in, or half in, or comes off one face only, pays for its own reveals."""
    if not taken or rule.share is not None:
        return False
    whole = o.area if o.whole is None else o.whole
    return rule.one_face_up_to is None or not at_most(whole, rule.one_face_up_to.number)


def _feet(area: Quantity) -> str:
    """An area for a fault, in whole square feet: a fault carries text."""
    return f"{round(float(area.unit.from_si(area.value)))} {area.unit.name}"
