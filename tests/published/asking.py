"""What the published checks of questions and faults share: the figure of the book, and the entry that stands on it."""

from fractions import Fraction

from darby.rulebook import default
from darby.words.asking import Symptom, entry


def written(figure_id):
    """The figure as the book writes it, with its standing."""
    figure = default()[figure_id]
    return figure.written, figure.standing


def number(figure_id):
    """The figure's number, or its two ends, in its own unit, exactly."""
    figure = default()[figure_id]
    ends = [figure.value] if figure.value is not None else [figure.low, figure.high]
    return tuple(Fraction(figure.unit.from_si(float(end))).limit_denominator(1000) for end in ends)


def first_cause(name):
    """What stands behind the first cause of a fault: its rule of the book, and both languages' words for it.

    Only that cause is the source's; the others of the entry must not lean on the same figure.
    """
    found = entry(name)
    assert isinstance(found, Symptom)
    assert found.stands
    assert found.stands[0] not in found.stands[1:]
    rule = default()[found.stands[0]]
    ruled = default().rule(rule.subject).figure
    assert ruled is rule
    return rule, found.said["en"].causes[0], found.said["es"].causes[0]
