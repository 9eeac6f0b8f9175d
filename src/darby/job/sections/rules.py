"""[[rule]]: local rules on top of the book, in the job or in the firm file; and the voices one may follow."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.part import Part
from darby.job.places import nearest
from darby.rulebook.load import default, figure_of
from darby.rulebook.model import BookError, Figure, Source

LOCAL = Source("local", "Local rule", "", "", "")
"""What stands as the source of a rule that a firm or a job lays on top."""

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
        like = _figures_on(subject)
        if subject and not like:
            _no_such_subject(entry, "subject", subject)
        if (subject, applies) in seen:
            entry.fault("subject", "job.twice", subject, ok.ONCE)
        seen.add((subject, applies))
        if subject and why and value and like:
            figure = _figure(entry, whose, value, dict(applies), like[0])
            figures += [figure] if figure else []
    return tuple(figures)


def _applies(entry: Part) -> Applies:
    inner = entry.part("applies")
    if inner is None:
        return ()
    return tuple((name, inner.words(name)) for name in sorted(inner.names()))


def _figure(entry: Part, whose: str, value: str, applies: Mapping[str, tuple[str, ...]], like: Figure) -> Figure | None:
    """The rule as a figure of the same kind and measure as those of the book."""
    where = ".".join(word for words in applies.values() for word in words)
    row = {
        "id": f"local.{whose}.{like.subject}" + (f".{where}" if where else ""),
        "subject": like.subject,
        "value": value,
        "says": entry.text("says") or entry.text("why"),
        "source": LOCAL.id,
        "where": whose,
        "standing": "common practice",
        "why": entry.text("why"),
        "applies": applies,
    }
    if like.kind == "rule":
        return figure_of(row | {"kind": "rule"}, {LOCAL.id: LOCAL})
    try:
        figure = figure_of(row, {LOCAL.id: LOCAL})
    except (BookError, ValueError, ZeroDivisionError, OverflowError):
        entry.fault("value", "job.unreadable-figure", value, like.written)
        return None
    if figure.unit.dim != like.unit.dim:
        entry.fault("value", "job.rule-unit", value, like.written)
        return None
    ends = (figure.low, figure.value, figure.high)
    if any(end is not None and abs(end) > float(Fraction(10) ** 9) for end in ends):
        entry.fault("value", "job.too-large", value, like.written)
        return None
    if figure.low is not None and figure.high is not None and figure.low > figure.high:
        entry.fault("value", "measure.range", value, like.written)
        return None
    return figure


def _figures_on(subject: str) -> tuple[Figure, ...]:
    """What the book says on a subject."""
    return tuple(figure for figure in default() if figure.subject == subject) if subject else ()


def check_voice(part: Part, name: str, subject: str, voice: str) -> None:
    """A subject (or the beginning of several, "" = all) and a voice that speaks on it, or a fault."""
    book = default()
    under = [f for f in book if not subject or f.subject == subject or f.subject.startswith(f"{subject}.")]
    if not under:
        _no_such_subject(part, name, subject)
        return
    voices = tuple(dict.fromkeys(f.voice for f in under if f.voice))
    if voice and voice not in voices:
        part.unknown(name, "job.no-such-voice", voice, voices)


def _no_such_subject(part: Part, name: str, subject: str) -> None:
    """The book has hundreds of subjects: the closest are offered, and the word each group begins with."""
    subjects = default().subjects()
    heads = list(dict.fromkeys(s.split(".")[0] for s in subjects))
    part.fault(name, "job.no-such-subject", subject, ", ".join(heads), nearest(subject, (*heads, *subjects)))
