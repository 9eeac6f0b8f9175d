"""The lines that the sheet reckons with: formulas and figures as they stand in the core's own working.

A formula is not written again for the page. A sample job is answered, and each line is taken from a step of its
working: the text of the formula, and the figures of the book in it. What differs from wall to wall is named here.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Any

from quicktions import Fraction

from darby.job import loads
from darby.pocket.asking import A_DAY, Asker
from darby.pocket.packing import number
from darby.quantities import Opening, measured_area, opening_rule
from darby.working import Step, Working


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the page: the key of a step that is such a line, and what of it differs from wall to wall."""

    name: str
    key: str
    differs: tuple[str, ...]


def _line(name: str, key: str, differs: str = "") -> Line:
    return Line(name, key, tuple(differs.split()))


LINES: tuple[Line, ...] = (
    _line("area-gross", "*/area-gross", "area count"),
    _line("opening", "*/opening", "area faces count"),
    _line("opening-share", "halved/*/opening-off", "area share"),
    _line("reveal", "*/reveal", "length depth count"),
    _line("area", "*/area", "gross openings reveals"),
    _line("volume-net", "*/volume-net", "area thickness"),
    _line("volume-keys", "*/volume-keys", "area"),
    _line("volume-joints", "*/volume-joints", "area"),
    _line("volume-spread", "*/volume-spread", "net spread"),
    _line("volume-waste", "*/volume-waste", "net waste"),
    _line("share-of-net", "*/volume-waste-share", "volume net"),
    _line("material", "job/order/portland/mix/*", "volume per"),
    _line("sand", "job/order/sand/mix/base", "volume per"),
    _line("sand-bulking", "job/order/sand/bulking-within", "damp bulking"),
    _line("sand-dry-mass", "job/order/sand/mix/*/dry-mass", "volume per"),
    _line("sand-moisture", "job/order/sand/moisture", "dry moisture"),
    _line("sand-mass", "job/order/sand/mass", "dry moisture"),
    _line("bags-by-label", "job/order/bagged-finish/mix/*", "volume yields"),
    _line("water-by-label", "job/order/water/mix/finish", "volume yields water"),
    _line("water", "job/order/water/mix/base", "volume per"),
    _line("cutting", "job/order/lath/cutting", "area cut"),
    _line("lath", "job/order/lath/needed", "area cutting"),
    _line("paper-layers", "*/paper", "area layers"),
    _line("paper-laps", "job/order/paper/laps", "area cutting"),
    _line("paper", "job/order/paper/needed", "area cutting laps"),
    _line("fasteners-studs", "frame/*/fasteners", "area"),
    _line("fasteners-masonry", "masonry/*/fasteners", "area"),
    _line("bonding", "job/order/bonding-agent/needed", "area"),
    _line("packages", "job/order/portland/exact", "needed package"),
    _line("whole", "job/order/portland/packages", "exact"),
    _line("part-bag", "job/order/lime/packages", "exact"),
    _line("part-load", "job/order/sand/packages", "exact"),
    _line("whole-bags", "job/order/lime/whole", "packages"),
    _line("batches", "mix/base/batches/whole", "volume mortar"),
    _line("left", "mix/base/batches/left", "volume batches mortar"),
    _line("bags-of-label", "mix/finish/batches/bags", "volume makes"),
    _line("set-back", "*/left/set-back", "total proud"),
    _line("cost", "job/sand/cost", "packages price"),
    _line("usual", "job/price/usual-low", "area usual"),
)
"""Steps of the sample jobs below. ``*`` stands for any place."""

FIRM = {
    "darby_firm": 1,
    "name": "sample",
    "measures": {"mixer": "9 cu ft"},
    "crew": [{"role": "plasterer", "people": 2, "wage": "$30.00/h"}],
    "labor": {"day": "8 h"},
    "pace": dict.fromkeys(("paper-and-lath", "dash-bond", "scratch", "brown", "base", "finish", "paint"), "100 sq ft/h")
    | {"beads": "50 ft/h"},
    "mixes": {"base": {"portland": 1, "lime": 1, "sand": 6}, "finish": {"bagged": "bagged-finish"}},
    "bagged": [{"id": "bagged-finish", "weight": "80 lb", "water": "1.5 gal", "yield": "0.75 cu ft"}],
    "buys": [
        {"item": item, "package": package, "price": "$1.00"}
        for item, package in (
            ("portland", "94 lb bag"),
            ("lime", "50 lb bag"),
            ("sand", "cu yd"),
            ("bagged-finish", "80 lb bag"),
            ("lath", "27 x 97 in sheet"),
            ("paper", "162 sq ft roll"),
        )
    ],
    "usual": {"price": "$8 to $34/sq ft"},
}
"""A firm that buys and mixes everything that a line is about. Its amounts are in no line of the page."""

WALLS: tuple[dict[str, Any], ...] = (
    {"id": "struck", "base": "block", "block": "dense", "joints": "struck",
     "openings": ["door 3068 at 4', reveal 4\""], "left": {"kind": "meets old work", "proud": "3/4 in"}},
    {"id": "frame", "base": "frame", "sheathing": "wood"},
    {"id": "masonry", "base": "lath over block"},
    {"id": "skim", "base": "block", "block": "dense", "joints": "flush"},
)  # fmt: skip
ON: tuple[dict[str, str], ...] = ({"surface": "skim", "choose": "heavy-skim", "suction": "low"},)


def lines(ask: Asker) -> dict[str, Any]:
    """Name of a line to its formula, the unit it is shown in, and the figures in it by their names in the formula.

    Raises
    ------
    ValueError
        where the core reckons a line in another way than the page is wired for.
    """
    size = {"length": "20'", "height": "9'"}
    document = {
        "darby": 1,
        "job": {"name": "sample", "as_of": A_DAY},
        "wall": [size | wall for wall in WALLS],
        "coats": {"on": list(ON)},
    }
    sample = ask.seen_by_firm(loads(document, firm=FIRM), spread=Fraction(1, 2), waste=Fraction(1, 2))
    halved = Working()
    rule = opening_rule(ask.ruled, "half")
    measured_area(halved, "halved", Fraction(2), [Opening("door", Fraction(1))], rule)
    steps = [s for s in (*ask.answers(sample).steps(), *halved.steps.values()) if isinstance(s, Step)]
    return {line.name: _taken(line, steps) for line in LINES}


def _taken(line: Line, steps: Iterable[Step]) -> dict[str, Any]:
    step = next((s for s in steps if fnmatchcase(s.key, line.key)), None)
    if step is None:
        raise ValueError(f"no step of the core is a line {line.name!r} ({line.key})")
    given = {name: (value, unit) for name, value, unit in step.given}
    if missing := set(line.differs) - set(given):
        raise ValueError(f"the core's {step.key} has no {', '.join(sorted(missing))}: {step.formula}")
    figures = {name: pair for name, pair in given.items() if name not in line.differs}
    if any(value for value, _ in figures.values()) and not step.rules:
        raise ValueError(f"the core's {step.key} takes {', '.join(figures)} from no figure: {step.formula}")
    return {
        "formula": step.formula,
        "unit": step.unit.name,
        "figures": {name: number(value) for name, (value, _) in figures.items()},
    }
