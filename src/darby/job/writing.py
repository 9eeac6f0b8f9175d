"""New pieces of a document as TOML: a value, a line, a table with its header."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

BARE = re.compile(r"[A-Za-z0-9_-]+")
WIDE = 110
"""Longer lists are set with an entry on a line."""


def written(value: Any) -> str:
    """A value on one line."""
    if isinstance(value, Mapping):
        inner = ", ".join(f"{name(key)} = {written(v)}" for key, v in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, list):
        return f"[{', '.join(written(v) for v in value)}]"
    import tomli_w

    return tomli_w.dumps({"x": value}, multiline_strings=False).removeprefix("x = ").removesuffix("\n")


def name(key: str) -> str:
    """A key as it may stand before an equals sign."""
    return key if BARE.fullmatch(key) else written(key)


def line(key: str, value: Any) -> str:
    """A key and its value, with the line end; a long list with an entry on each line."""
    short = f"{name(key)} = {written(value)}\n"
    if len(short) <= WIDE or not isinstance(value, list):
        return short
    rows = "".join(f"  {written(row)},\n" for row in value)
    return f"{name(key)} = [\n{rows}]\n"


def is_blocks(value: Any) -> bool:
    """Whether it is written with a header of its own: a table, or a list of nothing but tables."""
    return isinstance(value, Mapping) or (
        isinstance(value, list) and bool(value) and all(isinstance(v, Mapping) for v in value)
    )


def blocks(path: tuple[str, ...], value: Any) -> str:
    """A table, or each of a list of tables, under its header."""
    header = ".".join(name(key) for key in path)
    if isinstance(value, Mapping):
        return _block(f"[{header}]\n", path, value)
    return "\n".join(_block(f"[[{header}]]\n", path, row) for row in value)


def _block(header: str, path: tuple[str, ...], table: Mapping[str, Any]) -> str:
    lines, under = [], []
    for key, value in table.items():
        if is_blocks(value) and len(written(value)) + len(key) > WIDE - 3:
            under.append(f"\n{blocks((*path, key), value)}")
        else:
            lines.append(line(key, value))
    return header + "".join(lines) + "".join(under)
