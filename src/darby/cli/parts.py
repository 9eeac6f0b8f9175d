"""A mix as it is said: 1 : 3/4 : 5 (portland, lime, sand)."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from darby.cli.setting import Setting

if TYPE_CHECKING:
    from darby.mix import MixParts


def parts_line(parts: MixParts, setting: Setting) -> str:
    """Parts by volume, then what they are of."""
    named = ", ".join(setting.write(m) for m in parts.used)
    return f"{' : '.join(mixed(parts.of(m)) for m in parts.used)} ({named})"


def mixed(parts: Fraction | float | int) -> str:
    """7 1/2, 3/4, 5."""
    value = Fraction(str(parts)) if isinstance(parts, float) else Fraction(parts)
    wholes, rest = divmod(value, 1)
    return " ".join(filter(None, (str(wholes) if wholes or not rest else "", str(rest) if rest else "")))
