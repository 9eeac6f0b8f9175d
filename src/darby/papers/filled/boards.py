"""Sample boards, filled from the answers: what was read of the old face, and a card for each board to write on."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from darby.finish import method_word, named
from darby.measure.units import unit
from darby.papers.filled.standing import SOFT, leaning
from darby.papers.filled.writer import Writer
from darby.papers.model import BoardCard, BoardPaper, Both, BothCaution, OldFace
from darby.words import Verbatim, day
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.finish import Board, Grade, Match, Sieve, Signed
    from darby.words import Language

FEET = unit("ft")

TO_THE_CREW = (
    "finish.paint-over-sand", "finish.stone", "finish.open-top", "finish.open-foot",
    "finish.no-relief", "finish.one-reading", "finish.few-readings", "finish.boards-decide", "finish.both-painted",
    "finish.new-side-bare",
)  # fmt: skip
"""Notes that the one who makes the boards has to know."""

DANGER = "finish.lead-chips"


def board_paper(writer: Writer) -> BoardPaper | None:
    """A sheet and its cards for every old face that was read; None if there is none."""
    found: dict[str, Match] = writer.answers.good("match")
    if not found:
        return None
    return BoardPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say("paper.boards.title", name=Verbatim(writer.answers.job.name)),
        faces=tuple(_face(writer, surface, match) for surface, match in found.items()),
        languages=writer.crew_languages,
    )


def _face(writer: Writer, surface: str, match: Match) -> OldFace:
    said = next((m.says for m in writer.answers.job.matches if m.surface == surface), "")
    danger = [n for n in match.notes if n.code == DANGER]
    return OldFace(
        wall=Both(writer.place(surface)),
        says=said,
        read=tuple(_read(writer, match)),
        tells=tuple((_method(writer, c.method), writer.both(c.tell))
                    for c in match.methods),
        notes=tuple(writer.both_note(n, "crew") for n in match.notes if n.code in TO_THE_CREW),
        varies=writer.both(f"finish.varies.{match.varies}"),
        order=writer.both("cli.match.order", order=Verbatim(", ".join(str(n) for n in match.order))),
        standing=_standing(writer, match),
        cards=tuple(_card(writer, match, board) for board in match.boards),
        cautions=(
            *(BothCaution(writer.both("paper.opening.finish.lead-chips"), writer.both_note(n, "crew")) for n in danger),
            BothCaution(writer.both("paper.opening.safety.cement"), writer.both("paper.tickets.cement")),
        ),
    )  # fmt: skip


def _standing(writer: Writer, match: Match) -> Both:
    """How sure the board's size, distance and light are, and the film, where they are not published."""
    ruled = {figure.standing for figure in (match.side, match.seen_from, match.light)}
    custom = next((s for s in SOFT if s in ruled), "")
    film = leaning(writer, match.paint.most) if match.paint is not None else ""

    def said(language: Language) -> str:
        texts = [("paper.boards.custom", custom), ("paper.boards.film", film)]
        return " ".join(
            writer.say(code, language, standing=Verbatim(writer.say(f"standing.{weakest}", language)))
            for code, weakest in texts
            if weakest
        )

    return Both(*(said(name) for name in writer.crew_languages))


def _read(writer: Writer, match: Match) -> list[tuple[Both, Both]]:
    """Grains coarse to fine, then depth, film, and the depth before paint."""
    rows = [(_between(writer, g), _both(writer, g.share)) for g in match.sand.grades]
    relief, paint = match.relief, match.paint
    if relief is not None:
        rows.append((writer.both("finish.mean"), writer.both("cli.match.span", low=relief.low, high=relief.high)))
        rows.append((writer.both("finish.valley"), _both(writer, relief.valley)))
    if paint is not None:
        rows.append((writer.both("cli.match.film"), writer.both("cli.match.span", low=paint.least, high=paint.most)))
    if paint is not None and match.before_least is not None:
        before = writer.both("cli.match.span", low=match.before_least, high=match.before_most)
        rows.append((writer.both("cli.match.before"), before))
    return rows


def _both(writer: Writer, value: object) -> Both:
    return Both(*(writer.write(value, name) for name in writer.crew_languages))


def _between(writer: Writer, grade: Grade) -> Both:
    if grade.fine is None:
        return writer.both("cli.match.under", sieve=named(grade.coarse) if grade.coarse is not None else "")
    if grade.coarse is None:
        return writer.both("cli.match.over", sieve=named(grade.fine))
    return _sand(writer, grade.fine, grade.coarse)


def _sand(writer: Writer, fine: Sieve, coarse: Sieve) -> Both:
    """Sand between two sieves, once: numbers are the same in every language."""
    return Both(f"{writer.write(named(fine))} – {writer.write(named(coarse))}")


def _method(writer: Writer, method: str) -> Both:
    words = (writer.write(method_word(method), name) for name in writer.crew_languages)
    return Both(*(f"{word[:1].upper()}{word[1:]}" for word in words))


def _card(writer: Writer, match: Match, board: Board) -> BoardCard:
    signed = match.signed
    return BoardCard(
        number=str(board.number),
        step=writer.both(f"paper.boards.step.{board.step.replace(' ', '-')}") if board.step else Both(""),
        sand=_sand(writer, board.fine, board.coarse),
        method=_method(writer, board.method),
        how=Both(board.own) if board.own else writer.both(board.how),
        thickness=writer.write(board.thickness),
        size=_size(writer, match),
        look=writer.both("paper.boards.look", seen=match.seen_from),
        signed=_signed(writer, signed) if signed is not None and board.signed else Both(""),
    )  # fmt: skip


def _signed(writer: Writer, signed: Signed) -> Both:
    """Who signed, and when, in what light, from how far, as far as that was said."""

    def said(language: Language) -> str:
        seen = Quantity(signed.off, FEET) if signed.off is not None else None
        more = (
            day(date.fromisoformat(signed.on), language, weekday=False) if signed.on else "",
            signed.light,
            writer.write(seen, language) if seen is not None else "",
        )
        whole = Verbatim(", ".join(filter(None, (signed.by, *more))))
        return writer.say("paper.boards.signed", language, whole=whole)

    return Both(*(said(name) for name in writer.crew_languages))


def _size(writer: Writer, match: Match) -> Both:
    def said(language: Language) -> str:
        return writer.say("paper.boards.size", language, side=match.side)

    return Both(*(said(name) for name in writer.crew_languages))
