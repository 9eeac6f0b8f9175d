"""[[joints]]: joints that must be, places where none may be, the base's own, and what decides how wide they are.

Faults that the joints room would refuse as well are said here, where the line stands: "joints.pin-off-wall",
"joints.block-joint-off-wall", "joints.floor-off-wall", "joints.forbidden-backwards", "job.forbidden-off-wall",
"joints.pin-forbidden", "joints.hot-below-cold", "joints.swing-or-both", "joints.installed-alone".
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from quicktions import Fraction

from darby import measure
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, Parts, key
from darby.job.joints import GapWanted, JointsWanted, LayoutName, SealantClass, Span
from darby.job.part import LONGEST_LENGTH, Part
from darby.job.places import Loc, shown
from darby.measure.surface import Surface
from darby.measure.units import unit
from darby.measure.writing import write

TEMPERATURE, APART = unit("deg F"), unit("F deg")
COLDEST, HOTTEST = Fraction(-60), Fraction(120)
"""What no wall's face is beyond [deg C]: past it a number was mistyped."""


class GapDocument(Document):
    """gap: what decides how wide the sealed joints are; temperatures are those of the wall's face."""

    cold: Measured = key("The coldest the face gets in a year: `-5 F`.")
    hot: Measured = key("The hottest, in summer sun: `140 F`.")
    swing: Measured = key("From coldest to hottest, if you know only that: `130 F`.")
    installed: Measured = key("The face on the day the joints are set: `60 F`.")
    sealant: SealantClass = key("Class of the sealant: what it takes either way, in percent of the width.")
    tolerance: Measured = key("By how much the gap may come out wrong: `1/8 in`.")
    moisture: Measured = key("What it moves besides, wet to dry, of its length: `0.02 %`.")
    shrinkage: bool = key("true = what the base shrinks as it dries is added.")


class JointsDocument(Document):
    """[[joints]]: what is said about joints on one surface, on the walls of a house, or on the gaps of all."""

    surface: str = key("The surface, or a house. Left out: every surface, and then only `gap` is said.")
    upright: list[Measured] = key('Upright joints that must be, from the left end: `["12\'"]`.')
    level: list[Measured] = key("Level joints that must be, up from the base.")
    not_upright: list[Measured] = key('Where no upright joint may be: `["7\'", "10\' to 13\'"]`.')
    not_level: list[Measured] = key("Where no level joint may be, up from the base.")
    framing: list[Measured] = key("Upright lines where the framing is jointed or changes: the plaster carries them.")
    framing_level: list[Measured] = key("Level ones, up from the base, beside the floors.")
    through: list[Measured] = key("Upright joints through the whole wall: the plaster carries them.")
    through_level: list[Measured] = key("Level ones, up from the base.")
    block: list[Measured] = key("The block's own joints, from the left end; `[]` if it has none.")
    floors: list[Measured] = key("Heights of the floors above the base.")
    curved: bool = key("true = curved or angled work: the smaller panel of ceilings holds.")
    area: Measured = key("Your own most for a panel on lath: `120 sq ft`.")
    side: Measured = key("Your own longest side of a panel.")
    ratio: Parts = key("So many times as long as wide, at the most.")
    choose: LayoutName = key("Which layout: the best, the fewest joints, all run through, or smaller panels.")
    gap: GapDocument = key("How wide the sealed joints are.")


Placed = tuple[Loc, Span]
"""A line or a span of them, and where it was written."""

UPRIGHT = ("upright", "framing", "through", "block", "not_upright")
LEVEL = ("level", "framing_level", "through_level", "floors", "not_level")
CODES = {"block": "joints.block-joint-off-wall", "floors": "joints.floor-off-wall"}


def read(root: Part, draft: Draft) -> None:
    """Read [[joints]] into the draft: a surface once; whether the lines lie on it is looked at when it is built."""
    found: list[JointsWanted] = []
    seen: set[str] = set()
    for part in root.parts("joints"):
        surface = draft.surface_named(part, "surface", houses=True) if part.said("surface") else ""
        if surface in seen:
            part.fault("surface" if surface else None, "job.twice", surface or "gap", "each surface once")
        lines = {name: _lines(part, name) for name in (*UPRIGHT, *LEVEL)}
        wanted = JointsWanted(
            surface or "",
            **{name: tuple(span if name.startswith("not_") else span[0] for _, span in rows)
               for name, rows in lines.items() if name != "block"},  # type: ignore[arg-type]
            block=tuple(span[0] for _, span in lines["block"]) if part.has("block") else None,
            choose=part.word("choose"),
            curved=part.flag("curved"),
            area=part.area("area"),
            side=part.length("side", positive=True),
            ratio=_ratio(part),
            gap=_gap(part),
        )  # fmt: skip
        if surface is None:
            continue
        seen.add(surface)
        if not surface:
            for name in part.names():
                if name != "gap":
                    part.fault(name, "job.not-here", name, "surface")
        else:
            draft.when_built(lambda all_of, s=surface, rows=lines, p=part: _on_the_wall(p, draft, all_of, s, rows))  # type: ignore[misc]
        found.append(wanted)
    draft.put(joints=tuple(found))


def _ratio(part: Part) -> Fraction | None:
    ratio = part.parts_of("ratio")
    if ratio is not None and ratio < 1:
        part.fault("ratio", "joints.limit-not-positive", part.raw["ratio"], "1 …")
        return None
    return ratio


# --- lines ---------------------------------------------------------------------------------------------


def _lines(part: Part, name: str) -> list[Placed]:
    """Lines of one key; where none may be, a row may be a span: "10' to 13'"."""
    if not name.startswith("not_"):
        return [((name, n), (x, None)) for n, x in enumerate(part.lengths(name)) if x is not None]
    found: list[Placed] = []
    for n, row in part.rows(name):
        way: Loc = (name, n)
        halves = re.split(r"\s+to\s+", row.strip()) if isinstance(row, str) else [row]
        ends = [_length(part, way, half) for half in halves]
        if len(ends) > 2:
            part.fault_at(way, "measure.unreadable", shown(row), "7', 10' to 13'")
        elif all(end is not None for end in ends):
            first, last = ends[0], ends[1] if len(ends) == 2 else None
            assert first is not None
            if last is not None and last < first:
                part.fault_at(way, "joints.forbidden-backwards", shown(row), f"{write(last)} to {write(first)}")
            else:
                found.append((way, (first, last)))
    return found


def _length(part: Part, way: Loc, value: object) -> Fraction | None:
    units = part.units
    got = part.attempt(way, lambda: measure.length(value, units), value)  # type: ignore[arg-type]
    if got is not None and not 0 <= got <= LONGEST_LENGTH:
        part.fault_at(way, "measure.not-positive" if got < 0 else "job.too-large", shown(value), "0' …")
        return None
    return got


def _on_the_wall(
    part: Part, draft: Draft, surfaces: Sequence[Surface], name: str, lines: dict[str, list[Placed]]
) -> None:
    """Every line lies on the surface, on each wall of a house; none that must be lies where none may be."""
    ids = draft.houses.get(name, [name])
    for axis, keys in (("u", UPRIGHT), ("v", LEVEL)):
        ends = [
            (min(marks), max(marks))
            for s in surfaces
            if s.id in ids and (marks := [getattr(corner, axis) for corner in s.outline])
        ]
        if not ends:
            return
        low, high = max(a for a, _ in ends), min(b for _, b in ends)
        barred = [span for _, span in lines[keys[-1]]]
        for key_ in keys:
            for way, (first, last) in lines[key_]:
                if key_.startswith("not_"):
                    if first > high or (last if last is not None else first) < low:
                        part.fault_at(way, "job.forbidden-off-wall", write(first), f"{write(low)} … {write(high)}")
                elif not low < first < high:
                    code = CODES.get(key_, "joints.pin-off-wall")
                    part.fault_at(way, code, write(first), f"{write(low)} … {write(high)}")
                elif key_ not in CODES and any(a <= first <= (a if b is None else b) for a, b in barred):
                    part.fault_at(way, "joints.pin-forbidden", write(first), "")


# --- gaps ----------------------------------------------------------------------------------------------


def _gap(part: Part) -> GapWanted | None:
    inner = part.part("gap")
    if inner is None:
        return None
    hot, cold, installed = (_degrees(inner, name, measure.temperature) for name in ("hot", "cold", "installed"))
    swing = _degrees(inner, "swing", _apart)
    if swing is not None and swing <= 0:
        inner.fault("swing", "measure.not-positive", inner.raw["swing"], "1 °F …")
        swing = None
    gap = GapWanted(
        hot, cold, installed, swing, inner.word("sealant"), inner.length("tolerance"), inner.percent("moisture"),
        inner.flag("shrinkage"),
    )  # fmt: skip
    if hot is not None and cold is not None:
        if hot <= cold:
            inner.fault("hot", "joints.hot-below-cold", _said(hot), f"> {_said(cold)}")
        elif swing is not None:
            between = measure.shown(hot - cold, APART)
            inner.fault("swing", "joints.swing-or-both", measure.shown(swing, APART), between)
    if installed is not None and cold is None and (hot is None or swing is None) and not inner.said("cold"):
        inner.fault("installed", "joints.installed-alone", _said(installed), "hot, cold")
    return gap


def _degrees(part: Part, name: str, read_it: Callable[[str], Fraction]) -> Fraction | None:
    """Degrees Celsius, of a face of a wall."""
    value = part.written(name) if part.has(name) else ""
    if not value:
        return None
    got = part.attempt((name,), lambda: read_it(value), value)
    if got is not None and not COLDEST <= got <= (HOTTEST if read_it is measure.temperature else HOTTEST - COLDEST):
        allowed = f"{_said(COLDEST)} to {_said(HOTTEST)}"
        part.fault(name, "job.out-of-span", value, allowed)
        return None
    return got


def _said(celsius: Fraction) -> str:
    return measure.shown(celsius, TEMPERATURE)


def _apart(text: str) -> Fraction:
    """A difference of temperatures: degrees by their size, without the nought of the scale."""
    reading = measure.temperature(text)
    return reading - (measure.temperature("0 F") if "f" in str(text).lower() else 0)
