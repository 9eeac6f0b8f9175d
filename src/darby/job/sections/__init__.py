"""The sections of the job file, in the order they are read. A new one is a file here and a line in SECTIONS.

Each file holds the shape of its table (a ``Document``, with a sentence for every key) and ``read``, which reads the
table's meaning into the draft; it looks at its own keys only and asks the draft for what others have said.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from darby.job.draft import Draft
from darby.job.part import Part
from darby.job.sections import (
    also,
    box,
    coats,
    cuts,
    days,
    done,
    firm_file,
    garden_wall,
    head,
    house,
    joints,
    lath,
    match,
    ordered,
    patch,
    price,
    readings,
    recoat,
    ring,
    rules,
    strip,
    survey,
    wall,
)


@dataclass(frozen=True, slots=True)
class Section:
    """One top-level key of the job file."""

    key: str
    document: Any
    says: str
    read: Callable[[Part, Draft], None]
    must: bool = False


SECTIONS: tuple[Section, ...] = (
    Section("firm", firm_file.FirmDocument, "What is different from the firm file, for this job.", firm_file.read),
    Section("job", head.HeadDocument, "The head: name, date, customer, firm file.", head.read, must=True),
    Section("wall", list[wall.WallDocument], "Single walls.", wall.read),
    Section("house", list[house.HouseDocument], "Walls around a plan, as one shape.", house.read),
    Section("garden_wall", list[garden_wall.GardenWallDocument], "Free-standing walls.", garden_wall.read),
    Section("box", list[box.BoxDocument], "Chimneys, columns, planters.", box.read),
    Section("strip", list[strip.StripDocument], "Soffits, bands, faces of foundations.", strip.read),
    Section("ring", list[ring.RingDocument], "Patches round openings.", ring.read),
    Section("coats", coats.CoatsDocument, "What is wanted, and what you know better.", coats.read),
    Section("joints", list[joints.JointsDocument], "Joints that must be, or must not.", joints.read),
    Section("lath", list[lath.LathDocument], "How lath and paper are laid.", lath.read),
    Section("readings", list[readings.ReadingsDocument], "How far bare walls stand out.", readings.read),
    Section("finished", list[readings.FinishedDocument], "How true the face came out.", readings.read_finished),
    Section("cuts", cuts.CutsDocument, "How beads are cut from bars, and what lies on the truck.", cuts.read),
    Section("match", list[match.MatchDocument], "Old faces that new work has to match.", match.read),
    Section("ordered", list[ordered.OrderedDocument], "What is already on order.", ordered.read),
    Section("recoat", recoat.RecoatDocument, "Old walls that are coated anew, and what stays on them.", recoat.read),
    Section("survey", list[survey.SurveyDocument], "What was found on old walls.", survey.read),
    Section("patch", list[patch.PatchDocument], "How far old plaster is cut back round openings.", patch.read),
    Section("also", list[also.AlsoDocument], "What else has to be done.", also.read),
    Section("done", list[done.DoneDocument], "What is on the wall already.", done.read),
    Section("days", days.DaysDocument, "When the crew works, and who keeps it damp.", days.read),
    Section("price", price.PriceDocument, "How the price is given.", price.read),
    Section("rule", list[rules.RuleDocument], "Local rules on top of the rule book.", rules.read),
)
