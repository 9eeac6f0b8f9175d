"""What was not kept, and why: goes back with the page, so that every word he wrote stands where he wrote it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from django.http import HttpRequest

from darby.desk.forms import fault_text
from darby.measure.faults import Fault
from darby.words import Verbatim

if TYPE_CHECKING:
    from darby.desk.kept.saving import Clash
    from darby.tables.setting import Setting


@dataclass(frozen=True, slots=True)
class NotKept:
    """A form that was sent back.

    ``form``: its name. ``posted``: what stood in it. ``faults``: by field; ``loose`` those that belong to no field.
    ``marked``: the line before, in and behind what cannot be read. ``base``: the revision it now builds on.
    """

    form: str
    posted: Mapping[str, str]
    faults: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    loose: tuple[str, ...] = ()
    marked: tuple[str, str, str] | None = None
    clash: Clash | None = None
    base: int = 0

    @property
    def status(self) -> int:
        """Of the answer: somebody else changed the same thing, or what was sent cannot be read."""
        return 409 if self.clash is not None else 422


def said_back(request: HttpRequest, form: str) -> NotKept | None:
    """What was not kept of this form, if the page goes back with it."""
    found = getattr(request, "not_kept", None)
    return found if isinstance(found, NotKept) and found.form == form else None


def sent_back(request: HttpRequest, found: NotKept) -> None:
    """Let the page that is made for this request go back with it."""
    request.not_kept = found  # type: ignore[attr-defined]


def by_field(
    faults: Iterable[Fault], where: Mapping[str, str], setting: Setting
) -> tuple[dict[str, tuple[str, ...]], tuple[str, ...]]:
    """Faults of a document by the field that says it, and in words those that no field says."""
    found: dict[str, tuple[str, ...]] = {}
    loose: list[str] = []
    for fault in faults:
        text = fault_text(fault, setting)
        name = where.get(fault.place, "")
        if name:
            found[name] = (*found.get(name, ()), text)
        else:
            loose.append(text)
    return found, tuple(loose)


def typed_fault(fault: Fault, label: str, setting: Setting) -> str:
    """A fault of a field by itself: its place is what the field is called."""
    said = setting.say(fault.code, place=Verbatim(label), found=Verbatim(fault.found), allowed=fault.allowed)
    near = setting.say("job.nearest", nearest=Verbatim(fault.nearest)) if fault.nearest else ""
    return f"{said} {near}".rstrip()
