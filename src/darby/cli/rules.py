"""`darby rules`: what the trade says on a subject, who says it, how sure that is, and which voice rules."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import partial
from textwrap import wrap

from rich.console import Console

from darby.cli.setting import Setting
from darby.cli.tables import Page, print_page
from darby.rulebook import Book, Entry, Figure, default, search, show
from darby.words import figure_applies, figure_says, figure_value, figure_where, source_words

WIDEST = 26
"""A value in more letters than this is a rule in words, and stands among the words."""
NARROW = 20
"""Standings are broken to so many letters."""


def print_rules(out: Console, words: Sequence[str], name: str | None, setting: Setting, *, as_json: bool) -> bool:
    """Print the figures that hold all ``words``, or all that is said on ``name``. False if there is nothing."""
    book = default()
    entries: tuple[Entry, ...] = ()
    if name is not None:
        entries = _entries(book, name, setting)
        figures = [entry.figure for entry in entries]
    else:
        figures = list(search(book, list(words), partial(_read, setting=setting))) if words else list(book)
    if not figures:
        return False
    if as_json:
        out.file.write(json.dumps([_plain(book, f) for f in figures], ensure_ascii=False, indent=2) + "\n")
    elif entries:
        _show(out, entries, setting)
    else:
        print_page(out, _list(book, figures, setting))
    return True


def _entries(book: Book, name: str, setting: Setting) -> tuple[Entry, ...]:
    """All voices on the figure or subject called ``name``, else on the first that holds its words."""
    try:
        return show(book, name).entries
    except KeyError:
        found = search(book, name, partial(_read, setting=setting))
        return show(book, found[0].id).entries if found else ()


def _read(figure: Figure, *, setting: Setting) -> str:
    """What a person reads of a figure, to look it up by."""
    language = setting.language
    said = (figure_value(figure, language, setting.system), figure_says(figure, language))
    return " ".join((*said, figure_where(figure, language), figure_applies(figure, language)))


def _list(book: Book, figures: Sequence[Figure], setting: Setting) -> Page:
    rows = tuple(_row(f, setting) for f in figures)
    heads = tuple(setting.say(f"cli.rules.{head}") for head in ("value", "says", "standing"))
    lines = (setting.say("cli.rules.count", count=str(len(figures)), version=book.version),)
    return Page("rules", setting.say("cli.rules.title"), heads, rows, text=lines)


def _row(figure: Figure, setting: Setting) -> tuple[str, str, str]:
    value, says = figure_value(figure, setting.language, setting.system), figure_says(figure, setting.language)
    if len(value) > WIDEST:
        value, says = "", f"{says}: {value}"
    standing = "\n".join(wrap(setting.say(f"standing.{figure.standing}"), NARROW, break_on_hyphens=False))
    return value, f"{says}\n[{figure.id}]", standing


def _show(out: Console, entries: Sequence[Entry], setting: Setting) -> None:
    entry, *others = entries
    figure, source = entry.figure, entry.source
    rows = [
        ("value", figure_value(figure, setting.language, setting.system)),
        ("says", figure_says(figure, setting.language)),
        ("source", ", ".join(part for part in source_words(source, setting.language) if part)),
        ("where", figure_where(figure, setting.language)),
        ("address", source.address),
        ("standing", setting.say(entry.standing)),
        ("applies", figure_applies(figure, setting.language)),
        ("rules", setting.say(f"ruled.{entry.why}") if entry.rules else setting.say("cli.rules.does-not")),
    ]
    named = tuple((setting.say(f"cli.rules.{name}"), value) for name, value in rows if value)
    print_page(out, Page("rules", figure.id, ("", ""), named, whole=frozenset({0})))
    if others:
        lines = tuple(_other(other, setting) for other in others)
        print_page(out, Page("rules", setting.say("cli.rules.others"), lines=lines))


def _other(entry: Entry, setting: Setting) -> str:
    value = figure_value(entry.figure, setting.language, setting.system)
    title = source_words(entry.source, setting.language)[0]
    said = f"{value}: {title}; {setting.say(entry.standing)} [{entry.figure.id}]"
    return f"{said}. {setting.say('cli.rules.does')}" if entry.rules else said


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
