"""One step back, and forward again: read from the history, which only grows.

Going back writes the old text as the newest revision (``saving.go_back``). Read in order, the history says what stands
now, what stood before it, and what was undone: a new change forgets what was undone.
"""

from __future__ import annotations

from dataclasses import dataclass

from darby.desk.kept.models import Revision

BACK = "back:"


@dataclass(frozen=True, slots=True)
class Steps:
    """Numbers of the revisions one step back and one forward; None where there is none. ``now``: the newest."""

    now: int
    back: int | None
    forward: int | None


def steps(document: str) -> Steps:
    """Where one step leads from the document as it stands."""
    rows = list(Revision.objects.filter(document=document).order_by("number").values_list("number", "says"))
    return walked(rows)


def walked(rows: list[tuple[int, str]]) -> Steps:
    """The same from (number, what it says) of every revision, oldest first."""
    stands: dict[int, int] = {}
    line: list[int] = []
    at = -1
    for number, says in rows:
        text = says.removeprefix(BACK) if says.startswith(BACK) else ""
        meant = stands.get(int(text), number) if text.isdecimal() else number
        stands[number] = meant
        if meant != number and at > 0 and line[at - 1] == meant:
            at -= 1
        elif meant != number and at + 1 < len(line) and line[at + 1] == meant:
            at += 1
        else:
            line[at + 1 :] = [meant]
            at += 1
    return Steps(
        rows[-1][0] if rows else 0,
        line[at - 1] if at > 0 else None,
        line[at + 1] if 0 <= at + 1 < len(line) else None,
    )
