"""`darby rules`: what the trade says on a subject, who says it, how sure that is, and which voice rules."""

from __future__ import annotations

import json
from collections.abc import Sequence

from rich.console import Console

from darby.cli.setting import Setting
from darby.cli.tables import Page, print_page
from darby.rulebook import Book, Figure, default, search
from darby.words import written


def print_rules(out: Console, words: Sequence[str], show: str | None, setting: Setting, *, as_json: bool) -> bool:
    """Print the figures that hold all ``words``, or the one called ``show``. False if there is none."""
    book = default()
    if show is not None:
        figure = book.figures.get(show)
        figures = [figure] if figure is not None else list(search(book, [show]))[:1]
    else:
        figures = list(search(book, list(words))) if words else list(book)
    if not figures:
        return False
    if as_json:
        out.print_json(json.dumps([_plain(book, f) for f in figures]))
    elif show is not None:
        _show(out, book, figures[0], setting)
    else:
        print_page(out, _list(book, figures, setting))
    return True


def _list(book: Book, figures: Sequence[Figure], setting: Setting) -> Page:
    rows = tuple((f.id, _value(f, setting), f.says, setting.say(f"standing.{f.standing}")) for f in figures)
    heads = tuple(setting.say(f"cli.rules.{head}") for head in ("id", "value", "says", "standing"))
    lines = (setting.say("cli.rules.count", count=str(len(figures)), version=book.version),)
    return Page("rules", setting.say("cli.rules.title"), heads, rows, lines=lines)


def _show(out: Console, book: Book, figure: Figure, setting: Setting) -> None:
    source = book.sources[figure.source]
    rows = [
        ("value", _value(figure, setting)),
        ("says", figure.says),
        ("source", ", ".join(part for part in (source.title, source.publisher, source.year) if part)),
        ("where", figure.where),
        ("address", source.address),
        ("standing", setting.say(f"standing.{figure.standing}")),
    ]
    where = "; ".join(f"{kind}: {', '.join(sorted(allowed))}" for kind, allowed in figure.applies.items())
    rows += [("applies", where)] if where else []
    ruled = book.rule(figure.subject, **{kind: min(allowed) for kind, allowed in figure.applies.items()})
    rows.append(("rules", f"{ruled.figure.id} ({setting.say(f'ruled.{ruled.why}')})"))
    named = tuple((setting.say(f"cli.rules.{name}"), value) for name, value in rows if value)
    others = [f for f in (ruled.figure, *ruled.others) if f.id != figure.id]
    lines = tuple(f"{f.id}: {_value(f, setting)}, {setting.say(f'standing.{f.standing}')}" for f in others)
    print_page(out, Page("rules", figure.id, ("", ""), named))
    if lines:
        print_page(out, Page("rules", setting.say("cli.rules.others"), lines=lines))


def _value(figure: Figure, setting: Setting) -> str:
    return figure.written if figure.kind == "rule" else written(figure, setting.language, setting.system)


def _plain(book: Book, figure: Figure) -> dict[str, object]:
    source = book.sources[figure.source]
    return {
        "id": figure.id, "subject": figure.subject, "value": figure.written, "says": figure.says,
        "standing": figure.standing, "voice": figure.voice, "where": figure.where,
        "source": {
            "title": source.title, "publisher": source.publisher, "year": source.year, "address": source.address,
        },
        "applies": {kind: sorted(allowed) for kind, allowed in figure.applies.items()},
    }  # fmt: skip
