"""How wide a joint must be for what moves, how deep the seal, how thick the rod.

W = movement / what the sealant takes + tolerance, the movement over the whole swing (after Ochshorn; Allen and Rand):
so the gap serves whatever the temperature is when it is filled.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from quicktions import Fraction

from darby.joints.model import SEALANTS, Ground, Joint, JointsAsk, Layout, Panel, Sealing, Width
from darby.measure.faults import Fault, Unreadable
from darby.measure.surface import BaseKind
from darby.measure.units import unit
from darby.measure.writing import shown
from darby.rulebook.model import Figure
from darby.working.formula import exact
from darby.working.model import Quantity, Working

Real = Fraction | float

IN, FT, F, APART = unit("in"), unit("ft-in"), unit("deg F"), unit("F deg")


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
        "joints.no-such-sealant", "joints.hot-below-cold", "joints.swing-or-both", "joints.installed-alone",
        "joints.below-nought".
    """
    s = sealing
    if s.sealant not in SEALANTS:
        raise Unreadable(Fault("joints.no-such-sealant", at, s.sealant, ", ".join(SEALANTS)))
    if s.hot is not None and s.cold is not None:
        _warmer(s.hot, s.cold, at)
        if s.swing is not None:
            raise Unreadable(Fault("joints.swing-or-both", at, shown(s.swing, APART), shown(s.hot - s.cold, APART)))
    if s.installed is not None and s.cold is None and (s.hot is None or s.swing is None):
        raise Unreadable(Fault("joints.installed-alone", at, shown(s.installed, F), "hot, cold"))
    _not_below_nought(tolerance=s.tolerance, moisture=s.moisture, swing=s.swing or 0)


def _warmer(hot: float, cold: float, at: str) -> None:
    if hot <= cold:
        raise Unreadable(Fault("joints.hot-below-cold", at, shown(hot, F), f"> {shown(cold, F)}"))


def widths(w: Working, ask: JointsAsk, layout: Layout, grounds: Iterable[Ground], edges: Iterable[str]) -> list[Width]:
    """Widths of all joints that are not one-piece, joints of equal span and base together.

    Each panel is parted all round and moves by itself, half of it to each side: a joint takes no more than the movement
    of the longest panel beside it. ``edges``: ids of edges that are joints; the longest panel of all is taken there.
    """
    bases = {g.zone: _moves_as(g) for g in grounds}
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
    known = {base: _figure(ask, "joint.expansion", base) for _, base in groups}
    swing = _swing(w, ask, key) if any(known.values()) else None
    found = []
    for n, ((span, base), names) in enumerate(sorted(groups.items()), 1):
        expansion = known[base]
        if expansion is None or swing is None:
            least = max(_least(ask), key=lambda figure: figure.number)
            w.note("joints.gap-unknown", "caution", ask.surface.id, rules=tuple(f.id for f in _least(ask)),
                   joints=tuple(names), span=Quantity(span, FT), base=f"joints.moves.{base}", least=least)  # fmt: skip
            continue
        found.append(_width(w, ask, f"{key}/{n}", swing, span, base, expansion, tuple(names)))
    return found


def _moves_as(ground: Ground) -> BaseKind:
    """What plaster moves like: on lath like mortar whatever is behind it; paint does not keep block from moving."""
    if ground.lathed and ground.base != "frame":
        return "lath over block"
    return "block" if ground.base == "painted block" else ground.base


def _figure(ask: JointsAsk, subject: str, base: BaseKind) -> Figure | None:
    """The figure for a base; None where nobody speaks on that base."""
    try:
        return ask.book.number(subject, base=base)
    except KeyError:
        return None


def _least(ask: JointsAsk) -> tuple[Figure, Figure]:
    """What a gap is at least, whatever moves: for its seal, and to keep base from base."""
    return ask.book.number("joint.width.least"), ask.book.number("parting.separation")


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
    """Degrees from coldest to hottest, and from the day it is set to the middle: differences both."""

    whole: Quantity | Figure
    to_middle: Quantity | None = None


def _swing(w: Working, ask: JointsAsk, key: str) -> _Swing:
    s, at = ask.sealing, ask.surface.id
    if s.swing is not None and s.cold is None and s.hot is None:
        return _Swing(Quantity(exact(s.swing, APART), APART))
    if s.swing is not None:  # with one end the other follows
        cold = s.cold if s.cold is not None else (s.hot or 0) - s.swing
        return _of_ends(w, key, cold + s.swing, cold, s.installed)
    if s.cold is None:
        figure = ask.book.number("joint.swing")
        w.note("joints.swing-unknown", "assumed", at, rules=(figure.id,), swing=figure)
        return _Swing(figure)
    hot, rules = s.hot, ()
    if hot is None:
        figure = ask.book.number("joint.hot")
        hot, rules = figure.number, (figure.id,)  # type: ignore[assignment]
        w.note("joints.hot-unknown", "assumed", at, rules=rules, hot=figure)
        _warmer(hot, s.cold, at)
    return _of_ends(w, key, hot, s.cold, s.installed, rules)


def _of_ends(
    w: Working, key: str, hot: float, cold: float, installed: float | None, rules: tuple[str, ...] = ()
) -> _Swing:
    """The swing between two temperatures, and how far the day it is set stands from the middle."""
    high, low = Quantity(exact(hot, F), F), Quantity(exact(cold, F), F)
    whole = w.step(f"{key}/swing", "hot - cold", APART, "joints.step.swing", rules=rules, hot=high, cold=low)
    if installed is None:
        return _Swing(whole)
    middle = w.step(
        f"{key}/to-middle", "(hot + cold) / 2 - installed", APART, "joints.step.to-middle", rules=rules,
        hot=high, cold=low, installed=Quantity(exact(installed, F), F),
    )  # fmt: skip
    return _Swing(whole, middle)


def _width(
    w: Working, ask: JointsAsk, key: str, swing: _Swing, span: Fraction, base: BaseKind, expansion: Figure,
    names: tuple[str, ...],
) -> Width:  # fmt: skip
    book, s = ask.book, ask.sealing
    length = Quantity(span, FT)
    strain: dict[str, Any] = {"expansion": expansion, "swing": swing.whole}
    formula = "expansion * swing"
    if s.moisture:
        strain["moisture"], formula = s.moisture, f"{formula} + moisture"
    if s.shrinkage:
        dries = _figure(ask, "joint.shrinkage", base)
        if dries is None:
            w.note("joints.shrinkage-unknown", "caution", ask.surface.id, joints=names, base=f"joints.moves.{base}")
        else:
            strain["shrinkage"], formula = dries, f"{formula} + shrinkage"
    movement = w.step(f"{key}/movement", f"length * ({formula})", IN, "joints.step.movement", length=length, **strain)
    share = book.number("joint.sealant", sealant=s.sealant)
    step = book.number("joint.width.step")
    tolerance = Quantity(s.tolerance, IN)
    least = w.step(f"{key}/least", "movement / share + tolerance", IN, "joints.step.least",
                   movement=movement, share=share, tolerance=tolerance)  # fmt: skip
    smallest, apart = _least(ask)
    width = w.step(
        f"{key}/width", "max(ceil(least / step) * step, smallest, apart)", IN, "joints.step.width",
        least=least, step=step, smallest=smallest, apart=apart,
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
