"""[job]: what it is called, for whom, where, and the date that is its clock."""

from __future__ import annotations

from darby.job.draft import Draft
from darby.job.fields import Day, Document, key, must
from darby.job.part import Part


class HeadDocument(Document):
    """[job]: the head of the document."""

    name: str = must("What the job is called, on every paper.")
    as_of: Day = must("The date the job is worked out for, like 2026-09-30. Nothing here looks at the clock.")
    customer: str = key("Who it is for.")
    address: str = key("Where the work is.")
    number: str = key("Your own number for the job.")
    revision: int = key("Which writing of the job this is, counted from 1.")
    invented: bool = key("true if people, place and figures are made up.")
    built: int = key("The year the building was built. A wall may have its own.")
    firm: str = key("The firm file, from the folder of this file: `firm.toml`.")


def read(root: Part, draft: Draft) -> None:
    """Read [job] into the draft."""
    part = root.part("job")
    if part is None:
        return
    name, as_of = part.text("name", must=True), part.day("as_of")
    draft.put(
        name=name,
        as_of=as_of,
        customer=part.text("customer"),
        address=part.text("address"),
        number=part.text("number"),
        revision=part.count("revision", 1),
        invented=part.flag("invented"),
        built=part.year("built"),
    )
