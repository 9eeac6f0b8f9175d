"""The answer: every way built, ranked, one chosen; what holds for all of them said once."""

from __future__ import annotations

from difflib import get_close_matches

from darby.buildup import curing, doubts, finishes, places, preparing
from darby.buildup.model import FINISHES, OLD, BuildUp, BuildUpAsk, Option
from darby.buildup.options import Built, build
from darby.buildup.recipes import Recipe, named, recipes
from darby.buildup.thickness import out_of_true
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most
from darby.working.model import Note, Working, note


def build_up(ask: BuildUpAsk) -> tuple[BuildUp, Working]:
    """What goes on this base: options best first, the chosen one, every number with its working.

    The working holds the steps of all options, and the notes of the chosen one and of the base.

    Raises
    ------
    Unreadable
        an option, a profile, a finish or a coat that is not known; his figures contradict each other; or the coats
        leave no room in the whole. Codes: "buildup.no-such-option", "...-profile", "...-finish", "...-coat",
        "buildup.coats-not-total", "buildup.no-room".
    """
    curing.checked_profile(ask.book, ask.cure, ask.at)
    if ask.finish not in FINISHES:
        raise _unknown("buildup.no-such-finish", ask.at, ask.finish, FINISHES)
    got = preparing.ground(ask)
    ways: dict[str, Recipe] = {r.id: r for r in recipes(ask)}
    built = [build(ask, r, got, override=False) for r in ways.values()]
    # dubbing out answers only a wall whose hollows are more than plaster may take up
    two = next((b for b in built if b.option.id == "two-coat"), None)
    if two is None or not _past_tolerance(ask, two):
        built = [b for b in built if b.option.id != "dub-out"]
    ranked = sorted(built, key=_rank)  # sorted is stable: what an old hand thinks of first stays first
    chosen = _chosen(ask, ways, ranked, got)
    ranked = [chosen if b.option.id == chosen.option.id else b for b in ranked]
    found = doubts.verdict(ask)
    notes = (
        *doubts.said(ask, found),
        *_of_base(ask),
        *got.notes,
        *finishes.said(ask),
        *places.said(ask),
        *_of_choice(ask, ranked, chosen.option),
    )
    working = Working()
    test_time = doubts.test_time(working, ask, found)
    for b in ranked:
        working.add(b.working)
    working.notes.extend((*notes, *chosen.option.reasons, *chosen.option.cautions))
    options = tuple(b.option for b in ranked)
    return BuildUp(ask.at, options, chosen.option, got.suction, notes, found, test_time), working


def _past_tolerance(ask: BuildUpAsk, built: Built) -> bool:
    plane = ask.book.number("thickness.base-plane").number
    return not at_most(float(ask.out_of_plane or 0), plane) and float(built.spread.left) > 0


def _rank(built: Built) -> tuple[object, ...]:
    """Too few coats, past what goes on without lath, under the code, joints that show; then the fewest trips."""
    return (*built.faults, len(built.option.coats) + (built.option.lath is not None))


def _chosen(ask: BuildUpAsk, ways: dict[str, Recipe], ranked: list[Built], got: preparing.Ground) -> Built:
    name = ranked[0].option.id if ask.choose is None else named(ask, ask.choose)
    found = next((b for b in ranked if b.option.id == name), None)
    if found is None:
        raise _unknown("buildup.no-such-option", ask.at, ask.choose or "", tuple(b.option.id for b in ranked))
    return found if ask.override is None else build(ask, ways[found.option.id], got, override=True)


def _unknown(code: str, at: str, found: str, allowed: tuple[str, ...]) -> Unreadable:
    nearest = get_close_matches(found, allowed, 1)
    return Unreadable(Fault(code, at, found, ", ".join(allowed), nearest[0] if nearest else ""))


def _of_base(ask: BuildUpAsk) -> tuple[Note, ...]:
    """How true the base is, and what was taken for granted; the paint."""
    notes: list[Note] = []
    plane, over = ask.book.number("thickness.base-plane"), ask.book.number("thickness.base-plane-length")
    out = out_of_true(ask)
    rules = (plane.id, over.id)
    if ask.out_of_plane is None and out is not None:
        notes.append(note("buildup.assumed-plane", "assumed", ask.at, rules=rules, plane=plane, over=over))
    elif out is not None and not ask.framed and not at_most(float(out), plane.number):
        notes.append(note("buildup.base-past-plane", "caution", ask.at, rules=rules, out=out, plane=plane, over=over))
    if ask.base == "block" and ask.position == "horizontal":
        notes.append(note("buildup.block-ceiling", "assumed", ask.at))
    if ask.base in OLD:
        notes.append(note("buildup.no-table-for-old", "assumed", ask.at))
    if ask.paint:
        ph, days = ask.book.number("cure.paint-ph"), ask.book.number("cure.paint-days")
        notes.append(note("buildup.paint-waits", "caution", ask.at, rules=(ph.id, days.id), ph=ph, days=days))
    return tuple(notes)


def _of_choice(ask: BuildUpAsk, ranked: list[Built], chosen: Option) -> tuple[Note, ...]:
    best = ranked[0].option
    if chosen.id == best.id:
        return ()
    values = {"chosen": f"buildup.option.{chosen.id}", "best": f"buildup.option.{best.id}"}
    return (note("buildup.chosen-by-hand", "fact", ask.at, **values),)
