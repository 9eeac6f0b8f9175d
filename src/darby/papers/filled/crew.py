"""The crew's sheet for one surface and the batch tickets, filled from the answers. No money stands on them."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction
from typing import TYPE_CHECKING

from darby.papers.filled.mixing import parts_said
from darby.papers.filled.writer import Writer
from darby.papers.model import BeadRow, Both, BothCaution, CrewCoat, CrewPaper, CrewPart
from darby.working import Note

if TYPE_CHECKING:
    from darby.answers.coats import SurfaceCoats
    from darby.answers.wall import Wall
    from darby.buildup import BuildUp, Coat
    from darby.quantities import Order, Volumes


def crew_sheet(writer: Writer, surface_id: str) -> CrewPaper:
    """What the crew needs to know to do one surface."""
    answers = writer.answers
    surface = answers.job.surface(surface_id)
    coats: SurfaceCoats = answers.of("coats", surface_id)
    volumes: Volumes = answers.of("volumes", surface_id)
    order: Order | None = answers.good("order").get("job")
    first_zone, first = coats.zones[-1]
    base = answers.job.base(surface_id, first_zone)
    area = volumes.area
    return CrewPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.crew.title", wall=surface.name),
        surface=Both(surface.name),
        area=Both(*(writer.write(area, name) for name in writer.crew_languages[:2])),
        parts=tuple(_part(writer, surface_id, zone, built) for zone, built in coats.zones),
        picture=writer.elevation(surface, high=260),
        cut=writer.cut(first.chosen, base.kind, base.joints),
        beads=tuple(_beads(writer, answers.of("wall", surface_id), order, first)) if order is not None else (),
        set_back=_set_back(writer, coats),
        cautions=tuple(_cautions(writer, coats)),
        languages=writer.crew_languages[:2],
    )


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
    notes = [writer.both(f"buildup.coat-note.{code}") for code in coat.notes]
    said = Both(
        " ".join([grounds.first, *(n.first for n in notes)]).strip(),
        " ".join([grounds.second, *(n.second for n in notes)]).strip(),
    )
    return CrewCoat(
        name=writer.both(f"buildup.coat.{coat.name}"),
        thickness=writer.write(coat.nominal),
        grounds=said,
        mix=_mix(writer, surface, zone, built, coat),
        wait=_wait(writer, coat),
    )


def _mix(writer: Writer, surface: str, zone: str, built: BuildUp, coat: Coat) -> Both:
    from darby.answers.mixes import PREFIX
    from darby.answers.mixing import mix_name

    mixes = writer.answers.good("mixes").get("job")
    if mixes is None:
        return Both("")
    mix = mixes.of(PREFIX + mix_name(writer.answers.job, surface, zone, built, coat))
    return Both(*(parts_said(writer, mix, name) for name in writer.crew_languages[:2]))


def _wait(writer: Writer, coat: Coat) -> Both:
    """Keep damp so long; the next coat after so long, and no later where it must not come later."""
    said = []
    if coat.moist is not None:
        said.append(writer.both("paper.crew.damp", moist=coat.moist))
    if coat.wait_least is not None:
        said.append(writer.both("paper.crew.wait-least", wait=coat.wait_least))
    if coat.wait_most is not None:
        said.append(writer.both("paper.crew.wait-most", wait=coat.wait_most))
    return Both(" ".join(s.first for s in said), " ".join(s.second for s in said))


def _beads(writer: Writer, wall: Wall, order: Order, built: BuildUp) -> list[BeadRow]:
    """Which edges of this surface get which bead, and how long they are together."""
    mine = {run.id: run for run in wall.runs}
    lengths: dict[tuple[str, str], Fraction] = defaultdict(Fraction)
    for line in order.edges:
        for run in line.runs:
            if line.item is not None and run in mine:
                lengths[(line.item, line.because)] += mine[run].length * mine[run].count
    return [
        BeadRow(
            edge=writer.both(because),
            bead=writer.both(f"quantities.item.{item.replace(' ', '-')}"),
            length=writer.feet(length),
            ground=writer.write(built.chosen.bead),
        )
        for (item, because), length in lengths.items()
    ]


def _set_back(writer: Writer, coats: SurfaceCoats) -> Both | None:
    notes = [n for _, b in coats.zones for n in (*b.chosen.cautions, *b.notes) if n.code.startswith("buildup.set-back")]
    return writer.both_note(notes[0]) if notes else None


def _cautions(writer: Writer, coats: SurfaceCoats) -> list[BothCaution]:
    """What can hurt, first; then what this wall's build-up warns of."""
    always = [n for n in writer.answers.notes if n.grade in ("caution", "stop") and n.code.startswith("safety.")]
    own = [
        n
        for _, built in coats.zones
        for n in built.chosen.cautions
        if n.grade in ("caution", "stop") and not n.code.startswith("buildup.set-back")
    ]
    seen: dict[Both, BothCaution] = {}
    for note in (*always, *own):
        text = writer.both_note(note)
        seen.setdefault(text, BothCaution(_opening(writer, note), text))
    return list(seen.values())


def _opening(writer: Writer, note: Note) -> Both:
    code = f"paper.opening.{note.code}"
    return writer.both(code if writer.knows(code) else "paper.opening.caution")
