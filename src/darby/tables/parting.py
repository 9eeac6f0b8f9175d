"""How a wall may be parted: every layout with its panels and what is left to each limit, and how wide the gaps are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.measure.units import unit
from darby.tables.page import Page
from darby.tables.places import edge_called, place
from darby.tables.setting import Setting
from darby.words import Verbatim
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.joints import Joints, Layout, Panel

FEET, SQ_FT = unit("ft-in"), unit("sq ft")


def ways_to_part(answers: Answers, setting: Setting) -> list[Page]:
    """For every wall that hangs on lath: its layouts, the one that is taken first; for every wall its gaps."""
    made = []
    for surface, laid in answers.good("joints").items():
        if any(panel.lathed for panel in laid.chosen.panels):
            made.append(_ways(surface, laid, answers, setting))
        if laid.widths:
            made.append(_gaps(surface, laid, answers, setting))
    return made


def _ways(surface: str, laid: Joints, answers: Answers, setting: Setting) -> Page:
    rows: list[tuple[str, ...]] = []
    for layout in sorted(laid.layouts, key=lambda x: x is not laid.chosen):
        rows.append((_heading(layout, laid, setting),))
        rows += [_panel(panel, setting) for panel in layout.panels if panel.lathed]
    heads = tuple(setting.say(f"cli.ways-to-part.{h}") for h in ("panel", "size", "area", "area-left", "side-left",
                                                                "ratio-left"))  # fmt: skip
    name = Verbatim(place(answers, surface, setting))
    lines = tuple(setting.say(n.code, **dict(n.values)) for n in laid.notes if n.code in SAID)
    numbers = frozenset({2, 3, 4, 5})
    return Page("joints", setting.say("cli.ways-to-part.title", wall=name), heads, tuple(rows), lines=lines,
                right=numbers, whole=numbers | {1})  # fmt: skip


SAID = ("joints.limits", "joints.lath-over-block", "joints.claim", "joints.none-needed", "joints.lines-left-out",
        "joints.own-limit", "joints.own-limit-past", "joints.lath-cut", "joints.lath-on")  # fmt: skip
"""What is said under the layouts of a wall: their rules, what was looked at, and what is claimed of them."""


def _heading(layout: Layout, laid: Joints, setting: Setting) -> str:
    code = "cli.ways-to-part.taken" if layout is laid.chosen else "cli.ways-to-part.other"
    return setting.say(
        code, layout=Verbatim(setting.say(f"joints.layout.{layout.name}")), joints=str(layout.laid),
        off=str(layout.off_corner), length=Quantity(layout.length, FEET),
    )  # fmt: skip


def _panel(panel: Panel, setting: Setting) -> tuple[str, ...]:
    wide, high = (setting.write(Quantity(x, FEET)) for x in (panel.width, panel.height))
    past = "".join(f" ({setting.say(f'word.joints.limit.{name}')}!)" for name in panel.breaks)
    left = (setting.write(x) for x in (panel.area_slack, panel.side_slack, panel.ratio_slack))
    return f"{panel.id}{past}", f"{wide} × {high}", setting.write(Quantity(panel.area, SQ_FT)), *left


def _gaps(surface: str, laid: Joints, answers: Answers, setting: Setting) -> Page:
    ids = {joint.id for joint in laid.chosen.joints}
    rows = []
    for width in laid.widths:
        names = [name if name in ids else edge_called(answers, surface, name, setting) for name in width.joints]
        set_to = setting.write(width.installed) if width.installed is not None else ""
        sizes = (width.span, width.movement, width.width, width.depth, width.rod)
        rows.append((", ".join(names), *(setting.write(x) for x in sizes), set_to))
    heads = tuple(
        setting.say(f"cli.gaps.{h}") for h in ("joints", "span", "movement", "width", "depth", "rod", "installed")
    )
    name = Verbatim(place(answers, surface, setting))
    numbers = frozenset(range(1, len(heads)))
    return Page("joints", setting.say("cli.gaps.title", wall=name), heads, tuple(rows), right=numbers, whole=numbers)
