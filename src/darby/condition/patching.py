"""A patch round an opening: how far old plaster is cut back, how deep, in what order it is tied in, trips and days."""

from __future__ import annotations

from darby.condition.patch_model import By, Patch, PatchAsk, SideCut
from darby.condition.shingling import order_of
from darby.measure.limits import at_most
from darby.measure.surface import Side
from darby.measure.units import unit
from darby.working.model import Given, Quantity, Working

_INCH, _AREA, _VOLUME, _MASS = unit("in"), unit("sq ft"), unit("cu ft"), unit("lb")
_HOURS, _DAYS, _COUNT = unit("h"), unit("day"), unit("")
_ONE_DAY = Quantity(_DAYS.scale, _DAYS)

LAPS: dict[Side, str] = {"head": "horizontal", "sill": "horizontal", "left": "vertical", "right": "vertical"}
"""Over and under an opening paper laps course on course; beside it, end on end."""


def patch(ask: PatchAsk) -> tuple[Patch, Working]:
    """Every side's cut-back, the greatest of what asks for it, and what follows: area, depth, rubble, trips.

    A line that hides the seam is taken where it lies no nearer than the other reasons ask for; one that lies nearer
    cannot be reached. Where the wall ends before that, the patch runs to its edge.
    """
    w = Working()
    key = f"{ask.surface}/patch"
    if not ask.hollow:
        w.note("condition.patch.not-tapped", "assumed", ask.surface)
    if ask.flange is None and ask.lathed:
        w.note("condition.patch.no-flange", "assumed", ask.surface)
    sides = tuple(_side(w, ask, key, side) for side in ask.sides)
    area = _area(w, ask, key, {cut.side: cut.back for cut in sides})
    drawn = _area(w, ask, f"{key}/drawn", dict.fromkeys(ask.sides, Quantity(ask.width, _INCH)))
    short = _short(w, ask, key, sides, area, drawn)
    depth = _depth(w, ask)
    rubble, weight = _rubble(w, ask, key, area, depth)
    _hard(w, ask)
    trips, days = _visits(w, ask, key)
    return (
        Patch(
            ask.surface, sides, area, drawn, short, depth, ask.coats, rubble, weight, _hours(w, ask, key, area), trips,
            days, order_of(ask, sides),
        ),
        w,
    )  # fmt: skip


# --- how far -----------------------------------------------------------------------------------------


def _side(w: Working, ask: PatchAsk, key: str, side: Side) -> SideCut:
    book, here = ask.book, f"{key}/{side}"
    flange = Quantity(ask.flange or 0, _INCH)
    margin = book.number("patch.margin")
    hollow = w.step(
        f"{here}/hollow", "hollow + margin", _INCH, "condition.patch.step.hollow",
        hollow=Quantity(dict(ask.hollow).get(side, 0), _INCH), margin=margin,
    )  # fmt: skip
    paper = lath = None
    if ask.lathed and ask.papers:
        paper = w.step(f"{here}/paper", "flange + lap", _INCH, "condition.patch.step.paper",
                       flange=flange, lap=book.number(f"wrb.lap.{LAPS[side]}"))  # fmt: skip
    if ask.lathed:
        lath = w.step(f"{here}/lath", "flange + tie", _INCH, "condition.patch.step.lath",
                      flange=flange, tie=book.number("patch.tie"))  # fmt: skip
    asked: dict[By, Quantity] = {"hollow": hollow}
    asked |= {"paper": paper} if paper is not None else {}
    asked |= {"lath": lath} if lath is not None else {}
    given: dict[str, Given] = {str(name): depth for name, depth in asked.items()}
    least = w.step(f"{here}/least", f"max({', '.join(given)})" if len(given) > 1 else "hollow", _INCH,
                   "condition.patch.step.least", rules=(), **given)  # fmt: skip
    by: By = max(asked, key=lambda name: float(asked[name]))
    line, back = _to_a_line(w, ask, here, side, least)
    if line is not None:
        by = "line"
    room = dict(ask.room).get(side)
    if room is not None and not at_most(float(back), room):
        w.note("condition.patch.past-the-wall", "caution", ask.surface, side=side, back=back,
               room=Quantity(room, _INCH))  # fmt: skip
        back, by = Quantity(room, _INCH), "edge"
    return SideCut(side, hollow, paper, lath, least, line, back, by)


def _to_a_line(
    w: Working, ask: PatchAsk, key: str, side: Side, least: Quantity
) -> tuple[Quantity | None, Quantity]:  # fmt: skip
    said = dict(ask.lines).get(side)
    if said is None:
        return None, least
    line = Quantity(said, _INCH)
    if not at_most(float(least), said):
        w.note("condition.patch.line-too-near", "caution", ask.surface, side=side, line=line, least=least)
        return None, least
    return line, w.step(f"{key}/back", "max(least, line)", _INCH, "condition.patch.step.back", least=least, line=line)


def _area(w: Working, ask: PatchAsk, key: str, back: dict[Side, Quantity]) -> Quantity:
    nought = Quantity(0, _INCH)
    return w.step(
        f"{key}/area", "(wide + left + right) * (high + head + sill) - wide * high", _AREA, "condition.patch.step.area",
        wide=Quantity(ask.wide, unit("ft")), high=Quantity(ask.high, unit("ft")), left=back.get("left", nought),
        right=back.get("right", nought), head=back.get("head", nought), sill=back.get("sill", nought),
    )  # fmt: skip


def _short(
    w: Working, ask: PatchAsk, key: str, sides: tuple[SideCut, ...], area: Quantity, drawn: Quantity
) -> Quantity | None:
    """By how much the patch is drawn too narrow: areas, mortar and price are of what was drawn."""
    widest = max((cut for cut in sides), key=lambda cut: float(cut.back))
    width = Quantity(ask.width, _INCH)
    if at_most(float(widest.back), float(width)):
        return None
    short = w.step(f"{key}/short", "back - width", _INCH, "condition.patch.step.short", back=widest.back, width=width)
    w.note("condition.patch.short", "caution", ask.surface, side=widest.side, back=widest.back, width=width, area=area,
           drawn=drawn)  # fmt: skip
    return short


# --- how deep, and what comes out ----------------------------------------------------------------------


def _depth(w: Working, ask: PatchAsk) -> Quantity | None:
    """The old work's depth; the table's where nobody measured it, and then that is asked for."""
    if ask.old_depth is None:
        if ask.total is not None:
            w.note("condition.patch.depth-unmeasured", "assumed", ask.surface, total=ask.total)
        return ask.total
    depth = Quantity(ask.old_depth, _INCH)
    w.note("condition.patch.depth", "fact", ask.surface, depth=depth)
    return depth


def _rubble(
    w: Working, ask: PatchAsk, key: str, area: Quantity, depth: Quantity | None
) -> tuple[Quantity | None, Quantity | None]:
    """What comes out, as it lies in the wall, and its weight; of all equal patches together."""
    if depth is None:
        return None, None
    rubble = w.step(f"{key}/rubble", "area * depth * count", _VOLUME, "condition.patch.step.rubble", area=area,
                    depth=depth, count=ask.count)  # fmt: skip
    density = ask.book.number("thickness.weight")
    weight = w.step(f"{key}/weight", "rubble * density", _MASS, "condition.patch.step.weight", rubble=rubble,
                    density=density)  # fmt: skip
    if not ask.hauled:
        w.note("condition.patch.not-hauled", "assumed", ask.surface, weight=weight)
    return rubble, weight


def _hours(w: Working, ask: PatchAsk, key: str, area: Quantity) -> Quantity | None:
    if ask.cut is None:
        w.note("condition.patch.no-pace", "assumed", ask.surface, area=area)
        return None
    return w.step(f"{key}/hours", "area * count / pace", _HOURS, "condition.patch.step.hours", area=area,
                  count=ask.count, pace=ask.cut)  # fmt: skip


# --- how hard ----------------------------------------------------------------------------------------


def _hard(w: Working, ask: PatchAsk) -> None:
    """No harder than what it joins. Of soft old work that is held against every mix; nobody scratched it: say so."""
    rule = ask.book.number("prep.no-harder")
    if ask.old is None:
        w.note("condition.patch.not-scratched", "assumed", ask.surface, rules=(rule.id,))
    if ask.old != "soft":
        return
    least = ask.book.number("patch.lime")
    for mix in ask.mixes:
        parts = dict(mix.parts)
        cement = sum(float(parts[name]) for name in parts if "cement" in name or name == "portland")
        lime = float(parts.get("lime", 0))
        rules = (rule.id, least.id)
        if not parts:
            w.note("condition.patch.bagged", "caution", ask.surface, rules=rules, coat=mix.coat)
        elif at_most(least.number * cement, lime):
            w.note("condition.patch.soft-enough", "fact", ask.surface, rules=rules, coat=mix.coat)
        else:
            w.note("condition.patch.too-hard", "caution", ask.surface, rules=rules, coat=mix.coat,
                   cement=Quantity(cement, _COUNT), lime=Quantity(lime, _COUNT))  # fmt: skip


# --- when --------------------------------------------------------------------------------------------


def _visits(w: Working, ask: PatchAsk, key: str) -> tuple[Quantity | None, Quantity | None]:
    """The least trips and days: a coat that waits a day or longer is another trip; hours of work come on top."""
    if not ask.coats:
        return None, None
    waits = [coat for coat in ask.coats[:-1] if coat.wait is not None and at_most(float(_ONE_DAY), float(coat.wait))]
    trips = w.step(f"{key}/trips", "1 + waits", _COUNT, "condition.patch.step.trips", waits=len(waits))
    given: dict[str, Given] = {coat.name.replace("-", "_"): coat.wait for coat in waits if coat.wait is not None}
    formula = "one" + "".join(f" + ceil({name} / one) * one" for name in given)
    days = w.step(f"{key}/days", formula, _DAYS, "condition.patch.step.days", rules=(), one=_ONE_DAY, **given)
    return trips, days
