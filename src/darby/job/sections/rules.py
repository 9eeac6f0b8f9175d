"""[[rule]]: local rules on top of the book, in the job or in the firm file."""

from __future__ import annotations

from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.part import Part
from darby.rulebook.load import figure_of
from darby.rulebook.model import BookError, Figure, Source

LOCAL = Source("local", "Local rule", "", "", "")
"""What stands as the source of a rule that a firm or a job lays on top."""


class RuleDocument(Document):
    """[[rule]]: a figure of your own on a subject of the rule book, with the reason."""

    subject: str = must("The subject, as `darby rules` lists it.")
    value: Measured = must("The figure with its unit: `5/8 in`, `10 %`, `48 h`.")
    why: str = must("Your reason; it is printed wherever the rule decides.")
    says: str = key("The rule in a few words.")


def read(root: Part, draft: Draft) -> None:
    """Read the job's [[rule]] entries; the firm's stand behind them on other subjects."""
    own = read_rules(root, "job")
    taken = {figure.subject for figure in own}
    draft.put(rules=(*own, *(f for f in draft.firm_rules() if f.subject not in taken)))


def read_rules(part: Part, whose: str) -> tuple[Figure, ...]:
    """[[rule]] entries as figures with a why, which makes them rule."""
    figures: list[Figure] = []
    seen: set[str] = set()
    for entry in part.parts("rule"):
        subject, why = entry.text("subject", must=True), entry.text("why", must=True)
        value = entry.written("value")
        if subject in seen:
            entry.fault("subject", "job.twice", subject, "each subject once")
        seen.add(subject)
        if not (subject and why and value):
            continue
        row = {
            "id": f"local.{whose}.{subject}",
            "subject": subject,
            "value": value,
            "says": entry.text("says") or why,
            "source": LOCAL.id,
            "where": whose,
            "standing": "common practice",
            "why": why,
        }
        try:
            figures.append(figure_of(row, {LOCAL.id: LOCAL}))
        except (BookError, ValueError, ZeroDivisionError, OverflowError):
            entry.fault("value", "job.unreadable-figure", value, "a number and its unit, like 5/8 in, 10 % or 48 h")
    return tuple(figures)
