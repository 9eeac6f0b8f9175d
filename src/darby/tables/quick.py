"""`darby sum`: reads one line ("60' x 6' x 2, 1/2 block") and says area, mortar, bags and sand."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quicktions import Fraction

from darby.answers.quick import quick
from darby.measure import Fault, Unreadable, length
from darby.measure.units import unit
from darby.mix import MixParts
from darby.quantities import QuickSum
from darby.tables.parts import parts_line
from darby.tables.setting import Setting
from darby.working import Quantity

INCH = unit("in")
ALLOWED = "60' x 6' x 2, 1/2 block"
BASES = ("block", "concrete", "lath", "frame")
LATHED = frozenset({"lath", "frame"})
_BY = re.compile(r"\s*[x×*]\s*", re.IGNORECASE)
_FACES = re.compile(r"[1-9][0-9]{0,3}")
_BARE_INCHES = re.compile(r"^\d+(?:[ -]\d+)?(?:/\d+)?$|^\d+\.\d+$")


@dataclass(frozen=True, slots=True)
class QuickWall:
    """What the line says, and its sum."""

    length: Fraction
    height: Fraction
    faces: int
    thickness: Fraction
    base: str
    sum: QuickSum
    parts: MixParts

    def plain(self) -> dict[str, object]:
        """For a program: SI numbers with their names."""
        found = self.sum
        return {
            "area_m2": float(found.area.value),
            "thickness_m": float(self.thickness),
            "mortar_m3": float(found.net.value),
            "bags": float(found.bags.value) if found.bags is not None else None,
            "whole_bags": int(found.whole_bags.value) if found.whole_bags is not None else None,
            "sand_m3": float(found.sand.value) if found.sand is not None else None,
            "bags_by_rule": float(found.rule.bags.value) if found.rule is not None else None,
            "base": self.base,
            "parts": {name: float(self.parts.of(name)) for name in self.parts.used},
        }


def quick_wall(text: str) -> QuickWall:
    """The wall that ``text`` says: length x height [x faces], thickness base.

    A bare thickness is inches, as it is said at the wall: "1/2 block".

    Raises
    ------
    Unreadable
        saying what could not be read.
    """
    sizes, comma, rest = text.partition(",")
    parts = [p for p in _BY.split(sizes.strip()) if p]
    if not comma or len(parts) not in (2, 3):
        raise Unreadable(Fault("cli.sum-unreadable", "", text or "-", ALLOWED))
    faces = 1
    if len(parts) == 3:
        if not _FACES.fullmatch(parts[2]):
            raise Unreadable(Fault("cli.sum-unreadable", "", parts[2], ALLOWED))
        faces = int(parts[2])
    words = rest.split()
    base = words[-1].lower() if words and words[-1].isalpha() and words[-1].lower() not in ("in", "mm", "cm") else ""
    if base and base not in BASES:
        raise Unreadable(Fault("cli.sum-unreadable", "", base, ", ".join(BASES)))
    depth = rest.strip()[: len(rest.strip()) - len(base)].strip()
    thickness = length(f"{depth} in" if _BARE_INCHES.match(depth) else depth)
    wall = (length(parts[0]), length(parts[1]))
    if min(*wall, thickness) <= 0:
        raise Unreadable(Fault("cli.sum-unreadable", "", text, ALLOWED))
    found = quick(wall[0] * wall[1] * faces, thickness, lathed=base in LATHED)
    return QuickWall(*wall, faces, thickness, base or "block", found.sum, found.parts)


def quick_line(wall: QuickWall, setting: Setting) -> list[str]:
    """The sum in one line, and the rule of thumb in a second."""
    found = wall.sum
    lines = [
        setting.say(
            "cli.sum.line", area=found.area, thickness=Quantity(wall.thickness, INCH), mortar=found.net,
            cover=found.cover, bags=found.bags or "-", whole=found.whole_bags or "-", sand=found.sand or "-",
            parts=parts_line(wall.parts, setting),
        )
    ]  # fmt: skip
    if found.rule is not None:
        lines.append(setting.say("cli.sum.rule", bags=found.rule.bags, sand=found.sand_by_rule))
    lines.append(setting.say("cli.sum.net"))
    return lines
