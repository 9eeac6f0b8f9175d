"""The crew's sheet for one surface, filled from the answers. No money stands on it."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.papers.filled.cautions import cautions, crew_set_backs
from darby.papers.filled.lathing import lathing
from darby.papers.filled.mixing import parts_said
from darby.papers.filled.parting import joint_rows
from darby.papers.filled.pictures import beside_cut, cut_marks, cut_picture
from darby.papers.filled.places import both_called, place
from darby.papers.filled.standing import both_standing
from darby.papers.model import BeadRow, Both, CrewCoat, CrewPaper, CrewPart
from darby.quantities.edges import bead_length
from darby.words import Verbatim, surface_called

if TYPE_CHECKING:
    from darby.answers.coats import SurfaceCoats
    from darby.answers.wall import Wall
    from darby.buildup import BuildUp, Coat
    from darby.measure.geometry import EdgeRun
    from darby.papers.filled.writer import Writer
    from darby.quantities import Order, Volumes
    from darby.words import Language

HIGH = 200.0
"""A wall is drawn so high at the most [pt]."""
BEHIND = Fraction(1, 2)
"""Inches of block behind the plaster of a cut: what is left for the wall beside it."""

NOTED = (
    "buildup.assumed-suction-usual", "buildup.assumed-suction-high", "buildup.assumed-suction-low",
    "buildup.test-patch", "buildup.joints-follow-base", "buildup.joints-panels", "joints.follow-base",
    "joints.none-needed", "joints.bare-openings", "joints.lath-cut", "joints.lath-on", "joints.gap",
    "joints.gap-installed", "joints.gap-unknown", "buildup.weep-screed", "buildup.expanded-flange",
    "buildup.no-bonding-on-lath",
    "condition.patch.depth", "condition.patch.short", "condition.patch.past-the-wall", "condition.patch.too-hard",
)  # fmt: skip
"""Notes that tell the crew what to do."""

BEFORE_LAID_OUT = ("buildup.joints-follow-base", "buildup.joints-panels")
"""What is said of joints as long as nobody has laid them out."""

COUNTED_THERE = "quantities.because.counted-with-other"


def crew_sheet(writer: Writer, surface_id: str) -> CrewPaper:
    """What the crew needs to know to do one surface."""
    answers = writer.answers
    surface = answers.job.surface(surface_id)
    coats: SurfaceCoats = answers.of("coats", surface_id)
    volumes: Volumes = answers.of("volumes", surface_id)
    # the cut is the largest zone's
    largest = max(volumes.areas, key=lambda a: float(a.area)).zone
    built, base = coats.of(largest), answers.job.base(surface_id, largest)
    marks, alt = cut_marks(writer, built.chosen, base.kind, base.joints, BEHIND)
    picture, abreast = beside_cut(writer, surface, marks, HIGH)
    lath, lathed = lathing(writer, surface_id)
    return CrewPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.crew.title", wall=Verbatim(surface_called(surface, writer.language))),
        surface=both_called(surface, writer.crew_languages),
        area=Both(*(writer.area(volumes.area, name) for name in writer.crew_languages)),
        parts=tuple(_part(writer, surface_id, zone, built) for zone, built in coats.zones),
        picture=picture,
        cut=cut_picture(marks, alt, writer.say("paper.full-size")),
        abreast=abreast,
        lath=lath,
        lathing=lathed,
        beads=tuple(_beads(writer, answers.of("wall", surface_id), coats)),
        set_back=crew_set_backs(writer, surface_id),
        cautions=cautions(writer, surface_id),
        notes=tuple(_notes(writer, surface_id)),
        languages=writer.crew_languages,
    )


# --- coats -------------------------------------------------------------------------------------------------


def _part(writer: Writer, surface: str, zone: str, built: BuildUp) -> CrewPart:
    base = writer.answers.job.base(surface, zone)
    name = Both(base.name) if base.name else writer.both(f"paper.base.{base.kind}")
    return CrewPart(
        name=name,
        prepare=tuple(writer.both(f"buildup.prep.{code}") for code in built.chosen.preparation),
        coats=tuple(_coat(writer, surface, zone, built, coat) for coat in built.chosen.coats),
    )


def _coat(writer: Writer, surface: str, zone: str, built: BuildUp, coat: Coat) -> CrewCoat:
    grounds = Both("")
    if coat.levels:
        grounds = writer.both("paper.crew.to-grounds", grounds=built.chosen.grounds)
    elif coat.name == "finish":
        grounds = writer.both("paper.crew.to-bead", bead=built.chosen.bead)
    return CrewCoat(
        name=writer.both(f"buildup.coat.{coat.name}"),
        thickness=writer.write(coat.nominal),
        grounds=grounds,
        mix=_mix(writer, surface, zone, built, coat),
        notes=_joined([writer.both(f"buildup.coat-note.{code}") for code in coat.notes]),
        wait=_wait(writer, coat),
        standing=both_standing(writer, coat.nominal, coat.moist, coat.wait_least, coat.wait_most),
    )


def _mix(writer: Writer, surface: str, zone: str, built: BuildUp, coat: Coat) -> Both:
    from darby.answers.mixes import PREFIX
    from darby.answers.mixing import mix_name

    mixes = writer.answers.answered("mixes")
    if mixes is None:
        return Both("")
    mix = mixes.of(PREFIX + mix_name(writer.answers.job, surface, zone, built, coat))
    return Both(*(parts_said(writer, mix, name) for name in writer.crew_languages))


def _wait(writer: Writer, coat: Coat) -> Both:
    """Keep damp so long; the next coat after so long, and no later where it must not come later."""
    said = []
    if coat.moist is not None:
        said.append(writer.both("paper.crew.damp", moist=coat.moist))
    if coat.wait_least is not None:
        said.append(writer.both("paper.crew.wait-least", wait=coat.wait_least))
    if coat.wait_most is not None:
        said.append(writer.both("paper.crew.wait-most", wait=coat.wait_most))
    return _joined(said)


def _joined(said: list[Both]) -> Both:
    return Both(" ".join(s.first for s in said), " ".join(s.second for s in said))


# --- edges -------------------------------------------------------------------------------------------------


def _beads(writer: Writer, wall: Wall, coats: SurfaceCoats) -> list[BeadRow]:
    """Which edges of this surface get which bead, where, and how long they are together."""
    order: Order | None = writer.answers.answered("order")
    if order is None:
        return []
    asked = {run.id: run for run in writer.answers.kept[("order", "job")].ask.runs}
    mine = {run.id: run for run in wall.runs}
    rows: dict[tuple[str, str, int, str], list[EdgeRun]] = defaultdict(list)
    shared: list[BeadRow] = []
    for line in order.edges:
        for run in (mine[name] for name in line.runs if name in mine):
            if line.item is not None:
                beads = bead_length(asked[run.id]) / (run.length * run.count)
                bead = writer.write(coats.of(run.zone).chosen.bead)
                rows[(line.item, line.because, int(beads), bead)].append(run)
            elif line.because == COUNTED_THERE:
                shared.append(_counted_there(writer, wall.surface, run))
    made = [_bead_row(writer, runs, *said) for said, runs in rows.items()]
    deep = writer.write(coats.of(wall.zones[-1].zone).chosen.bead)
    return [*made, *joint_rows(writer, wall.surface, deep), *shared]


def _bead_row(writer: Writer, runs: list[EdgeRun], item: str, because: str, beads: int, ground: str) -> BeadRow:
    name = f"quantities.item.{item.replace(' ', '-')}"
    bead = writer.both(name)
    if beads > 1:
        said = [writer.say("paper.crew.two-beads", one, bead=Verbatim(writer.say(name, one)))
                for one in writer.crew_languages]  # fmt: skip
        bead = Both(*said)
    own = f"paper.crew.{because}"
    return BeadRow(
        edge=writer.both(own if writer.knows(own) else because),
        where=Both(*(_where(writer, runs, one) for one in writer.crew_languages)),
        bead=bead,
        length=writer.feet(sum((run.length * run.count for run in runs), Fraction(0))),
        ground=ground,
    )


def _where(writer: Writer, runs: list[EdgeRun], language: Language) -> str:
    """Which edges: the wall's own by their side, those of an opening by the opening."""
    job = writer.answers.job
    names = []
    for run in runs:
        at = run.edge if run.where == "wall" else run.where
        if run.kind == "change of base":
            at = run.zone
        names.append(place(job, f"{run.surface}/{at}", language, alone=True))
    return ", ".join(dict.fromkeys(name for name in names if name))


def _counted_there(writer: Writer, surface: str, run: EdgeRun) -> BeadRow:
    """A corner whose bead hangs with the other wall."""
    other = next((name for name in (run.shared or "").split("|") if name not in ("", surface)), run.elsewhere)
    wall = Verbatim(writer.place(other))
    return BeadRow(
        edge=writer.both("paper.crew.shared-corner", wall=wall),
        bead=writer.both("paper.crew.on-other-sheet"),
        length="",
        where=Both(*(_where(writer, [run], one) for one in writer.crew_languages)),
    )


# --- notes -------------------------------------------------------------------------------------------------


def _notes(writer: Writer, surface: str) -> list[Both]:
    """What the crew has to know beside the coats, each once."""
    laid_out = surface in writer.answers.good("joints")
    codes = [code for code in NOTED if not (laid_out and code in BEFORE_LAID_OUT)]
    notes = [n for n in writer.answers.notes if n.code in codes and n.at.partition("/")[0] == surface]
    if any(n.code == "joints.follow-base" for n in notes):  # of the zones on lath only, and said of those alone
        notes = [n for n in notes if n.code != "joints.none-needed"]
    notes = sorted(notes, key=lambda n: codes.index(n.code))
    return list(dict.fromkeys(writer.both_note(n, "crew") for n in notes))
