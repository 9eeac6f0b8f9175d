"""[[lath]]: where the framing stands, what sheets are bought, how they lap, how corners are made.

Faults that the lath room would refuse as well are said here, where the line stands: "lath.sheet-size", "lath.laps".
"""

from __future__ import annotations

from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key
from darby.job.lath import CornerHow, LathWanted, Sides
from darby.job.part import Part
from darby.measure.limits import at_most
from darby.measure.writing import write
from darby.rulebook.load import default

SHEET, ROLL = "27 x 97 in sheet", "40 in x 50 ft roll"


class LathDocument(Document):
    """[[lath]]: how lath and paper are laid on one surface, on the walls of a house, or on all."""

    surface: str = key("The surface, or a house. Left out: all that take lath and say nothing themselves.")
    first_stud: Measured = key("The middle of the first stud, from the left end: then ends land on framing.")
    sheet: Measured = key(f"The sheet, if it is not the one of the firm file: `{SHEET}`.")
    side_lap: Measured = key("How far sheets lap along their sides, if it is not the rule's.")
    end_lap: Measured = key("How far they lap at their ends.")
    paper: int = key("Layers of paper, if they are not those of the sheathing; 0 = none.")
    roll: Measured = key(f"The paper as it is bought: `{ROLL}`.")
    plies: int = key("So many layers that one roll lays at once.")
    outside: CornerHow = key("Outside corners: a bead makes them, a strip lies over them, or the sheets go round.")
    inside: CornerHow = key("Inside corners, the same; a strip unless you say.")


def read(root: Part, draft: Draft) -> None:
    """Read [[lath]] into the draft: a surface once."""
    found: list[LathWanted] = []
    seen: set[str] = set()
    for part in root.parts("lath"):
        surface = draft.surface_named(part, "surface", houses=True) if part.said("surface") else ""
        if surface in seen:
            part.fault("surface" if surface else None, "job.twice", surface or "lath", "each surface once")
        sheet = _sides(part, "sheet", SHEET)
        wanted = LathWanted(
            surface or "",
            first_stud=part.length("first_stud"),
            sheet=sheet,
            side_lap=part.length("side_lap"),
            end_lap=part.length("end_lap"),
            paper=part.count("paper", None, least=0, most=9),
            roll=_sides(part, "roll", ROLL),
            plies=part.count("plies", None, most=9),
            outside=part.word("outside"),
            inside=part.word("inside"),
        )
        _laps(part, wanted)
        if surface is not None:
            seen.add(surface)
            found.append(wanted)
    draft.put(lath=tuple(found))


def _sides(part: Part, name: str, like: str) -> Sides | None:
    """Width and length, the lesser first; a sheet narrower than any piece that is put up is refused."""
    package = part.package(name)
    if package is None:
        return None
    if package.sides is None:
        part.fault(name, "measure.package", part.raw[name], like)
        return None
    width, length = sorted(package.sides)
    least = default().number("lath.strip.least")
    if not at_most(least.number, width):
        part.fault(name, "lath.sheet-size", f"{write(width)} × {write(length)}", f"> {least.written}")
        return None
    return width, length


def _laps(part: Part, wanted: LathWanted) -> None:
    """No lap may take half a sheet."""
    book = default()
    width, length = wanted.sheet or tuple(book.number(f"lath.sheet.{side}").number for side in ("width", "length"))
    for name, lap, side in (("side_lap", wanted.side_lap, width), ("end_lap", wanted.end_lap, length)):
        if lap is not None and lap >= side / 2:
            part.fault(name, "lath.laps", write(lap), f"< {write(side / 2)}")
