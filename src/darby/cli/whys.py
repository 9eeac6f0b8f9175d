"""`darby why`: the line of working behind a number, what it stands on, and who says so."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from rich.console import Console
from rich.text import Text
from rich.tree import Tree

from darby.cli.pages import note_line
from darby.cli.places import place
from darby.cli.setting import Setting
from darby.cli.tables import print_line
from darby.words import Verbatim, unit_names, written
from darby.working import Found, Quantity, Step, Working
from darby.working.printing import Explained, explain, line

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.rulebook import Figure

WAYS = "build-up"
"""Steps of a way to build it up are called "<surface>/<zone>/build-up/<way>/..."."""


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
        lines = [self.setting.say(found.method), *found.proof] if found.method else _said(found.line)
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
    ways = _ways_not_chosen(answers)
    hidden = {k: way for k in below for way in [_way(k)] if way in ways and not f"{key}/".startswith(f"{way}/")}
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


def _ways_not_chosen(answers: Answers) -> set[str]:
    return {
        f"{surface}/{zone}/{WAYS}/{option.id}"
        for surface, coats in answers.good("coats").items()
        for zone, built in coats.zones
        for option in built.options
        if option.id != built.chosen.id
    }


def _way(key: str) -> str:
    """ "bay-south/rest/build-up/two-coat" of a key below it, else ""."""
    parts = key.split("/")
    at = parts.index(WAYS) if WAYS in parts else len(parts)
    return "/".join(parts[: at + 2]) if at + 2 <= len(parts) else ""


def _print_step(out: Console, answers: Answers, step: Step | Found, setting: Setting, cited: set[str]) -> None:
    print_line(out, setting.say(step.says), indent=2, end=f"[{step.key}]")
    if isinstance(step, Found):
        value = written(Quantity(step.value, step.unit), setting.language, setting.system)
        lines = [f"{value}: {setting.say(step.method)}", *step.proof]
    else:
        lines = _said(line(step, setting.system, unit_names(setting.language)), alone=not step.rules)
    for text in lines:
        print_line(out, text, indent=6, hang=2)
    _print_rules(out, answers, step.rules, setting, cited)


def _print_rules(out: Console, answers: Answers, ids: tuple[str, ...], setting: Setting, cited: set[str]) -> None:
    for rule in dict.fromkeys(ids):
        first = rule not in cited
        print_line(out, rule_line(answers, rule, setting, cited), indent=6, hang=2, style="dim")
        figure = _figure(answers, rule)
        if first and figure is not None and figure.why:
            print_line(out, others_line(answers, rule, setting), indent=6, hang=2, style="dim")


def _said(text: str, *, alone: bool = False) -> list[str]:
    """A line of working. One that only repeats a number is left to its source; ``alone``: it has none."""
    left, equals, right = text.partition(" = ")
    if not equals or left != right:
        return [text]
    return [right] if alone else []


# --- who says so ---------------------------------------------------------------------------------------


def rule_line(answers: Answers, figure_id: str, setting: Setting, cited: set[str]) -> str:
    """Who says so: value, title, place, standing and id of a figure; its id alone where it stands in ``cited``."""
    figure = _figure(answers, figure_id)
    if figure is None:
        return figure_id
    value = _value(figure, setting)
    if figure_id in cited:
        said = setting.say("cli.why.cited")
        return f"{said} [{figure_id}]" if figure.kind == "rule" else f"{value}: {said} [{figure_id}]"
    cited.add(figure_id)
    source = answers.book.sources.get(figure.source)
    title = source.title if source is not None else figure.source
    standing = setting.say(f"standing.{figure.standing}")
    said = f"{value}: {title}, {figure.where}; {standing}"
    return f"{said}. {figure.why} [{figure_id}]" if figure.why else f"{said} [{figure_id}]"


def others_line(answers: Answers, figure_id: str, setting: Setting) -> str:
    """What the other voices say that could speak of the same place, in the book's order; "" where all say the same."""
    figure = _figure(answers, figure_id)
    if figure is None or figure.kind == "rule":
        return ""
    said = {f.id: _value(f, setting) for f in answers.book.on(figure.subject) if f is not figure and _like(f, figure)}
    if set(said.values()) <= {_value(figure, setting)}:
        return ""
    others = ", ".join(f"{value} [{id.removeprefix(figure.subject).lstrip('.')}]" for id, value in said.items())
    return setting.say("cli.why.others", others=Verbatim(others))


def _like(one: Figure, other: Figure) -> bool:
    return all(not places.isdisjoint(other.applies.get(kind, places)) for kind, places in one.applies.items())


def _figure(answers: Answers, figure_id: str) -> Figure | None:
    try:
        return answers.book[figure_id]
    except KeyError:
        return None


def _value(figure: Figure, setting: Setting) -> str:
    return figure.written if figure.kind == "rule" or not figure.unit.name else setting.write(figure)
