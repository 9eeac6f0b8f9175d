"""[[match]]: an old face that new work has to match, read without a camera."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Any

from quicktions import Fraction

from darby import measure
from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Day, Document, Measured, key, must
from darby.job.match import (
    BoardWanted,
    Looks,
    MatchWanted,
    OldSide,
    PaintKind,
    ReadBy,
    SandBy,
    SieveRead,
    SignedFor,
    Stick,
)
from darby.job.part import LARGEST, Part
from darby.job.places import Loc, nearest, shown
from darby.measure.exact import fraction_of
from darby.measure.units import UNITS, Unit
from darby.rulebook.load import default

SUBJECT = "sieve.opening"
PAN = "pan"
NUMBER = re.compile(r"(?:no\.?|#|nº|n°)?\s*([0-9]{1,3})", re.IGNORECASE)
PERCENT = re.compile(r"-?[0-9]+(?:\.[0-9]+)?\s*%")
MOST_OF_A_FACE = Fraction(1, 4)
"""[m] Deeper hollows, larger grains and thicker films are slips of the pen."""
MOST_COATS = 40
LADDER = 3
"""Boards of the ladder: one of them may be signed for."""
MOST_READINGS = 1000

SAND_KEYS: tuple[SandBy, ...] = ("retained", "passing", "grains")
ON_A_SIEVE = '["No. 16", "1.5 g"]'
THROUGH = '["No. 16", "96 %"]'
STICK = '["No. 20", "No. 16"]'
AMOUNT = "1.5 g, 2 mL, 12 %, 40"


class BoardDocument(Document):
    """[[match.board]]: a sample board of your own."""

    sand: list[Measured] = key(f"The two sieves that its sand lies between: `{STICK}`.")
    method: Looks = key("How it is put on; as the old face looks unless you say.")
    thickness: Measured = key("How thick.")
    how: str = key("How it is thrown or floated, in your words.")


class OldSideDocument(Document):
    """[match.also_paint]: the old side painted too, so that the seam does not show."""

    to: str = must("Which break in the wall it is painted to: a corner, a downspout, a band.")
    area: Measured = key("Its area.")
    length: Measured = key("Or its length,")
    height: Measured = key("and its height.")


class SignedDocument(Document):
    """[match.signed]: the board that was signed for."""

    board: int = must("Its number.")
    by: str = must("Who signed.")
    on: Day = key("When.")
    light: str = key("In what light: open shade, low sun along the wall.")
    off: Measured = key("From how far.")


class MatchDocument(Document):
    """[[match]]: an old face that new work has to match."""

    surface: str = must("The surface of the new work.")
    says: str = key("Where the old face was read, in your words.")
    looks: Looks = key("What you take the old finish for.")
    retained: list[list[Measured]] = key(
        f"What each pocket sieve kept, coarse to fine, then the pan: `{ON_A_SIEVE}`; by weight, volume, share or count."
    )
    passing: list[list[Measured]] = key(f"Or the share that went through each, coarse to fine: `{THROUGH}`.")
    grains: list[list[Measured]] = key(
        f"Or one entry for each grain that you compared: the two sieves of the stick it looks like, `{STICK}`."
    )
    depths: list[Measured] = key("Depths below the tops of the old face, well apart.")
    read_by: ReadBy = key("A depth micrometer on the face, or on a putty replica of it; on the face unless you say.")
    paint_coats: int = key("Coats of paint on the old face, counted on the edge of a chip.")
    paint: PaintKind = key("What paint: ordinary unless you say.")
    film: Measured = key("Or the thickness of a chip of it.")
    board: list[BoardDocument] = key("Sample boards of your own instead of the ladder of three.")
    also_paint: OldSideDocument = key("The old side painted too, to hide the seam.")
    signed: SignedDocument = key("The board that was signed for.")


def read(root: Part, draft: Draft) -> None:
    """Read [[match]] into the draft: a surface once, and its sand in one of three ways."""
    found: list[MatchWanted] = []
    seen: set[str] = set()
    for part in root.parts("match"):
        surface = draft.surface_named(part, "surface")
        if surface is not None and surface in seen:
            part.fault("surface", "job.twice", surface, "each surface once")
            surface = None
        seen |= {surface} if surface else set()
        wanted = _match(part, surface or "")
        if surface is not None and wanted is not None:
            found.append(wanted)
    draft.put(matches=tuple(found))


def _match(part: Part, surface: str) -> MatchWanted | None:
    said = [name for name in SAND_KEYS if part.said(name)]
    if len(said) != 1:
        part.fault(None, "finish.no-sand" if not said else "finish.one-sand", ", ".join(said), " / ".join(SAND_KEYS))
    by: SandBy = said[0] if said else "retained"
    sand = _sieved(part, by) if part.has(by) and by != "grains" else ()
    boards = tuple(b for p in part.parts("board") for b in [_board(p)] if b is not None)
    coats = part.count("paint_coats", 0, least=0, most=MOST_COATS)
    film = _thin(part, "film")
    if part.has("film") and part.has("paint_coats"):
        part.fault("film", "finish.coats-or-film", part.raw["film"], "paint_coats … / film …")
    signed, old_side = part.part("signed"), part.part("also_paint")
    return MatchWanted(
        surface=surface,
        by=by,
        sand=sand,
        grains=_grains(part) if by == "grains" else (),
        says=part.text("says"),
        looks=part.word("looks"),
        depths=_depths(part),
        read_by=part.word("read_by") or "micrometer",
        paint_coats=coats,
        paint=part.word("paint") or "paint",
        film=film,
        boards=boards,
        also_paint=_old_side(old_side) if old_side is not None else None,
        signed=_signed(signed, len(boards) or LADDER) if signed is not None else None,
    )


# --- sieves -----------------------------------------------------------------------------------------


def _sieve(part: Part, way: Loc, written: object) -> tuple[str, Fraction] | None:
    """A sieve by its stamp ("No. 16"), or by its opening ("1 mm")."""
    text = str(written).strip()
    names = {name for figure in default().on(SUBJECT) for name in figure.applies["sieve"]}
    number = NUMBER.fullmatch(text)
    name = f"No. {int(number[1])}" if number else next((n for n in names if n.rstrip(".") == text.rstrip(".")), "")
    if name:
        if name not in names:
            part.fault_at(way, "finish.no-sieve", text, ", ".join(sorted(names, key=_coarse)), nearest(name, names))
            return None
        return name, fraction_of(default().number(SUBJECT, sieve=name).written.partition(" ")[0]) * UNITS["mm"].scale
    got = part.attempt(way, lambda: measure.length(text), text, "No. 16, 1.18 mm")
    if got is None or _off(part, way, written, got):
        return None
    return f"{float(got / UNITS['mm'].scale):g} mm", got


def _coarse(name: str) -> float:
    return -default().number(SUBJECT, sieve=name).number


def _off(part: Part, way: Loc, written: object, got: Fraction, *, nought: bool = False) -> bool:
    """Whether it is no size of a grain or a hollow; the fault is kept."""
    if got < 0 or (got == 0 and not nought):
        part.fault_at(
            way, "measure.not-positive", shown(written), ok.NOT_LESS_THAN_NOUGHT if nought else ok.MORE_THAN_NOUGHT
        )
    elif got > MOST_OF_A_FACE:
        part.fault_at(way, "job.too-large", shown(written), ok.SMALLER)
    else:
        return False
    return True


def _sieved(part: Part, by: SandBy) -> tuple[SieveRead, ...]:
    """The rows, or none of them if one is wrong; their order is looked at whatever their amounts are."""
    found = [(n, *_row(part, by, n, row)) for n, row in part.rows(by)]
    named = [(n, sieve) for n, sieve, _ in found if sieve is not None]
    sound = _falling(part, by, named)
    rows = [(n, SieveRead(*sieve, *amount)) for n, sieve, amount in found if sieve is not None and amount is not None]
    if len(rows) != len(part.raw[by]):
        return ()
    if all(row.opening is None for _, row in rows):
        part.fault(by, "finish.no-rows", len(rows), ON_A_SIEVE if by == "retained" else THROUGH)
        return ()
    sound = (_shares if by == "retained" else _through)(part, by, rows) and sound
    return tuple(row for _, row in rows) if sound else ()


Named = tuple[str, Fraction | None]
"""A sieve's name and its opening [m]; the pan has none."""


def _row(part: Part, by: SandBy, n: int, row: Sequence[Any]) -> tuple[Named | None, tuple[Fraction, Unit] | None]:
    like = ON_A_SIEVE if by == "retained" else THROUGH
    if len(row) != 2 or any(value is None for value in row):
        if all(value is not None for value in row):
            part.fault_at((by, n), "finish.no-row", ", ".join(shown(x) for x in row), like)
        return None, None
    pan = by == "retained" and str(row[0]).strip().lower() == PAN
    sieve: Named | None = (PAN, None) if pan else _sieve(part, (by, n), row[0])
    return sieve, _amount(part, (by, n), row[1], share=by == "passing")


def _amount(part: Part, way: Loc, written: object, *, share: bool) -> tuple[Fraction, Unit] | None:
    text = str(written).strip()
    got: tuple[Fraction, Unit] | None = None
    if PERCENT.fullmatch(text):
        got = (fraction_of(text.rstrip("% ")) / 100, UNITS["%"])
    elif share:
        part.fault_at(way, "finish.no-share", text, "96 %")
        return None
    elif isinstance(written, (int, float)) or re.fullmatch(r"-?[0-9]+", text):
        got = (fraction_of(text), UNITS[""]) if re.fullmatch(r"-?[0-9]+", text) else None
    else:
        readers: tuple[tuple[Callable[[str], Fraction], str], ...] = ((measure.mass, "g"), (measure.volume, "mL"))
        for reader, unit in readers:
            try:
                got = (reader(text), UNITS[unit])
                break
            except measure.Unreadable:
                continue
    if got is None:
        part.fault_at(way, "finish.no-amount", text, AMOUNT)
        return None
    if got[0] < 0 or got[0] > LARGEST:
        part.fault_at(way, "measure.not-positive" if got[0] < 0 else "job.too-large", text, ok.NOT_LESS_THAN_NOUGHT
                      if got[0] < 0 else ok.SMALLER)  # fmt: skip
        return None
    return got


def _falling(part: Part, by: SandBy, named: Sequence[tuple[int, Named]]) -> bool:
    """Sieves stand coarse to fine, the pan last."""
    sound = True
    for (_, (above, larger)), (n, (name, opening)) in pairwise(named):
        if larger is None or (opening is not None and opening >= larger):
            part.fault_at((by, n), "finish.sieve-order", f"{above}, {name}", "coarse to fine, the pan last")
            sound = False
    return sound


def _shares(part: Part, by: SandBy, rows: Sequence[tuple[int, SieveRead]]) -> bool:
    """All in one measure; shares come to no more than the whole, and with the pan to the whole."""
    first = rows[0][1].unit
    for n, row in rows:
        if row.unit is not first:
            part.fault_at((by, n), "finish.mixed-amounts", shown(part.raw[by][n][1]), AMOUNT)
            return False
    total = sum((row.amount for _, row in rows), Fraction(0))
    if first is UNITS["%"] and (total > 1 or (rows[-1][1].opening is None and total < 1)):
        part.fault(by, "finish.past-whole", f"{float(100 * total):g} %", "100 %")
        return False
    if total == 0:
        part.fault(by, "finish.nothing-kept", "0", ok.MORE_THAN_NOUGHT)
        return False
    return True


def _through(part: Part, by: SandBy, rows: Sequence[tuple[int, SieveRead]]) -> bool:
    """What goes through falls from sieve to sieve, from no more than all of it."""
    before, name = Fraction(1), "100 %"
    for n, row in rows:
        if row.amount > before:
            code = "finish.past-whole" if row.amount > 1 else "finish.passing-rises"
            part.fault_at((by, n), code, shown(part.raw[by][n][1]), f"0 % … {name}")
            return False
        before, name = row.amount, f"{float(100 * row.amount):g} %"
    return True


def _stick(part: Part, way: Loc, row: Sequence[Any]) -> Stick | None:
    """Two sieves in either order: the fine one first in what is handed back."""
    if len(row) != 2:
        part.fault_at(way, "finish.no-stick", ", ".join(shown(x) for x in row), STICK)
        return None
    one, other = (_sieve(part, way, value) if value is not None else None for value in row)
    if one is None or other is None:
        return None
    if one[1] == other[1]:
        part.fault_at(way, "finish.no-stick", f"{one[0]}, {other[0]}", STICK)
        return None
    return (one, other) if one[1] < other[1] else (other, one)


def _grains(part: Part) -> tuple[Stick, ...]:
    rows = part.rows("grains")
    if part.has("grains") and not part.raw["grains"]:
        part.fault("grains", "finish.no-rows", 0, STICK)
    found = [_stick(part, ("grains", n), row) for n, row in rows]
    return tuple(stick for stick in found if stick is not None)


# --- the rest ---------------------------------------------------------------------------------------


def _depths(part: Part) -> tuple[Fraction, ...]:
    rows = part.rows("depths")
    if part.has("depths") and not part.raw["depths"]:
        part.fault("depths", "finish.no-rows", 0, '["0.045 in", "1.2 mm"]')
    if len(rows) > MOST_READINGS:
        part.fault("depths", "job.too-large", len(rows), f"1 … {MOST_READINGS}")
        return ()
    found = []
    for n, row in rows:
        got = part.attempt(("depths", n), lambda row=row: measure.length(row), row)  # type: ignore[misc]
        if got is not None and not _off(part, ("depths", n), row, got, nought=True):
            found.append(got)
    return tuple(found)


def _thin(part: Part, name: str) -> Fraction | None:
    got = part.length(name, positive=True)
    return None if got is None or _off(part, (name,), part.raw[name], got) else got


def _board(part: Part) -> BoardWanted | None:
    if not part.said("sand"):
        part.fault(None, "finish.board-no-sand", "", STICK)
    row = [value for _, value in part.rows("sand")]
    stick = _stick(part, ("sand",), row) if part.has("sand") and len(row) == len(part.raw["sand"]) else None
    thickness = _thin(part, "thickness")
    how, method = part.text("how"), part.word("method")
    return BoardWanted(stick, method, thickness, how) if stick is not None else None


def _old_side(part: Part) -> OldSide | None:
    to = part.text("to", must=True)
    sides = part.said("length") or part.said("height")
    if sides == part.said("area") or part.said("length") != part.said("height"):
        part.fault(None, "finish.old-side-area", ", ".join(n for n in ("area", "length", "height") if part.said(n)),
                   "area … / length …, height …")  # fmt: skip
        return None
    area = part.area("area")
    length, height = part.length("length", positive=True), part.length("height", positive=True)
    if length is not None and height is not None:
        area = length * height
    return OldSide(area, to) if area is not None else None


def _signed(part: Part, most: int) -> SignedFor | None:
    board = part.count("board", None, most=most)
    by, light = part.text("by", must=True), part.text("light")
    on, off = part.day("on"), part.length("off", positive=True)
    return SignedFor(board, by, on, light, off) if board is not None else None
