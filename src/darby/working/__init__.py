"""Figure in, number out, working kept: the two cannot differ."""

from darby.working.formula import FormulaError
from darby.working.model import Amount, Found, Given, Grade, Note, Quantity, Step, Working, note
from darby.working.printing import Explained, explain, line

__all__ = [
    "Amount",
    "Explained",
    "FormulaError",
    "Found",
    "Given",
    "Grade",
    "Note",
    "Quantity",
    "Step",
    "Working",
    "explain",
    "line",
    "note",
]
