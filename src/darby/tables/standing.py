"""What stands behind a number: its line of working, and who says so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.tables.setting import Setting
from darby.words import Verbatim, figure_value, figure_where, source_words

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.rulebook import Figure

WAYS = "build-up"
"""Steps of a way to build it up are called "<surface>/<zone>/build-up/<way>/..."."""


def said(text: str, *, alone: bool = False) -> list[str]:
    """A line of working. One that only repeats a number is left to its source; ``alone``: it has none."""
    left, equals, right = text.partition(" = ")
    if not equals or left != right:
        return [text]
    return [right] if alone else []


def ways_not_chosen(answers: Answers) -> set[str]:
    """Keys of the ways to build it up that were not chosen."""
    return {
        f"{surface}/{zone}/{WAYS}/{option.id}"
        for surface, coats in answers.good("coats").items()
        for zone, built in coats.zones
        for option in built.options
        if option.id != built.chosen.id
    }


def way_of(key: str) -> str:
    """ "bay-south/rest/build-up/two-coat" of a key below it, else ""."""
    parts = key.split("/")
    at = parts.index(WAYS) if WAYS in parts else len(parts)
    return "/".join(parts[: at + 2]) if at + 2 <= len(parts) else ""


def rule_line(answers: Answers, figure_id: str, setting: Setting, cited: set[str]) -> str:
    """Who says so: value, title, place, standing and id of a figure; its id alone where it stands in ``cited``."""
    figure = figure_of(answers, figure_id)
    if figure is None:
        return figure_id
    value = figure_value(figure, setting.language, setting.system)
    if figure_id in cited:
        said = setting.say("cli.why.cited")
        return f"{said} [{figure_id}]" if figure.kind == "rule" else f"{value}: {said} [{figure_id}]"
    cited.add(figure_id)
    if figure.why:
        return f"{value}: {setting.say('ask.told.local', why=Verbatim(figure.why))} [{figure_id}]"
    source = answers.book.source_of(figure)
    standing = setting.say(f"standing.{figure.standing}")
    said = figure_where(figure, setting.language)
    if source.address or figure.standing != "common practice":  # else its title says no more than its standing does
        said = f"{source_words(source, setting.language)[0]}, {said}"
    return f"{value}: {said}; {standing} [{figure_id}]"


def others_line(answers: Answers, figure_id: str, setting: Setting) -> str:
    """What the other voices say that could speak of the same place, in the book's order; "" where all say the same."""
    figure = figure_of(answers, figure_id)
    if figure is None or figure.kind == "rule":
        return ""
    language, system = setting.language, setting.system
    voices = (f for f in answers.book.on(figure.subject) if f is not figure and _like(f, figure))
    said = {f.id: figure_value(f, language, system) for f in voices}
    if set(said.values()) <= {figure_value(figure, language, system)}:
        return ""
    others = ", ".join(f"{value} [{id.removeprefix(figure.subject).lstrip('.')}]" for id, value in said.items())
    return setting.say("cli.why.others", others=Verbatim(others))


def _like(one: Figure, other: Figure) -> bool:
    return all(not places.isdisjoint(other.applies.get(kind, places)) for kind, places in one.applies.items())


def figure_of(answers: Answers, figure_id: str) -> Figure | None:
    """The figure of that id, if the rule book has it."""
    try:
        return answers.book[figure_id]
    except KeyError:
        return None
