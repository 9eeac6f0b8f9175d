"""How long a coat is kept moist and how long the next one waits: by a profile, one voice's figures.

A profile speaks only of the coats it names; what it leaves open is filled by whoever the book puts first, and that
is noted. Doubling back has a most as well as a least: the brown goes on while the scratch is green, or not that day.
"""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from darby.buildup.model import CoatName, OwnCoat
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.rulebook.book import Book
from darby.rulebook.model import Figure, Ruled
from darby.working.model import Note, Quantity, Working, note

DOUBLE_BACK = "double-back"
_LAID = frozenset({"scratch", "brown", "base"})
_SUBJECTS = ("cure.moist", "cure.wait")
_HOUR = unit("h")


@dataclass(frozen=True, slots=True)
class Times:
    """Of one coat [s]: kept moist, the least and the most before the next coat; and what has to be said about it."""

    moist: Quantity | None
    least: Quantity | None
    most: Quantity | None
    notes: tuple[Note, ...] = ()


def profiles(book: Book) -> tuple[str, ...]:
    """The names a curing profile may have: every voice that speaks on laying coats, and "double-back"."""
    voices = dict.fromkeys(
        f.voice
        for f in (*book.local, *book)
        if f.subject in _SUBJECTS and f.voice and _LAID & f.applies.get("coat", _LAID)
    )
    return (*voices, DOUBLE_BACK)


def checked_profile(book: Book, name: str | None, at: str) -> str | None:
    """``name`` if there is such a profile (None = the one the book follows).

    Raises
    ------
    Unreadable
        "buildup.no-such-profile", with those there are.
    """
    if name is not None and name not in profiles(book):
        raise Unreadable(Fault("buildup.no-such-profile", at, name, ", ".join(profiles(book))))
    return name


def ruling(book: Book, subject: str, voice: str | None, **where: str) -> Ruled:
    """``book.rule``, but the voice named for this job goes before the firm's and the book's order.

    A local rule still rules: it lies on top of every voice.
    """
    ruled = book.rule(subject, **where)
    if voice is None or ruled.why == "local rule" or ruled.figure.voice == voice:
        return ruled
    for figure in ruled.others:
        if figure.voice == voice:
            others = (ruled.figure, *(f for f in ruled.others if f is not figure))
            return Ruled(figure, others, "firm follows")
    return ruled


def times(
    w: Working,
    book: Book,
    at: str,
    key: str,
    coat: CoatName,
    *,
    cure: str | None,
    doubled: bool,
    last: bool,
    own: OwnCoat | None,
) -> Times:
    """What one coat takes. ``doubled``: the next coat is doubled back on it; ``last``: no coat follows.

    Figures: IBC Table 2512.6, IRC R703.7, federal guide, bureaus and hands, as ``rulebook/curing.toml`` has them.
    """
    if doubled and not last:
        return _doubled(w, book, at, key, coat, own)
    notes: list[Note] = []
    moist_rule = ruling(book, "cure.moist", cure, coat=coat)
    moist = _low(w, f"{key}/moist", moist_rule.figure, "buildup.step.moist")
    notes += _of_moist(moist_rule, at, coat)
    if own is not None and own.moist is not None:
        notes.append(_departs("moist", at, coat, own.moist, moist, moist_rule.figure))
        moist = w.step(f"{key}/moist/his", "his", moist.unit, "buildup.step.his-time", his=Quantity(own.moist, _HOUR))
    if last:
        return Times(moist, None, None, tuple(notes))
    wait_rule = ruling(book, "cure.wait", cure, coat=coat)
    wait = w.step(
        f"{key}/wait",
        "max(wait, moist)",
        wait_rule.figure.unit,
        "buildup.step.wait",
        wait=wait_rule.figure,
        moist=moist,
    )
    notes += _of_wait(book, wait_rule, cure, at, coat)
    if own is not None and own.wait is not None:
        notes.append(_departs("wait", at, coat, own.wait, wait, wait_rule.figure))
        wait = w.step(f"{key}/wait/his", "his", wait.unit, "buildup.step.his-time", his=Quantity(own.wait, wait.unit))
    return Times(moist, wait, None, tuple(notes))


def _doubled(w: Working, book: Book, at: str, key: str, coat: str, own: OwnCoat | None) -> Times:
    figure = book.number("cure.double-back")
    rules = (figure.id, book.number("cure.double-back-rule").id)
    least = _low(w, f"{key}/wait", figure, "buildup.step.double-back-least")
    high = figure.high if figure.high is not None else figure.number
    most = w.step(
        f"{key}/wait/most",
        "most",
        figure.unit,
        "buildup.step.double-back-most",
        rules=(figure.id,),
        most=Quantity(high, figure.unit),
    )
    notes = [note("buildup.double-back-window", "caution", at, rules=rules, least=least, most=most)]
    if own is not None and own.wait is not None:
        notes.append(_departs("wait", at, coat, own.wait, least, figure))
        least = w.step(f"{key}/wait/his", "his", figure.unit, "buildup.step.his-time",
                       his=Quantity(own.wait, figure.unit))  # fmt: skip
        if not at_most(float(own.wait), float(most)):
            notes.append(note("buildup.double-back-late", "caution", at, rules=rules, his=least, most=most))
            most = least
    moist = None if own is None or own.moist is None else Quantity(own.moist, _HOUR)
    return Times(moist, least, most, tuple(notes))


def _low(w: Working, key: str, figure: Figure, says: str) -> Quantity:
    """The least a figure asks: its number, or the lower end of its range."""
    if figure.low is None:
        return w.step(key, "time", figure.unit, says, time=figure)
    return w.step(key, "time", figure.unit, says, rules=(figure.id,), time=Quantity(figure.low, figure.unit))


def _of_moist(ruled: Ruled, at: str, coat: str) -> list[Note]:
    figure = ruled.figure
    if figure.low is None or figure.high is None:
        return []
    low, high = (Quantity(x, figure.unit) for x in (figure.low, figure.high))
    values = {"coat": f"buildup.coat.{coat}", "low": low, "high": high}
    return [note("buildup.moist-span", "fact", at, rules=(figure.id,), **values)]


def _of_wait(book: Book, ruled: Ruled, cure: str | None, at: str, coat: str) -> list[Note]:
    figure = ruled.figure
    notes = []
    if cure is not None and cure != DOUBLE_BACK and figure.voice != cure and coat in _LAID:
        values = {"coat": f"buildup.coat.{coat}", "profile": cure, "by": figure.voice, "figure": figure}
        notes.append(note("buildup.cure-filled", "fact", at, rules=(figure.id,), **values))
    try:
        better = ruling(book, "cure.better", figure.voice, coat=coat).figure
    except KeyError:
        return notes
    if better.voice == figure.voice and better.low is not None and better.high is not None:
        low, high = (Quantity(x, better.unit) for x in (better.low, better.high))
        values = {"coat": f"buildup.coat.{coat}", "low": low, "high": high}
        notes.append(note("buildup.wait-better", "fact", at, rules=(better.id,), **values))
    return notes


def _departs(what: str, at: str, coat: str, his: Fraction | float, ours: Quantity, figure: Figure) -> Note:
    """He leaves a time. Shorter is a caution with what follows; longer harms nothing."""
    shorter = not at_most(float(ours), float(his))
    return note(
        f"buildup.departure.{what}-{'shorter' if shorter else 'longer'}",
        "caution" if shorter else "fact",
        at,
        rules=(figure.id,),
        coat=f"buildup.coat.{coat}",
        his=Quantity(his, ours.unit),
        figure=ours,
    )
