"""Stages "lath" and "sheets": where every sheet of lath goes, and how that stands to the order.

The order counts lath by net sheets over the whole job; this counts what is laid. Both stand, with the difference.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from darby.answers.bases import as_hung
from darby.answers.coats import SurfaceCoats
from darby.answers.stage import Answers, Stage
from darby.answers.wall import Wall
from darby.job.lath import LathWanted, Sides
from darby.joints import Joints
from darby.lath import Corner, Lath, LathAsk, Reveal, Roll, lay_lath
from darby.lath import Joint as Cut
from darby.lath import Opening as Hole
from darby.lath.model import Ends, Outline
from darby.measure.edges import EdgeRun, WallSideName
from darby.measure.outline import flat
from darby.measure.surface import Surface
from darby.measure.units import unit
from darby.quantities import Order
from darby.working import Quantity, Working

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book

SHEETS = unit("sheets")


@dataclass(frozen=True, slots=True)
class SurfaceLathAsk:
    """A surface, and what is asked of every zone of it that takes lath."""

    surface: str
    zones: tuple[LathAsk, ...]


@dataclass(frozen=True, slots=True)
class SurfaceLath:
    """The lath of a surface: (zone id, its lath) of every zone that takes it; () = none does."""

    surface: str
    zones: tuple[tuple[str, Lath], ...]


@dataclass(frozen=True, slots=True)
class Sheets:
    """All sheets of the job: as they are laid, as they are ordered, and how many more are laid.

    ``laid`` None = nothing takes lath; the others None = not ordered by the sheet.
    """

    laid: Quantity | None
    ordered: Quantity | None = None
    more: Quantity | None = None


# --- surface by surface --------------------------------------------------------------------------------


def lay_all(ask: SurfaceLathAsk) -> tuple[SurfaceLath, Working]:
    """Lath of every zone of a surface that takes it."""
    working = Working()
    found = []
    for zone in ask.zones:
        lath, own = lay_lath(zone)
        working.add(own)
        found.append((zone.at.partition("/")[2], lath))
    return SurfaceLath(ask.surface, tuple(found)), working


def _ask(job: Job, book: Book, answers: Answers, at: str) -> SurfaceLathAsk:
    coats: SurfaceCoats = answers.of("coats", at)
    zones = [zone for zone, built in coats.zones if built.chosen.lath is not None]
    return SurfaceLathAsk(at, tuple(_zone(job, book, answers, job.surface(at), zone) for zone in zones))


def _zone(job: Job, book: Book, answers: Answers, surface: Surface, zone: str) -> LathAsk:
    wanted, base = wanted_on(job, surface.id), job.base(surface.id, zone)
    outlines = {z.id: flat(z.outline) for z in surface.zones if z.outline is not None}
    outline = outlines.get(zone) or flat(surface.outline)
    others = [Hole(name, points) for name, points in outlines.items() if name != zone]
    laid: Joints = answers.of("joints", surface.id)
    hung = as_hung(base, lathed=True)
    roll = _roll(job, wanted)
    return LathAsk(
        at=f"{surface.id}/{zone}",
        outline=outline,
        openings=(*_openings(answers.of("wall", surface.id), surface, zone), *others),
        base=hung,
        joints=tuple(_cuts(book, laid, outline)),
        corners=tuple(_corners(job, answers, answers.of("wall", surface.id), zone, wanted)),
        studs=base.studs,
        first_stud=min(c.u for c in surface.outline) + wanted.first_stud if wanted.first_stud is not None else None,
        sheet=wanted.sheet or _bought(job, "lath"),
        side_lap=wanted.side_lap,
        end_lap=wanted.end_lap,
        sheathing=base.sheathing,
        paper=wanted.paper,
        roll=roll,
        count=surface.count,
        book=book,
    )


def wanted_on(job: Job, surface: str) -> LathWanted:
    """What was said about lath on a surface: by its own id, by its house's, or for all; the nearest that says it."""
    own = [w for w in job.lath if w.surface == surface]
    house = [w for w in job.lath if w.surface and w.surface != surface and surface.startswith(f"{w.surface}-")]
    every = [w for w in job.lath if not w.surface]
    found = LathWanted(surface)
    for said in (*own, *house, *every):
        missing = {name: getattr(said, name) for name in _SAID if getattr(found, name) is None}
        found = replace(found, **missing)
    return found


_SAID = tuple(name for name in LathWanted.__dataclass_fields__ if name != "surface")


def _bought(job: Job, item: str) -> Sides | None:
    """Width and length of the first package that the firm buys it in by its sides [m]."""
    sides = next((b.package.sides for b in job.firm.buys if b.item == item and b.package.sides is not None), None)
    if sides is None:
        return None
    width, length = sorted(sides)
    return width, length


def _roll(job: Job, wanted: LathWanted) -> Roll | None:
    sides = wanted.roll or _bought(job, "paper")
    if sides is None:
        return None
    bought = next((b.layers for b in job.firm.buys if b.item == "paper" and b.package.sides is not None), 1)
    return Roll(*sides, plies=wanted.plies or (1 if wanted.roll is not None else bought))


def _openings(wall: Wall, surface: Surface, zone: str) -> Iterator[Hole]:
    """Every opening, with the reveals that this zone's lath goes into."""
    for opening in surface.openings:
        reveals = tuple(Reveal(r.side, r.depth) for r in wall.reveals if (r.opening, r.zone) == (opening.id, zone))
        yield Hole(opening.id, flat(opening.outline), reveals)


def _cuts(book: Book, laid: Joints, outline: Outline) -> Iterator[Cut]:
    """Joints where the lath is cut: all but one-piece ones where the firm follows who lets lath run on behind them."""
    runs_on = book.rule("joint.lath").figure.voice == "sma"
    us, vs = ([point[k] for point in outline] for k in (0, 1))
    for joint in laid.chosen.joints:
        if joint.on_edge or joint.axis == "along" or (runs_on and joint.kind == "control"):
            continue
        for start, end in joint.pieces:
            a = max(min(start[0], end[0]), min(us)), max(min(start[1], end[1]), min(vs))
            b = min(max(start[0], end[0]), max(us)), min(max(start[1], end[1]), max(vs))
            long = b[1] - a[1] if joint.axis == "vertical" else b[0] - a[0]
            across = (a[0], min(us), max(us)) if joint.axis == "vertical" else (a[1], min(vs), max(vs))
            if long > 0 and across[1] < across[0] < across[2]:
                yield Cut(joint.id, a, b)


def _corners(job: Job, answers: Answers, wall: Wall, zone: str, wanted: LathWanted) -> Iterator[Corner]:
    """Upright corners at the ends of the zone; one that two walls share is laid with the wall that orders its bead.

    As the order has it: a bead makes an outside corner, corner lath lies over an inside one, and where a stud wall
    meets masonry two beads part them.
    """
    ends: dict[WallSideName, Ends] = {"left": "left", "right": "right"}
    seen: set[str] = set()
    for run in wall.runs:
        side = ends.get(run.side)
        if side is None or run.where != "wall" or run.zone != zone or not run.counted or side in seen:
            continue
        if run.kind == "outside corner":
            seen.add(side)
            yield Corner(run.edge, side, "outside", wanted.outside or "bead")
        elif run.kind == "inside corner":
            seen.add(side)
            beads = _frame_on_masonry(job, answers, run)
            yield Corner(run.edge, side, "inside", "bead" if beads else wanted.inside or "strip")


def _frame_on_masonry(job: Job, answers: Answers, run: EdgeRun) -> bool:
    """Whether a stud wall stands on the one side of a corner only."""
    other = next((name for name in (run.shared or "").split("|") if name not in ("", run.surface)), None)
    beyond = _hung_there(job, answers, other) if other is not None else None
    return beyond is not None and (beyond == "frame") != (_hung_there(job, answers, run.surface) == "frame")


def _hung_there(job: Job, answers: Answers, surface: str) -> str | None:
    """The first base of a surface as lath and beads find it."""
    base = next((b for b in job.bases if b.surface == surface), None)
    coats: SurfaceCoats | None = answers.answered("coats", surface)
    built = dict(coats.zones).get(base.zone) if coats is not None and base is not None else None
    return as_hung(base, lathed=built is not None and built.chosen.lath is not None) if base is not None else None


STAGE: Stage[SurfaceLathAsk, SurfaceLath] = Stage("lath", ("wall", "coats", "joints"), "surface", "now", _ask, lay_all)


# --- the whole job --------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SheetsAsk:
    """Sheets as they are laid, surface by surface, and as they are ordered."""

    laid: tuple[Quantity, ...]
    ordered: Quantity | None


def counted(ask: SheetsAsk) -> tuple[Sheets, Working]:
    """All sheets of the job, beside those of the order."""
    working = Working()
    if not ask.laid:
        return Sheets(None), working
    laid = working.step("job/lath/laid", " + ".join(f"s{n}" for n in range(len(ask.laid))), SHEETS, "answers.lath.laid",
                        **{f"s{n}": q for n, q in enumerate(ask.laid)})  # type: ignore[arg-type]  # fmt: skip
    if ask.ordered is None:
        return Sheets(laid), working
    more = working.step("job/lath/more", "laid - ordered", SHEETS, "answers.lath.more", laid=laid, ordered=ask.ordered)
    if more.value > 0:
        working.note("answers.lath.short", "caution", "job", laid=laid, ordered=ask.ordered, more=more)
    else:
        working.note("answers.lath.enough", "fact", "job", laid=laid, ordered=ask.ordered)
    return Sheets(laid, ask.ordered, more), working


def _counted(job: Job, book: Book, answers: Answers, at: str) -> SheetsAsk:  # noqa: ARG001 -- of the whole job
    found: Sequence[SurfaceLath] = tuple(answers.good("lath").values())
    laid = tuple(lath.all_sheets for surface in found for _, lath in surface.zones)
    order: Order | None = answers.answered("order")
    lines = [line for line in order.lines if line.item == "lath"] if order is not None else []
    ordered = lines[0].packages if lines and lines[0].each == "sheet" else None
    return SheetsAsk(laid, ordered)


COUNTED: Stage[SheetsAsk, Sheets] = Stage("sheets", ("lath", "order"), "job", "now", _counted, counted)
