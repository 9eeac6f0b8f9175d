"""[[rule]]: local rules on top of the book, in the job or in the firm file; and the voices one may follow."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.part import LARGEST, Part
from darby.job.places import nearest
from darby.rulebook.book import LOCAL
from darby.rulebook.load import default, figure_of
from darby.rulebook.model import BookError, Figure

_SHORT_FIGURE = re.compile(r"[-0-9./ ]{1,40}(?:to [-0-9./ ]{1,40})?[^0-9]{0,30}[0-9]?")
"""What a figure looks like: no exponents, nothing a machine could choke on."""

Applies = tuple[tuple[str, tuple[str, ...]], ...]


class RuleDocument(Document):
    """[[rule]]: a figure of your own on a subject of the rule book, with the reason."""

    subject: str = must("The subject, as `darby rules` lists it.")
    value: Measured = must("The figure with its unit: `5/8 in`, `10 %`, `48 h`.")
    why: str = must("Your reason; it is printed wherever the rule decides.")
    says: str = key("The rule in a few words.")
    applies: dict[str, list[str]] = key('Where it holds: `{ coat = ["scratch"] }`; left out, everywhere.')


def read(root: Part, draft: Draft) -> None:
    """Read the job's [[rule]] entries; the firm's stand behind them on other subjects."""
    own = read_rules(root, "job")
    taken = {figure.subject for figure in own}
    draft.put(rules=(*own, *(f for f in draft.firm_rules() if f.subject not in taken)))


def read_rules(part: Part, whose: str) -> tuple[Figure, ...]:
    """[[rule]] entries as figures with a why, which makes them rule."""
    figures: list[Figure] = []
    seen: set[tuple[str, Applies]] = set()
    for entry in part.parts("rule"):
        subject, why = entry.text("subject", must=True), entry.text("why", must=True)
        value, applies = entry.written("value"), _applies(entry)
        like = default().on(subject)
        if subject and not like:
            _no_such_subject(entry, "subject", subject)
        if (subject, applies) in seen:
            entry.fault("subject", "job.twice", subject, ok.ONCE)
        seen.add((subject, applies))
        if subject and why and value and like:
            figure = _figure(entry, whose, value, {name: list(words) for name, words in applies}, like)
            figures += [figure] if figure else []
    return tuple(figures)


def _applies(entry: Part) -> Applies:
    inner = entry.part("applies")
    if inner is None:
        return ()
    return tuple((name, inner.words(name)) for name in sorted(inner.names()))


def _figure(
    entry: Part, whose: str, value: str, applies: Mapping[str, list[str]], like: Sequence[Figure]
) -> Figure | None:
    """The rule as a figure of the same kind and measure as those of the book."""
    where = ".".join(word for words in applies.values() for word in words)
    first = like[0]
    row = {
        "id": f"{first.subject}.local.{whose}" + (f".{where}" if where else ""),
        "subject": first.subject,
        "value": value,
        "says": entry.text("says") or entry.text("why"),
        "source": LOCAL.id,
        "where": whose,
        "standing": "common practice",
        "why": entry.text("why"),
    } | ({"applies": applies} if applies else {})
    worded = all(figure.kind == "rule" for figure in like)
    if worded:
        row["kind"] = "rule"
    try:
        if not worded and not _SHORT_FIGURE.fullmatch(value):
            raise ValueError(value)
        figure = figure_of(row, {LOCAL.id: LOCAL})
    except (BookError, ValueError, ZeroDivisionError, OverflowError):
        entry.fault("value", "job.unreadable-figure", value, first.written)
        return None
    if all(figure.unit.dim != other.unit.dim for other in like):
        entry.fault("value", "job.rule-unit", value, first.written)
        return None
    ends = [end for end in (figure.low, figure.value, figure.high) if end is not None]
    if any(abs(end) > LARGEST for end in ends):
        entry.fault("value", "job.too-large", value, ok.SMALLER)
        return None
    return figure


def check_voice(part: Part, name: str, subject: str, voice: str) -> None:
    """A subject (or the beginning of several, "" = all) and a voice that speaks on it, or a fault."""
    book = default()
    if not any(not subject or s == subject or s.startswith(f"{subject}.") for s in book.subjects()):
        _no_such_subject(part, name, subject)
        return
    voices = book.voices(subject)
    if voice and voice not in voices:
        part.unknown(name, "job.no-such-voice", voice, voices)


def _no_such_subject(part: Part, name: str, subject: str) -> None:
    """The book has hundreds of subjects: the closest are offered, and the word each group begins with."""
    subjects = default().subjects()
    heads = list(dict.fromkeys(s.split(".")[0] for s in subjects))
    part.fault(name, "job.no-such-subject", subject, ", ".join(heads), nearest(subject, (*heads, *subjects)))
