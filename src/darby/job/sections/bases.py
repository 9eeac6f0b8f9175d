"""What a wall or a part of it is made of: base, block, joints, sheathing, studs, how far out of plane."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Literal

from darby import measure
from darby.job import allowed as ok
from darby.job.fields import Document, Measured, key, must
from darby.job.model import REST, Base, Behind, Block, Brick, Joints, Sheathing, Tried
from darby.job.part import Part
from darby.measure.shapes import Point
from darby.measure.surface import BaseKind, Length, Zone

MASONRY = ("block", "lath over block", "painted block")
JOINTED = (*MASONRY, "brick")
OLD = ("old plaster", "painted plaster")
SOLID = ("block", "concrete", "painted block", "brick", "stone", *OLD)
DOUBTFUL = ("painted block", *OLD)
"""What plaster may not hold on: tests decide."""


class TestsDocument(Document):
    """tests: what you tried on old plaster or paint, and how it came out. Left out: not tried."""

    scrape: Literal["holds", "comes off"] = key("Scrape the paint.")
    water: Literal["soaks in", "beads"] = key("Throw water on it.")
    tap: Literal["sound", "hollow"] = key("Tap it all over.")
    pull: Literal["held", "let go"] = key("Pull off a test patch.")


class BaseFields(Document):
    """The keys that a wall, a house and a zone share."""

    base: BaseKind = must("What it is made of.")
    block: Block = key("Kind of block.")
    joints: Joints = key("How the mason left the joints of block or brick.")
    brick: Brick = key("Kind of brick.")
    behind: Behind = key("What old plaster hangs on.")
    tests: TestsDocument = key('What you tried on old plaster or paint: `{ tap = "sound", pull = "held" }`.')
    sheathing: Sheathing = key("What is on the studs of a frame.")
    studs: Measured = key("Spacing of the studs: `16 in`.")
    out_of_plane: Measured = key("The most it departs from a true face.")
    built: int = key("The year it was built, if it is not the building's.")


class ZoneDocument(BaseFields):
    """[[wall.zone]]: a part of the wall with another base."""

    id: str = must("Its short name.")
    name: str = key("What you call it.")
    outline: list[str] = must("Its corners, each `right of the wall's left end, above its base`.")


@dataclass(frozen=True, slots=True)
class Made:
    """What a base is made of, before it is known where it is."""

    kind: BaseKind | None = None
    block: Block | None = None
    joints: Joints | None = None
    sheathing: Sheathing | None = None
    studs: Length | None = None
    out_of_plane: Length | None = None
    built: int | None = None
    brick: Brick | None = None
    behind: Behind | None = None
    tests: Tried | None = None

    def at(self, surface: str, zone: str, name: str = "") -> Base | None:
        """The Base of a zone; None if the kind could not be read."""
        if self.kind is None:
            return None
        return Base(
            surface, zone, self.kind, name, self.block, self.joints, self.sheathing, self.studs, self.out_of_plane,
            self.built, brick=self.brick, behind=self.behind, tests=self.tests,
        )  # fmt: skip

    def traits(self) -> frozenset[str]:
        """Facts of the base in the trade's words, as ``Zone`` carries them."""
        said = (
            self.block, self.joints and f"joints {self.joints}", self.sheathing and f"sheathing {self.sheathing}",
            self.brick, self.behind and f"on {self.behind}",
        )  # fmt: skip
        return frozenset(word for word in said if word)


GOES_WITH: dict[str, tuple[str, ...]] = {
    "block": MASONRY,
    "joints": JOINTED,
    "brick": ("brick",),
    "behind": OLD,
    "tests": DOUBTFUL,
    "sheathing": ("frame", *OLD),
    "studs": ("frame", *OLD),
}
"""Keys that are said of some bases only."""


def read_base(part: Part, wall: Made | None = None) -> Made:
    """The base of a wall; or of a zone, which takes from its ``wall`` what it does not say and shares with it."""
    kind: BaseKind | None = part.word("base")
    for name, kinds in GOES_WITH.items():
        if part.has(name) and kind is not None and kind not in kinds:
            part.fault(name, "job.not-here", part.raw[name], " or ".join(f'base = "{k}"' for k in kinds))
    made = Made(
        kind=kind,
        block=part.word("block"),
        joints=part.word("joints"),
        sheathing=part.word("sheathing"),
        studs=part.length("studs", positive=True),
        out_of_plane=part.length("out_of_plane"),
        built=part.year("built"),
        brick=part.word("brick"),
        behind=part.word("behind"),
        tests=read_tests(part),
    )
    if wall is None:
        return made
    masonry = kind in MASONRY and wall.kind in MASONRY
    jointed = kind in JOINTED and wall.kind in JOINTED
    frame = kind == "frame" == wall.kind
    old = kind in OLD and wall.kind in OLD
    return Made(
        kind,
        made.block or (wall.block if masonry else None),
        made.joints or (wall.joints if jointed else None),
        made.sheathing or (wall.sheathing if frame or old else None),
        made.studs or (wall.studs if frame or old else None),
        made.out_of_plane,
        made.built or wall.built,
        made.brick or (wall.brick if kind == "brick" == wall.kind else None),
        made.behind or (wall.behind if old else None),
        made.tests,
    )


def read_tests(part: Part) -> Tried | None:
    """What he tried; None if he wrote nothing of it."""
    inner = part.part("tests")
    if inner is None:
        return None
    tests = Tried(inner.word("scrape"), inner.word("water"), inner.word("tap"), inner.word("pull"))
    return tests if tests != Tried() else None


def note_unsaid(part: Part, surface: str, made: Made) -> None:
    """Note what is not known of a base and moves the answer."""
    if made.kind in MASONRY:
        for name in ("block", "joints"):
            if getattr(made, name) is None and not part.said(name):
                part.assume(f"job.unsaid-{name}", surface)
    if made.kind == "brick":
        for name in ("brick", "joints"):
            if getattr(made, name) is None and not part.said(name):
                part.assume(f"job.unsaid-{name}", surface)
    if made.kind in OLD and made.behind is None and not part.said("behind"):
        part.assume("job.unsaid-behind", surface)
    if made.kind in SOLID and made.out_of_plane is None and not part.said("out_of_plane"):
        part.assume("job.unsaid-out-of-plane", surface)
    if made.kind == "frame":
        for name in ("sheathing", "studs"):
            if getattr(made, name) is None and not part.said(name):
                part.assume(f"job.unsaid-{name}", surface)


def read_zones(part: Part, surface: str, wall: Made) -> tuple[list[Zone], list[Base], list[str]]:
    """The zones of a wall, their bases, and every zone id that was written."""
    zones: list[Zone] = []
    bases: list[Base] = []
    seen = {REST}
    for entry in part.parts("zone"):
        id = entry.id("id", seen)
        made = read_base(entry, wall)
        points = read_points(entry, "outline")
        base = made.at(surface, id, entry.text("name"))
        entry.reading.ways[surface, f'zone "{id}"'] = entry.loc
        if id and base is not None and points is not None:
            corners = zone_outline(points)
            zones.append(Zone(id, base.kind, corners, made.traits(), made.out_of_plane))
            bases.append(base)
    return zones, bases, [REST, *sorted(seen - {REST})]


def zone_outline(points: list[Point]) -> Any:
    """Corners of a zone in the order they were written."""
    from darby.measure.shapes import zone

    return zone("", "", points).outline


def read_points(part: Part, name: str) -> list[Point] | None:
    """A list of corners ``"4'-8\\", 0\\""``; None if one cannot be read, or if there are fewer than three."""
    points: list[Point | None] = []
    rows = part.rows(name)
    for n, row in rows:
        points.append(_point(part, (name, n), row))
    if part.has(name) and len(rows) < 3 and len(rows) == len(part.raw[name]):
        part.fault(name, "job.few-corners", len(rows), ok.THREE_CORNERS)
        return None
    good = [point for point in points if point is not None]
    return good if part.has(name) and len(good) == len(part.raw[name]) else None


def _point(part: Part, way: tuple[str | int, ...], text: str) -> Point | None:
    halves = re.split(r",\s+", text.strip())
    if len(halves) != 2:
        part.fault_at(way, "job.not-a-corner", text, "4'-8\", 8'-6\"")
        return None
    units = part.units
    right = part.attempt(way, lambda: measure.length(halves[0], units))
    up = part.attempt(way, lambda: measure.length(halves[1], units))
    return (right, up) if right is not None and up is not None else None
