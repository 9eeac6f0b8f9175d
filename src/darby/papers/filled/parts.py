"""What a step of the working is about, read from its key: the part it stands under and how its line is called."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from darby.papers.filled.orders import item_called
from darby.papers.filled.places import place, zone_called
from darby.words import Verbatim

if TYPE_CHECKING:
    from darby.papers.filled.writer import Writer
    from darby.working import Found, Step

AREA = ("area", "net")
SHARE = "-share"
NUMBERED = re.compile(r"trip-(\d+)")

OF_JOB = {
    "cost": "materials", "travel": "trips", "hours": "trips", "set-up": "trips", "day": "trips", "span": "trips",
    "forced": "trips", "trips": "trips", "trips-by-hours": "trips", "trips-by-waits": "trips",
    "burden": "hours", "person-hour": "hours", "crew-hour": "hours", "price": "total", "quote": "quote",
}  # fmt: skip
"""What comes second in the key of a step of the whole job, and the part it belongs to."""

RECOAT = "recoat"
"""Steps on what fits where old walls are coated anew, and on what goes before it."""


def part_called(writer: Writer, step: Step | Found) -> str:
    """The heading under which a step stands within its surface, the mixes, or the job."""
    head, *rest = step.key.split("/")
    if RECOAT in rest[:2]:
        return writer.say("cli.part.recoat")
    if head == "mix":
        return writer.place(f"mix/{rest[0]}")
    if head == "job":
        return _of_job(writer, rest)
    zones = {b.zone for b in writer.answers.job.bases if b.surface == head}
    if rest[0] not in zones:
        part = f"paper.working.part.{rest[0]}"
        return writer.say(part if writer.knows(part) else "paper.working.part.area")
    name = zone_called(writer.answers.job, head, rest[0], writer.language)
    name = name.removeprefix(writer.place(head)).lstrip(", ") if len(zones) > 1 else ""
    part = _of_zone(writer, head, rest, step.says)
    return f"{name[:1].upper()}{name[1:]}: {part[:1].lower()}{part[1:]}" if name else part


def _of_zone(writer: Writer, surface: str, rest: list[str], says: str) -> str:
    zone, about = rest[0], rest[1]
    if about == "build-up" and not writer.knows(f"buildup.option.{rest[2]}"):
        return writer.say(says)
    if about == "build-up":
        return writer.say("paper.working.part.build-up", name=Verbatim(writer.say(f"buildup.option.{rest[2]}").lower()))
    coats = writer.answers.answered("coats", surface)
    named = {c.name for c in coats.of(zone).chosen.coats} if coats is not None else set()
    if about in named and len(rest) > 2 and rest[2].startswith("volume"):
        return writer.say(f"buildup.coat.{about}")
    openings = {o.id for o in writer.answers.job.surface(surface).openings}
    if about.startswith(AREA) or about in openings:
        return writer.say("paper.working.part.area")
    if about in ("thickness-all-coats", "weight"):
        return writer.say("paper.working.part.mortar")
    return writer.say(f"paper.working.part.{'lath' if says.startswith('quantities.') else 'price'}")


def _of_job(writer: Writer, rest: list[str]) -> str:
    head = rest[0]
    if head == "order" and len(rest) > 1:
        item = _item(writer, rest[1])
        return writer.say("paper.working.part.order", item=Verbatim(item)) if item else _mortar(writer)
    if head in OF_JOB:
        return writer.say(f"paper.working.part.{OF_JOB[head]}")
    if NUMBERED.fullmatch(head):
        return writer.say("paper.working.part.trips")
    if _item(writer, head):
        return writer.say("paper.working.part.materials")
    if any(head.startswith(crew.role) for crew in writer.answers.job.firm.crew):
        return writer.say("paper.working.part.hours")
    return writer.say("paper.working.part.also")


def _mortar(writer: Writer) -> str:
    return writer.say("paper.working.part.mortar")


def _item(writer: Writer, slug: str) -> str:
    """The item whose key this is, as people call it; "" if it is none."""
    order = writer.answers.answered("order")
    lines = order.lines if order is not None else ()
    line = next((line for line in lines if line.item.replace(" ", "-") == slug), None)
    return item_called(writer, line) if line is not None else ""


def label(writer: Writer, step: Step | Found) -> str:
    """The step's sentence, and what it is about where its part does not say that: which opening, item, trip."""
    said = writer.say(step.says)
    head, *rest = step.key.split("/")
    more = "" if head == "mix" else _in_job(writer, rest) if head == "job" else _on_surface(writer, head, rest)
    return f"{said}: {more}" if more else said


def _in_job(writer: Writer, rest: list[str]) -> str:
    trip = NUMBERED.fullmatch(rest[0])
    if trip:
        return writer.say("paper.working.trip-number", n=trip[1])
    if rest[0] != "order" and rest[0] not in OF_JOB:
        return _item(writer, rest[0]) or _also(writer, rest[0])
    return writer.place(f"mix/{rest[2]}") if rest[:2] == ["order", "mix"] and len(rest) > 2 else ""


def _on_surface(writer: Writer, surface: str, rest: list[str]) -> str:
    job = writer.answers.job
    if rest[0] == "mix":
        return writer.place(f"mix/{rest[1]}")
    openings = {o.id for s in job.surfaces if s.id == surface for o in s.openings}
    at = next((n for n, part in enumerate(rest) if part in openings), None)
    if at is not None:
        return place(job, "/".join((surface, *rest[at:])), writer.language, alone=True)
    if rest[-1].endswith(SHARE):
        whole = writer.steps.get("/".join((surface, *rest)).removesuffix(SHARE))
        return writer.say(whole.says).partition(",")[0].lower() if whole is not None else ""
    coats = writer.answers.answered("coats", surface)
    if "build-up" in rest and coats is not None:
        coat = next((c.name for c in coats.of(rest[0]).chosen.coats if c.name in rest[3:-1]), "")
        return writer.say(f"buildup.coat.{coat}").lower() if coat and rest[-1] != "thickness" else ""
    if len(rest) > 2 and rest[-1] in ("hours", "labor") and writer.knows(f"paper.work.{rest[1]}"):
        return writer.say(f"paper.work.{rest[1]}")
    return ""


def _also(writer: Writer, slug: str) -> str:
    """What else is done, and access, by its key: "take-off-and-put-back", "scaffold", "tender-2"."""
    words = re.sub(r"-\d+$", "", slug).replace("-", " ")
    code = f"paper.also.{words}"
    return writer.say(code).lower() if writer.knows(code) else writer.write(words)
