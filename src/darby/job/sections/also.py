"""[[also]]: what else has to be done, besides plaster."""

from __future__ import annotations

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.model import Also, AlsoKind
from darby.job.part import Part


class AlsoDocument(Document):
    """[[also]]: one thing that has to be done besides plaster."""

    what: AlsoKind = must("What kind of work it is.")
    says: str = key("In your words; it stands on the quote.")
    hours: Measured = key("Hours of one person: `3 h`.")
    length: Measured = key("Length to be masked or covered.")
    area: Measured = key("Area to be masked or covered.")
    cost: Measured = key("Money laid out, before overhead: `$180.00`.")
    surface: str = key("The surface it belongs to, if it belongs to one.")


def read(root: Part, draft: Draft) -> None:
    """Read [[also]] into the draft. Each entry needs hours, or a cost."""
    also: list[Also] = []
    for part in root.parts("also"):
        what: AlsoKind | None = part.word("what")
        if not any(part.said(name) for name in ("hours", "length", "area", "cost")):
            part.fault(None, "job.nothing-to-price", "", ok.SOMETHING_TO_PRICE)
        entry = Also(
            what=what or "other",
            says=part.text("says"),
            hours=part.time("hours"),
            length=part.length("length", positive=True),
            area=part.area("area"),
            cost=part.money("cost"),
            surface=draft.surface_named(part, "surface") if part.has("surface") else None,
        )
        also.append(entry)
    draft.put(also=tuple(also))
