"""A cut through the wall: the base, the coats on it, and what each is called. Drawn full size on paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from quicktions import Fraction

from darby.drawing.lettering import inches, thickness
from darby.drawing.model import Mark, Point
from darby.measure.units import IN, System
from darby.words import Language, Verbatim, say, unit_names

_IN = float(IN)
HIGH = 1.3 * _IN
BEHIND = 0.8 * _IN
BED = 0.375 * _IN
STRUCK = 0.2 * _IN
SHEATHING = 0.5 * _IN
OVER = 0.12 * _IN
LEAD = 0.15 * _IN
"""Not figures of the trade: how much of the wall a cut shows, and how thick a bed joint or a board is drawn."""

BEDDED = ("block", "painted block", "brick", "lath over block")
"""Bases that are laid in courses: their cut shows a bed joint."""
SOLID = {
    "concrete": "concrete", "stone": "stone", "old plaster": "old plaster", "painted plaster": "old plaster",
}  # fmt: skip
"""Bases that are cut through as one mass, and what the mass is called."""

Joints = Literal["flush", "struck", ""]
Sort = Literal["base", "finish"]


@dataclass(frozen=True, slots=True)
class Coat:
    """One coat of a cut: what it is called, how thick [m], stippled coarse (base) or fine (finish)."""

    name: str
    thickness: Fraction | float
    sort: Sort = "base"


def section(
    coats: Sequence[Coat],
    base: str,
    *,
    joints: Joints = "flush",
    ref: str = "cut",
    total: bool = False,
    lath: bool = False,
    behind: float = BEHIND,
    language: Language = "en",
    system: System = "us",
) -> tuple[Mark, ...]:
    """Marks of a cut, outside at the right, the face of the base at u = 0 [m].

    Parameters
    ----------
    coats
        from the base outward.
    base
        block, concrete, frame, lath over block ...: of one that is not known nothing is drawn.
    joints
        how the mason left the bed joint of a block; struck joints are drawn hollow and filled by the first coat.
    total
        whether the whole thickness is dimensioned above.
    lath
        whether lath hangs on a solid base; on a frame and on "lath over block" it always does.
    behind
        how much of the block or concrete is shown [m].

    Raises
    ------
    ValueError
        for a coat without thickness.
    """
    if any(coat.thickness <= 0 for coat in coats):
        raise ValueError("every coat needs a thickness")
    lath = lath or base in ("frame", "lath over block")
    bed = _bed(len(coats), base, lath)
    marks, names = _behind(base, bed, behind, ref, language, lath)
    at = 0.0
    edges = [at := at + float(coat.thickness) for coat in coats]
    for coat, left, right in zip(coats, [0.0, *edges], edges, strict=False):
        strip = _strip(left, right)
        role = "finish coat" if coat.sort == "finish" else "base coat"
        marks += [Mark("hatch", strip, "plaster", ref), Mark("hatch", strip, role, f"{ref}/{coat.name}")]
    marks += _face_of(base, joints, bed, behind, ref, lath)
    marks += [Mark("line", ((u, 0.0), (u, HIGH)), "coat line", ref) for u in edges[:-1]]
    if edges:
        marks.append(Mark("line", ((edges[-1], 0.0), (edges[-1], HIGH)), "face", ref))
    outer = edges[-1] if edges else 0.0
    back = -SHEATHING if base == "frame" else -behind
    for v in (0.0, HIGH):
        marks.append(Mark("polyline", _broken(back, outer, v), "break", ref))
    called = [(_called(c, language, system), (a + b) / 2) for c, a, b in zip(coats, [0.0, *edges], edges, strict=False)]
    marks += _leaders([*reversed(called), *names], outer, ref)
    if total and coats:
        ends = ((0.0, HIGH), (outer, HIGH))
        whole = sum((Fraction(c.thickness) for c in coats), Fraction(0))
        unit = "" if system == "metric" else "″"
        marks.append(Mark("dimension", ends, "dimension", ref, inches(whole, system) + unit, side="above"))
    return tuple(marks)


def cut_title(
    coats: Sequence[Coat], base: str, language: Language = "en", system: System = "us", *, lath: bool = False
) -> str:
    """In words what the cut shows, for the title and the aria-label."""
    layers = [say(f"drawing.layer.{layer}", {}, language) for layer in _layers(base, lath)]
    layers += [_called(coat, language, system) for coat in coats]
    # the last layer may end in a unit that has a point of its own
    return say("drawing.title.cut", {"layers": Verbatim(", ".join(layers))}, language).replace("..", ".")


def _called(coat: Coat, language: Language, system: System) -> str:
    inch = unit_names(language).get("in.", "in.")
    values = {"coat": Verbatim(coat.name), "thickness": thickness(coat.thickness, system, inch=inch)}
    return say("drawing.coat", values, language)


def _layers(base: str, lath: bool) -> tuple[str, ...]:
    if base == "frame":
        return "sheathing", "paper", "lath"
    solid = {"brick": "brick", **dict.fromkeys(("block", "painted block", "lath over block"), "block"), **SOLID}
    named = (solid[base],) if base in solid else ()
    return (*named, "lath") if lath or base == "lath over block" else named


def _strip(left: float, right: float) -> tuple[Point, ...]:
    return (left, 0.0), (right, 0.0), (right, HIGH), (left, HIGH)


def _bed(coats: int, base: str, lath: bool) -> tuple[float, float]:
    """Foot and top of the bed joint that a cut through block shows: where its name's leader comes in."""
    names = coats + len(_layers(base, lath)) + 1
    middle = HIGH * 1.5 / names
    return middle - BED / 2, middle + BED / 2


def _behind(
    base: str, bed: tuple[float, float], deep: float, ref: str, language: Language, lath: bool
) -> tuple[list[Mark], list[tuple[str, float]]]:
    """What the plaster stands on, and what is called by which name at what depth."""
    named = {layer: say(f"drawing.layer.{layer}", {}, language) for layer in (*_layers(base, lath), "mortar")}
    hung = [(named["lath"], 0.06 * _IN)] if lath else []
    if base in BEDDED:
        low, top = bed
        marks = [
            Mark("hatch", ((-deep, 0.0), (0.0, 0.0), (0.0, low), (-deep, low)), "cut block", f"{ref}/block"),
            Mark("hatch", ((-deep, top), (0.0, top), (0.0, HIGH), (-deep, HIGH)), "cut block", f"{ref}/block"),
        ]
        return marks, [*hung, (named["mortar"], -0.55 * deep), (named[_layers(base, lath)[0]], -0.55 * deep)]
    if base in SOLID:
        return [Mark("hatch", _strip(-deep, 0.0), "cut concrete", f"{ref}/{SOLID[base]}")], [
            *hung, (named[SOLID[base]], -0.5 * deep)]  # fmt: skip
    if base == "frame":
        board = _strip(-SHEATHING, 0.0)
        return [Mark("hatch", board, "cut wood", f"{ref}/sheathing")], [
            (named["lath"], 0.06 * _IN), (named["paper"], 0.0), (named["sheathing"], -0.5 * SHEATHING)]  # fmt: skip
    return [], []


def _face_of(base: str, joints: Joints, bed: tuple[float, float], deep: float, ref: str, lath: bool) -> list[Mark]:
    """The face of the base, drawn over the first coat: its edge, its bed joint, paper and lath."""
    marks: list[Mark] = []
    if base in BEDDED:
        low, top = bed
        depth = -STRUCK if joints == "struck" else 0.0
        if joints == "struck":
            gap = ((depth, low), (0.0, low), (0.0, top), (depth, top))
            marks += [Mark("hatch", gap, "plaster", ref), Mark("hatch", gap, "base coat", f"{ref}/joint")]
        mortar = ((-deep, low), (depth, low), (depth, top), (-deep, top))
        marks += [Mark("hatch", mortar, "mortar", f"{ref}/mortar"), Mark("line", mortar[:2], "cut edge", ref),
                  Mark("line", mortar[2:], "cut edge", ref)]  # fmt: skip
        if joints == "struck":
            marks.append(Mark("polyline", ((0.0, low), *mortar[1:3], (0.0, top)), "cut edge", ref))
        marks += [Mark("line", ((0.0, a), (0.0, b)), "cut edge", ref) for a, b in ((0.0, low), (top, HIGH))]
        if joints != "struck":
            marks.append(Mark("line", ((0.0, low), (0.0, top)), "cut edge", ref))
    elif base in SOLID or base == "frame":
        marks.append(Mark("line", ((0.0, 0.0), (0.0, HIGH)), "cut edge", ref))
    if base == "frame":
        marks.append(Mark("line", ((-SHEATHING, 0.0), (-SHEATHING, HIGH)), "cut edge", ref))
        marks.append(Mark("line", ((0.03 * _IN, 0.0), (0.03 * _IN, HIGH)), "paper", ref))
    if lath:
        at = HIGH / 16
        while at < HIGH:
            marks.append(Mark("arc", ((0.05 * _IN, at), (0.05 * _IN, at + HIGH / 24)), "cut lath", ref, bulges=(0.6,)))
            at += HIGH / 8
    return marks


def _broken(left: float, right: float, v: float) -> tuple[Point, ...]:
    """A line across the cut with the zigzag that says the wall goes on."""
    middle = left / 2
    return ((left - OVER, v), (middle - 0.06 * _IN, v), (middle - 0.03 * _IN, v + 0.06 * _IN),
            (middle + 0.03 * _IN, v - 0.06 * _IN), (middle + 0.06 * _IN, v), (right + OVER, v))  # fmt: skip


def _leaders(called: Sequence[tuple[str, float]], outer: float, ref: str) -> list[Mark]:
    """Names down the right, evenly apart, each led to a dot in its layer."""
    marks: list[Mark] = []
    room = HIGH / max(len(called), 1)
    for i, (name, depth) in enumerate(called):
        v = HIGH - room * (i + 0.5)
        end = outer + LEAD
        marks += [
            Mark("polyline", ((depth, v), (end, v)), "leader", ref),
            Mark("symbol", ((depth, v),), "dot", ref),
            Mark("text", ((end, v),), "letter", ref, name, anchor="start", shift=(0.4, 0.0)),
        ]
    return marks
