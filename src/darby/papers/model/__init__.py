"""What stands on each paper: trees of sentences and numbers that are already written. No paper computes anything.

Every text is plain; a fraction such as 3/8 in it is set as a built fraction. Texts in two languages are a ``Both``.
"""

from darby.papers.model.common import Both, BothCaution, Caution, Cut, Firm, KeyItem, Picture, Stamp
from darby.papers.model.crew import (
    BeadRow,
    BoardCard,
    BoardPaper,
    CrewCoat,
    CrewPaper,
    CrewPart,
    CutRow,
    FoundPart,
    FoundRow,
    OldFace,
    PatchPaper,
    PatchPart,
    SetBack,
    Ticket,
    TicketPaper,
    TicketPart,
)
from darby.papers.model.office import (
    Ledger,
    LedgerRow,
    NoteRow,
    OrderPaper,
    OrderRow,
    RuleRow,
    WorkingGroup,
    WorkingLine,
    WorkingPaper,
    WorkingPart,
)
from darby.papers.model.quote import (
    Alternative,
    JointsPaper,
    LetterPaper,
    LetterRow,
    PartedWall,
    Place,
    PriceRow,
    QuotePaper,
    Tight,
    WayRow,
    WayToPart,
    WorkRow,
)
from darby.papers.model.sawn import (
    FaceRow,
    GroundRow,
    HoldRow,
    HollowRow,
    SawCut,
    SawingPaper,
    SawPart,
    SawRow,
    SpotRow,
    StockRow,
    TruingPaper,
)

Paper = (
    QuotePaper | LetterPaper | OrderPaper | CrewPaper | TicketPaper | BoardPaper | WorkingPaper
    | SawingPaper | TruingPaper | JointsPaper | PatchPaper
)  # fmt: skip

__all__ = [
    "Alternative", "BeadRow", "BoardCard", "BoardPaper", "Both", "BothCaution", "Caution", "CrewCoat", "CrewPaper",
    "CrewPart", "Cut", "CutRow", "FaceRow", "Firm", "FoundPart", "FoundRow", "GroundRow", "HoldRow", "HollowRow",
    "JointsPaper", "KeyItem", "Ledger", "LedgerRow", "LetterPaper", "LetterRow", "NoteRow", "OldFace", "OrderPaper",
    "OrderRow", "Paper", "PartedWall", "PatchPaper", "PatchPart", "Picture", "Place", "PriceRow", "QuotePaper",
    "RuleRow", "SawCut", "SawPart", "SawRow", "SawingPaper", "SetBack", "SpotRow", "Stamp", "StockRow", "Ticket",
    "TicketPaper", "TicketPart", "Tight", "TruingPaper", "WayRow", "WayToPart", "WorkRow", "WorkingGroup",
    "WorkingLine", "WorkingPaper", "WorkingPart",
]  # fmt: skip
