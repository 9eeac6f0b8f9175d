"""`darby ask`: the answer to a question as it is said at the wall, and who says so beneath it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from rich.console import Console

from darby.answers.asked import Asked, ask
from darby.cli.setting import Setting
from darby.cli.tables import print_line, print_lines
from darby.tables.said import fault_sections, here_lines, question_sections, source_lines
from darby.words.asking import Filled, Hit

if TYPE_CHECKING:
    from darby.answers import Answers


def asked(
    words: Sequence[str], answers: Answers | None, setting: Setting, *, es: bool, at: str
) -> tuple[Asked, Setting]:
    """What is said to ``words``, and the setting to print it in: Spanish if asked for, else the question's language.

    Raises
    ------
    KeyError
        if the job has no surface called ``at``.
    """
    told = ask(
        " ".join(words),
        answers=answers,
        language="es" if es else None,
        prefer=setting.language,
        system=setting.system,
        at=at,
    )
    return told, Setting(told.language, setting.system)


def print_asked(out: Console, told: Asked, answers: Answers | None, setting: Setting) -> None:
    """Print an answer, the job's own numbers, who says so, and what else may have been meant."""
    filled = told.filled
    if filled is None:
        print_line(out, setting.say("ask.nothing"))
        _titles(out, setting.say("ask.nearest"), told.found.nearest, setting)
        return
    print_line(out, filled.title, style="bold")
    for section in question_sections(filled, setting) if filled.kind == "question" else fault_sections(filled, setting):
        _section(out, *section)
    if told.reckoned:
        _section(out, setting.say("ask.sum"), [told.reckoned])
    if answers is not None:
        _section(out, setting.say("ask.here"), here_lines(told, answers, setting))
    if filled.drawing:
        _section(out, setting.say(f"ask.drawing.{filled.drawing}"))
    sources = source_lines(filled.told, setting)
    _section(out, setting.say("ask.told"), [*sources, setting.say("ask.told.rest")])
    _titles(out, setting.say("ask.or"), told.found.hits[1:], setting)


def _section(out: Console, head: str, lines: Sequence[str] = ()) -> None:
    """A head, or a sentence of its own, and the lines beneath; nothing where a head has none."""
    if lines or head[-1:] in ".!?":
        out.print()
        print_line(out, head)
        print_lines(out, lines)


def _titles(out: Console, head: str, hits: Sequence[Hit], setting: Setting) -> None:
    if hits:
        _section(out, head, [hit.entry.said[setting.language].asked[0] for hit in hits])


# --- for a program -------------------------------------------------------------------------------------


def plain(told: Asked, setting: Setting) -> dict[str, Any]:
    """The answer as a document: what was found and why, what is said, and every figure behind it."""
    filled = told.filled
    return {
        "typed": told.typed,
        "language": told.language,
        "found": [_hit(hit, setting) for hit in told.found.hits],
        "nearest": [_hit(hit, setting) for hit in told.found.nearest],
        "answer": _plain_filled(filled) if filled is not None else None,
        "reckoned": told.reckoned,
        "here": [{"at": row.at, "says": row.says} for row in (*told.on_day, *told.here)],
        "lacking": told.lacking,
        "notes": [
            {"at": note.at, "grade": note.grade, "code": note.code, "says": setting.say(note.code, **dict(note.values))}
            for note in told.notes
        ],
    }


def _hit(hit: Hit, setting: Setting) -> dict[str, Any]:
    return {
        "id": hit.entry.id,
        "title": hit.entry.said[setting.language].asked[0],
        "score": round(hit.score, 3),
        "because": [{"typed": met.typed, "word": met.word, "how": met.how} for met in hit.because],
    }


def _plain_filled(filled: Filled) -> dict[str, Any]:
    said: dict[str, Any] = {"id": filled.id, "kind": filled.kind, "title": filled.title}
    if filled.kind == "question":
        said |= {"answer": filled.answer, "more": filled.more}
    else:
        causes = [
            {"says": c.text, "figure": c.stands.figure.id if c.stands else None,
             "standing": c.stands.figure.standing if c.stands else "common practice"}
            for c in filled.causes
        ]  # fmt: skip
        said |= {"causes": causes, "checks": list(filled.checks), "cure": filled.cure, "caution": filled.caution}
    figures = [
        {"id": t.figure.id, "value": t.value or None, "standing": t.figure.standing, "source": t.source.title,
         "publisher": t.source.publisher, "where": t.figure.where, "why": t.figure.why or None}
        for t in filled.told
    ]  # fmt: skip
    return said | {"figures": figures, "drawing": filled.drawing or None}
