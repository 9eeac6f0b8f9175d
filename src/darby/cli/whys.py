"""`darby why`: the line of working behind a number, what it stands on, and who says so."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from rich.console import Console
from rich.text import Text
from rich.tree import Tree

from darby.cli.setting import Setting
from darby.cli.tables import print_line
from darby.tables.pages import note_line
from darby.tables.places import place
from darby.tables.standing import figure_of, others_line, rule_line, said, way_of, ways_not_chosen
from darby.words import measured, unit_names, written
from darby.working import Found, Quantity, Step, Working
from darby.working.printing import Explained, explain, line

if TYPE_CHECKING:
    from darby.answers import Answers


def print_whys(out: Console, answers: Answers, key: str, setting: Setting) -> bool:
    """Print the step called ``key`` with all it stands on, or every step and note below it. False if there is none."""
    working = answers.working
    key = called(answers, key)
    if key in working.steps:
        out.print(_Tree(answers, working, setting).of(key))
        return True
    return _list(out, answers, working, key, setting)


def called(answers: Answers, key: str) -> str:
    """The key; or the id of the surface that is called so ("Roof parapet")."""
    by_name = {s.name.casefold(): s.id for s in answers.job.surfaces}
    return by_name.get(key.casefold(), key)


def nearest(answers: Answers, key: str) -> list[str]:
    """Keys and places that look like ``key``."""
    keys = [step.key for step in answers.steps()]
    places = {"/".join(k.split("/")[:n]) for k in keys for n in (1, 2)}
    return get_close_matches(key, sorted({*keys, *places}), n=3)


# --- one number ----------------------------------------------------------------------------------------


class _Tree:
    """A number as a tree down to what was measured; a source is named in full where it first stands."""

    def __init__(self, answers: Answers, working: Working, setting: Setting) -> None:
        self.answers, self.working, self.setting = answers, working, setting
        self.cited: set[str] = set()

    def of(self, key: str) -> Tree:
        """The whole tree of a step."""
        top = explain(self.working, key, self.setting.system, unit_names(self.setting.language))
        tree = Tree(self.label(top, ""))
        self.grow(tree, top)
        return tree

    def grow(self, tree: Tree, found: Explained) -> None:
        """Add what ``found`` stands on."""
        for below in found.after:
            self.grow(tree.add(self.label(below, found.key)), below)

    def label(self, found: Explained, above: str) -> Text:
        """Title and value; where, if that is another place than above; the line; who says so."""
        text = Text(f"{self.setting.say(found.says)}: {found.value}", style="bold")
        where = place(self.answers, found.key, self.setting) if above else ""
        if not above:
            text.append(f"  [{found.key}]", style="not bold dim")
        elif where and where != place(self.answers, above, self.setting):
            text.append(f"  ({where})", style="not bold")
        lines = (
            [self.setting.say(found.method), *_proof(found.proof, self.setting)] if found.method else said(found.line)
        )
        if found.again:
            lines.append(self.setting.say("cli.why.again"))
        for part in lines:
            text.append(f"\n{part}", style="not bold")
        for rule in () if found.again else dict.fromkeys(found.rules):
            first = rule not in self.cited
            text.append(f"\n{rule_line(self.answers, rule, self.setting, self.cited)}", style="not bold dim")
            if first and (others := others_line(self.answers, rule, self.setting)):
                text.append(f"\n{others}", style="not bold dim")
        return text


# --- all numbers of a place ----------------------------------------------------------------------------


def _list(out: Console, answers: Answers, working: Working, key: str, setting: Setting) -> bool:
    below = [k for k in working.steps if not key or k.startswith(f"{key}/")]
    notes = list(dict.fromkeys(n for n in answers.notes if not key or n.at == key or n.at.startswith(f"{key}/")))
    if not below and not notes:
        return False
    ways = ways_not_chosen(answers)
    hidden = {k: way for k in below for way in [way_of(k)] if way in ways and not f"{key}/".startswith(f"{way}/")}
    cited: set[str] = set()
    heading = ""
    for name in below:
        if name in hidden:
            continue
        where = place(answers, name, setting)
        if where != heading:
            heading = where
            out.print()
            out.print(Text(where or answers.job.name, style="bold"))
        _print_step(out, answers, working.steps[name], setting, cited)
    if notes:
        out.print()
        out.print(Text(setting.say("cli.why.notes"), style="bold"))
    for note in notes:
        where = place(answers, note.at, setting)
        at = f" ({where})" if where and where != place(answers, key, setting) else ""
        said = note_line(note, setting, answers)
        print_line(out, f"- {setting.say(f'grade.{note.grade}')}: {said}{at}", indent=2, hang=2)
        _print_rules(out, answers, note.rules, setting, cited)
    if hidden:
        out.print()
        print_line(out, setting.say("cli.why.ways", ways=", ".join(dict.fromkeys(hidden.values()))))
    return True


def _print_step(out: Console, answers: Answers, step: Step | Found, setting: Setting, cited: set[str]) -> None:
    print_line(out, setting.say(step.says), indent=2, end=f"[{step.key}]")
    if isinstance(step, Found):
        value = written(Quantity(step.value, step.unit), setting.language, setting.system)
        lines = [f"{value}: {setting.say(step.method)}", *_proof(step.proof, setting)]
    else:
        lines = said(line(step, setting.system, unit_names(setting.language)), alone=not step.rules)
    for text in lines:
        print_line(out, text, indent=6, hang=2)
    _print_rules(out, answers, step.rules, setting, cited)


def _proof(proof: tuple[str, ...], setting: Setting) -> list[str]:
    return [measured(text, setting.language) for text in proof]


def _print_rules(out: Console, answers: Answers, ids: tuple[str, ...], setting: Setting, cited: set[str]) -> None:
    for rule in dict.fromkeys(ids):
        first = rule not in cited
        print_line(out, rule_line(answers, rule, setting, cited), indent=6, hang=2, style="dim")
        figure = figure_of(answers, rule)
        if first and figure is not None and figure.why:
            print_line(out, others_line(answers, rule, setting), indent=6, hang=2, style="dim")
