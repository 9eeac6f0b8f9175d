"""What was found on an old wall, drawn on it: hollow areas, cracks with their width, loose paint, taps; and a patch.

Marks of a layer of their own, drawn over a wall as it stands (``elevation``).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from darby.drawing.elevation import elevation
from darby.drawing.geometry import box, flat_outline
from darby.drawing.model import Mark, Point
from darby.measure.surface import Surface
from darby.measure.units import System
from darby.words import Language

if TYPE_CHECKING:
    from darby.condition import Finding, Patch, Survey

LAID = {"hollow": "hollow", "loose": "loose"}
"""Findings that are hatched."""


def surveyed_elevation(
    surface: Surface,
    survey: Survey,
    width: Callable[[Finding], str],
    *,
    taps: bool = True,
    language: Language = "en",
    system: System = "us",
) -> tuple[Mark, ...]:
    """A wall with what was found on it.

    Parameters
    ----------
    width
        what stands beside a crack: its width, as the paper writes it.
    taps
        whether every tap is drawn: a dot sound or not yet tapped, a ring hollow.
    """
    return (*elevation(surface, language=language, system=system), *survey_marks(survey, width, taps=taps))


def survey_marks(survey: Survey, width: Callable[[Finding], str], *, taps: bool = True) -> tuple[Mark, ...]:
    """The findings alone: areas first, cracks over them, taps last."""
    marks: list[Mark] = []
    for finding in survey.findings:
        ref = f"{survey.surface}/{finding.id}"
        if finding.kind in LAID:
            outline = _points(finding.outline)
            marks.append(Mark("hatch", outline, LAID[finding.kind], ref, origin=outline[0]))
            marks.append(Mark("polygon", outline, "found edge", ref))
        else:
            line = _points(finding.line)
            role = "crack moving" if finding.movement == "moving" else "crack"
            marks.append(Mark("polyline", line, role, ref))
            text = width(finding)
            if text:
                marks.append(_lettered(line, ref, text))
    if taps:
        for tap in survey.taps:
            role = "tap hollow" if tap.heard == "hollow" else "tap"
            ref = f"{survey.surface}/tap-{tap.column}-{tap.row}"
            marks.append(Mark("symbol", ((float(tap.u), float(tap.v)),), role, ref))
    return tuple(marks)


def _lettered(line: tuple[Point, ...], ref: str, text: str) -> Mark:
    """The width beside the middle of a crack, on the side to which it leans as it goes on: off what it starts from."""
    left = line[-1][0] < line[0][0]
    return Mark(
        "text", (_middle(line),), "letter", ref, text, anchor="end" if left else "start",
        shift=(-0.7 if left else 0.7, 0.0),
    )  # fmt: skip


def _points(points: Sequence[tuple[float, float]] | Sequence[tuple[object, object]]) -> tuple[Point, ...]:
    return tuple((float(u), float(v)) for u, v in points)  # type: ignore[arg-type]


def _middle(line: Sequence[Point]) -> Point:
    """Half-way along a crack."""
    steps = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(line)]
    left = sum(steps) / 2
    for (a, b), step in zip(pairwise(line), steps, strict=True):
        if left <= step:
            part = left / step
            return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part
        left -= step
    return line[-1]


def patched_elevation(
    surface: Surface, patch: Patch, *, language: Language = "en", system: System = "us"
) -> tuple[Mark, ...]:
    """A patch: its cut is the outline; within it, how far the new paper laps and the lath is tied."""
    marks = list(elevation(surface, language=language, system=system))
    left, low, right, high = box(flat_outline(surface.openings[0].outline))
    for role, depths in (
        ("lath tie", {cut.side: cut.lath for cut in patch.sides}),
        ("new paper", {cut.side: cut.paper for cut in patch.sides}),
    ):
        out = {side: float(depth) for side, depth in depths.items() if depth is not None}
        if not out:
            continue
        u0, u1 = left - out.get("left", 0.0), right + out.get("right", 0.0)
        v0, v1 = low - out.get("sill", 0.0), high + out.get("head", 0.0)
        ref = f"{surface.id}/{role.replace(' ', '-')}"
        marks.append(Mark("polygon", ((u0, v0), (u1, v0), (u1, v1), (u0, v1)), role, ref))
    return tuple(marks)
