"""A mix as it is said: 1 : 3/4 : 5 (portland, lime, sand)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.measure.writing import mixed
from darby.tables.setting import Setting

if TYPE_CHECKING:
    from darby.mix import MixParts


def parts_line(parts: MixParts, setting: Setting) -> str:
    """Parts by volume, then what they are of."""
    named = ", ".join(setting.write(m) for m in parts.used)
    return f"{' : '.join(mixed(parts.of(m)) for m in parts.used)} ({named})"
