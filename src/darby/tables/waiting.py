"""What is missing, in words."""

from __future__ import annotations

from darby.tables.setting import Setting
from darby.words import catalogue


def lack(code: str, setting: Setting) -> str:
    """What is missing; a pace is asked for by its work. A code without a sentence of its own is said as it is."""
    head, dash, work = code.partition("-")
    if dash and head.endswith(".pace"):
        called = f"cli.work.{work}"
        return setting.say(head, work=setting.say(called).lower() if called in catalogue("en") else work)
    return setting.say(code)
