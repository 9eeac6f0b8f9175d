"""Coats and waits over the days: a week across with a row for each place, or one day downward in hours of work.

Work is a box, as wide as it takes of the working day and in its order; kept damp are slate waves; waiting is dotted.
Colours are the page's own (its classes, ``days.css``); no time of the clock is drawn, for none is planned.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from darby.drawing.lettering import broken, width

LETTER = 13.5
"""Height of lettering [px]."""
WIDTH = 1.02
"""The page's condensed lettering against the table in ``lettering``."""
SIDE = 158.0
"""Room for the names of places at the left [px]."""
HEAD, ROW, BOX = 34.0, 56.0, 18.0
HOUR = 38.0
"""An hour of work on the drawing of one day [px]."""
HOURS_WIDE, DAMP_WIDE = 40.0, 84.0
LEAST = 3.0
"""A box is never narrower [px]."""


@dataclass(frozen=True, slots=True)
class Work:
    """Work at a place: day of the week from 0, from and to in parts of the working day; ``done``: it is on already."""

    day: int
    start: float
    end: float
    label: str
    done: bool = False


@dataclass(frozen=True, slots=True)
class Stretch:
    """Damp or waiting, in days from the beginning of the week; it may begin before and end after it."""

    start: float
    end: float
    label: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """One place and all that happens there."""

    title: str
    work: tuple[Work, ...] = ()
    damp: tuple[Stretch, ...] = ()
    waits: tuple[Stretch, ...] = ()


@dataclass(frozen=True, slots=True)
class Day:
    """One day: its name over the column; whether it is worked; ``here``: it is today."""

    name: str
    worked: bool
    here: bool = False


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of one day's work: from and to in hours of work, where, what, how long in words."""

    start: float
    end: float
    where: str
    what: str
    hours: str


def week_svg(title: str, days: Sequence[Day], rows: Sequence[Row], wide: float, name: str = "week") -> str:
    """A week across, ``wide`` [px]; ``name`` begins the ids."""
    column = (wide - SIDE) / len(days)
    high = HEAD + ROW * len(rows) + 4
    made: list[str] = [_waves(name)]
    for n, day in enumerate(days):
        left = SIDE + n * column
        if not day.worked:
            made.append(_rect("k-off", left, HEAD, column, high - HEAD))
        made.append(_line("k-day", left, 8, left, high))
        css = "k-name k-here" if day.here else "k-name"
        made.append(_text(css, left + column / 2, 22, day.name, "middle"))
    made.append(_line("k-day", wide - 0.5, 8, wide - 0.5, high))
    made.append(_line("k-rule", 0, HEAD, wide, HEAD))
    for n, row in enumerate(rows):
        made += _row(row, HEAD + n * ROW, column, len(days), wide, name)
    return _svg(title, wide, high, made)


def _row(row: Row, top: float, column: float, days: int, wide: float, name: str) -> list[str]:
    made = [] if top == HEAD else [_line("k-row", 0, top, wide, top)]
    lines = broken(row.title, (SIDE - 10) / LETTER / WIDTH) or [row.title]
    first = top + ROW / 2 + 5 - (min(len(lines), 3) - 1) * 8
    made += [_text("k-place", 0, first + 16 * n, line) for n, line in enumerate(lines[:3])]
    box = top + ROW - BOX - 9

    def across(at: float) -> float:
        return SIDE + min(max(at, 0.0), float(days)) * column

    for wait in row.waits:
        x0, x1 = across(wait.start), across(wait.end)
        if x1 - x0 < 2:
            continue
        made.append(_line("k-wait", x0, box + BOX / 2, x1 - 2, box + BOX / 2))
        made.append(_path("k-arrow", f"M{_n(x1 - 9)} {_n(box + BOX / 2 - 5)}l7 5l-7 5"))
        if wait.label and width(wait.label) * LETTER * WIDTH < x1 - x0:
            made.append(_text("k-slate", x1 - 4, box - 5, wait.label, "end"))
    for damp in row.damp:
        x0, x1 = across(damp.start), across(damp.end)
        if x1 - x0 < 2:
            continue
        made.append(_rect("k-damp", x0, box, x1 - x0, BOX))
        made.append(_rect("k-waves", x0, box, x1 - x0, BOX, f"url(#{name}-waves)"))
        if damp.label and width(damp.label) * LETTER * WIDTH < x1 - x0:
            made.append(_text("k-slate", (x0 + x1) / 2, box - 5, damp.label, "middle"))
    for day in range(days):
        own = [work for work in row.work if work.day == day]
        for work in own:
            x0 = across(day + work.start)
            css = "k-work k-done" if work.done else "k-work"
            made.append(_rect(css, x0, box, max(LEAST, across(day + work.end) - x0), BOX))
        if own:
            x0 = across(day + own[0].start)
            labels = list(dict.fromkeys(work.label for work in own))
            text = _fitting(labels, column - 6)
            x0 = min(x0, across(day + 1) - 4 - width(text) * LETTER * WIDTH)
            made.append(_text("k-what", max(x0, across(day) + 2), box - 5, text))
    return made


def _fitting(labels: Sequence[str], room: float) -> str:
    """As many names as have room, and how many more there are."""
    for count in range(len(labels), 0, -1):
        more = f" +{len(labels) - count}" if count < len(labels) else ""
        text = ", ".join(labels[:count]) + more
        if width(text) * LETTER * WIDTH <= room:
            return text
    text = labels[0]
    while len(text) > 1 and width(text + "…") * LETTER * WIDTH > room:
        text = text[:-1]
    return text + "…"


def day_svg(title: str, hours: int, blocks: Sequence[Block], damp: Sequence[str], wide: float, name: str) -> str:
    """One day downward, in hours of work from its beginning; at the right what is kept damp that day."""
    top = 8.0
    side = DAMP_WIDE if damp else 0.0
    high = top * 2 + hours * HOUR
    made = [_waves(name)]
    for hour in range(hours + 1):
        made.append(_line("k-row", HOURS_WIDE, top + hour * HOUR, wide, top + hour * HOUR))
        if hour < hours:
            made.append(_text("k-hour", 0, top + hour * HOUR + 18, str(hour + 1)))
    left, room = HOURS_WIDE + 10, wide - HOURS_WIDE - 14 - side
    for block in blocks:
        y0, y1 = top + block.start * HOUR, top + block.end * HOUR
        made.append(_rect("k-task", left, y0 + 1, room, max(LEAST, y1 - y0 - 2)))
        made.append(_rect("k-edge", left, y0 + 1, 4, max(LEAST, y1 - y0 - 2)))
        made += _lettered(block, left + 12, y0, y1 - y0, room - 20)
    if damp:
        x0 = wide - side + 6
        made.append(_rect("k-damp", x0, top, 22, hours * HOUR))
        made.append(_rect("k-waves", x0, top, 22, hours * HOUR, f"url(#{name}-waves)"))
        at = top + 14
        for one in damp:
            for line in broken(one, (side - 34) / LETTER / WIDTH) or [one]:
                if at < high - 4:
                    made.append(_text("k-slate", x0 + 28, at, line))
                at += 16
            at += 6
    return _svg(title, wide, high, made)


def _lettered(block: Block, left: float, top: float, high: float, room: float) -> list[str]:
    """Where, what and how long, as many lines as the block is high; the list beside it says the rest."""
    lines = [("k-where", block.where), ("k-what", block.what), ("k-small", block.hours)]
    if high < 18:
        return []
    if high < 36:
        lines = [("k-what", f"{block.what}, {block.where}" if block.where else block.what)]
    elif high < 54:
        lines = [("k-where", block.where), ("k-what", f"{block.what}, {block.hours}")]
    made, at = [], top + 17
    for css, text in lines:
        if text:
            made.append(_text(css, left, at, _fitting([text], room)))
            at += 17
    return made


# --- writing -------------------------------------------------------------------------------------------


def _svg(title: str, wide: float, high: float, made: Sequence[str]) -> str:
    said = escape(title)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing days" role="img" aria-label="{said}" '
        f'viewBox="0 0 {_n(wide)} {_n(high)}" width="{_n(wide)}" height="{_n(high)}">{"".join(made)}</svg>'
    )


def _waves(name: str) -> str:
    return (
        f'<defs><pattern id="{escape(name)}-waves" width="14" height="6" patternUnits="userSpaceOnUse">'
        '<path class="k-wave" d="M0 3q3.5 -4 7 0t7 0"/></pattern></defs>'
    )


def _rect(css: str, x: float, y: float, wide: float, high: float, fill: str = "") -> str:
    own = f' fill="{fill}"' if fill else ""
    return f'<rect class="{css}" x="{_n(x)}" y="{_n(y)}" width="{_n(wide)}" height="{_n(high)}"{own}/>'


def _line(css: str, x0: float, y0: float, x1: float, y1: float) -> str:
    return f'<path class="{css}" d="M{_n(x0)} {_n(y0)}L{_n(x1)} {_n(y1)}"/>'


def _path(css: str, d: str) -> str:
    return f'<path class="{css}" d="{d}"/>'


def _text(css: str, x: float, y: float, text: str, anchor: str = "start") -> str:
    own = f' text-anchor="{anchor}"' if anchor != "start" else ""
    return f'<text class="{css}" x="{_n(x)}" y="{_n(y)}"{own}>{escape(text)}</text>'


def _n(value: float) -> str:
    return f"{value:.1f}".rstrip("0").rstrip(".")
