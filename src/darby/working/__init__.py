"""Figure in, number out, working kept: the two cannot differ."""

from darby.working.formula import FormulaError
from darby.working.model import Amount, Found, Given, Grade, Note, Quantity, Step, Working, note

__all__ = ["Amount", "FormulaError", "Found", "Given", "Grade", "Note", "Quantity", "Step", "Working", "note"]
