"""Catalogues: every sentence a person reads, English and Spanish."""

from darby.words.catalogue import LANGUAGES, Language, Verbatim, catalogue, day, say, unit_names, written
from darby.words.surfaces import surface_called

__all__ = ["LANGUAGES", "Language", "Verbatim", "catalogue", "day", "say", "surface_called", "unit_names", "written"]
