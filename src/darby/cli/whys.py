"""`darby why`: the line of working behind a number, what it stands on, and who says so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Console
from rich.text import Text
from rich.tree import Tree

from darby.cli.setting import Setting
from darby.words import unit_names, written
from darby.working import Found, Note
from darby.working.printing import Explained, explain, line

if TYPE_CHECKING:
    from darby.answers import Answers


def print_whys(out: Console, answers: Answers, key: str, setting: Setting) -> bool:
    """Print the step called ``key`` with all it stands on, or every step and note below it. False if there is none."""
    working = answers.working
    if key in working.steps:
        out.print(_tree(answers, explain(working, key, setting.system, unit_names(setting.language)), setting))
        return True
    below = [k for k in working.steps if not key or k == key or k.startswith(f"{key}/")]
    notes = [n for n in answers.notes if not key or n.at == key or n.at.startswith(f"{key}/")]
    if not below and not notes:
        return False
    for name in below:
        step = working.steps[name]
        text = line(step, setting.system, unit_names(setting.language))
        out.print(Text(f"{setting.say(step.says)}  [{name}]", style="bold"))
        for part in text.splitlines():
            out.print(Text(f"    {part}"))
        if not isinstance(step, Found):
            _print_rules(out, answers, step.rules, setting)
    for note in _once(notes):
        said = f"{setting.say(f'grade.{note.grade}')}: {setting.say(note.code, **dict(note.values))}"
        out.print(Text(f"{said}  [{note.at}]"))
        _print_rules(out, answers, note.rules, setting)
    return True


def _once(notes: list[Note]) -> list[Note]:
    return list(dict.fromkeys(notes))


def _print_rules(out: Console, answers: Answers, ids: tuple[str, ...], setting: Setting) -> None:
    for said in dict.fromkeys(rule_line(answers, i, setting) for i in ids):
        out.print(Text(f"      {said}", style="dim"))


def rule_line(answers: Answers, figure_id: str, setting: Setting) -> str:
    """Who says so: value, title, place and standing of a figure."""
    figure = next((f for f in answers.book.local if f.id == figure_id), None) or answers.book.figures.get(figure_id)
    if figure is None:
        return figure_id
    value = figure.written if figure.kind == "rule" else written(figure, setting.language, setting.system)
    source = answers.book.sources.get(figure.source)
    title = source.title if source is not None else figure.source
    return f"{figure.id}: {value}; {title}, {figure.where}; {setting.say(f'standing.{figure.standing}')}"


def _tree(answers: Answers, top: Explained, setting: Setting) -> Tree:
    tree = Tree(_label(answers, top, setting))
    _grow(tree, answers, top, setting)
    return tree


def _grow(tree: Tree, answers: Answers, found: Explained, setting: Setting) -> None:
    for below in found.after:
        _grow(tree.add(_label(answers, below, setting)), answers, below, setting)


def _label(answers: Answers, found: Explained, setting: Setting) -> Text:
    text = Text()
    text.append(f"{setting.say(found.says)}: {found.value}", style="bold")
    text.append(f"  [{found.key}]\n")
    text.append(f"{found.line}" if found.line else "")
    for said in dict.fromkeys(rule_line(answers, i, setting) for i in found.rules):
        text.append(f"\n{said}", style="dim")
    return text
