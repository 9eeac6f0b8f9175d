"""The joints of one wall as the page shows them: its lines, its limits, its ways; as kept, or as they would be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from darby.desk.drawn import Drawing
from darby.desk.forms import fault_text
from darby.desk.put_on.drawings import layout_drawing, lines_drawing
from darby.desk.put_on.lines import Line, lines_of
from darby.measure.faults import Fault
from darby.measure.units import unit
from darby.tables.limits import heading, limits_page
from darby.tables.pages import note_line
from darby.tables.parting import ways_to_part
from darby.tables.places import place
from darby.words import Verbatim
from darby.working import Quantity

if TYPE_CHECKING:
    from collections.abc import Mapping

    from darby.answers import Answers
    from darby.joints import Joints
    from darby.measure.surface import Surface
    from darby.tables.setting import Setting

FEET = unit("ft-in")


@dataclass(frozen=True, slots=True)
class Way:
    """One layout to choose, drawn."""

    name: str
    heading: str
    called: str
    drawing: Drawing
    chosen: bool


@dataclass(frozen=True, slots=True)
class Row:
    """A line in words. ``called`` names it for whoever only hears the page."""

    line: Line
    called: str
    shown: str
    says: str


def surface_of(answers: Answers, asked: str | None) -> Surface:
    """The wall that was asked for, else the first that hangs on lath, else the first."""
    job = answers.job
    named = next((s for s in job.surfaces if s.id == asked), None)
    lathed = {
        name for name, laid in answers.good("joints").items() if any(panel.lathed for panel in laid.chosen.panels)
    }
    return named or next((s for s in job.surfaces if s.id in lathed), job.surfaces[0])


def rows_of(tables: Mapping[str, Any], answers: Answers, surface: str, setting: Setting) -> list[Row]:
    """Every line of the wall in words."""
    return [_row(line, setting) for line in lines_of(tables, answers, surface, setting.system)]


def _row(line: Line, setting: Setting) -> Row:
    way = Verbatim(setting.say(f"desk.put-on.way.{line.way}"))
    shown = setting.write(Quantity(line.at, FEET)) if line.at is not None else line.place
    if line.to is not None:
        shown = f"{shown} – {setting.write(Quantity(line.to, FEET))}"
    if line.letter and line.way == "upright":
        called = setting.say("desk.put-on.lettered", letter=Verbatim(line.letter), way=way)
    else:
        called = setting.say("desk.put-on.unlettered", way=way, place=Verbatim(shown))
    says = []
    if line.kind:
        says.append(setting.say(f"cli.joints.kind.{line.kind}"))
    if line.origin and line.state != "pinned":
        says.append(setting.say(f"desk.put-on.origin.{line.origin.replace(' ', '-')}"))
    return Row(line, called[:1].upper() + called[1:], shown, ", ".join(says))


def fault_of(answers: Answers, surface: str, setting: Setting) -> str:
    """In words why nothing could be laid out; "" where something was."""
    found = answers.by.get(("joints", surface))
    return fault_text(found, setting) if isinstance(found, Fault) else ""


def limits_of(answers: Answers, surface: str, setting: Setting) -> dict[str, Any]:
    """How the limits stand: the table, what stops it and what mends that, and why."""
    laid: Joints | None = answers.answered("joints", surface)
    notes = laid.notes if laid is not None else ()
    name = Verbatim(place(answers, surface, setting))
    own = [t for t in ways_to_part(answers, setting) if t.title == setting.say("cli.ways-to-part.title", wall=name)]
    gaps = [t for t in ways_to_part(answers, setting) if t.title == setting.say("cli.gaps.title", wall=name)]
    return {
        "limits": limits_page(surface, answers, setting),
        "stops": [note_line(n, setting, answers) for n in notes if n.grade == "stop"],
        "nothing": fault_of(answers, surface, setting),
        "facts": list(dict.fromkeys(note_line(n, setting, answers) for n in notes if n.grade in ("fact", "assumed"))),
        "panels": own[0] if own else None,
        "gaps": gaps[0] if gaps else None,
    }


def ways_of(answers: Answers, surface: Surface, setting: Setting) -> list[Way]:
    """The layouts to choose from, the one that is taken first; [] where there is no choice."""
    laid: Joints | None = answers.answered("joints", surface.id)
    if laid is None or len(laid.layouts) < 2:
        return []
    return [
        Way(
            layout.name,
            heading(layout, laid, setting),
            setting.say(f"joints.layout.{layout.name}"),
            layout_drawing(surface, layout, answers, setting),
            layout is laid.chosen,
        )
        for layout in sorted(laid.layouts, key=lambda x: x is not laid.chosen)
    ]


def places_to_catch(surface: Surface) -> dict[str, list[float]]:
    """Where a line that is dragged catches: corners of openings and of the wall [m]."""
    corners = [*surface.outline, *(c for o in surface.openings for c in o.outline)]
    return {"upright": sorted({float(c.u) for c in corners}), "level": sorted({float(c.v) for c in corners})}


def drawing_with_lines(surface: Surface, rows: list[Row], answers: Answers, setting: Setting) -> Drawing:
    """The wall with all its lines."""
    return lines_drawing(surface, [row.line for row in rows], answers, setting)
