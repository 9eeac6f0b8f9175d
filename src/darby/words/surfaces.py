"""What a surface is called: as a person typed it, and what a shape added to that, in the reader's language."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from itertools import takewhile

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


def called_together(ids: Collection[str], surfaces: Sequence[Surface], language: Language = "en") -> dict[str, str]:
    """What to call each of ``ids`` where they are named in one breath.

    Where all faces of a shape are among them, each is called as the shape is; where every surface of the job is, and
    more names than two would be left, each is "everywhere".
    """
    named = {s.id: surface_called(s, language) for s in surfaces if s.id in ids}
    for shape in {s.shape for s in surfaces if s.id in ids and s.shape is not None}:
        faces = [s for s in surfaces if s.shape == shape]
        if len(faces) > 1 and all(face.id in named for face in faces):
            whole = shape_called(faces)
            named |= {face.id: whole for face in faces if whole}
    if len(named) == len(surfaces) and len(set(named.values())) > FEW:
        return dict.fromkeys(named, say("surface.everywhere", {}, language))
    return named


def names_of(named: Mapping[str, str], surfaces: Sequence[Surface], language: Language = "en") -> list[str]:
    """Places in one breath, each name once. ``named``: "wall-front" or "wall-front/hollow" by what it is called.

    A place that is called as its surface is may be called as the shape is: ``called_together``. "" is no place.
    """
    own = {s.id: surface_called(s, language) for s in surfaces}
    whole = {at: at.partition("/")[0] for at, name in named.items() if own.get(at.partition("/")[0]) == name}
    together = called_together(set(whole.values()), surfaces, language)
    return list(dict.fromkeys(together[whole[at]] if at in whole else name for at, name in named.items() if name))


FEW = 2
"""So many names are said rather than "everywhere"."""


def shape_called(faces: Sequence[Surface]) -> str:
    """A shape as the person called it, else what its faces' names begin with; "" for none, or nothing in common."""
    if not faces:
        return ""
    said = {face.says[1] for face in faces if face.says is not None}
    if len(said) == 1 and all(face.says is not None for face in faces):
        return said.pop()
    names = [face.name for face in faces]
    alike = takewhile(lambda signs: signs[0] == signs[1], zip(min(names), max(names), strict=False))
    return "".join(sign for sign, _ in alike).rstrip("0123456789 ,")
