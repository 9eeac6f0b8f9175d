"""A page of answers on a terminal: a ruled head, rows, lines beneath. Plain text loses nothing."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

from darby.tables.page import Page

__all__ = ["Page", "print_line", "print_lines", "print_page"]

NARROWEST = 30
"""A line is never broken shorter than that, however deep it is indented."""


def print_page(out: Console, page: Page) -> None:
    """Print one page."""
    out.print()
    out.print(Text(page.title, style="bold"))
    for line in page.text:
        print_line(out, line, indent=2)
    if page.rows:
        out.print(_table(page))
    print_lines(out, page.lines)


def print_lines(out: Console, lines: Iterable[str]) -> None:
    """Lines with a dash before each; what is broken off stands under the words, not under the dash."""
    for line in lines:
        print_line(out, f"- {line}", indent=2, hang=2)


def print_line(out: Console, line: str, *, indent: int = 0, hang: int = 0, style: str = "", end: str = "") -> None:
    """One sentence, broken between words to the screen's width; ``end`` follows it, dim, where it fits."""
    wide = max(out.width - indent, NARROWEST)
    parts = textwrap.wrap(line, wide, subsequent_indent=" " * hang, break_long_words=False, break_on_hyphens=False) or [
        ""
    ]
    texts = [Text(" " * indent + part, style=style) for part in parts]
    if end:
        if len(texts[-1]) + 2 + len(end) <= out.width:
            texts[-1].append(f"  {end}", style="not bold dim")
        else:
            texts.append(Text(" " * (indent + hang) + end, style="dim"))
    for text in texts:
        out.print(text, soft_wrap=True)


def _table(page: Page) -> Table:
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False, padding=(0, 1), show_header=any(page.heads))
    for n, head in enumerate(page.heads):
        table.add_column(
            Text(head), justify="right" if n in page.right else "left", overflow="fold", no_wrap=n in page.whole
        )
    for row in page.rows:
        table.add_row(*(Text(cell, style="bold" if len(row) == 1 else "") for cell in row))
    if page.last:
        table.add_section()
        table.add_row(*(Text(cell, style="bold") for cell in page.last))
    return table
