"""Which mix a coat is mixed of: one name for every mix that is the same in the box, and what the firm gave for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.buildup import BuildUp, Coat

if TYPE_CHECKING:
    from darby.job.firm import Mix
    from darby.job.model import Job

AFTER_BASE = "usual"
"""A coat on a coat meets plaster, which drinks as usual."""


def given_mix(job: Job, surface: str, zone: str, coat: Coat) -> Mix | None:
    """What this job, else the firm, mixes this coat of; None: nobody said."""
    own = next((m for m in job.coats.wanted(surface, zone).mixes if m.coat in (coat.mix, coat.name)), None)
    return own or job.firm.mix(coat.mix) or job.firm.mix(coat.name)


def suction_under(built: BuildUp, coat: Coat) -> str:
    """How what lies under the coat drinks: the base under the first coat, plaster under the others."""
    first = built.chosen.coats[0].name == coat.name
    return (built.suction or "none") if first else AFTER_BASE


def mix_name(job: Job, surface: str, zone: str, built: BuildUp, coat: Coat) -> str:
    """The mix's name: the firm's goes by its coat; a job's own by its place; one that darby proposes by suction too."""
    own = any(m.coat in (coat.mix, coat.name) for m in job.coats.wanted(surface, zone).mixes)
    if own:
        return f"{coat.mix} {surface}"
    if given_mix(job, surface, zone, coat) is not None:
        return coat.mix
    suction = suction_under(built, coat)
    return coat.mix if suction == AFTER_BASE else f"{coat.mix} {suction}"
