"""[days]: when the crew works, and who keeps the plaster damp."""

from __future__ import annotations

from typing import Literal

from darby.job.draft import Draft
from darby.job.fields import Day, Document, key
from darby.job.model import Days
from darby.job.part import Part


class DaysDocument(Document):
    """[days]: when the crew works, and who keeps the plaster damp."""

    damp_by: Literal["owner", "crew"] = key("Who keeps it damp between the coats.")
    week: int = key("Days worked a week, from Monday.")
    holidays: list[Day] = key("Days on which nobody works.")
    promised: Day = key("The day by which you told the customer it is done.")
    hired_until: Day = key("The last day that hired scaffold or other access stands.")


def read(root: Part, draft: Draft) -> None:
    """Read [days] into the draft."""
    part = root.part("days")
    if part is not None:
        draft.put(
            days=Days(
                part.word("damp_by"),
                part.count("week", None, most=7),
                part.days("holidays"),
                part.day("promised"),
                part.day("hired_until"),
            )
        )
