"""How sizes are lettered on a drawing, and how much room lettering takes."""

from __future__ import annotations

from darby.measure.units import System
from darby.measure.writing import Real, write

PRIME, DOUBLE = "\u2032", "\u2033"

CAP = 0.65
"""Height of a figure, in heights of the lettering."""
LINE = 1.15
"""From one line of lettering to the next, in heights of the lettering."""

# Widths in heights of the lettering, Libertinus Serif with tabular figures (measured with typst).
_NARROW = dict.fromkeys("ijlI ’'′.,:;|", 0.28) | dict.fromkeys("ftrJ()-/sz″í", 0.34)
_WIDE = dict.fromkeys("mwMWÑ", 0.8) | dict.fromkeys("ADHNOQRUGKPBVXCE&½¼¾", 0.7)
_USUAL = 0.52


def width(text: str) -> float:
    """Width of one line of ``text`` in heights of the lettering; a little generous."""
    return sum(_NARROW.get(c) or _WIDE.get(c) or _USUAL for c in text)


def size(length: Real, system: System = "us", to: int = 16) -> str:
    """A length [m] as a drawing letters it: 24′-0″, 3′-4 1/2″, 8″; metric in millimetres without the unit.

    >>> size(2.54)
    '8′-4″'
    """
    if system == "metric":
        return write(length, "mm").removesuffix(" mm")
    return write(length, "drawing", to).replace("'", PRIME).replace('"', DOUBLE)


def inches(length: Real, system: System = "us", to: int = 16) -> str:
    """A thickness [m] beside a ground or on a cut, inches or millimetres without the unit: 15/16, 1 1/2, 12."""
    return write(length, "mm").removesuffix(" mm") if system == "metric" else write(length, "in", to).removesuffix('"')


def thickness(length: Real, system: System = "us", to: int = 16, inch: str = "in.") -> str:
    """A thickness [m] in words' company: "3/8 in.", "10 mm". ``inch``: the word for it in another language."""
    return f"{inches(length, system, to)} {'mm' if system == 'metric' else inch}"


def broken(text: str, room: float) -> list[str] | None:
    """``text`` in lines no wider than ``room`` [heights of the lettering], broken between words; None if none fit."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer) <= room:
            lines[-1] = longer
        elif width(word) <= room:
            lines.append(word)
        else:
            return None
    return lines


def fitted(text: str, room: tuple[float, float]) -> tuple[list[str], float] | None:
    """Lines of ``text`` and the turn at which they fit ``room`` (width, height in heights of the lettering).

    Tried in turn: the whole text level, the whole upright, then the same with what stands before the first line
    break or comma.
    """
    short = text.split("\n", 1)[0].split(", ", 1)[0]
    for words in dict.fromkeys((text, short)):
        parts = words.split("\n")
        for turn, (across, down) in ((0.0, room), (90.0, (room[1], room[0]))):
            lines: list[str] = []
            for part in parts:
                some = broken(part, across)
                if some is None:
                    break
                lines += some
            else:
                if lines and LINE * len(lines) <= down:
                    return lines, turn
    return None
