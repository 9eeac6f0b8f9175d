"""What speaks for an option, what speaks against it, and what follows when he leaves a figure."""

from __future__ import annotations

from dataclasses import dataclass, field

from darby.buildup import doubts
from darby.buildup.model import BLOCK, OLD, BuildUpAsk, Option
from darby.buildup.thickness import Spread, Thick, out_of_true
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.rulebook.model import Figure
from darby.working.model import Note, Quantity, Working, note

_COUNTS = ("none", "one", "two", "three")
_INCH = unit("in")


@dataclass(frozen=True, slots=True)
class Judged:
    """What stands against an option, heaviest first (for the rank), and the notes that say it."""

    faults: tuple[bool, ...]
    notes: list[Note] = field(default_factory=list)


def why(ask: BuildUpAsk, option: Option, thick: Thick, paper: tuple[str, ...]) -> list[Note]:
    """What speaks for the option: one reason, with the figures behind it."""
    figure = thick.ruled.figure
    table = "lath" if option.lath else ask.taken
    coats = ask.book.number("thickness.coats", base=table)
    rules: tuple[str, ...] = (figure.id, coats.id)
    if option.id == "lath-three-coat" and doubts.no_bond(doubts.verdict(ask)):
        rules = (figure.id, ask.book.number("prep.lath-needed").id)
        code = "buildup.reason.lath-for-bond"
    elif option.id == "lath-three-coat" and ask.solid:
        rules = (figure.id, ask.book.number("prep.lath-not-needed").id, ask.book.number("prep.lath-needed").id)
        code = "buildup.reason.lath-on-masonry"
    elif ask.position == "horizontal" and not option.lath:
        code = "buildup.reason.ceiling"
    elif option.id == "double-back":
        rules = (ask.book.number("cure.double-back-rule").id,)
        code = "buildup.reason.double-back"
    elif option.lath:
        rules = (*rules, *paper)
        code = f"buildup.reason.lath-three-coat.{'frame' if ask.base == 'frame' else 'block'}"
    else:
        code = f"buildup.reason.{option.id}"
    return [note(code, "fact", ask.at, rules=rules, total=option.nominal, coats=coats)]


def two_passes(ask: BuildUpAsk, coat: str, most: Quantity, one: Figure) -> Note:
    """A coat heavier than one pass goes on in two, the first left to take up."""
    return note("buildup.two-passes", "caution", ask.at, rules=(one.id,),
                coat=f"buildup.coat.{coat}", most=most, limit=one)  # fmt: skip


def judge(ask: BuildUpAsk, option: Option, thick: Thick, lies: Spread, *, followed: bool) -> Judged:
    """Hold the option against coats, code, the no-lath limit and the joints. ``followed``: his own voice, not held
    against the rank, but said all the same."""
    notes: list[Note] = []
    few = _coats(ask, option, notes)
    thin = _code(ask, option, notes)
    heavy = _no_lath(ask, option, lies, thick, notes)
    shows = _joints(ask, option, notes)
    _plane(ask, option, lies, thick, notes)
    _thrown(ask, option, thick, notes)
    lets_go = _bond(ask, option, notes)
    return Judged((lets_go, few, heavy and not followed, thin and not followed, shows), notes)


def _bond(ask: BuildUpAsk, option: Option, notes: list[Note]) -> bool:
    """Straight on a base that no test speaks for."""
    found = doubts.verdict(ask)
    if option.lath is not None or not doubts.no_bond(found):
        return False
    rules = (ask.book.number("prep.lath-needed").id, ask.book.number("prep.tests").id)
    notes.append(note("buildup.bond-in-doubt", "stop", ask.at, rules=rules))
    return True


def _thrown(ask: BuildUpAsk, option: Option, thick: Thick, notes: list[Note]) -> None:
    """A finish of stone stands out past the whole that was published for a plain one."""
    finish = option.coat("finish")
    if thick.thrown is None or finish is None:
        return
    stone = ask.book.number("thickness.stone-finish")
    notes.append(
        note("buildup.thrown-on-top", "fact", ask.at, rules=(stone.id,), finish=finish.nominal, more=thick.thrown)
    )
    if ask.finish == "pebble":
        least = ask.book.number("thickness.pebble", base="lath" if option.lath else ask.taken)
        if not at_most(least.number, float(option.nominal)):
            values = {"total": option.nominal, "least": least}
            notes.append(note("buildup.under-pebble", "caution", ask.at, rules=(least.id,), **values))


def _laid(option: Option) -> int:
    """Coats as the code counts them: a dash bond and dubbing out are not among them."""
    aside = {"dash-bond"} | ({"scratch"} if option.id == "dub-out" else set())
    return sum(c.name not in aside for c in option.coats)


def _coats(ask: BuildUpAsk, option: Option, notes: list[Note]) -> bool:
    figure = ask.book.number("thickness.coats", base="lath" if option.lath else ask.taken)
    laid = _laid(option)
    if at_most(figure.number, laid):
        return False
    coats = Quantity(laid, unit("coats"))
    notes.append(note("buildup.fewer-coats", "caution", ask.at, rules=(figure.id,), coats=coats, figure=figure))
    return True


def _code(ask: BuildUpAsk, option: Option, notes: list[Note]) -> bool:
    """The code's minimum, apart from the nominal: the same figure is a least there and a nominal in C926."""
    if ask.position == "horizontal":
        return False  # the table is for weather coverings of walls
    if ask.base in OLD and option.lath is None:
        return False  # the old plaster is the covering; what goes on it makes no new one
    table = "lath" if option.lath else ask.taken
    try:
        figure = ask.book.number("thickness.code", base=table, coats=_COUNTS[_laid(option)])
    except KeyError:
        notes.append(note("buildup.no-code-row", "caution", ask.at, coats=Quantity(_laid(option), unit("coats"))))
        return True
    values = {"total": option.nominal, "least": figure}
    if not at_most(figure.number, float(option.nominal)):
        notes.append(note("buildup.under-code", "caution", ask.at, rules=(figure.id,), **values))
        return True
    if not at_most(figure.number, float(option.least)):
        rules = (figure.id, ask.book.number("thickness.nominal").id)
        values = {"spot": option.least, "least": figure}
        notes.append(note("buildup.high-spot-under-code", "fact", ask.at, rules=rules, **values))
    return False


def _no_lath(ask: BuildUpAsk, option: Option, lies: Spread, thick: Thick, notes: list[Note]) -> bool:
    """Past what goes on without lath. A finish of stone past it is said, but not held against the option."""
    limit = lies.limit
    if limit is None:
        return False
    rules = (limit.id, ask.book.number("thickness.no-lath-rule").id)
    if not at_most(float(option.nominal), limit.number):
        notes.append(note("buildup.past-no-lath", "caution", ask.at, rules=rules, total=option.nominal, limit=limit))
        stone = float(thick.thrown) if thick.thrown is not None else 0
        return not at_most(float(option.nominal) - stone, limit.number)
    if not at_most(float(option.most), limit.number):
        notes.append(note("buildup.hollow-past-no-lath", "caution", ask.at, rules=rules, most=option.most, limit=limit))
        return option.id == "dub-out"
    return False


def _joints(ask: BuildUpAsk, option: Option, notes: list[Note]) -> bool:
    if ask.base not in BLOCK or option.lath:
        return False
    half = ask.book.number("thickness.joints-show")
    if option.id == "heavy-skim":
        skim = ask.book.number("thickness.skim-shows")
        notes.append(note("buildup.skim-shows", "caution", ask.at, rules=(skim.id,), total=option.nominal))
        if ask.joints == "struck":
            notes.append(note("buildup.skim-on-struck", "caution", ask.at, rules=(skim.id,)))
    values = {"total": option.nominal, "figure": half}
    if not at_most(half.number, float(option.nominal)):
        notes.append(note("buildup.joints-show", "caution", ask.at, rules=(half.id,), **values))
        return ask.position == "vertical"  # overhead weight comes before looks
    if not at_most(half.number, float(option.least)):
        values = {"spot": option.least, "figure": half}
        notes.append(note("buildup.joints-show-high-spot", "fact", ask.at, rules=(half.id,), **values))
    return False


def _plane(ask: BuildUpAsk, option: Option, lies: Spread, thick: Thick, notes: list[Note]) -> None:
    """What becomes of a base out of true: taken up, followed, furred out, dubbed out; and grounds that came out."""
    if lies.raised is not thick.total and not at_most(float(lies.raised), float(thick.total)):
        grounds = {"total": lies.raised, "book": thick.total}
        notes.append(note("buildup.grounds-come-out", "fact", ask.at, rules=(thick.ruled.figure.id,), **grounds))
    plane, out = ask.book.number("thickness.base-plane"), out_of_true(ask)
    if out is None or at_most(float(lies.left), 0):
        return
    over = not at_most(float(out), plane.number)
    values = {"out": out, "taken": lies.taken, "left": lies.left}
    uneven = ask.book.number("thickness.uneven")
    if option.id == "dub-out":
        notes.append(note("buildup.dub-out", "fact", ask.at, rules=(uneven.id,), **values))
    elif option.lath and over:
        notes.append(note("buildup.fur-out", "caution", ask.at, rules=(plane.id,), **values))
    elif over:
        rules = (uneven.id, *((lies.limit.id,) if lies.limit is not None else ()))
        notes.append(note("buildup.follow-the-wall", "caution", ask.at, rules=rules, **values))
    else:
        notes.append(note("buildup.keeps-to-the-wall", "fact", ask.at, rules=(uneven.id,), **values))


# --- he knows better ----------------------------------------------------------------------------------


def departures(w: Working, key: str, ask: BuildUpAsk, thick: Thick, his: Quantity | None) -> list[Note]:
    """Which figure he leaves, and what follows from it. What a time shortened does is said with the time."""
    notes: list[Note] = []
    figure = thick.ruled.figure
    over = ask.override
    if over is None:
        return notes
    if his is not None:
        notes.append(note("buildup.departure.total", "fact", ask.at, rules=(figure.id,), his=his, figure=thick.book))
    for name in (c.name for c in over.coats if c.thickness is not None):
        coat = "finish" if name == "skim" else name
        for own, book in ((q, thick.ours[c]) for c, q in thick.coats.items() if c == coat):
            notes.append(
                note(
                    "buildup.departure.coat",
                    "fact",
                    ask.at,
                    rules=(figure.id,),
                    coat=f"buildup.coat.{coat}",
                    his=own,
                    figure=book,
                )
            )
    if his is not None or any(c.thickness is not None for c in over.coats):
        notes += _weight(w, key, ask, thick)
    if over.why:
        notes.append(note("buildup.departure.why", "fact", ask.at, why=over.why))
    return notes


def _weight(w: Working, key: str, ask: BuildUpAsk, thick: Thick) -> list[Note]:
    """Heavier or lighter than by the book [kg/m2]."""
    density = ask.book.number("thickness.weight")
    more = w.step(f"{key}/weight/more", "density * (total - book)", "lb/sq ft", "buildup.step.weight-more",
                  density=density, total=thick.total, book=thick.book)  # fmt: skip
    if at_most(float(thick.total), float(thick.book)) and at_most(float(thick.book), float(thick.total)):
        return []
    by = Quantity(abs(float(more)), more.unit, more.key)
    code = "heavier" if more.value > 0 else "lighter"
    return [note(f"buildup.departure.{code}", "fact", ask.at, rules=(density.id,), by=by)]
