"""Help that a plasterer can read: no names of Python's types, no braces."""

from __future__ import annotations

from typing import Any

from typer.core import TyperCommand


class Plain(TyperCommand):
    """A command whose help names its words as they are typed: FILE, not {FILE} <path>."""

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **named)
        for param in self.params:
            if param.param_type_name == "argument":
                vars(param).update(display_type_rich=_nothing, _usage_display_name=_named(param))


def _nothing(ctx: object) -> None:  # noqa: ARG001 -- typer hands over its context
    return None


def _named(param: Any) -> Any:
    word = str(param.metavar or param.name)
    return lambda: word if param.required else f"[{word}]"
