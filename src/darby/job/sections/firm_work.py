"""[measures], [[crew]], [labor], [pace] and [allow] of the firm file: his tools, his people, how fast, what is lost."""

from __future__ import annotations

from typing import Literal

from darby.job import allowed as ok
from darby.job.fields import Document, Measured, key, must
from darby.job.firm import ALLOWANCES, PACES, Allowance, Crew, Labor, Measures, Pace
from darby.job.part import Part


class MeasuresDocument(Document):
    """[measures]: measured once, with your own tools."""

    mixer: Measured = key("What the mixer holds as mixed: `9 cu ft`.")
    bucket: Measured = key("What your bucket holds, struck level: `0.70 cu ft`.")
    shovel: Measured = key("What your shovel carries: `0.19 cu ft`.")
    gauge: Literal["bucket", "shovel"] = key("What you count sand in.")


class CrewDocument(Document):
    """[[crew]]: so many people at one wage."""

    role: str = must("plasterer, tender, ...")
    people: int = must("How many.")
    wage: Measured = must("What one of them gets an hour: `$34.00/h`.")


class LaborDocument(Document):
    """[labor]: what labor costs on top of the wage."""

    burden: Measured = key("Taxes and insurance on the wage: `42 % of wage`.")
    day: Measured = key("A working day: `8 h`.")


class PaceDocument(Document):
    """[pace]: what the whole crew does in an hour."""

    paper_and_lath: Measured = key("Paper and lath: `75 sq ft/h`.", alias="paper-and-lath")
    dash_bond: Measured = key("Dash bond coat.", alias="dash-bond")
    scratch: Measured = key("Scratch coat.")
    brown: Measured = key("Brown coat.")
    base: Measured = key("The base coat of two-coat work.")
    finish: Measured = key("Finish coat.")
    beads: Measured = key("Beads and screeds, by length: `60 ft/h`.")
    paint: Measured = key("Primer or paint, one coat.")
    float_: Measured = key("A float finish, where it is not the pace of every finish coat.", alias="float")
    smooth: Measured = key("A smooth trowelled finish.")
    dash: Measured = key("A spatter dash finish.")
    lace: Measured = key("A lace finish.")
    scraped: Measured = key("A scraped finish.")
    wet_dash: Measured = key("A wet dash finish.", alias="wet-dash")
    skip_trowel: Measured = key("A skip trowel finish.", alias="skip-trowel")
    pebble: Measured = key("A pebble finish.")
    one_coat: Measured = key("One heavy coat, floated as the finish.", alias="one-coat")


class AllowDocument(Document):
    """[allow]: allowances, each a line of its own on the order, never one inside the other."""

    spread: Measured = key("Uneven thickness, of the net volume: `10 %`.")
    waste: Measured = key("Dropped and left in the box, of the net volume.")
    bulking: Measured = key("Damp sand takes more room than dry, of the sand.")
    accessories: Measured = key("Cutting waste on beads, of the length.")
    lath: Measured = key("Cutting waste on lath and paper, of the area.")
    moisture: Measured = key("Water in the sand, of its dry weight.")


def read_measures(part: Part | None) -> Measures:
    """[measures] [m3]."""
    if part is None:
        return Measures()
    return Measures(part.volume("mixer"), part.volume("bucket"), part.volume("shovel"), part.word("gauge"))


def read_crew(part: Part) -> tuple[Crew, ...]:
    """[[crew]] entries; a role stands once."""
    crew: list[Crew] = []
    seen: set[str] = set()
    for entry in part.parts("crew"):
        role, people, wage = entry.text("role", must=True), entry.count("people", None), entry.wage("wage")
        if role in seen:
            entry.fault("role", "job.twice", role, ok.ONCE)
        seen.add(role)
        if people is not None and wage is not None:
            crew.append(Crew(role, people, wage))
    return tuple(crew)


def read_labor(part: Part | None) -> Labor:
    """[labor]: burden is of the wage, nothing else."""
    if part is None:
        return Labor()
    return Labor(part.share("burden", ("wage",)), part.time("day"))


def read_pace(part: Part | None) -> tuple[Pace, ...]:
    """[pace]: square feet an hour, but beads in feet an hour."""
    if part is None:
        return ()
    paces: list[Pace] = []
    for work in PACES:
        rate = part.rate(work, length=work == "beads")
        if rate is not None:
            paces.append(Pace(work, *rate))
    return tuple(paces)


def read_allow(part: Part | None) -> tuple[Allowance, ...]:
    """[allow]: plain percentages."""
    if part is None:
        return ()
    allowed = ((name, part.percent(name)) for name in ALLOWANCES)
    return tuple(Allowance(name, share) for name, share in allowed if share is not None)
