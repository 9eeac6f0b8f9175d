"""The answer to a question in sections: what is said, what this job says of it, and who says so."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from darby.answers.asked import Asked, Here
from darby.tables.pages import gathered
from darby.tables.places import places
from darby.tables.setting import Setting
from darby.words import Verbatim, figure_where, source_words
from darby.words.asking import Filled, Told

if TYPE_CHECKING:
    from darby.answers import Answers

Section = tuple[str, list[str]]


def question_sections(filled: Filled, setting: Setting) -> list[Section]:
    """The answer, and what an apprentice should know besides."""
    return [(filled.answer, []), (setting.say("ask.apprentice", more=Verbatim(filled.more)), [])]


def fault_sections(filled: Filled, setting: Setting) -> list[Section]:
    """Causes with their standing, what tells them apart, the cure, the caution."""
    causes = []
    for cause in filled.causes:
        standing = f"standing.{cause.stands.figure.standing}" if cause.stands is not None else "ask.practice"
        causes.append(f"{cause.text} ({setting.say(standing)})")
    return [
        (setting.say("ask.causes"), causes),
        (setting.say("ask.checks"), list(filled.checks)),
        (setting.say("ask.cure"), [filled.cure]),
        (setting.say("ask.caution", caution=Verbatim(filled.caution)), []),
    ]


def here_lines(told: Asked, answers: Answers, setting: Setting) -> list[str]:
    """The job's own numbers and notes, place by place."""
    lines = _grouped((*told.on_day, *told.here), answers, setting) + gathered(told.notes, setting, answers)
    return [*lines, setting.say("ask.here.lacking")] if told.lacking else lines


def _grouped(rows: tuple[Here, ...], answers: Answers, setting: Setting) -> list[str]:
    """The same words at several places stand once, with the places."""
    ats: dict[str, list[str]] = {}
    for row in rows:
        ats.setdefault(row.says, []).append(row.at)
    named = {says: places(answers, at, setting) for says, at in ats.items()}
    return [f"{says} ({'; '.join(at)})" if at else says for says, at in named.items()]


def source_lines(told: Sequence[Told], setting: Setting) -> list[str]:
    """Who says so; the figures of one place in one publication stand in one line."""
    values: dict[str, list[str]] = {}
    for one in told:
        at = values.setdefault(_source(one, setting), [])
        if one.value and one.value not in at:
            at.append(one.value)
    return [f"{', '.join(at)}: {said}" if at else said for said, at in values.items() if said]


def _source(told: Told, setting: Setting) -> str:
    """The publication, the place in it and its standing; "" for a rule in words that nobody wrote down."""
    figure, source = told.figure, told.source
    standing = setting.say(f"standing.{figure.standing}")
    if figure.why:
        return setting.say("ask.told.local", why=Verbatim(figure.why))
    if figure.standing == "common practice":
        return standing if told.value else ""
    title, publisher, _ = source_words(source, setting.language)
    return f"{', '.join((title, publisher, figure_where(figure, setting.language)))}; {standing}"
