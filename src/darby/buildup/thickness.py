"""How thick: the whole by the ruling voice, shared among the coats, and how it runs over a base that is not true."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from darby.buildup.model import BLOCK, BuildUpAsk, CoatName, OwnCoat
from darby.buildup.recipes import Recipe
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.rulebook.model import Figure, Ruled
from darby.working.model import Quantity, Working

_INCH = unit("in")
_NONE = Quantity(0, _INCH)


@dataclass(frozen=True, slots=True)
class Thick:
    """Nominal thickness of every coat and of the whole [m]; ``book`` is the whole as the ruling voice has it.

    ``span`` [m] is the ruling voice's own range, where it gives one; ``ours`` the coats as the book shares them;
    ``thrown`` what a finish of stone is thicker than a plain one.
    """

    ruled: Ruled
    coats: Mapping[CoatName, Quantity]
    ours: Mapping[CoatName, Quantity]
    total: Quantity
    book: Quantity
    span: Quantity | None
    thrown: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Spread:
    """How the plaster runs over the base [m].

    ``taken`` up by the coat that levels, ``left`` to the face (or to furring out the lath); ``raised`` is the whole
    at the grounds, no less than ``total``: grounds come out until the high spot keeps what it must.
    """

    taken: Quantity
    left: Quantity
    raised: Quantity
    limit: Figure | None


def names(recipe: Recipe, ask: BuildUpAsk, *, dash: bool) -> tuple[CoatName, ...]:
    """The coats that share the whole, in order. Dubbing out comes on top of them and is not among these."""
    coats = [c for c in recipe.coats if not (recipe.id == "dub-out" and c == "scratch")]
    if ask.finish == "none" and not recipe.skim:
        coats.remove("finish")
    if dash and not recipe.lath and not recipe.skim:
        coats.insert(0, "dash-bond")
    return tuple(coats)


def ruling(ask: BuildUpAsk, recipe: Recipe) -> Ruled:
    """Who rules on the whole thickness. A ceiling straight on the slab has only its most: that is taken."""
    if ask.position == "horizontal" and not recipe.lath:
        return ask.book.rule("thickness.no-lath", base="concrete", position="horizontal")
    under = "block" if ask.base in BLOCK else ask.base
    return ask.book.rule(recipe.subject, position=ask.position, under=under)


def share(
    w: Working, ask: BuildUpAsk, recipe: Recipe, key: str, coats: tuple[CoatName, ...], own: Mapping[str, OwnCoat],
    own_total: Quantity | None,
) -> Thick:  # fmt: skip
    """The whole shared among ``coats``; his own thicknesses come before the book's.

    The finish, scratch and dash bond are what their figures say; the coat that levels gets the rest. If he says one
    coat and no whole, the others stay and the whole follows; if he says the whole, the coat that levels follows.

    Raises
    ------
    Unreadable
        "buildup.no-room": the other coats leave nothing for the one that levels; "buildup.coats-not-total": his coats
        do not add up to his whole.
    """
    ruled = ruling(ask, recipe)
    changed = own_total is not None or any(c.thickness is not None for c in own.values())
    book = "/book" if changed else ""
    others = {c: _coat(w, ask, recipe, key, c, book) for c in coats if c != recipe.levels}
    total, span = _whole(w, key, ruled.figure, others, book)
    extra = stands_out(w, ask, recipe, key, others, book)
    if extra is not None:
        total = w.step(
            f"{key}/total/thrown{book}", "total + more", "in", "buildup.step.thrown", total=total, more=extra
        )
    level = _rest(w, ask.at, f"{key}/{recipe.levels}/thickness{book}", total, others)
    ours = {c: others.get(c, level) for c in coats}
    if not changed:
        return Thick(ruled, ours, ours, total, total, span, extra)
    his = dict(others)
    for name, thickness in ((n, own[n].thickness) for n in others if n in own):
        if thickness is not None:
            his[name] = Quantity(thickness, _INCH)
    said = own[recipe.levels].thickness if recipe.levels in own else None
    if said is not None:
        level = Quantity(said, _INCH)
    elif own_total is not None:
        level = _rest(w, ask.at, f"{key}/{recipe.levels}/thickness", own_total, his)
    mine: dict[CoatName, Quantity] = {c: his.get(c, level) for c in coats}
    whole = w.step(f"{key}/total", _plus(mine), "in", "buildup.step.total", **_given(mine))
    if own_total is not None and not (
        at_most(float(whole), float(own_total)) and at_most(float(own_total), float(whole))
    ):
        raise Unreadable(Fault("buildup.coats-not-total", ask.at, _inches(whole), _inches(own_total)))
    return Thick(ruled, mine, ours, whole, total, None, extra)


def _inches(q: Quantity) -> str:
    return f"{float(q.unit.from_si(float(q))):g} {q.unit.name}"


FINISHES = {
    "wet dash": "thickness.stone-finish", "pebble": "thickness.stone-finish", "scraped": "thickness.scraped-finish",
}  # fmt: skip
"""Subjects of finishes that are laid heavier than the plain one."""

THROWN = ("wet dash", "pebble")
"""Finishes of stone, heavier than the finish that a published whole has in mind."""


def stands_out(
    w: Working, ask: BuildUpAsk, recipe: Recipe, key: str, others: Mapping[CoatName, Quantity], book: str
) -> Quantity | None:
    """How much a finish of stone is thicker than the plain one [m]: the base under it stays what it would be."""
    if ask.finish not in THROWN or "finish" not in others:
        return None
    plain = ask.book.number("thickness.finish", base=recipe.table, position=ask.position)
    if at_most(float(others["finish"]), plain.number):
        return None
    return w.step(
        f"{key}/finish/thrown{book}", "finish - plain", "in", "buildup.step.stands-out",
        finish=others["finish"], plain=plain,
    )  # fmt: skip


def _coat(w: Working, ask: BuildUpAsk, recipe: Recipe, key: str, coat: CoatName, book: str) -> Quantity:
    where = {"base": recipe.table, "position": ask.position}
    subject = FINISHES.get(ask.finish, "thickness.finish") if coat == "finish" else f"thickness.{coat}"
    figure = ask.book.number(subject, **where)
    return w.step(f"{key}/{coat}/thickness{book}", "figure", "in", f"buildup.step.{coat}", figure=figure)


def _whole(
    w: Working, key: str, figure: Figure, others: Mapping[CoatName, Quantity], book: str
) -> tuple[Quantity, Quantity | None]:
    """The ruling whole. Of a range the upper end is taken: so the high spots keep the lower.

    A voice that speaks of the base coat alone gets the finish (and the dash) on top.
    """
    given: dict[str, Any] = {"figure": figure}
    rules: tuple[str, ...] = ()
    span = None
    if figure.low is not None and figure.high is not None:
        low, high = (Quantity(x, figure.unit) for x in (figure.low, figure.high))
        given, rules = {"figure": high}, (figure.id,)
        span = w.step(f"{key}/span", "high - low", "in", "buildup.step.span", rules=rules, high=high, low=low)
    alone = "base" in figure.applies.get("coat", ())
    on_top: dict[CoatName, Quantity] = {c: q for c, q in others.items() if alone and c != "dash-bond"}
    formula = " + ".join(("figure", *(_name(c) for c in on_top)))
    total = w.step(f"{key}/total{book}", formula, "in", "buildup.step.total", rules=rules, **given, **_given(on_top))
    return total, span


def _rest(w: Working, at: str, key: str, total: Quantity, others: Mapping[CoatName, Quantity]) -> Quantity:
    formula = " - ".join(("total", *(_name(c) for c in others)))
    rest = w.step(key, formula, "in", "buildup.step.rest", total=total, **_given(others))
    if at_most(rest.value, 0):
        used = Quantity(sum(float(q) for q in others.values()), _INCH)
        raise Unreadable(Fault("buildup.no-room", at, _inches(total), f"more than {_inches(used)}"))
    return rest


def _name(coat: str) -> str:
    return coat.replace("-", "_")


def _given(coats: Mapping[CoatName, Quantity]) -> dict[str, Any]:
    return {_name(c): q for c, q in coats.items()}


def _plus(coats: Mapping[CoatName, Quantity]) -> str:
    return " + ".join(_name(c) for c in coats)


# --- over a base that is not true ---------------------------------------------------------------------


def out_of_true(ask: BuildUpAsk) -> Quantity | None:
    """How far the base is out of true [m]: as measured; else for a solid wall the most it may be; else None.

    A framed wall, old plaster on one and a ceiling are not taken to be out of true unless someone measured it.
    """
    if ask.out_of_plane is not None:
        return Quantity(ask.out_of_plane, _INCH)
    if ask.framed or ask.position == "horizontal":
        return None
    return Quantity(ask.book.number("thickness.base-plane").number, _INCH)


def spread(w: Working, ask: BuildUpAsk, recipe: Recipe, key: str, thick: Thick, *, his: bool) -> Spread:
    """How much of the unevenness the plaster takes up, and what is left.

    Straight on the base: all of it, if the base is within tolerance, or if the least at the high spot and the
    unevenness together keep within what may go on without lath; else as much as that limit leaves, and the face
    follows the wall for the rest. A ceiling and a skim follow the base altogether. On lath the plaster takes up a
    base within tolerance; beyond it the lath is furred out. ``his``: the whole is his own and is not raised.
    """
    out = out_of_true(ask)
    plane = ask.book.number("thickness.base-plane")
    limit = None if recipe.lath else _limit(ask)
    nothing = Spread(_NONE, _NONE, thick.total, limit)
    if out is None or at_most(float(out), 0):
        return nothing
    if recipe.skim or (limit is not None and ask.position == "horizontal"):
        return Spread(_NONE, out, thick.total, limit)
    raised = thick.total
    if thick.span is not None:
        taken = _smaller(out, thick.span)
    elif limit is None:
        taken = _smaller(out, Quantity(plane.number, _INCH))
    elif at_most(float(out), plane.number):
        taken = out
    else:
        floor = _floor(w, ask, recipe, key, thick.total, plane)
        taken = _takes(w, key, out, floor, limit, plane)
        if not his:
            raised = w.step(
                f"{key}/grounds/total", "max(total, high_spot + taken / 2)", "in", "buildup.step.raised",
                total=thick.total, high_spot=floor, taken=taken,
            )  # fmt: skip
    taken = _within(w, key, recipe, thick, taken, raised)
    left = out if not taken.value else _left(w, key, out, taken)
    return Spread(taken, left, raised, limit)


def _limit(ask: BuildUpAsk) -> Figure:
    base = "concrete" if ask.position == "horizontal" else ask.taken
    return ask.book.number("thickness.no-lath", base=base, position=ask.position)


def _smaller(a: Quantity, b: Quantity) -> Quantity:
    return a if at_most(float(a), float(b)) else b


def _floor(w: Working, ask: BuildUpAsk, recipe: Recipe, key: str, total: Quantity, plane: Figure) -> Quantity:
    """The least at the high spot: on block in two coats what the SMA gives a base coat; else nominal less half the
    tolerance, for that is what a nominal thickness allows for."""
    if recipe.table == "block" and recipe.levels == "base":
        figure = ask.book.number("thickness.block.single-base")
        low = figure.number if figure.low is None else figure.low
        return w.step(f"{key}/high-spot", "low", "in", "buildup.step.high-spot", rules=(figure.id,),
                      low=Quantity(low, _INCH))  # fmt: skip
    return w.step(f"{key}/high-spot", "total - plane / 2", "in", "buildup.step.high-spot", total=total, plane=plane)


def _takes(w: Working, key: str, out: Quantity, floor: Quantity, limit: Figure, plane: Figure) -> Quantity:
    reach = w.step(f"{key}/hollow/reach", "high_spot + out", "in", "buildup.step.reach", high_spot=floor, out=out)
    if at_most(reach.value, limit.number):
        return out
    room = w.step(
        f"{key}/hollow/room", "max(limit - high_spot, plane)", "in", "buildup.step.room",
        limit=limit, high_spot=floor, plane=plane,
    )  # fmt: skip
    return _smaller(out, room)


def _within(w: Working, key: str, recipe: Recipe, thick: Thick, taken: Quantity, raised: Quantity) -> Quantity:
    """Not more than the coat that levels can give at the high spot (a range gives all on one side)."""
    level = thick.coats[recipe.levels]
    gives = float(level) + float(raised) - float(thick.total)
    # a range is laid from its upper end down, anything else half up and half down
    if at_most(float(taken), gives if thick.span is not None else gives + gives):
        return taken
    return w.step(
        f"{key}/taken", "2 * (level + raised - total)", "in", "buildup.step.taken",
        level=level, raised=raised, total=thick.total,
    )  # fmt: skip


def _left(w: Working, key: str, out: Quantity, taken: Quantity) -> Quantity:
    if at_most(float(out), float(taken)):
        return _NONE
    return w.step(f"{key}/left", "out - taken", "in", "buildup.step.left", out=out, taken=taken)
