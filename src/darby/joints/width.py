"""How wide a joint must be for what moves, how deep the seal, how thick the rod.

W = movement / what the sealant takes + tolerance, the movement over the whole swing (after Ochshorn; Allen and Rand):
so the gap serves whatever the temperature is when it is filled.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from darby.joints.model import SEALANTS, Ground, Joint, JointsAsk, Layout, Panel, Sealing, Width
from darby.measure.faults import Fault, Unreadable
from darby.measure.surface import BaseKind
from darby.measure.units import unit
from darby.rulebook.model import Figure
from darby.working.formula import exact
from darby.working.model import Quantity, Working

Real = Fraction | float

IN, FT, F, PLAIN = unit("in"), unit("ft-in"), unit("deg F"), unit("")


def sealant_width(
    length: Real,
    swing_c: Real,
    expansion_per_c: Real,
    movement: Real,
    tolerance: Real = 0,
    *,
    moisture: Real = 0,
    other: Real = 0,
) -> float:
    """Width of a sealed joint [m] that its sealant can follow: (length x strain + other) / movement + tolerance.

    Parameters
    ----------
    length
        of what moves, from joint to joint [m].
    swing_c
        from coldest to hottest face in a year [deg C, a difference].
    expansion_per_c
        strain for a degree Celsius.
    movement
        what the sealant takes either way, as a part of the joint's width: 0.25 for class 25.
    tolerance
        by which the gap may come out wrong [m].
    moisture
        strain by wetting and drying, or by shrinkage.
    other
        movement by other causes: drift, deflection [m].

    Raises
    ------
    Unreadable
        "joints.movement-share" where ``movement`` is no part of one (25 for 25 %); "joints.below-nought" for a length,
        swing, tolerance ... below nought.

    Source: J. Ochshorn, ARCH 262, Cornell; E. Allen and P. Rand, Architectural Detailing.
    """
    _not_below_nought(length=length, swing_c=swing_c, expansion_per_c=expansion_per_c, tolerance=tolerance,
                      moisture=moisture, other=other)  # fmt: skip
    return float(_moved(length, swing_c * expansion_per_c + moisture, other, movement) + tolerance)


def _moved(length: Real, strain: Real, other: Real, movement: Real) -> Real:
    _share(movement)
    return (length * strain + other) / movement


def joint_spacing(width: Real, strain: Real, movement: Real, tolerance: Real = 0) -> float:
    """How far apart joints ``width`` wide may be [m] for a whole ``strain``: ``sealant_width`` turned round.

    Raises
    ------
    Unreadable
        as ``sealant_width``; "joints.no-strain" for a strain of nought.

    Source: BIA Technical Note 18A, as restated by others.
    """
    _not_below_nought(width=width, tolerance=tolerance)
    _share(movement)
    if strain <= 0:
        raise Unreadable(Fault("joints.no-strain", "strain", f"{float(strain):g}", "> 0"))
    return float((width - tolerance) * movement / strain)


def _share(movement: Real) -> None:
    if not 0 < movement <= 1:
        raise Unreadable(Fault("joints.movement-share", "movement", f"{float(movement):g}", "0 … 1"))


def _not_below_nought(**values: Real) -> None:
    for name, value in values.items():
        if not value >= 0:
            raise Unreadable(Fault("joints.below-nought", name, f"{float(value):g}", "0 …"))


# --- of a surface -------------------------------------------------------------------------------------


def checked(sealing: Sealing, at: str) -> None:
    """What he said of sealing makes sense.

    Raises
    ------
    Unreadable
        "joints.no-such-sealant", "joints.hot-below-cold", "joints.below-nought".
    """
    if sealing.sealant not in SEALANTS:
        raise Unreadable(Fault("joints.no-such-sealant", at, sealing.sealant, ", ".join(SEALANTS)))
    if sealing.hot is not None and sealing.cold is not None and sealing.hot <= sealing.cold:
        raise Unreadable(Fault("joints.hot-below-cold", at, f"{sealing.hot:g} °C", f"> {sealing.cold:g} °C"))
    _not_below_nought(tolerance=sealing.tolerance, moisture=sealing.moisture)


def widths(w: Working, ask: JointsAsk, layout: Layout, grounds: Iterable[Ground], edges: Iterable[str]) -> list[Width]:
    """Widths of all joints that are not one-piece, joints of equal span and base together.

    Each panel is parted all round and moves by itself, half of it to each side: a joint takes no more than the movement
    of the longest panel beside it. ``edges``: ids of edges that are joints; the longest panel of all is taken there.
    """
    bases = {g.zone: g.base for g in grounds}
    groups: dict[tuple[Fraction, BaseKind], list[str]] = {}
    for joint in layout.joints:
        if joint.kind != "control":
            beside = [p for p in layout.panels if _beside(p, joint)] or layout.panels
            groups.setdefault(_longest(beside, joint.axis, bases), []).append(joint.id)
    for edge in edges:
        groups.setdefault(_longest(layout.panels, "along", bases), []).append(edge)
    if not groups:
        return []
    key = f"{ask.surface.id}/joints/width"
    swing = _swing(w, ask, key)
    return [
        _width(w, ask, f"{key}/{n}", swing, span, base, tuple(names))
        for n, ((span, base), names) in enumerate(sorted(groups.items()), 1)
    ]


def _beside(panel: Panel, joint: Joint) -> bool:
    """Whether a panel reaches to a joint and stands along it."""
    (u, v), (u_end, v_end) = joint.start, joint.end
    right, top = panel.left + panel.width, panel.bottom + panel.height
    if joint.axis == "vertical":
        return u in (panel.left, right) and panel.bottom < v_end and top > v
    if joint.axis == "horizontal":
        return v in (panel.bottom, top) and panel.left < u_end and right > u
    return False


def _longest(panels: Iterable[Panel], axis: str, bases: Mapping[str, BaseKind]) -> tuple[Fraction, BaseKind]:
    """How much plaster moves across a joint, and on what base."""

    def across(panel: Panel) -> Fraction:
        if axis == "vertical":
            return panel.width
        return panel.height if axis == "horizontal" else max(panel.width, panel.height)

    longest = max(panels, key=across)
    return across(longest), bases[longest.zones[0]]


@dataclass(frozen=True, slots=True)
class _Swing:
    """Degrees from coldest to hottest, and from the day it is set to the middle; bare numbers of degrees Fahrenheit."""

    whole: Quantity | Figure
    to_middle: Quantity | None = None


def _swing(w: Working, ask: JointsAsk, key: str) -> _Swing:
    s, at = ask.sealing, ask.surface.id
    if s.cold is None:
        figure = ask.book.number("joint.swing")
        w.note("joints.swing-unknown", "assumed", at, rules=(figure.id,), swing=figure)
        return _Swing(figure)
    hot, rules = s.hot, ()
    if hot is None:
        figure = ask.book.number("joint.hot")
        hot, rules = figure.number, (figure.id,)  # type: ignore[assignment]
        w.note("joints.hot-unknown", "assumed", at, rules=rules, hot=figure)
        if hot <= s.cold:
            raise Unreadable(Fault("joints.hot-below-cold", at, f"{hot:g} °C", f"> {s.cold:g} °C"))
    high, low = (_fahrenheit(x) for x in (hot, s.cold))
    whole = w.step(f"{key}/swing", "hot - cold", PLAIN, "joints.step.swing", rules=rules, hot=high, cold=low)
    if s.installed is None:
        return _Swing(whole)
    middle = w.step(
        f"{key}/to-middle", "(hot + cold) / 2 - installed", PLAIN, "joints.step.to-middle", rules=rules,
        hot=high, cold=low, installed=_fahrenheit(s.installed),
    )  # fmt: skip
    return _Swing(whole, middle)


def _fahrenheit(celsius: float) -> Quantity:
    """A bare number of degrees: a difference of temperatures has no unit of its own."""
    return Quantity(F.from_si(exact(celsius, F)), PLAIN)


def _width(
    w: Working, ask: JointsAsk, key: str, swing: _Swing, span: Fraction, base: BaseKind, names: tuple[str, ...]
) -> Width:
    book, s = ask.book, ask.sealing
    length = Quantity(span, FT)
    expansion = book.number("joint.expansion", base=base)
    strain: dict[str, Any] = {"expansion": expansion, "swing": swing.whole}
    formula = "expansion * swing"
    if s.moisture:
        strain["moisture"], formula = s.moisture, f"{formula} + moisture"
    if s.shrinkage:
        strain["shrinkage"], formula = book.number("joint.shrinkage", base=base), f"{formula} + shrinkage"
    movement = w.step(f"{key}/movement", f"length * ({formula})", IN, "joints.step.movement", length=length, **strain)
    share = book.number("joint.sealant", sealant=s.sealant)
    step = book.number("joint.width.step")
    tolerance = Quantity(s.tolerance, IN)
    least = w.step(f"{key}/least", "movement / share + tolerance", IN, "joints.step.least",
                   movement=movement, share=share, tolerance=tolerance)  # fmt: skip
    width = w.step(
        f"{key}/width", "max(ceil(least / step) * step, smallest, apart)", IN, "joints.step.width",
        least=least, step=step, smallest=book.number("joint.width.least"), apart=book.number("parting.separation"),
    )  # fmt: skip
    depth = w.step(
        f"{key}/depth", "min(max(width / ratio, least), most)", IN, "joints.step.depth", width=width,
        ratio=book.number("sealant.width-to-depth"), least=book.number("sealant.depth.least"),
        most=book.number("sealant.depth.most"),
    )  # fmt: skip
    rod = w.step(f"{key}/rod", "ceil(width * (1 + over) / step) * step", IN, "joints.step.rod",
                 width=width, over=book.number("joint.rod"), step=step)  # fmt: skip
    installed = None
    if swing.to_middle is not None:
        installed = w.step(f"{key}/installed", "width + length * expansion * degrees", IN, "joints.step.installed",
                           width=width, length=length, expansion=expansion, degrees=swing.to_middle)  # fmt: skip
    w.note("joints.gap", "fact", ask.surface.id, rules=(share.id, expansion.id), joints=names, span=length, width=width,
           depth=depth, rod=rod)  # fmt: skip
    if installed is not None:
        w.note("joints.gap-installed", "fact", ask.surface.id, joints=names, installed=installed,
               degrees=Quantity(exact(s.installed or 0, F), F))  # fmt: skip
    return Width(names, length, movement, least, width, depth, rod, installed)
