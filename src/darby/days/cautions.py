"""What can hurt people on this job. Lead and asbestos are answered "applies" or "ask", never "does not apply"."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from darby.measure.limits import at_most
from darby.rulebook import Book, default
from darby.working import Note, Quantity
from darby.working.model import note

Work = Literal[
    "mix", "cut", "grind", "drill", "disturb old plaster", "disturb paint", "replace window", "scaffold", "roof edge",
]  # fmt: skip
"""What is done on the job, as far as it bears on safety."""

DUSTY: frozenset[str] = frozenset({"cut", "grind", "drill"})
TOOLS = {"cut": "saw", "grind": "grinder", "drill": "drill"}
"""Dusty work, and the row of Table 1 that speaks of its tool."""

OLD: frozenset[str] = frozenset({"disturb old plaster", "disturb paint", "replace window"})
PAINT: frozenset[str] = frozenset({"disturb paint", "replace window"})


def lead(
    year_built: int | None, painted_area: float | None = None, book: Book | None = None
) -> Literal["applies", "ask"]:
    """Whether the lead renovation rule applies to old paint that the work disturbs outside, or is to be asked about.

    ``painted_area`` [m2] under the rule's figure is no way out: prohibited methods and window replacement are
    cases of their own. A year after the rule's is what somebody says, so it is asked too.
    """
    book = book or default()
    if year_built is None or year_built >= book.number("safety.lead.year").number:
        return "ask"
    if painted_area is not None and at_most(painted_area, book.number("safety.lead.exterior").number):
        return "ask"
    return "applies"


def fall_protection(platform: float, *, scaffold: bool, book: Book | None = None) -> bool:
    """Whether a man on a platform or edge this high [m] has to be kept from falling."""
    book = book or default()
    figure = book.number("safety.fall.scaffold" if scaffold else "safety.fall.edge")
    if scaffold:
        return not at_most(platform, figure.number)
    return at_most(figure.number, platform)


def cautions(
    *,
    year_built: int | None = None,
    works: Iterable[str] = (),
    platform: float = 0,
    materials: Iterable[str] = (),
    painted_area: float | None = None,
    book: Book | None = None,
) -> tuple[Note, ...]:
    """Safety cautions that bind this job, each with the rule that says so. Local codes govern.

    Parameters
    ----------
    year_built
        of the old building that is touched; None = nobody knows.
    works
        what is done (``Work``).
    platform
        how high [m] people stand at the most.
    materials
        what is mixed or cut: "portland", "masonry cement", "lime", "sand", a bagged material ...
    painted_area
        old paint that is disturbed outside [m2]; None = not measured.
    """
    book = book or default()
    done, stuff = frozenset(works), frozenset(materials)
    return (
        *_cement(stuff, book),
        *_silica(done, stuff, book),
        *_old(year_built, done, painted_area, book),
        *_heights(done, platform, book),
    )


def _cement(materials: frozenset[str], book: Book) -> tuple[Note, ...]:
    if not materials:
        return ()
    skin = book.number("safety.cement.skin")
    return (note("safety.cement", "caution", "job", rules=(skin.id,)),)


def _silica(works: frozenset[str], materials: frozenset[str], book: Book) -> tuple[Note, ...]:
    pel, action = book.number("safety.silica.pel"), book.number("safety.silica.action")
    notes = []
    if materials and "mix" in works:
        tasks = book.number("safety.silica.tasks")
        notes.append(note("safety.silica-mix", "caution", "job", rules=(pel.id, action.id, tasks.id),
                          pel=pel, action=action, tasks=tasks))  # fmt: skip
    if works & DUSTY:
        notes.append(note("safety.silica-cut", "caution", "job", rules=(pel.id, action.id), pel=pel, action=action))
    for work, tool in TOOLS.items():
        if work in works:
            row = book.number(f"safety.silica.{tool}")
            notes.append(note(f"safety.silica-{tool}", "caution", "job", rules=(row.id,)))
    return tuple(notes)


def _old(year: int | None, works: frozenset[str], area: float | None, book: Book) -> tuple[Note, ...]:
    notes = []
    if works & PAINT:
        since, limit = book.number("safety.lead.year"), book.number("safety.lead.exterior")
        window = "replace window" in works
        rules = (since.id, limit.id, *((book.number("safety.lead.window").id,) if window else ()))
        code = f"safety.lead-{lead(year, area, book)}"
        built = {} if year is None else {"built": str(year)}
        notes.append(note(code, "caution", "job", rules=rules, year=str(int(since.number)), area=limit, **built))
        if window:
            notes.append(note("safety.lead-window", "caution", "job", rules=rules))
    if works & OLD:
        limit, percent = book.number("safety.asbestos.area"), book.number("safety.asbestos.percent")
        notes.append(note("safety.asbestos-ask", "caution", "job", rules=(limit.id, percent.id),
                          area=limit, percent=percent))  # fmt: skip
    return tuple(notes)


def _heights(works: frozenset[str], platform: float, book: Book) -> tuple[Note, ...]:
    notes = []
    height = Quantity(platform, book.number("safety.fall.scaffold").unit)
    on_scaffold = "scaffold" in works
    if on_scaffold:
        fall, face = book.number("safety.fall.scaffold"), book.number("safety.scaffold.face")
        if fall_protection(platform, scaffold=True, book=book):
            notes.append(note("safety.fall-scaffold", "caution", "job", rules=(fall.id,), limit=fall, platform=height))
        notes.append(note("safety.scaffold-face", "caution", "job", rules=(face.id,), face=face))
    if "roof edge" in works or (not on_scaffold and fall_protection(platform, scaffold=False, book=book)):
        edge = book.number("safety.fall.edge")
        notes.append(note("safety.fall-edge", "caution", "job", rules=(edge.id,), limit=edge))
    if platform > 0:
        lines = book.number("safety.power-lines")
        notes.append(note("safety.power-lines", "caution", "job", rules=(lines.id,), away=lines))
    return tuple(notes)
