"""Catalogues: every sentence a person reads, English and Spanish."""

from darby.words.catalogue import LANGUAGES, Language, Verbatim, catalogue, day, measured, say, unit_names, written
from darby.words.figures import figure_applies, figure_says, figure_value, figure_where, source_words
from darby.words.packages import package_said, units_said
from darby.words.surfaces import surface_called

__all__ = [
    "LANGUAGES",
    "Language",
    "Verbatim",
    "catalogue",
    "day",
    "figure_applies",
    "figure_says",
    "figure_value",
    "figure_where",
    "measured",
    "package_said",
    "say",
    "source_words",
    "surface_called",
    "unit_names",
    "units_said",
    "written",
]
