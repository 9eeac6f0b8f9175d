"""The firm's own papers: the supplier's order and the working package."""

from __future__ import annotations

from dataclasses import dataclass

from darby.papers.model.common import Caution, Firm, Picture, Stamp
from darby.words import Language


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One line: how many packages to bring, of what, in what package, what was needed exactly, what is already ordered.

    ``count`` is the number and ``unit`` what is counted: "4", "bags"; "2 1/2", "cu yd". ``price`` and ``sum`` are
    package prices; leave them empty on an order without prices.
    """

    count: str
    unit: str
    item: str
    package: str
    needed: str
    ordered: str = ""
    price: str = ""
    sum: str = ""


@dataclass(frozen=True, slots=True)
class OrderPaper:
    """The order to one supplier: the difference against what is on order already. Without a ``supplier``: to buy."""

    firm: Firm
    stamp: Stamp
    title: str
    supplier: str
    deliver: str
    rows: tuple[OrderRow, ...]
    total: str = ""
    notes: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    language: Language = "en"


@dataclass(frozen=True, slots=True)
class LedgerRow:
    """One answer. ``soft``: it leans on memory, habit or an assumption, and is underlined with dots."""

    what: str
    value: str
    soft: bool = False


@dataclass(frozen=True, slots=True)
class Ledger:
    """Answers that belong together; ``notes`` are the sentences under them."""

    title: str
    rows: tuple[LedgerRow, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkingLine:
    """One step: its sentence, its printed line with the result, the ids of the rules in it."""

    says: str
    line: str
    rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkingPart:
    """Steps that belong together: one coat, one item of the order."""

    title: str
    lines: tuple[WorkingLine, ...]


@dataclass(frozen=True, slots=True)
class WorkingGroup:
    """Steps of one surface or of the job."""

    title: str
    parts: tuple[WorkingPart, ...]


@dataclass(frozen=True, slots=True)
class RuleRow:
    """A figure that was used: id, our words, value as the book has it, source and ``where`` in it, standing, why."""

    id: str
    says: str
    value: str
    source: str
    standing: str
    why: str = ""
    where: str = ""


@dataclass(frozen=True, slots=True)
class NoteRow:
    """A note: where it belongs, its sentence, the rules behind it."""

    at: str
    text: str
    rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkingPaper:
    """Every step, rule and note of the job, for the firm. Rules of one source stand together."""

    firm: Firm
    stamp: Stamp
    title: str
    groups: tuple[WorkingGroup, ...]
    rules: tuple[RuleRow, ...] = ()
    ledgers: tuple[Ledger, ...] = ()
    stops: tuple[NoteRow, ...] = ()
    cautions: tuple[NoteRow, ...] = ()
    assumed: tuple[NoteRow, ...] = ()
    facts: tuple[NoteRow, ...] = ()
    pictures: tuple[Picture, ...] = ()
    language: Language = "en"
