"""Papers: data that is already written, set in the house style as tagged PDFs, and put in place as a whole set."""

from darby.papers.filled import each_paper, not_made, paper_set
from darby.papers.model import (
    Alternative,
    BeadRow,
    Both,
    BothCaution,
    Caution,
    CrewCoat,
    CrewPaper,
    CrewPart,
    Cut,
    Firm,
    KeyItem,
    Ledger,
    LedgerRow,
    NoteRow,
    OrderPaper,
    OrderRow,
    Paper,
    Picture,
    Place,
    PriceRow,
    QuotePaper,
    RuleRow,
    SetBack,
    Stamp,
    Ticket,
    TicketPaper,
    TicketPart,
    WorkingGroup,
    WorkingLine,
    WorkingPaper,
    WorkingPart,
    WorkRow,
)
from darby.papers.render import MoneyOnCrewPaper, render
from darby.papers.writing import NotOurs, write_set

__all__ = [
    "Alternative", "BeadRow", "Both", "BothCaution", "Caution", "CrewCoat", "CrewPaper", "CrewPart", "Cut", "Firm",
    "KeyItem", "Ledger", "LedgerRow", "MoneyOnCrewPaper", "NotOurs", "NoteRow", "OrderPaper", "OrderRow", "Paper",
    "Picture", "Place", "PriceRow", "QuotePaper", "RuleRow", "SetBack", "Stamp", "Ticket", "TicketPaper", "TicketPart",
    "WorkRow", "WorkingGroup", "WorkingLine", "WorkingPaper", "WorkingPart", "each_paper", "not_made", "paper_set",
    "render", "write_set",
]  # fmt: skip
