"""A survey: hollow areas, cracks and loose paint of one wall, and what each asks for."""

from __future__ import annotations

import shapely
from quicktions import Fraction

from darby.condition.gauging import Gauged, gauged
from darby.condition.sounding import bare_wall, shape_of, tapped_hollow, taps_of
from darby.condition.survey_model import Crack, Does, Finding, Hollow, Loose, Survey, SurveyAsk
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most
from darby.measure.outline import distance
from darby.measure.units import unit
from darby.measure.writing import write
from darby.working.model import Given, Quantity, Working

_INCH, _FEET, _AREA, _SHARE, _HOURS = unit("in"), unit("ft"), unit("sq ft"), unit("%"), unit("h")
_COUNT = unit("")


def survey(ask: SurveyAsk) -> tuple[Survey, Working]:
    """Every finding of one wall, in the order hollow, cracks, loose paint, and what it asks for.

    Areas [m2] are of the wall without its openings. A hollow that is drawn by hand stands over what the taps say.

    Raises
    ------
    Unreadable
        ``condition.grid`` where taps would stand closer than anybody taps.
    """
    w = Working()
    at = ask.surface.id
    figure = ask.book.number("survey.grid")
    spacing = ask.grid if ask.grid is not None else Fraction(figure.number)
    least = ask.book.number("survey.grid.least")
    if not at_most(least.number, spacing):
        raise Unreadable(Fault("condition.grid", at, write(spacing, "in"), f"{least.written} …"))
    if ask.grid is None:
        w.note("condition.survey.grid", "assumed", at, rules=(figure.id,), grid=Quantity(spacing, _FEET))
    wall = Quantity(bare_wall(ask.surface).area, _AREA)
    taps = taps_of(ask.surface, spacing, ask.taps)
    hollow = (*ask.hollow, *tapped_hollow(ask.surface, spacing, taps, ask.hollow))
    findings = (
        *(_hollow(w, ask, h) for h in hollow),
        *(_crack(w, ask, crack) for crack in ask.cracks),
        *(_loose(w, ask, loose) for loose in ask.loose),
    )
    whole = _sum(w, f"{at}/survey/hollow", "condition.survey.step.hollow", [f for f in findings if f.kind == "hollow"])
    share = None
    if whole is not None:
        share = w.step(f"{at}/survey/share", "hollow / wall", _SHARE, "condition.survey.step.share",
                       hollow=whole, wall=wall)  # fmt: skip
        w.note("condition.survey.share", "fact", at, hollow=whole, wall=wall, share=share)
    cut = [f.cut for f in findings if f.cut is not None]
    return (
        Survey(
            at, wall, Quantity(spacing, _FEET), taps, findings, whole, share,
            _added(w, f"{at}/survey/cut", "condition.survey.step.cut-all", cut), _hours(w, ask, wall),
        ),
        w,
    )  # fmt: skip


def _sum(w: Working, key: str, says: str, findings: list[Finding]) -> Quantity | None:
    return _added(w, key, says, [f.size for f in findings])


def _added(w: Working, key: str, says: str, parts: list[Quantity]) -> Quantity | None:
    given: dict[str, Given] = {f"a{n}": part for n, part in enumerate(parts, 1)}
    return w.step(key, " + ".join(given), _AREA, says, rules=(), **given) if given else None


def _hours(w: Working, ask: SurveyAsk, wall: Quantity) -> Quantity | None:
    if ask.pace is None:
        w.note("condition.survey.no-pace", "assumed", ask.surface.id, wall=wall)
        return None
    key = f"{ask.surface.id}/survey/hours"
    return w.step(key, "wall / pace", _HOURS, "condition.survey.step.hours", wall=wall, pace=ask.pace)


# --- hollow ------------------------------------------------------------------------------------------


def _hollow(w: Working, ask: SurveyAsk, hollow: Hollow) -> Finding:
    """Gives = cut out; firm = left; lath loose behind whole plaster = fastened back; nobody pushed = test first."""
    book, at = ask.book, f"{ask.surface.id}/{hollow.id}"
    area = Quantity(shape_of(hollow.outline).intersection(bare_wall(ask.surface)).area, _AREA)
    does: Does
    if hollow.push == "gives":
        does, why, rule = "cut out", "gives", book.number("survey.hollow")
    elif hollow.lath == "loose":
        does, why, rule = "refasten", "lath-loose", book.number("survey.refasten")
    elif hollow.push == "firm":
        does, why, rule = "leave", "firm", book.number("survey.hollow.firm")
    else:
        does, why, rule = "test first", "not-pushed", book.number("survey.hollow")
    code = f"condition.survey.hollow.{why}"
    cut = _cut(w, ask, hollow) if does == "cut out" else None
    more = {"cut": cut} if cut is not None else {}
    w.note(code, "fact" if does == "leave" else "caution", at, rules=(rule.id,), area=area, **more)
    return Finding(hollow.id, "hollow", does, code, area, hollow.name, outline=hollow.outline, cut=cut)


def _cut(w: Working, ask: SurveyAsk, hollow: Hollow) -> Quantity:
    """A rectangle round the hollow with the margin on each side, as far as the wall goes: cut lines run straight."""
    margin = ask.book.number("patch.margin")
    left, low, right, high = shape_of(hollow.outline).bounds
    u0, v0, u1, v1 = shape_of([(c.u, c.v) for c in ask.surface.outline]).bounds
    u0, v0 = max(left - margin.number, u0), max(low - margin.number, v0)
    u1, v1 = min(right + margin.number, u1), min(high + margin.number, v1)
    beside = shapely.box(u0, v0, u1, v1)
    return w.step(
        f"{ask.surface.id}/survey/{hollow.id}/cut", "wide * high - openings", _AREA, "condition.survey.step.cut",
        rules=(margin.id,), wide=Quantity(u1 - u0, _FEET), high=Quantity(v1 - v0, _FEET),
        openings=Quantity(beside.area - beside.intersection(bare_wall(ask.surface)).area, _AREA),
    )  # fmt: skip


# --- cracks ------------------------------------------------------------------------------------------


def _crack(w: Working, ask: SurveyAsk, crack: Crack) -> Finding:
    at = f"{ask.surface.id}/{crack.id}"
    key = f"{ask.surface.id}/survey/{crack.id}"
    found = gauged(w, key, crack, ask.book)
    last = crack.readings[-1].width if crack.readings else None
    width = crack.width if crack.width is not None else last
    long = sum((distance(a, b) for a, b in zip(crack.line, crack.line[1:], strict=False)), Fraction(0))
    run = Quantity(long, _FEET)
    written = Quantity(width, _INCH) if width is not None else None
    limit, back = ask.book.number("ask.crack.fill-over"), ask.book.number("survey.returned")
    does, why = _asks(crack, width, found, limit.number)
    code = f"condition.survey.crack.{why}"
    values: dict[str, object] = {"length": run}
    if why in ("fine", "wide-still", "wide-unread"):
        values["limit"] = Quantity(limit.number, _INCH)
    if why == "moving" and found.change is not None and crack.gauge is not None:
        values["times"] = w.step(f"{key}/times", "change / gauge", _COUNT, "condition.survey.step.times",
                                 change=found.change, gauge=Quantity(crack.gauge, _INCH))  # fmt: skip
    rule = back.id if does == "test first" and why in ("moving", "returned") else limit.id
    w.note(code, "fact" if does == "leave" else "caution", at, rules=(rule,), **values)
    _also(w, ask, crack, found, at)
    return Finding(
        crack.id, "crack", does, code, run, crack.name, line=crack.line, width=written, movement=found.movement,
        follows=found.follows, change=found.change,
    )  # fmt: skip


def _asks(crack: Crack, width: Fraction | None, found: Gauged, limit: float) -> tuple[Does, str]:
    """What a crack asks for, and why: first what moves, then what lets water in, then how wide it is."""
    if found.movement == "moving":
        return "test first", "moving"
    if crack.returned:
        return "test first", "returned"
    if crack.leaks:
        return "fill", "leaks"
    if width is None:
        return "test first", "not-measured"
    if at_most(width, limit):
        return "leave", "fine"
    return ("fill", "wide-still") if found.movement == "not moving so far" else ("test first", "wide-unread")


def _also(w: Working, ask: SurveyAsk, crack: Crack, found: Gauged, at: str) -> None:
    """What the readings say beside that: what the movement follows, or what they are short of."""
    if found.follows:
        w.note(f"condition.survey.follows.{found.follows}", "fact", at)
    if crack.readings and crack.gauge is None:
        w.note("condition.survey.no-gauge", "assumed", at)
    elif crack.readings and found.movement == "too few readings":
        least, span = ask.book.number("survey.readings.least"), ask.book.number("survey.readings.span")
        w.note("condition.survey.few-readings", "fact", at, rules=(least.id, span.id), count=len(crack.readings),
               least=least, span=span)  # fmt: skip


# --- paint -------------------------------------------------------------------------------------------


def _loose(w: Working, ask: SurveyAsk, loose: Loose) -> Finding:
    """Paint older than the ban on lead, or of an age nobody said, is tested before it is touched."""
    area = Quantity(shape_of(loose.outline).intersection(bare_wall(ask.surface)).area, _AREA)
    year = ask.book.number("safety.lead.year")
    old = ask.built is None or ask.built < year.number
    does: Does = "test first" if old else "take off"
    code = "condition.survey.loose.test" if old else "condition.survey.loose.take-off"
    w.note(code, "caution", f"{ask.surface.id}/{loose.id}", rules=(year.id,), area=area)
    return Finding(loose.id, "loose", does, code, area, loose.name, outline=loose.outline)
