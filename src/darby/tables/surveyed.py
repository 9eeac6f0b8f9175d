"""What was found on old walls, and how patches are cut back and tied in, as pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.answers.survey import called
from darby.measure.units import IN
from darby.measure.writing import write
from darby.tables.page import Page
from darby.tables.setting import Setting
from darby.words import Verbatim
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.condition import Finding, Patch, SideCut, Survey

TAPPED = "tapped-"
INCHES = '"'
REASONS = ("hollow", "paper", "lath", "line")


def survey_pages(answers: Answers, setting: Setting) -> list[Page]:
    """One page a wall: every finding, its size, and what it asks for."""
    surveys = answers.answered("survey")
    return [_survey(answers, wall, setting) for wall in surveys.walls] if surveys is not None else []


def _survey(answers: Answers, wall: Survey, setting: Setting) -> Page:
    heads = tuple(setting.say(f"condition.table.head.{h}") for h in ("what", "size", "width", "moves", "does"))
    rows = tuple(_finding(finding, setting) for finding in wall.findings)
    name = Verbatim(called(answers.job, wall.surface))
    title, lines = setting.say("condition.table.survey", name=name), tuple(survey_lines(wall, setting))
    return Page("survey", title, heads, rows, lines=lines, right=frozenset({1, 2}), whole=frozenset({1, 2, 4}))


def survey_lines(wall: Survey, setting: Setting) -> list[str]:
    """Taps, share and what is cut out, in words."""
    hollow = sum(tap.heard == "hollow" for tap in wall.taps)
    tapped = any(tap.heard is not None for tap in wall.taps)
    heard = setting.say("condition.table.heard", hollow=hollow) if tapped else ""
    lines = [setting.say("condition.table.grid", grid=wall.grid, count=len(wall.taps), heard=Verbatim(heard)).strip()]
    if wall.hollow is not None and wall.share is not None:
        lines.append(setting.say("condition.table.share", hollow=wall.hollow, wall=wall.wall, share=wall.share))
    if wall.cut is not None:
        lines.append(setting.say("condition.table.cut", cut=wall.cut))
    return lines


def finding_called(finding: Finding, setting: Setting) -> str:
    """What it is, and what he calls it."""
    kind = "tapped" if finding.id.startswith(TAPPED) else finding.kind
    said = setting.say(f"condition.table.{kind}")
    return f"{said}, {finding.name}" if finding.name else said


def _finding(finding: Finding, setting: Setting) -> tuple[str, ...]:
    moves = setting.say(f"condition.table.moves.{finding.movement}") if finding.movement is not None else ""
    return (
        finding_called(finding, setting),
        setting.write(finding.size),
        _width(finding, setting),
        moves,
        setting.say(f"condition.table.does.{finding.does}"),
    )


def crack_width(width: Quantity, setting: Setting) -> str:
    """A crack is read off a gauge finer than a rule: 1/32 in., 3/64 in."""
    if setting.system == "metric":
        return setting.write(width)
    inch = setting.write(Quantity(IN, width.unit)).split()[-1]
    return f"{write(width.value, 'in', to=64).removesuffix(INCHES)} {inch}"


def _width(finding: Finding, setting: Setting) -> str:
    return crack_width(finding.width, setting) if finding.width is not None else ""


def patch_pages(answers: Answers, setting: Setting) -> list[Page]:
    """Two pages a patch: how far each side is cut back and why, and what is done in order."""
    pages = []
    found = answers.answered("patch")
    for patch in found.patches if found is not None else ():
        name = Verbatim(answers.job.surface(patch.surface).name)
        heads = ("side", *(f"by.{reason}" for reason in REASONS), "back", "decides")
        rows = tuple(_side(cut, setting) for cut in patch.sides)
        numbers = frozenset(range(1, len(REASONS) + 2))
        pages.append(
            Page(
                "patch", setting.say("condition.table.patch", name=name),
                tuple(setting.say(f"condition.table.{head}") for head in heads), rows,
                lines=tuple(patch_lines(patch, setting)), right=numbers, whole=numbers,
            )
        )  # fmt: skip
        steps = tuple(
            setting.say("condition.table.step", n=n, text=Verbatim(setting.say(step.code, **dict(step.values))))
            for n, step in enumerate(patch.order, 1)
        )
        pages.append(Page("patch", setting.say("condition.table.order"), text=steps))
    return pages


def patch_lines(patch: Patch, setting: Setting) -> list[str]:
    """Area, depth, what comes out, the least trips."""
    lines = [setting.say("condition.table.area-plain", area=patch.area)]
    if patch.depth is not None:
        coats = ", ".join(
            setting.say("condition.table.coat", coat=coat.name, thickness=coat.thickness) for coat in patch.coats
        )
        lines = [setting.say("condition.table.area", area=patch.area, depth=patch.depth, coats=Verbatim(coats))]
    if patch.rubble is not None and patch.weight is not None:
        lines.append(setting.say("condition.table.rubble", rubble=patch.rubble, weight=patch.weight))
    if patch.trips is not None and patch.days is not None:
        lines.append(setting.say("condition.table.trips", trips=patch.trips, days=patch.days))
    return lines


def _side(cut: SideCut, setting: Setting) -> tuple[str, ...]:
    depths: tuple[Quantity | None, ...] = (cut.hollow, cut.paper, cut.lath, cut.line)
    return (
        setting.write(cut.side),
        *(setting.write(depth) if depth is not None else "" for depth in depths),
        setting.write(cut.back),
        setting.say(f"condition.table.by.{cut.by}"),
    )
