"""Old faces and sample boards as pages for a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.finish import method_word, named
from darby.tables.page import Page
from darby.tables.places import place
from darby.tables.setting import Setting
from darby.words import Verbatim

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.finish import Board, Grade, Match


def match_pages(answers: Answers, setting: Setting, *, alone: bool = False) -> list[Page]:
    """For every old face that was read: its grains and relief, what it may be, the boards to make.

    ``alone``: cautions stand here too, and it is said if there is none; among all pages they have a page of their own.
    """
    pages = []
    for surface, found in answers.good("match").items():
        name = Verbatim(place(answers, surface, setting))
        pages += [_face(found, name, setting, alone=alone), _boards(found, setting)]
    if alone and not pages:
        return [Page("match", setting.say("cli.part.match"), lines=(setting.say("cli.match.none"),))]
    return pages


def _face(found: Match, name: Verbatim, setting: Setting, *, alone: bool) -> Page:
    rows = [(_grade(grade, setting), setting.write(grade.share)) for grade in found.sand.grades]
    if found.sand.median is not None:
        rows.append((setting.say("finish.median"), setting.write(found.sand.median)))
    relief, paint = found.relief, found.paint
    if relief is not None:
        span = setting.say("cli.match.span", low=relief.low, high=relief.high)
        rows.append((setting.say("finish.mean"), f"{setting.write(relief.mean)} ({span})"))
        if relief.spread is not None:
            rows.append((setting.say("finish.spread"), setting.write(relief.spread)))
        rows.append((setting.say("finish.valley"), setting.write(relief.valley)))
    if paint is not None:
        rows.append((setting.say("cli.match.film"), setting.say("cli.match.span", low=paint.least, high=paint.most)))
        if found.before_least is not None:
            before = setting.say("cli.match.span", low=found.before_least, high=found.before_most)
            rows.append((setting.say("cli.match.before"), before))
    lines = tuple(setting.say(n.code, **dict(n.values)) for n in found.notes if alone or n.grade == "fact")
    heads = (setting.say("cli.match.read"), setting.say("cli.match.amount"))
    return Page("match", setting.say("cli.match.title", wall=name), heads, tuple(rows), lines=lines,
                right=frozenset({1}))  # fmt: skip


def _grade(grade: Grade, setting: Setting) -> str:
    if grade.fine is None:
        return setting.say("cli.match.under", sieve=named(grade.coarse) if grade.coarse is not None else "")
    if grade.coarse is None:
        return setting.say("cli.match.over", sieve=named(grade.fine))
    return setting.say("cli.match.between", fine=named(grade.fine), coarse=named(grade.coarse))


def _boards(found: Match, setting: Setting) -> Page:
    rows = tuple(_board(board, setting) for board in found.boards)
    heads = tuple(setting.say(f"cli.match.{head}") for head in ("board", "sand", "method", "thick", "how"))
    order = Verbatim(", ".join(str(n) for n in found.order))
    methods = [
        setting.say("cli.match.candidate", method=method_word(c.method), because=Verbatim(setting.say(c.because)),
                    tell=Verbatim(setting.say(c.tell)))
        for c in found.methods
    ]  # fmt: skip
    lines = (setting.say(f"finish.varies.{found.varies}"), setting.say("cli.match.order", order=order), *methods)
    return Page("match", setting.say("cli.match.boards"), heads, rows, lines=lines, right=frozenset({0, 3}))


def _board(board: Board, setting: Setting) -> tuple[str, ...]:
    sand = setting.say("cli.match.between", fine=named(board.fine), coarse=named(board.coarse))
    return (
        str(board.number),
        sand,
        setting.write(method_word(board.method)),
        setting.write(board.thickness),
        board.own or setting.say(board.how),
    )
