"""Checks against what others published: one module per publication, each check marked with its kind and source."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal, get_args

import pytest

Kind = Literal["worked elsewhere", "our arithmetic", "copied figure"]
KINDS: tuple[str, ...] = get_args(Kind)


def checked(kind: Kind, source: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Mark a test as one kind of published check, with the publication and the place in it.

    "worked elsewhere": input and result were printed by others; "our arithmetic": we worked a published
    figure on; "copied figure": the figure itself stands in the rule book as printed.
    """
    if kind not in KINDS or not source.strip():
        raise ValueError("a published check needs a kind and a source")
    return pytest.mark.published(kind=kind, source=source)
