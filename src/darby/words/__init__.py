"""Catalogues: every sentence a person reads, English and Spanish."""

from darby.words.catalogue import LANGUAGES, Language, Verbatim, catalogue, day, say, unit_names, written

__all__ = ["LANGUAGES", "Language", "Verbatim", "catalogue", "day", "say", "unit_names", "written"]
