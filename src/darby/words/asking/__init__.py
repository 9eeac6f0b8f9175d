"""Questions and faults in people's own words: the entries, finding one, and putting the book's figures into it."""

from darby.words.asking.entries import entries, entry
from darby.words.asking.filling import Cause, Filled, Told, fill
from darby.words.asking.model import Entry, Question, Symptom
from darby.words.asking.search import Found, Hit, Met, find
from darby.words.asking.typed import Typed, typed_in

__all__ = [
    "Cause",
    "Entry",
    "Filled",
    "Found",
    "Hit",
    "Met",
    "Question",
    "Symptom",
    "Told",
    "Typed",
    "entries",
    "entry",
    "fill",
    "find",
    "typed_in",
]
