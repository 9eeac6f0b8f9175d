"""A cut through the wall: the base, the coats on it, and what each is called. Drawn full size on paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from darby.drawing.lettering import inches, thickness
from darby.drawing.model import Mark, Point
from darby.measure.units import IN, System
from darby.words import Language, say

_IN = float(IN)
HIGH = 1.3 * _IN
BEHIND = 0.8 * _IN
BED = 0.375 * _IN
STRUCK = 0.2 * _IN
SHEATHING = 0.5 * _IN
OVER = 0.12 * _IN
LEAD = 0.15 * _IN
"""Not figures of the trade: how much of the wall a cut shows, and how thick a bed joint or a board is drawn."""

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
    language: Language = "en",
    system: System = "us",
) -> tuple[Mark, ...]:
    """Marks of a cut, outside at the right, the face of the base at u = 0 [m].

    Parameters
    ----------
    coats
        from the base outward.
    base
        block, concrete, frame, lath over block.
    joints
        how the mason left the bed joint of a block; struck joints are drawn hollow and filled by the first coat.
    total
        whether the whole thickness is dimensioned above.

    Raises
    ------
    ValueError
        for a coat without thickness.
    """
    if any(coat.thickness <= 0 for coat in coats):
        raise ValueError("every coat needs a thickness")
    bed = _bed(len(coats), base)
    marks, names = _behind(base, bed, ref, language)
    at = 0.0
    edges = [at := at + float(coat.thickness) for coat in coats]
    for coat, left, right in zip(coats, [0.0, *edges], edges, strict=False):
        strip = _strip(left, right)
        role = "finish coat" if coat.sort == "finish" else "base coat"
        marks += [Mark("hatch", strip, "plaster", ref), Mark("hatch", strip, role, f"{ref}/{coat.name}")]
    marks += _face_of(base, joints, bed, ref)
    marks += [Mark("line", ((u, 0.0), (u, HIGH)), "coat line", ref) for u in edges[:-1]]
    if edges:
        marks.append(Mark("line", ((edges[-1], 0.0), (edges[-1], HIGH)), "face", ref))
    outer = edges[-1] if edges else 0.0
    back = -SHEATHING if base == "frame" else -BEHIND
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


def cut_title(coats: Sequence[Coat], base: str, language: Language = "en", system: System = "us") -> str:
    """In words what the cut shows, for the title and the aria-label."""
    layers = [say(f"drawing.layer.{layer}", {}, language) for layer in _layers(base)]
    layers += [_called(coat, language, system) for coat in coats]
    return say("drawing.title.cut", {"layers": ", ".join(layers)}, language)


def _called(coat: Coat, language: Language, system: System) -> str:
    values = {"coat": coat.name, "thickness": thickness(coat.thickness, system)}
    return say("drawing.coat", values, language)


def _layers(base: str) -> tuple[str, ...]:
    return {"block": ("block",), "concrete": ("concrete",), "frame": ("sheathing", "paper", "lath"),
            "lath over block": ("block", "lath")}.get(base, ())  # fmt: skip


def _strip(left: float, right: float) -> tuple[Point, ...]:
    return (left, 0.0), (right, 0.0), (right, HIGH), (left, HIGH)


def _bed(coats: int, base: str) -> tuple[float, float]:
    """Foot and top of the bed joint that a cut through block shows: where its name's leader comes in."""
    names = coats + len(_layers(base)) + 1
    middle = HIGH * 1.5 / names
    return middle - BED / 2, middle + BED / 2


def _behind(
    base: str, bed: tuple[float, float], ref: str, language: Language
) -> tuple[list[Mark], list[tuple[str, float]]]:
    """What the plaster stands on, and what is called by which name at what depth."""
    named = {layer: say(f"drawing.layer.{layer}", {}, language) for layer in (*_layers(base), "mortar")}
    if base in ("block", "lath over block"):
        low, top = bed
        marks = [
            Mark("hatch", ((-BEHIND, 0.0), (0.0, 0.0), (0.0, low), (-BEHIND, low)), "cut block", f"{ref}/block"),
            Mark("hatch", ((-BEHIND, top), (0.0, top), (0.0, HIGH), (-BEHIND, HIGH)), "cut block", f"{ref}/block"),
        ]
        lath = [(named["lath"], 0.06 * _IN)] if base == "lath over block" else []
        return marks, [*lath, (named["mortar"], -0.55 * BEHIND), (named["block"], -0.55 * BEHIND)]
    if base == "concrete":
        return [Mark("hatch", _strip(-BEHIND, 0.0), "cut concrete", f"{ref}/concrete")], [
            (named["concrete"], -0.5 * BEHIND)]  # fmt: skip
    if base == "frame":
        board = _strip(-SHEATHING, 0.0)
        return [Mark("hatch", board, "cut wood", f"{ref}/sheathing")], [
            (named["lath"], 0.06 * _IN), (named["paper"], 0.0), (named["sheathing"], -0.5 * SHEATHING)]  # fmt: skip
    return [], []


def _face_of(base: str, joints: Joints, bed: tuple[float, float], ref: str) -> list[Mark]:
    """The face of the base, drawn over the first coat: its edge, its bed joint, paper and lath."""
    marks: list[Mark] = []
    if base in ("block", "lath over block"):
        low, top = bed
        depth = -STRUCK if joints == "struck" else 0.0
        if joints == "struck":
            gap = ((depth, low), (0.0, low), (0.0, top), (depth, top))
            marks += [Mark("hatch", gap, "plaster", ref), Mark("hatch", gap, "base coat", f"{ref}/joint")]
        mortar = ((-BEHIND, low), (depth, low), (depth, top), (-BEHIND, top))
        marks += [Mark("hatch", mortar, "mortar", f"{ref}/mortar"), Mark("line", mortar[:2], "cut edge", ref),
                  Mark("line", mortar[2:], "cut edge", ref)]  # fmt: skip
        if joints == "struck":
            marks.append(Mark("polyline", ((0.0, low), *mortar[1:3], (0.0, top)), "cut edge", ref))
        marks += [Mark("line", ((0.0, a), (0.0, b)), "cut edge", ref) for a, b in ((0.0, low), (top, HIGH))]
        if joints != "struck":
            marks.append(Mark("line", ((0.0, low), (0.0, top)), "cut edge", ref))
    elif base in ("concrete", "frame"):
        marks.append(Mark("line", ((0.0, 0.0), (0.0, HIGH)), "cut edge", ref))
    if base == "frame":
        marks.append(Mark("line", ((-SHEATHING, 0.0), (-SHEATHING, HIGH)), "cut edge", ref))
        marks.append(Mark("line", ((0.03 * _IN, 0.0), (0.03 * _IN, HIGH)), "paper", ref))
    if base in ("frame", "lath over block"):
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
