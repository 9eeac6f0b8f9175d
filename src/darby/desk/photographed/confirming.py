"""An opening of a photograph into the job document, once every number of it was ticked. Nothing else writes there."""

from __future__ import annotations

import copy
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from darby.measure import Told
    from darby.measure.surface import Surface

KINDS = ("window", "door", "vent", "opening")


def openings_of(tables: Mapping[str, Any], surface: str) -> list[Any] | None:
    """The list of openings of a wall (or of a wall of a house) in the document, made if there is none.

    None where the document has no such list: the wall is a part of another shape.
    """
    for wall in tables.get("wall", ()):
        if wall.get("id") == surface:
            found: list[Any] = wall.setdefault("openings", [])
            return found
    for house in tables.get("house", ()):
        name, _, number = surface.rpartition("-")
        if house.get("id") == name and number.isdecimal():
            listed: list[Any] = house.setdefault("openings", {}).setdefault(number, [])
            return listed
    return None


def takes_openings(tables: Mapping[str, Any], surface: str) -> bool:
    """Whether an opening can be put into this wall of the document."""
    return openings_of(copy.deepcopy(dict(tables)), surface) is not None


def entry_of(tables: Mapping[str, Any], surface: str, id: str) -> Mapping[str, Any] | None:
    """The opening as the document has it; None if it has none by that id."""
    listed = openings_of(copy.deepcopy(dict(tables)), surface) or []
    return next((one for one in listed if isinstance(one, Mapping) and one.get("id") == id), None)


def put_in(
    tables: Mapping[str, Any], surface: Surface, sizes: Mapping[str, Told], *, id: str, kind: str, name: str
) -> tuple[dict[str, Any], str]:
    """The document with the opening in it, and its id: in place of ``id`` if the wall has that, else a new one.

    Raises
    ------
    KeyError
        if the wall takes no openings.
    """
    made = copy.deepcopy(dict(tables))
    listed = openings_of(made, surface.id)
    if listed is None:
        raise KeyError(surface.id)
    says = said(sizes) | {"kind": kind} | ({"name": name} if name else {})
    for one in listed:
        if isinstance(one, dict) and one.get("id") == id:
            one.update(says)
            return made, id
    taken = {opening.id for opening in surface.openings}
    number = 1
    while f"{kind}-photo-{number}" in taken:
        number += 1
    new = f"{kind}-photo-{number}"
    listed.append({"id": new, **says})
    return made, new


def said(sizes: Mapping[str, Told]) -> dict[str, str]:
    """The keys of the job file that the four numbers go in under."""
    return {
        "size": f"{sizes['width'].text} x {sizes['height'].text}",
        "at": sizes["at"].text,
        "up": sizes["up"].text,
    }
