"""One zone's lath from the first sheet to the last fastener, and the square-yard rule beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quicktions import Fraction

from darby.lath.courses import Laid, Rules, lay
from darby.lath.face import NOUGHT, Face, Rect
from darby.lath.fasteners import by_area, on_framing, supports
from darby.lath.model import Joint, Lath, LathAsk, Piece, Strip
from darby.lath.panels import panels
from darby.lath.paper import exact, hang
from darby.lath.sheets import Stack
from darby.lath.strips import corner_strips, reveal_strips, turns
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most
from darby.measure.surface import Length
from darby.measure.units import unit
from darby.measure.writing import short, shown, write
from darby.rulebook import Figure
from darby.working import Quantity, Working

SQ_FT = unit("sq ft")


def lay_lath(ask: LathAsk) -> tuple[Lath, Working]:
    """Sheets in courses, cut at joints and openings, with strips, fasteners and paper.

    Raises
    ------
    Unreadable
        ``lath.no-wall``, ``lath.sheet-size``, ``lath.laps``, ``lath.studs``, ``lath.joint-slanted``, ``lath.roll``,
        ``lath.count``.
    """
    working = Working()
    face = _face(ask)
    rules = _rules(working, ask, face)
    stack = Stack(rules.length, rules.width, rules.least)
    parts = panels(face, ask.joints, ask.at)
    laid = [lay(face, panel, n, rules, stack) for n, panel in enumerate(parts, start=1)]
    if any(panel.seam for panel in parts):
        working.note("lath.parted", "caution", ask.at)
    pieces = tuple(piece for part in laid for piece in part.pieces)
    strips = (*reveal_strips(working, ask, rules, stack), *corner_strips(working, ask, face, rules))
    area = Quantity(face.area(face.box), SQ_FT)
    counts = _counted(working, ask, area, stack, pieces, strips)
    _say(working, ask, face, rules, laid)
    places, fasteners, rule = _fastened(working, ask, face, rules, area)
    over_corners = sum((s.length for s in strips if s.sheet is None), NOUGHT)
    return (
        Lath(
            at=ask.at,
            area=area,
            pieces=pieces,
            joints=tuple(joint for part in laid for joint in part.joints),
            strips=strips,
            offcuts=tuple(stack.offcuts),
            scrap=Quantity(stack.scrap, SQ_FT),
            sheets=counts.sheets,
            all_sheets=counts.all_sheets,
            by_yard=counts.by_yard,
            more=counts.more,
            fasteners=fasteners,
            fasteners_by_area=rule,
            supports=places,
            paper=hang(working, ask, face),
            corner_lath=Quantity(over_corners, unit("ft-in")) if over_corners else None,
        ),
        working,
    )


# --- what is asked, checked ----------------------------------------------------------------------


def _face(ask: LathAsk) -> Face:
    for points in (ask.outline, *(o.outline for o in ask.openings)):
        if len(points) <= 2:
            raise Unreadable(Fault("lath.no-wall", ask.at, str(len(points)), "> 2"))
    face = Face(ask.outline, [o.outline for o in ask.openings])
    if not face.area(face.box):
        raise Unreadable(Fault("lath.no-wall", ask.at, "0", "> 0"))
    if ask.count < 1:
        raise Unreadable(Fault("lath.count", ask.at, str(ask.count), "1, 2 ..."))
    return face


def _rules(working: Working, ask: LathAsk, face: Face) -> Rules:
    book = ask.book
    width_by, length_by = book.number("lath.sheet.width"), book.number("lath.sheet.length")
    width, length = ask.sheet or (exact(width_by), exact(length_by))
    if ask.sheet is None:
        rules = (width_by.id, length_by.id)
        working.note("lath.assumed.sheet", "assumed", ask.at, rules=rules, width=width_by, length=length_by)
    side = _lap(working, ask, "side", ask.side_lap)
    end = _lap(working, ask, "end", ask.end_lap)
    least = exact(book.number("lath.strip.least"))
    if width < least or length < width:
        raise Unreadable(Fault("lath.sheet-size", ask.at, f"{write(width)} × {write(length)}", f"> {write(least)}"))
    if min(side, end) < 0 or side >= width / 2 or end >= length / 2:
        raise Unreadable(Fault("lath.laps", ask.at, f"{write(side)}, {write(end)}", f"< {write(width / 2)}"))
    return Rules(width, length, side, end, least, _studs(working, ask, face), turns(working, ask))


def _lap(working: Working, ask: LathAsk, which: str, own: Length | None) -> Length:
    """The lap of the voice that is followed, or his own, with a note of what he leaves."""
    figure = ask.book.number(f"lath.lap.{which}")
    if own is None:
        working.note(f"lath.lap-{which}", "fact", ask.at, rules=(figure.id,), lap=figure)
        return exact(figure)
    short = not at_most(figure.number, own)
    lap = Quantity(own, unit("in"))
    working.note("lath.own-lap", "caution" if short else "fact", ask.at, rules=(figure.id,), lap=lap, book=figure)
    return own


def _studs(working: Working, ask: LathAsk, face: Face) -> tuple[Length, Length] | None:
    if ask.base != "frame":
        return None
    apart = ask.studs
    if apart is None:
        figure = ask.book.number("studs.spacing")
        working.note("lath.assumed.studs", "assumed", ask.at, rules=(figure.id,), studs=figure)
        apart = exact(figure)
    if apart <= 0:
        raise Unreadable(Fault("lath.studs", ask.at, write(apart), "> 0"))
    most = ask.book.number("prep.framing")
    if not at_most(apart, most.number):
        studs = Quantity(apart, unit("in"))
        working.note("lath.framing-wide", "caution", ask.at, rules=(most.id,), studs=studs, most=most)
    if ask.first_stud is None:
        working.note("lath.assumed.first-stud", "assumed", ask.at)
    return (face.box[0] if ask.first_stud is None else ask.first_stud), apart


# --- what is answered ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Counts:
    sheets: Quantity
    all_sheets: Quantity
    by_yard: Quantity
    more: Quantity


def _counted(
    working: Working, ask: LathAsk, area: Quantity, stack: Stack, pieces: Sequence[Piece], strips: Sequence[Strip]
) -> _Counts:
    """Sheets as they are laid, with where every foot of them went, against the square-yard rule."""
    key = f"{ask.at}/lath"
    one = stack.length * stack.width
    laid = sum((p.area for p in pieces), NOUGHT)
    cut = sum((s.length * s.width for s in strips if s.sheet is not None), NOUGHT)
    left = sum((o.length * o.width for o in stack.offcuts), NOUGHT)
    whole_area = shown(stack.used * one, SQ_FT)
    parts = " + ".join(_fine(x) for x in (laid, cut, left, stack.scrap))
    proof = (f"{stack.used} × {_fine(one)} = {whole_area}", f"{parts} = {whole_area}")
    sheets = working.found(
        f"{key}/sheets", stack.used, "sheets", "lath.sheets", method="lath.method.sheet-by-sheet", proof=proof
    )
    every = working.step(f"{key}/all-sheets", "sheets * count", "sheets", "lath.all-sheets", sheets=sheets,
                         count=ask.count)  # fmt: skip
    rule = working.step(
        f"{key}/by-the-yard",
        "ceil(area / yards * sheets)",
        "sheets",
        "lath.by-yard",
        area=area,
        yards=ask.book.number("lath.bundle.area"),
        sheets=ask.book.number("lath.bundle.sheets"),
    )
    more = working.step(f"{key}/more", "laid - rule", "sheets", "lath.more", laid=sheets, rule=rule)
    if more.value:
        code = "lath.more-than-rule" if more.value > 0 else "lath.fewer-than-rule"
        working.note(code, "fact", ask.at, sheets=sheets, rule=rule)
    return _Counts(sheets, every, rule, more)


def _fine(area: Fraction) -> str:
    """So many decimals that the sum of a few is true to the last one that is printed."""
    return f"{short(SQ_FT.from_si(area), 2 + 2)} {SQ_FT.name}"


def _fastened(
    working: Working, ask: LathAsk, face: Face, rules: Rules, area: Quantity
) -> tuple[tuple[Length, ...], Quantity, Quantity]:
    if rules.studs is None:
        figure = ask.book.number("lath.fastener.masonry-area")
        count = by_area(working, ask, area, None, figure)
        return (), count, count
    figure = ask.book.number("lath.fastener.along-studs")
    places = supports(face, rules.studs, rules.least)
    rule = by_area(working, ask, area, rules.studs[1], figure)
    return places, on_framing(working, ask, face, places, figure), rule


def _say(working: Working, ask: LathAsk, face: Face, rules: Rules, laid: Sequence[Laid]) -> None:
    """What a lather would want to know of this layout."""
    in_line = sum(part.in_line for part in laid)
    if in_line:
        working.note("lath.in-line", "caution", ask.at, count=in_line)
    ties = ask.book.number("lath.tie")
    working.note("lath.ties", "fact", ask.at, rules=(ties.id,), apart=ties)
    if rules.studs is not None:
        _say_of_framing(working, ask, rules, laid, ties)
    for joint in ask.joints:
        if any(_loose(face, ask.joints, joint, end, rules.side_lap) for end in (joint.start, joint.end)):
            working.note("lath.joint-loose", "caution", ask.at, joints=(joint.id,))


def _say_of_framing(working: Working, ask: LathAsk, rules: Rules, laid: Sequence[Laid], ties: Figure) -> None:
    assert rules.studs is not None
    apart = rules.studs[1]
    between = sum(not joint.over_framing for part in laid for joint in part.joints)
    if between:
        working.note("lath.between-framing", "caution", ask.at, rules=(ties.id,), count=between, apart=ties)
    lost = rules.reach % apart
    if lost and any(part.joints for part in laid):
        working.note(
            "lath.sheet-reach",
            "fact",
            ask.at,
            length=Quantity(rules.length, unit("in")),
            reach=Quantity(rules.reach - lost, unit("in")),
            lost=Quantity(lost, unit("in")),
        )
    if at_most(apart, ask.book.number("studs.spacing").number):
        weight = ask.book.number("lath.weight")
        working.note("lath.weight", "fact", ask.at, rules=(weight.id,), weight=weight)


def _loose(face: Face, joints: Sequence[Joint], joint: Joint, end: tuple[Length, Length], near: Length) -> bool:
    """Whether a joint ends in the field: at no edge, no opening, no other joint. ``near`` an edge is at it."""
    u, v = end
    spans = [*face.spans_at(u), *_beside(face, u, v)]
    inside = all(
        any(low + near < v < high - near for low, high in part) for part in (spans[:-2], spans[-2:-1], spans[-1:])
    )
    return inside and not any(other is not joint and _on(other, u, v) for other in joints)


def _beside(face: Face, u: Length, v: Length) -> list[tuple[Length, Length]]:
    """The span of wall to the left of a point, and to the right; one of no height where there is none."""
    left, right, low, high = face.box
    before, after = face.slabs(Rect(left, u, low, high)), face.slabs(Rect(u, right, low, high))
    found = []
    for slabs, edge in ((before[-1:], "right"), (after[:1], "left")):
        spans = [s for slab in slabs if getattr(slab, edge) == u for s in slab.spans if s[0] < v < s[1]]
        found.append(spans[0] if spans else (v, v))
    return found


def _on(joint: Joint, u: Length, v: Length) -> bool:
    (a, b), (c, d) = joint.start, joint.end
    return min(a, c) <= u <= max(a, c) and min(b, d) <= v <= max(b, d)
