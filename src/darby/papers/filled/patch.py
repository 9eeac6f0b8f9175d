"""The crew's sheet of old work: what was found on the walls, how far a patch is cut back, and how it is tied in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.answers.survey import looked_at
from darby.drawing.survey import patched_elevation, surveyed_elevation
from darby.measure.units import IN
from darby.measure.writing import write
from darby.papers.filled.cautions import cautions
from darby.papers.filled.pictures import drawn
from darby.papers.model import Both, CutRow, FoundPart, FoundRow, PatchPaper, PatchPart
from darby.words import Verbatim
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.condition import Finding, Patch, SideCut, Survey
    from darby.papers.filled.writer import Writer

HIGH, PATCH_HIGH = 215.0, 300.0
"""How high a wall, and a patch, is drawn at the most [pt]."""
HURTS = ("safety.cement", "safety.silica-", "safety.lead-", "safety.asbestos-", "safety.fall-", "safety.power-lines")
"""What can hurt whoever cuts old work out; the crew sheet says the rest."""
TAPPED = "tapped-"
INCHES = '"'
FINE = 64
"""Cracks are read finer than a rule: to so manieth parts of an inch."""
HEADS = ("what", "size", "width", "moves", "does")
CUT_HEADS = ("side", "by.hollow", "by.paper", "by.lath", "by.line", "back", "decides")


def patch_paper(writer: Writer) -> PatchPaper | None:
    """The sheet, where anything was looked at or is cut back; else None."""
    surveys = writer.answers.answered("survey")
    patches = writer.answers.answered("patch")
    walls = surveys.walls if surveys is not None else ()
    cut = patches.patches if patches is not None else ()
    if not walls and not cut:
        return None
    hurts = {writer.both_note(n, "crew") for n in writer.answers.notes if n.code.startswith(HURTS)}
    said = [one for found in cut for one in cautions(writer, found.surface) if one.text in hurts]
    return PatchPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.patch.title", name=Verbatim(writer.answers.job.name)),
        lead=writer.both("paper.patch.lead"),
        heads=tuple(writer.both(f"condition.table.head.{head}") for head in HEADS),
        cut_heads=tuple(writer.both(f"condition.table.{head}") for head in CUT_HEADS),
        found=tuple(_found(writer, wall) for wall in walls),
        patches=tuple(_patch(writer, found) for found in cut),
        cautions=tuple(dict.fromkeys(said)),
        languages=writer.crew_languages,
    )


# --- what was found ------------------------------------------------------------------------------------------


def _found(writer: Writer, wall: Survey) -> FoundPart:
    surface = looked_at(writer.answers.job, wall.surface)
    marks = surveyed_elevation(
        surface, wall, lambda finding: width_written(writer, finding), language=writer.language, system=writer.system
    )
    return FoundPart(
        name=surface.name,
        picture=drawn(writer, surface, marks, HIGH, "paper.patch.survey"),
        rows=tuple(_row(writer, finding) for finding in wall.findings),
        notes=tuple(_said(writer, wall)),
    )


def _row(writer: Writer, finding: Finding) -> FoundRow:
    kind = writer.both(f"condition.table.{'tapped' if finding.id.startswith(TAPPED) else finding.kind}")
    what = Both(f"{kind.first}, {finding.name}", kind.second) if finding.name else kind
    moves = writer.both(f"condition.table.moves.{finding.movement}") if finding.movement is not None else Both("")
    return FoundRow(
        what=what,
        size=writer.write(finding.size),
        width=width_written(writer, finding),
        moves=moves,
        does=writer.both(f"condition.table.does.{finding.does}"),
    )


def width_written(writer: Writer, finding: Finding) -> str:
    """A crack's width: 3/32 in., or millimetres; "" for what has none."""
    if finding.width is None:
        return ""
    if writer.system == "metric":
        return writer.write(finding.width)
    inch = writer.write(Quantity(IN, finding.width.unit)).split()[-1]
    return f"{write(finding.width.value, 'in', to=FINE).removesuffix(INCHES)} {inch}"


def _said(writer: Writer, wall: Survey) -> list[Both]:
    """Every finding's own sentence, then taps and share."""
    names = {f"{wall.surface}/{finding.id}": finding for finding in wall.findings}
    notes = [n for n in writer.answers.notes if n.at in names and n.code.startswith("condition.survey.")]
    hollow = sum(tap.heard == "hollow" for tap in wall.taps)
    said = [_led(names[n.at], writer.both_note(n)) for n in notes]
    tapped = any(tap.heard is not None for tap in wall.taps)
    taps = [
        writer.say("condition.table.grid", name, grid=wall.grid, count=len(wall.taps), heard=Verbatim(
            writer.say("condition.table.heard", name, hollow=hollow) if tapped else "")).strip()
        for name in writer.crew_languages
    ]  # fmt: skip
    lines = [Both(*taps)]
    if wall.hollow is not None and wall.share is not None:
        lines.append(writer.both("condition.table.share", hollow=wall.hollow, wall=wall.wall, share=wall.share))
    return [*said, *lines]


def _led(finding: Finding, said: Both) -> Both:
    """The sentence, after what he calls the thing."""
    if not finding.name:
        return said
    name = finding.name[:1].upper() + finding.name[1:]
    return Both(f"{name}: {said.first}", said.second)


def found_besides(writer: Writer) -> list[str]:
    """For the customer: what was found and asks for something else than this work; [] where there is nothing."""
    surveys = writer.answers.answered("survey")
    found = [f for wall in (surveys.walls if surveys is not None else ()) for f in wall.findings]
    asks = [f for f in found if f.does not in ("leave", "cut out")]
    if not asks:
        return []
    called = []
    for finding in asks:
        what = _row(writer, finding).what.first
        does = writer.say(f"condition.table.does.{finding.does}")
        called.append(writer.say("paper.quote.found", what=Verbatim(what[:1].lower() + what[1:]), does=Verbatim(does)))
    return [writer.say("paper.quote.found-besides", found=Verbatim("; ".join(called)))]


# --- the patch -----------------------------------------------------------------------------------------------


def _patch(writer: Writer, patch: Patch) -> PatchPart:
    surface = writer.answers.job.surface(patch.surface)
    marks = patched_elevation(surface, patch, language=writer.language, system=writer.system)
    return PatchPart(
        name=surface.name,
        picture=drawn(writer, surface, marks, PATCH_HIGH, "paper.patch.ring"),
        rows=tuple(_side(writer, cut) for cut in patch.sides),
        notes=tuple(_lines(writer, patch)),
        steps=tuple(writer.both_note(step) for step in patch.order),
    )


def _side(writer: Writer, cut: SideCut) -> CutRow:
    depths = (cut.hollow, cut.paper, cut.lath, cut.line)
    return CutRow(
        side=Both(*(writer.say(f"word.{cut.side}", name).capitalize() for name in writer.crew_languages)),
        depths=tuple(writer.write(depth) if depth is not None else "" for depth in depths),
        back=writer.write(cut.back),
        by=writer.both(f"condition.table.by.{cut.by}"),
    )


def _lines(writer: Writer, patch: Patch) -> list[Both]:
    lines = [writer.both("condition.table.area-plain", area=patch.area)]
    if patch.depth is not None:
        said = [
            writer.say("condition.table.area", name, area=patch.area, depth=patch.depth, coats=Verbatim(", ".join(
                writer.say("condition.table.coat", name, coat=coat.name, thickness=coat.thickness)
                for coat in patch.coats
            )))
            for name in writer.crew_languages
        ]  # fmt: skip
        lines = [Both(*said)]
    if patch.rubble is not None and patch.weight is not None:
        lines.append(writer.both("condition.table.rubble", rubble=patch.rubble, weight=patch.weight))
    if patch.trips is not None and patch.days is not None:
        lines.append(writer.both("condition.table.trips", trips=patch.trips, days=patch.days))
    notes = [n for n in writer.answers.notes if n.at == patch.surface and n.code.startswith("condition.patch.")]
    return [*lines, *(writer.both_note(n) for n in notes if n.code != "condition.patch.depth")]
