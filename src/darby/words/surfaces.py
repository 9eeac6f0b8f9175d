"""What a surface is called: as a person typed it, and what a shape added to that, in the reader's language."""

from __future__ import annotations

from darby.measure.surface import Surface
from darby.words.catalogue import Language, Verbatim, say


def surface_called(surface: Surface, language: Language = "en") -> str:
    """ "Garden wall, left end"; its id where it has no name. In English it is the surface's own ``name``.

    Raises
    ------
    KeyError
        if a shape says a part that has no sentence.
    """
    if surface.says is None:
        return surface.name or surface.id
    part, name = surface.says
    return say(f"surface.{part}", {"name": Verbatim(name)}, language)
