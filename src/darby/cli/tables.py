"""A page of answers on a terminal: a ruled head, rows, notes beneath. Plain text loses nothing."""

from __future__ import annotations

from dataclasses import dataclass

from rich import box
from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text


@dataclass(frozen=True, slots=True)
class Page:
    """What one stage says: title, heads, rows, a last row ruled off, lines beneath."""

    stage: str
    title: str
    heads: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    last: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()
    right: frozenset[int] = frozenset()


def print_page(out: Console, page: Page) -> None:
    """Print one page."""
    out.print()
    out.print(Text(page.title, style="bold"))
    if page.rows:
        out.print(_table(page))
    for line in page.lines:
        out.print(Padding(Text(f"- {line}"), (0, 0, 0, 2)))


def _table(page: Page) -> Table:
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False, padding=(0, 1), show_header=any(page.heads))
    for n, head in enumerate(page.heads):
        table.add_column(Text(head), justify="right" if n in page.right else "left", overflow="fold")
    for row in page.rows:
        table.add_row(*(Text(cell) for cell in row))
    if page.last:
        table.add_section()
        table.add_row(*(Text(cell, style="bold") for cell in page.last))
    return table
