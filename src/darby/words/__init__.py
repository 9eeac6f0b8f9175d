"""Catalogues: every sentence a person reads, English and Spanish."""

from darby.words.catalogue import LANGUAGES, Language, catalogue, say

__all__ = ["LANGUAGES", "Language", "catalogue", "say"]
