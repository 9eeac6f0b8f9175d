"""One old face to its sample boards: what was read, what it may have been, what to try, what has to be known."""

from __future__ import annotations

from darby.finish.boards import boards_of, candidates, method_word, named, order_of
from darby.finish.grading import graded
from darby.finish.model import Match, MatchAsk, Paint, Relief, Sand
from darby.finish.relief import before_paint, paint_of, relief_of
from darby.measure.limits import at_most
from darby.working.model import Working


def match(ask: MatchAsk) -> tuple[Match, Working]:
    """The old face in numbers, and three boards that bracket it.

    Raises
    ------
    Unreadable
        "finish.no-grains" if nothing was sieved or compared.
    """
    working = Working()
    sand = graded(ask, working)
    relief, paint = relief_of(ask, working), paint_of(ask, working)
    least, most = before_paint(ask, relief, paint, working)
    _sand_notes(ask, sand, working)
    _relief_notes(ask, relief, working)
    if paint is not None:
        _paint_notes(ask, paint, relief, working)
    methods = candidates(ask, sand, least, working)
    boards, varies = boards_of(ask, sand, methods[0].method, most, working)
    _wanted_notes(ask, sand, working)
    book = ask.book
    light, seen = book.number("match.view-light"), book.number("match.view-from")
    working.note("finish.boards-decide", "caution" if ask.painted else "fact", ask.at, rules=(seen.id, light.id),
                 seen=seen)  # fmt: skip
    if ask.new_painted is not None:
        code = "both-painted" if ask.new_painted else "new-side-bare"
        working.note(f"finish.{code}", "fact" if ask.new_painted else "caution", ask.at)
    if ask.signed is not None:
        working.note("finish.signed", "fact", ask.at, board=ask.signed.board, by=ask.signed.by)
    answer = Match(
        at=ask.at, sand=sand, relief=relief, paint=paint, before_least=least, before_most=most, methods=methods,
        boards=boards, order=order_of(ask, boards), varies=varies, side=book.number("match.board-side"),
        seen_from=seen, light=light, signed=ask.signed, notes=tuple(working.notes),
    )  # fmt: skip
    return answer, working


def _sand_notes(ask: MatchAsk, sand: Sand, working: Working) -> None:
    largest, common = sand.largest, sand.common
    if largest.coarse is not None and largest.fine is not None:
        working.note("finish.by-opening", "fact", ask.at, rules=(sand.least.id,), fine=named(largest.fine),
                     coarse=named(largest.coarse), share=largest.share, least=sand.least)  # fmt: skip
    elif largest.fine is not None:
        working.note("finish.open-top", "caution", ask.at, fine=named(largest.fine), share=largest.share)
    elif largest.coarse is not None:
        working.note("finish.open-foot", "caution", ask.at, coarse=named(largest.coarse), share=largest.share)
    if common is not largest and common.fine is not None and common.coarse is not None:
        working.note("finish.common-differs", "fact", ask.at, fine=named(common.fine), coarse=named(common.coarse),
                     share=common.share)  # fmt: skip


def _relief_notes(ask: MatchAsk, relief: Relief | None, working: Working) -> None:
    few = ask.book.number("match.readings")
    if relief is None:
        working.note("finish.no-relief", "caution", ask.at)
        return
    no_patch = ask.book.number("match.no-patch")
    working.note(f"finish.read-by-{ask.read_by}", "fact", ask.at, rules=(no_patch.id,))
    if relief.count == 1:
        working.note("finish.one-reading", "caution", ask.at, rules=(few.id,), enough=few)
    elif not at_most(few.number, relief.count):
        working.note("finish.few-readings", "caution", ask.at, rules=(few.id,), count=relief.count, enough=few,
                     low=relief.low, high=relief.high)  # fmt: skip


def _paint_notes(ask: MatchAsk, paint: Paint, relief: Relief | None, working: Working) -> None:
    working.note("finish.paint-over-sand", "caution", ask.at, least=paint.least, most=paint.most)
    if relief is not None:
        working.note("finish.film-model", "fact", ask.at, least=paint.least, most=paint.most)
    year = ask.book.number("safety.lead.year")
    working.note("finish.lead-chips", "caution", ask.at, rules=(year.id,), year=str(round(year.number)))


def _wanted_notes(ask: MatchAsk, sand: Sand, working: Working) -> None:
    """Where the job puts on something else than what was read."""
    if ask.looks is not None and ask.looks != ask.wanted:
        working.note("finish.other-finish", "caution", ask.at, looks=method_word(ask.looks),
                     wanted=method_word(ask.wanted))  # fmt: skip
    if ask.wanted_sand is None:
        return
    largest, figure = sand.largest, ask.book.number("finish.sand", sand=ask.wanted_sand)
    if largest.coarse is not None and (
        not at_most(figure.number if figure.low is None else figure.low, largest.coarse.opening)
        or (largest.fine is not None and at_most(figure.number if figure.high is None else figure.high,
                                                 largest.fine.opening))
    ):  # fmt: skip
        working.note("finish.other-sand", "caution", ask.at, rules=(figure.id,), wanted=figure,
                     coarse=named(largest.coarse))  # fmt: skip
