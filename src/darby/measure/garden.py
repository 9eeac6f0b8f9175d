"""A garden wall in one go: both faces, ends, the returns of its pilasters, a plastered top. Exact, each corner once.

Surfaces of the wall ``gw``, as far as it has them: ``gw-front``, ``gw-back``, ``gw-left`` and ``gw-right`` (its ends),
``gw-front-returns`` and ``gw-back-returns`` (one surface that stands there as often as there are returns), ``gw-top``
(or ``gw-top-front`` and ``gw-top-back`` where it slopes both ways). The front of a pilaster is part of its face: it
takes as much wall away as it adds.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import atan2, degrees
from typing import Literal

from quicktions import Fraction

from darby.measure.faults import Fault, Unreadable
from darby.measure.outline import distance
from darby.measure.panels import Line, panel
from darby.measure.shapes import FREE_END, WallSide, corner_line
from darby.measure.surface import Corner, Edge, EdgeKind, Length, Opening, Projection, Surface, Zone
from darby.measure.writing import write

NOUGHT = Fraction(0)
Face = Literal["front", "back"]
FACES: tuple[Face, ...] = ("front", "back")
CapKind = Literal["drip", "flashing", "under", "slope"]
Falls = Literal["front", "back", "both"]

CAPS: dict[CapKind, EdgeKind] = {
    "drip": "drip",
    "flashing": "flashing",
    "under": "soffit",
    "slope": "outside corner",
}
"""What the upper edge is under each kind of top: a cap that drips, flashing, something that stands on it, a wash."""

OTHER_SIDE = {"left": "right", "right": "left"}


@dataclass(frozen=True, slots=True)
class Pilasters:
    """Equal pilasters: ``centres`` from the wall's left end seen from the front, ``width``, how far ``out`` [m]."""

    centres: tuple[Length, ...]
    width: Length
    out: Length
    on: frozenset[Face] = frozenset(FACES)


@dataclass(frozen=True, slots=True)
class Cap:
    """How the top is kept dry. A plastered slope ``fall``s [m] across the wall, ``to`` one face or from a ridge."""

    kind: CapKind
    fall: Length = NOUGHT
    to: Falls = "back"


@dataclass(frozen=True, slots=True)
class _Built:
    """The wall as it was asked for, with what follows for a face."""

    id: str
    name: str
    length: Length
    height: Length
    thick: Length
    pilasters: tuple[tuple[Length, Length], ...]
    out: Length
    on: frozenset[Face]
    cap: Cap
    ends: tuple[WallSide, WallSide]
    plastered: tuple[Face, ...]

    def spans(self, face: Face) -> tuple[tuple[Length, Length], ...]:
        """Where pilasters stand on this face, from the front's left end."""
        return self.pilasters if face in self.on else ()

    def flush(self, side: str, face: Face) -> Length:
        """How much wider the end is for a pilaster that stands flush with it."""
        spans = self.spans(face)
        if not spans or face not in self.plastered:
            return NOUGHT
        at_end = spans[0][0] == 0 if side == "left" else spans[-1][1] == self.length
        return self.out if at_end else NOUGHT

    def returns(self, face: Face) -> int:
        """How many sides of pilasters there are; one flush with a free end is part of the end."""
        spans = self.spans(face)
        return len(spans) * 2 - sum(bool(self.flush(side, face)) for side in OTHER_SIDE)

    def free(self, side: str) -> bool:
        """Whether the wall ends there in the open, and its end is plastered."""
        return self.ends[side == "right"].kind == "outside corner"

    def top_of(self, face: Face) -> Length:
        """Height of a face: the side that a slope falls from is higher by its fall."""
        cap = self.cap
        return self.height + (cap.fall if cap.kind == "slope" and cap.to not in ("both", face) else NOUGHT)

    @property
    def tops(self) -> tuple[str, ...]:
        """Ids of the plastered tops."""
        if self.cap.kind != "slope":
            return ()
        return (f"{self.id}-top-front", f"{self.id}-top-back") if self.cap.to == "both" else (f"{self.id}-top",)

    def top_at(self, face: Face) -> str:
        """The plastered top that ends on this face."""
        return self.tops[FACES.index(face)] if len(self.tops) > 1 else self.tops[0]

    def over(self, surface: str, left: tuple[Face, Length], right: tuple[Face, Length]) -> Line:
        """The upper edge of one of its surfaces: over which face each of its ends lies, and how high."""
        kind = CAPS[self.cap.kind]
        if not self.tops:
            return Line(kind, left[1], right[1])
        shared, shared_left = (corner_line(surface, self.top_at(face)) for face, _ in (right, left))
        if shared == shared_left:
            return Line(kind, left[1], right[1], None, shared)
        ridge = self.flush(surface.removeprefix(f"{self.id}-"), left[0]) + self.thick / 2
        return Line(kind, left[1], right[1], (ridge, self.height + self.cap.fall), shared, shared_left)


def garden_wall(
    id: str,
    name: str,
    length: Length,
    height: Length,
    thick: Length,
    cap: Cap,
    *,
    faces: int = 2,
    pilasters: Pilasters | None = None,
    left: WallSide = FREE_END,
    right: WallSide = FREE_END,
    base: EdgeKind = "grade",
    openings: Iterable[Opening] = (),
    zones: Iterable[Zone] = (),
    facing: float | None = None,
    foot: Length = NOUGHT,
    retains: Length = NOUGHT,
) -> tuple[Surface, ...]:
    """The surfaces of a free-standing wall ``length`` by ``height``, ``thick`` [m], seen from its front.

    Parameters
    ----------
    cap
        how its top is kept dry; ``height`` is where it is lowest.
    faces
        1: only the front (and the ends) is plastered; 2: the back too.
    left, right
        what its ends are, seen from the front. An outside corner is a free end, which is plastered.
    openings
        through the wall, as the front shows them; the back gets them mirrored, each face with its own reveals.
    facing
        of the front, degrees from north.
    retains
        height of the earth that stands against the back [m]: the back is plastered above it.

    Raises
    ------
    Unreadable
        ``measure.pilaster-size``, ``measure.pilaster-outside``, ``measure.pilasters-overlap`` (place ``pilasters``);
        ``measure.opening-at-pilaster`` (the opening's place); ``measure.retains`` where earth stands as high as the
        wall; ``measure.cap-fall`` for a slope that does not fall.
    """
    if not 0 <= retains < height:
        raise Unreadable(Fault("measure.retains", "retains", write(retains), f'0" … {write(height)}'))
    if cap.kind == "slope" and cap.fall <= 0:
        raise Unreadable(Fault("measure.cap-fall", "cap", write(cap.fall), '1", 2"'))
    holes = tuple(openings)
    plan = _Built(
        id, name, length, height, thick,
        spans_of(pilasters, length, holes) if pilasters is not None else (),
        pilasters.out if pilasters is not None else NOUGHT,
        pilasters.on if pilasters is not None else frozenset(),
        cap, (left, right), FACES[:faces],
    )  # fmt: skip
    rest = tuple(zones)
    made: list[Surface] = []
    for face in plan.plastered:
        earth = retains if face == "back" else NOUGHT
        made.append(_face(plan, face, base, holes, rest, facing, foot, earth))
    made += [_end(plan, side, base, rest, facing, foot) for side in OTHER_SIDE if plan.free(side)]
    for face in plan.plastered:
        if plan.returns(face):
            earth = retains if face == "back" else NOUGHT
            made.append(_returns(plan, face, base, rest, foot + earth, plan.top_of(face) - earth))
    made += _tops(plan, rest, facing, foot)
    return tuple(replace(part, says=(part.id.removeprefix(f"{id}-"), name)) for part in made)


def spans_of(
    pilasters: Pilasters, length: Length, openings: Sequence[Opening]
) -> tuple[tuple[Length, Length], ...]:  # fmt: skip
    """Left and right side of each pilaster of a wall ``length`` [m] long, in order; none stands in an opening.

    Raises
    ------
    Unreadable
        where one has no size, runs past an end, stands in the next one or in an opening.
    """
    if pilasters.width <= 0 or pilasters.out <= 0:
        found = f"{write(pilasters.width)} x {write(pilasters.out)}"
        raise Unreadable(Fault("measure.pilaster-size", "pilasters", found, '16" x 4"'))
    half = pilasters.width / 2
    if not pilasters.centres:
        raise Unreadable(Fault("measure.pilaster-outside", "pilasters", "-", _between(half, length - half)))
    spans: list[tuple[Length, Length]] = []
    for centre in sorted(pilasters.centres):
        if not half <= centre <= length - half:
            allowed = _between(half, length - half) if length >= pilasters.width else "-"
            raise Unreadable(Fault("measure.pilaster-outside", "pilasters", write(centre), allowed))
        if spans and centre - half <= spans[-1][1]:
            found = f"{write(spans[-1][1] - half)}, {write(centre)}"
            allowed = f"> {write(pilasters.width)}"
            raise Unreadable(Fault("measure.pilasters-overlap", "pilasters", found, allowed))
        spans.append((centre - half, centre + half))
    for opening in openings:
        us = [c.u for c in opening.outline]
        for left, right in spans:
            if left < max(us) and min(us) < right:
                found, clear = _between(min(us), max(us)), _between(left, right)
                place = f'opening "{opening.id}"'
                raise Unreadable(Fault("measure.opening-at-pilaster", place, found, clear))
    return tuple(spans)


def _between(low: Length, high: Length) -> str:
    return f"{write(low)} … {write(high)}"


# --- faces and ends ----------------------------------------------------------------------------------


def _face(
    plan: _Built, face: Face, base: EdgeKind, holes: Sequence[Opening], zones: tuple[Zone, ...],
    facing: float | None, foot: Length, earth: Length,
) -> Surface:  # fmt: skip
    id = f"{plan.id}-{face}"
    front = face == "front"
    openings = tuple(holes) if front else tuple(_mirrored(hole, plan.length, earth) for hole in holes)
    high = plan.top_of(face) - earth
    spans = plan.spans(face) if front else tuple((plan.length - b, plan.length - a) for a, b in plan.spans(face)[::-1])
    made = panel(
        id,
        f"{plan.name}, {face}",
        plan.length,
        Line("grade" if earth else base),
        plan.over(id, (face, high), (face, high)),
        left=_side(plan, face, "left" if front else "right"),
        right=_side(plan, face, "right" if front else "left"),
        openings=openings,
        zones=zones,
        facing=None if facing is None else (facing + (0 if front else 180)) % 360,
        foot=foot + earth,
        shape=plan.id,
    )
    return replace(made, projections=tuple(_projection(n, a, b, high, plan.out) for n, (a, b) in enumerate(spans, 1)))


def _side(plan: _Built, face: Face, end: str) -> WallSide:
    """The edge of a face at an end of the wall (named as the front shows it)."""
    if plan.free(end):
        return WallSide("outside corner", corner_line(f"{plan.id}-{face}", f"{plan.id}-{end}"))
    return plan.ends[end == "right"]


def _projection(n: int, left: Length, right: Length, high: Length, out: Length) -> Projection:
    outline = (
        Corner("base-left", left, NOUGHT), Corner("base-right", right, NOUGHT), Corner("top-right", right, high),
        Corner("top-left", left, high),
    )  # fmt: skip
    return Projection(f"pilaster-{n}", outline, out)


def _mirrored(opening: Opening, length: Length, earth: Length) -> Opening:
    """The same hole as the other face shows it, over earth that stands ``earth`` [m] high there."""
    there = opening.outline[::-1]
    bulges = [corner.bulge for corner in (*there[1:], there[0])]  # the side that ends at a corner now starts at it
    outline = tuple(
        Corner(_swapped(c.id), length - c.u, c.v - earth, bulge) for c, bulge in zip(there, bulges, strict=True)
    )
    start = next((n for n, c in enumerate(outline) if c.id == opening.outline[0].id), 0)
    plastered = frozenset(OTHER_SIDE.get(side, side) for side in opening.plastered)
    return replace(opening, outline=(*outline[start:], *outline[:start]), plastered=plastered)  # type: ignore[arg-type]


def _swapped(id: str) -> str:
    head, dash, side = id.rpartition("-")
    return f"{head}{dash}{OTHER_SIDE.get(side, side)}"


def _end(
    plan: _Built, side: str, base: EdgeKind, zones: tuple[Zone, ...], facing: float | None, foot: Length
) -> Surface:
    """An end of the wall: as wide as the wall is thick, and wider by the pilasters that stand flush with it."""
    id = f"{plan.id}-{side}"
    turned = 90 if side == "left" else -90
    by_face = {
        face: WallSide("outside corner", corner_line(id, f"{plan.id}-{face}") if face in plan.plastered else None)
        for face in FACES
    }
    at_left, at_right = FACES[::-1] if side == "left" else FACES
    return panel(
        id,
        f"{plan.name}, {side} end",
        plan.thick + plan.flush(side, "front") + plan.flush(side, "back"),
        Line(base),
        plan.over(id, (at_left, plan.top_of(at_left)), (at_right, plan.top_of(at_right))),
        left=by_face[at_left],
        right=by_face[at_right],
        zones=zones,
        facing=None if facing is None else (facing + turned) % 360,
        foot=foot,
        shape=plan.id,
    )


def _returns(plan: _Built, face: Face, base: EdgeKind, zones: tuple[Zone, ...], foot: Length, high: Length) -> Surface:
    """The sides of the pilasters of one face: one edge of each is an arris, the other a corner of the wall."""
    id = f"{plan.id}-{face}-returns"
    return panel(
        id,
        f"{plan.name}, {face}, sides of the pilasters",
        plan.out,
        Line(base),
        plan.over(id, (face, high), (face, high)),
        left=WallSide("outside corner"),
        right=WallSide("inside corner"),
        zones=zones,
        foot=foot,
        count=plan.returns(face),
        shape=plan.id,
    )


# --- a plastered top ---------------------------------------------------------------------------------


def _tops(plan: _Built, zones: tuple[Zone, ...], facing: float | None, foot: Length) -> list[Surface]:
    """The wash, seen from above with the front at its foot; over the pilasters it goes on at the same pitch."""
    if not plan.tops:
        return []
    fall, high = plan.cap.fall, foot + plan.height
    if len(plan.tops) == 1:
        run = plan.thick
        stretch = distance((NOUGHT, NOUGHT), (run, fall)) / run
        towards = None if facing is None else (facing + (0 if plan.cap.to == "front" else 180)) % 360
        return [_top(plan, plan.tops[0], "top", FACES, run, stretch, fall, zones, towards, high)]
    run = plan.thick / 2
    stretch = distance((NOUGHT, NOUGHT), (run, fall)) / run
    made = []
    for face, id in zip(FACES, plan.tops, strict=True):
        towards = None if facing is None else (facing + (0 if face == "front" else 180)) % 360
        made.append(_top(plan, id, f"top, {face}", (face,), run, stretch, fall, zones, towards, high))
    return made


def _top(
    plan: _Built, id: str, called: str, faces: Sequence[Face], run: Length, stretch: Length, fall: Length,
    zones: tuple[Zone, ...], facing: float | None, foot: Length,
) -> Surface:  # fmt: skip
    rim = _Rim(plan, id, stretch)
    if "front" in faces:
        deep = plan.out if plan.spans("front") and "front" in plan.plastered else NOUGHT
        rim.along("front", deep)
        rim.end("right", (deep + run) * stretch)
        if "back" in faces:
            rim.along("back", deep + run)
        else:
            rim.ridge((deep + run) * stretch)
        rim.end("left", NOUGHT)
    else:  # the back alone, seen with its foot below: left and right change places
        deep = plan.out if plan.spans("back") and "back" in plan.plastered else NOUGHT
        rim.along("back", deep, mirrored=True)
        rim.end("left", (deep + run) * stretch)
        rim.ridge((deep + run) * stretch)
        rim.end("right", NOUGHT)
    return Surface(
        id=id,
        name=f"{plan.name}, {called}",
        outline=tuple(rim.corners),
        edges=tuple(rim.edges),
        zones=zones,
        facing=facing,
        tilt=degrees(atan2(float(fall), float(run))),
        foot=foot,
        shape=plan.id,
    )


class _Rim:
    """The outline of a top as it grows, counter-clockwise from its lower left; an edge starts at each corner."""

    def __init__(self, plan: _Built, id: str, stretch: Length) -> None:
        self.plan, self.id, self.stretch = plan, id, stretch
        self.corners: list[Corner] = []
        self.edges: list[Edge] = []

    def _add(self, id: str, u: Length, v: Length, kind: EdgeKind, shared: str | None) -> None:
        self.corners.append(Corner(id, u, v))
        self.edges.append(Edge(id, kind, id, shared))

    def along(self, face: Face, at: Length, *, mirrored: bool = False) -> None:
        """The edge over a face, out and back at each pilaster; ``at`` [m] is where the face lies, across the wall."""
        plan = self.plan
        spans = plan.spans(face) if face in plan.plastered else ()
        length = plan.length
        backwards = face == "back" and not mirrored
        if mirrored:
            spans = tuple((length - b, length - a) for a, b in spans[::-1])
        elif backwards:
            spans = spans[::-1]
        out = plan.out if face == "back" and not mirrored else -plan.out
        straight = corner_line(self.id, f"{plan.id}-{face}") if face in plan.plastered else None
        step = corner_line(self.id, f"{plan.id}-{face}-returns")
        face_at, out_at = at * self.stretch, (at + out) * self.stretch
        start, stop = (length, NOUGHT) if backwards else (NOUGHT, length)
        if not spans or start not in spans[0]:
            self._add(face, start, face_at, "outside corner", straight)
        for n, (a, b) in enumerate(spans, 1):
            first, last = (b, a) if backwards else (a, b)
            if first != start:
                self._add(f"{face}-{n}-out", first, face_at, "outside corner", step)
            self._add(f"{face}-{n}", first, out_at, "outside corner", straight)
            if last != stop:
                self._add(f"{face}-{n}-in", last, out_at, "outside corner", step)
                self._add(f"{face}-{n}-on", last, face_at, "outside corner", straight)
        self.ended = (stop, out_at if spans and stop in spans[-1] else face_at)

    def end(self, side: str, up_to: Length) -> None:  # noqa: ARG002 -- where the next edge begins is its own business
        """The edge at an end of the wall, from where the edge before it stopped."""
        free = self.plan.free(side)
        kind: EdgeKind = "outside corner" if free else self.plan.ends[side == "right"].kind
        shared = corner_line(self.id, f"{self.plan.id}-{side}") if free else None
        self._add(side, *self.ended, kind, shared)

    def ridge(self, v: Length) -> None:
        """The ridge where two slopes meet, right to left."""
        self._add("ridge", self.plan.length, v, "outside corner", corner_line(*self.plan.tops))
        self.ended = (NOUGHT, v)
