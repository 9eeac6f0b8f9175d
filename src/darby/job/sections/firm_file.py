"""The firm file: who the firm is, whose figures it follows; its other tables stand in the firm_* files beside this."""

from __future__ import annotations

from typing import Annotated, Literal

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import AsTable, AsText, Document, OrTable, key, must
from darby.job.firm import Firm, Follows
from darby.job.part import Part
from darby.job.sections.firm_buys import BuysDocument, read_buys
from darby.job.sections.firm_mixes import BaggedDocument, MixesDocument, check_bags, read_bagged, read_mixes
from darby.job.sections.firm_money import (
    AccessDocument,
    MoneyDocument,
    TripDocument,
    UsualDocument,
    read_access,
    read_money,
    read_trip,
    read_usual,
)
from darby.job.sections.firm_work import (
    AllowDocument,
    CrewDocument,
    LaborDocument,
    MeasuresDocument,
    PaceDocument,
    read_allow,
    read_crew,
    read_labor,
    read_measures,
    read_pace,
)
from darby.job.sections.rules import RuleDocument, check_voice, read_rules

LengthUnit = Literal["ft", "in", "m", "cm", "mm"]


class FollowDocument(Document):
    """A voice followed on one subject, with the reason."""

    voice: str = must("Whose figures: a voice that `darby rules` shows.")
    why: str = key("Why you leave your usual voice here.")


class FirmDocument(Document):
    """The firm file, reused over jobs."""

    darby_firm: int = must("Version of the firm file: 1.")
    name: str = must("The firm's name, at the head of every paper.")
    line: str = key("The line under the name.")
    address: str = key("Where the firm is.")
    phone: str = key("Telephone.")
    email: str = key("E-mail.")
    license: str = key("Contractor's license number.")
    invented: bool = key("true if the firm is made up.")
    system: Literal["us", "metric"] = key("How sheets are written: us unless you say.")
    languages: list[Literal["en", "es"]] = key("The crew sheet's languages, first one first.")
    units: LengthUnit = key("What a length without a unit is in. Left out, it is refused.")
    follow: dict[str, Annotated[AsText | AsTable[FollowDocument], OrTable]] = key(
        'Whose figures you follow: `subject = voice`, or `subject = { voice, why }`; the subject `""` is everywhere.'
    )
    measures: MeasuresDocument = key("Your mixer, bucket and shovel.")
    crew: list[CrewDocument] = key("Who works, at what wage.")
    labor: LaborDocument = key("What labor costs on top of the wage.")
    pace: PaceDocument = key("How fast the whole crew is.")
    allow: AllowDocument = key("Allowances.")
    mixes: MixesDocument = key("The mix of each coat.")
    bagged: list[BaggedDocument] = key("Materials by their bag label.")
    buys: list[BuysDocument] = key("What you buy, and at what price.")
    trip: TripDocument = key("What a trip costs.")
    access: list[AccessDocument] = key("Ways to stand at the wall.")
    money: MoneyDocument = key("Overhead, profit, the least charge.")
    usual: UsualDocument = key("Your usual spans; outside them darby asks.")
    rule: list[RuleDocument] = key("Your local rules on top of the rule book.")


def read(root: Part, draft: Draft) -> None:
    """Read the firm into the draft, if there is one."""
    part = root.part("firm")
    if part is None:
        return
    part.use_units("units")
    bagged, bags = read_bagged(part)
    draft.bags = bags
    mixes_part = part.part("mixes")
    mixes = read_mixes(mixes_part) if mixes_part is not None else ()
    if mixes_part is not None:
        check_bags(mixes_part, bags)
    firm = Firm(
        name=part.text("name"),
        line=part.text("line"),
        address=part.text("address"),
        phone=part.text("phone"),
        email=part.text("email"),
        license=part.text("license"),
        invented=part.flag("invented"),
        system=part.word("system") or "us",
        languages=_languages(part),
        follow=_follow(part),
        measures=read_measures(part.part("measures")),
        crew=read_crew(part),
        labor=read_labor(part.part("labor")),
        pace=read_pace(part.part("pace")),
        allow=read_allow(part.part("allow")),
        mixes=mixes,
        bagged=bagged,
        buys=read_buys(part, bags),
        trip=read_trip(part.part("trip")),
        access=read_access(part),
        money=read_money(part.part("money")),
        usual=read_usual(part.part("usual")),
        rules=read_rules(part, "firm"),
    )
    tools, gauge = part.part("measures"), firm.measures.gauge
    if tools is not None and gauge and not tools.said(gauge):
        tools.fault("gauge", "job.gauge-not-measured", gauge, f'{gauge} = "..."')
    draft.put(firm=firm)


def _languages(part: Part) -> tuple[str, ...]:
    found = part.words("languages")
    if part.has("languages") and not found:
        part.fault("languages", "job.empty", "[]", "en, es")
    if len(set(found)) < len(found):
        part.fault("languages", "job.twice", ", ".join(found), ok.ONCE)
    return found or ("en",)


def _follow(part: Part) -> tuple[Follows, ...]:
    inner = part.part("follow")
    if inner is None:
        return ()
    follows: list[Follows] = []
    for subject in inner.names():
        entry = inner.part(subject)
        voice = entry.text("voice", must=True) if entry is not None else inner.text(subject, must=True)
        why = entry.text("why") if entry is not None else ""
        if entry is not None:
            check_voice(entry, "voice", subject, voice)
        else:
            check_voice(inner, subject, subject, voice)
        follows.append(Follows(subject, voice, why))
    return tuple(follows)
