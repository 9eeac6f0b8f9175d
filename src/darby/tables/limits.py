"""What is left to each limit of a panel on lath: layout by layout, at the panel that comes nearest to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.measure.units import unit
from darby.measure.writing import mixed
from darby.tables.page import Page
from darby.tables.places import place
from darby.tables.setting import Setting
from darby.words import Verbatim
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.joints import Joints, Layout, Panel

FEET, SQ_FT = unit("ft-in"), unit("sq ft")
LIMITS = ("area", "side", "ratio")


def limits_page(surface: str, answers: Answers, setting: Setting) -> Page | None:
    """Each limit, the panel that comes nearest to it, and what is left; None where nothing hangs on lath."""
    laid: Joints | None = answers.answered("joints", surface)
    if laid is None or not any(panel.lathed for panel in laid.chosen.panels):
        return None
    rows: list[tuple[str, ...]] = []
    for layout in sorted(laid.layouts, key=lambda x: x is not laid.chosen):
        rows.append((heading(layout, laid, setting),))
        rows += [_limit(name, layout, laid, setting) for name in LIMITS]
    heads = tuple(setting.say(f"cli.limits.{h}") for h in ("limit", "most", "panel", "has", "left"))
    name = Verbatim(place(answers, surface, setting))
    numbers = frozenset({1, 3, 4})
    return Page("joints", setting.say("cli.limits.title", wall=name), heads, tuple(rows), right=numbers, whole=numbers)


def heading(layout: Layout, laid: Joints, setting: Setting) -> str:
    """A layout by its name, with its joints counted."""
    code = "cli.ways-to-part.taken" if layout is laid.chosen else "cli.ways-to-part.other"
    return setting.say(
        code, layout=Verbatim(setting.say(f"joints.layout.{layout.name}")), joints=str(layout.laid),
        off=str(layout.off_corner), length=Quantity(layout.length, FEET),
    )  # fmt: skip


def _limit(name: str, layout: Layout, laid: Joints, setting: Setting) -> tuple[str, ...]:
    """The panel with the least left; where it is past the limit that is said."""
    panels = [panel for panel in layout.panels if panel.lathed]
    tight = min(panels, key=lambda panel: float(_slack(panel, name)))
    left = setting.write(_slack(tight, name))
    if name in tight.breaks:
        left = setting.say("cli.limits.past", left=Verbatim(left))
    called = setting.say(f"word.joints.limit.{name}")
    has = _has(tight, name, setting)
    return called[:1].upper() + called[1:], _most(name, laid, setting), tight.id, has, left


def _slack(panel: Panel, name: str) -> Quantity:
    found: Quantity | None = getattr(panel, f"{name}_slack")
    assert found is not None
    return found


def _has(panel: Panel, name: str, setting: Setting) -> str:
    if name == "area":
        return setting.write(Quantity(panel.area, SQ_FT))
    if name == "side":
        return setting.write(Quantity(max(panel.width, panel.height), FEET))
    return setting.write(Quantity(panel.ratio, unit("")))


def _most(name: str, laid: Joints, setting: Setting) -> str:
    """The limit as the joints room says it."""
    note = next((n for n in laid.notes if n.code == "joints.limits"), None)
    value = dict(note.values).get(name) if note is not None else None
    if value is None:
        return ""
    return mixed(value) if isinstance(value, (int, float)) else setting.write(value)
