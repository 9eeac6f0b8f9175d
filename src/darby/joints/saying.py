"""What has to be said of a layout: its rules, its proof, what goes into the lines, what is left open, what is wrong."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from quicktions import Fraction

from darby.joints.allowed import Allowed
from darby.joints.model import JointsAsk, Layout
from darby.joints.on_lath import OnLath
from darby.measure.units import unit
from darby.measure.writing import number, shown, write
from darby.rulebook.model import Figure
from darby.working.model import Quantity, Working

SQ_FT, FT, PLAIN = unit("sq ft"), unit("ft-in"), unit("")


def proved(w: Working, key: str, layout: Layout, rules: Sequence[str]) -> None:
    """The layout as a solver's result: how many joints, and every panel against every limit."""
    lines = [_checked(layout, n) for n in range(len(layout.panels)) if layout.panels[n].lathed]
    areas = [p.area for p in layout.panels if p.lathed]
    if len(areas) > 1:
        total = " + ".join(_feet(a) for a in areas)
        lines.append(f"{total} = {shown(sum(areas, Fraction(0)), SQ_FT)}")
    w.found(f"{key}/laid", layout.laid, PLAIN, f"joints.layout.{layout.name}", method=f"joints.method.{layout.name}",
            proof=tuple(lines), rules=rules)  # fmt: skip


def _feet(area: Fraction) -> str:
    return shown(area, SQ_FT).partition(" ")[0]


def _checked(layout: Layout, n: int) -> str:
    """``p1: 15' x 9'; 135 sq ft <= 144 sq ft; 15' <= 18'; 15' / 9' = 1.67 <= 2.5``, with > where it is past."""
    panel = layout.panels[n]
    long, short = max(panel.width, panel.height), min(panel.width, panel.height)
    assert panel.area_slack is not None and panel.side_slack is not None and panel.ratio_slack is not None
    limits = (
        (shown(panel.area, SQ_FT), "area", shown(float(panel.area) + float(panel.area_slack), SQ_FT)),
        (write(long), "side", write(float(long) + float(panel.side_slack))),
        (f"{write(long)} / {write(short)} = {number(panel.ratio, 2)}", "ratio",
         shown(float(panel.ratio) + float(panel.ratio_slack), PLAIN)),
    )  # fmt: skip
    sides = f"{panel.id}: {write(panel.width)} × {write(panel.height)}"
    return "; ".join((sides, *(f"{x} {'>' if name in panel.breaks else '≤'} {y}" for x, name, y in limits)))


def said_of_layout(
    w: Working, ask: JointsAsk, chosen: Layout, layouts: Sequence[Layout], within: Allowed,
    done: Mapping[int, OnLath],
) -> None:  # fmt: skip
    """Rules and counts of the chosen layout, the others beside it, lath, kinds, openings left bare."""
    at = ask.surface.id
    if done:
        area, side, ratio = within.given
        w.note("joints.limits", "fact", at, rules=within.rules, area=area, side=side, ratio=ratio)
        if any(g.lathed and g.base == "lath over block" for g in ask.grounds):
            w.note("joints.lath-over-block", "fact", at, rules=ids(ask, "joint.lath-over-block"))
        if not chosen.laid and chosen.holds:
            w.note("joints.none-needed", "fact", at, rules=within.rules)
        elif chosen.holds:
            _counted(w, ask, chosen, done)
        left_out = sum(d.left_out for d in done.values())
        if left_out:
            w.note("joints.lines-left-out", "caution", at, rules=ids(ask, "joint.search"), lines=left_out)
    for other in layouts:
        if other is not chosen:
            w.note(f"joints.other.{other.name}", "fact", at, joints=other.laid, off=other.off_corner,
                   length=Quantity(other.length, FT))  # fmt: skip
    _kinds(w, ask, chosen)
    if chosen.bare and chosen.laid:
        w.note("joints.bare-openings", "caution", at, rules=ids(ask, "joint.corners"),
               openings=tuple(_named(ask, o) for o in chosen.bare))  # fmt: skip


def ids(ask: JointsAsk, subject: str) -> tuple[str, ...]:
    """The figures that speak on a subject, the ruling one first."""
    ruled = ask.book.rule(subject)
    return ruled.figure.id, *(f.id for f in ruled.others)


def _named(ask: JointsAsk, opening: str) -> str:
    return next((o.name or o.id for o in ask.surface.openings if o.id == opening), opening)


def _counted(w: Working, ask: JointsAsk, chosen: Layout, done: Mapping[int, OnLath]) -> None:
    at = ask.surface.id
    w.note("joints.laid-out", "fact", at, rules=ids(ask, "joint.corners"), joints=chosen.laid,
           panels=sum(p.lathed for p in chosen.panels), off=chosen.off_corner,
           length=Quantity(chosen.length, FT))  # fmt: skip
    looked = [d.layouts.get(chosen.name) or d.layouts["best"] for d in done.values()]
    w.note("joints.claim", "fact", at,
           uprights=sum(x.ready.n - 1 for x in looked), levels=sum(x.ready.m - 1 for x in looked),
           rectangles=sum(x.parted.rectangles for x in looked), cuts=sum(x.parted.choices for x in looked))  # fmt: skip


def _kinds(w: Working, ask: JointsAsk, chosen: Layout) -> None:
    """What goes into the lines, and what happens to the lath behind."""
    at = ask.surface.id
    kinds = {(j.kind, j.origin) for j in chosen.joints}
    if any(kind == "control" for kind, _ in kinds):
        w.note("joints.kind.control", "fact", at, rules=ids(ask, "joint.one-piece"))
        ruled = ask.book.rule("joint.lath")
        code = "joints.lath-on" if ruled.figure.voice == "sma" else "joints.lath-cut"
        w.note(code, "fact", at, rules=ids(ask, "joint.lath"))
    if any(kind == "expansion" for kind, _ in kinds):
        w.note("joints.kind.expansion", "fact", at, rules=ids(ask, "joint.two-piece"))
    if any(kind == "casing" for kind, _ in kinds):
        apart: Figure = ask.book.number("parting.separation")
        w.note("joints.kind.casing", "fact", at, rules=(apart.id, *ids(ask, "parting.unlike")), apart=apart)
    bases = {g.base for g in ask.grounds}
    if {"block", "concrete"} <= bases and any(origin == "change of base" for _, origin in kinds):
        w.note("joints.infill", "fact", at, rules=ids(ask, "joint.infill"))


def said_of_stop(w: Working, at: str, found: OnLath) -> None:
    """Which limit fails where, by how much, and what mends it."""
    best = found.layouts["best"]
    within = best.allowed
    if best.holds or within is None:
        return
    f = best.ready.field
    area, side, ratio = within.given
    for panel, broken in best.past():
        box = f.box(*panel)
        assert box is not None
        wide, high = best.sides(panel)
        long, short = max(wide, high), min(wide, high)
        where = {"left": Quantity(f.metres(box.left), FT), "bottom": Quantity(f.metres(box.bottom), FT),
                 "width": Quantity(wide, FT), "height": Quantity(high, FT)}  # fmt: skip
        if "area" in broken:
            w.note("joints.stop-area", "stop", at, rules=within.rules, **where, area=Quantity(f.area(*panel), SQ_FT),
                   limit=area, reach=Quantity(within.reach(high), FT))  # fmt: skip
        elif "side" in broken:
            w.note("joints.stop-side", "stop", at, rules=within.rules, **where, long=Quantity(long, FT), limit=side)
        else:
            w.note("joints.stop-ratio", "stop", at, rules=within.rules, **where, limit=ratio,
                   most=Quantity(within.ratio * short, FT), least=Quantity(long / within.ratio, FT))  # fmt: skip
    for line in found.lacking:
        w.note("joints.stop-forbidden", "stop", at, axis=f"joints.axis.{line.axis}", place=Quantity(line.at, FT))
