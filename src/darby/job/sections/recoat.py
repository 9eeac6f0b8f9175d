"""[recoat]: old walls that are coated anew: what the new plaster must fit, what comes off, masking and washing."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from darby.job import allowed as ok
from darby.job.draft import Draft
from darby.job.fields import Document, Measured, key, must
from darby.job.part import Part
from darby.job.recoat import Eave, Fixture, Recoat, Vent
from darby.job.sections.bases import DOUBTFUL
from darby.measure.outline import polygon
from darby.measure.surface import Surface
from darby.measure.writing import HAIR, write

MOST = 1000
"""So many of one thing at the most."""


class VentDocument(Document):
    """[[recoat.vent]]: a vent, box or pipe that stays in the wall."""

    surface: str = must("The surface it is in.")
    at: Measured = must("From the wall's left end to its middle.")
    up: Measured = must("From the wall's base to its middle.")
    name: str = key("What you call it.")
    clear: Measured = key("How far it stands out past the old face.")
    count: int = key("How many alike there are; 1 unless you say.")


class EaveDocument(Document):
    """[[recoat.eave]]: a roof edge, frieze or soffit vent over a wall."""

    surface: str = must("The surface, or the house, that it runs over.")
    name: str = key("What you call it.")
    clear: Measured = key("How far its edge stands out past the old face.")


class FixtureDocument(Document):
    """[[recoat.fixture]]: what comes off the wall and goes back."""

    what: str = must("What it is, in your words.")
    count: int = key("How many alike there are; 1 unless you say.")
    each: Measured = key("Time of one person for one of them, off and on: `20 min`.")


class RecoatDocument(Document):
    """[recoat]: coating old walls anew."""

    surfaces: list[str] = key("Which surfaces or houses; every old or painted wall unless you say.")
    adds: Measured = key("What the new work adds; what the coats say unless you know better.")
    frames: Measured = key("How far frames stand out past the old face, where an opening does not say `frame`.")
    returns: Measured = key("How much of a frame shows within its plastered reveal.")
    weep: Measured = key("How far the nose of the weep screed stands out past the old face.")
    mask: Measured = key("How much edge one person masks in an hour: `60 ft/h`.")
    wash: Measured = key("How much wall one person washes in an hour: `400 sq ft/h`.")
    roughen: Measured = key("How much wall one person roughens in an hour, where the coats ask for it: `60 sq ft/h`.")
    vent: list[VentDocument] = key("Vents, boxes and pipes that stay.")
    eave: list[EaveDocument] = key("Roof edges, friezes and soffit vents.")
    fixture: list[FixtureDocument] = key("What comes off and goes back.")


def read(root: Part, draft: Draft) -> None:
    """Read [recoat] into the draft; whether vents lie on their wall is looked at when it is built."""
    part = root.part("recoat")
    if part is None:
        return
    surfaces = _surfaces(part, draft)
    draft.when_built(lambda built: _old(part, built, surfaces))
    draft.put(
        recoat=Recoat(
            surfaces=surfaces,
            adds=part.length("adds", positive=True),
            frames=part.length("frames"),
            returns=part.length("returns"),
            weep=part.length("weep"),
            vents=_vents(part, draft, surfaces),
            eaves=_eaves(part, draft, surfaces),
            fixtures=tuple(_fixture(entry) for entry in part.parts("fixture")),
            mask=part.rate("mask", length=True),
            wash=part.rate("wash", length=False),
            roughen=part.rate("roughen", length=False),
        )
    )


def _surfaces(part: Part, draft: Draft) -> tuple[str, ...]:
    """The surfaces that are named, a house as its walls; each once."""
    there = (*draft.zones, *draft.houses)
    found: list[str] = []
    if part.has("surfaces") and not part.rows("surfaces") and not part.raw["surfaces"]:
        part.fault("surfaces", "job.empty", "", ", ".join(there))
    for n, name in part.rows("surfaces"):
        if name not in there:
            inner = Part(part.reading, {str(n): name}, (*part.loc, "surfaces"))
            close = _nearest(name, there)
            inner.fault_at((n,), "job.no-such-surface", name, ", ".join(there), close)
            continue
        for surface in draft.houses.get(name, [name]):
            if surface in found:
                part.fault_at(("surfaces", n), "job.twice", name, ok.ONCE)
                break
            found.append(surface)
    return tuple(found)


def _is_old(surface: Surface) -> bool:
    return any(zone.base in DOUBTFUL for zone in surface.zones)


def _kinds() -> str:
    return " or ".join(f'base = "{kind}"' for kind in DOUBTFUL)


def _old(part: Part, built: Sequence[Surface], named: tuple[str, ...]) -> None:
    """There is an old wall to coat anew; one that is named is old."""
    old, kinds = {s.id: _is_old(s) for s in built}, _kinds()
    bare = [name for name in named if not old.get(name, True)]
    if bare:
        part.fault("surfaces", "job.not-old", ", ".join(bare), kinds)
    elif not named and old and not any(old.values()) and not part.said("surfaces"):
        part.fault(None, "job.not-old", ", ".join(old), kinds)


def _nearest(name: str, there: Sequence[str]) -> str:
    from darby.job.places import nearest

    return nearest(name, there)


def _vents(part: Part, draft: Draft, named: tuple[str, ...]) -> tuple[Vent, ...]:
    found = []
    for n, entry in enumerate(part.parts("vent"), 1):
        surface = draft.surface_named(entry, "surface")
        at, up = entry.length("at"), entry.length("up")
        clear, count = entry.length("clear"), entry.count("count", 1, most=MOST)
        if surface is not None and named and surface not in named:
            entry.fault("surface", "job.not-one-of", surface, ", ".join(named))
            continue
        if surface is None or at is None or up is None:
            continue
        vent = Vent(f"vent-at-{n}", surface, at, up, entry.text("name"), clear, count)
        draft.when_built(lambda built, e=entry, v=vent: _on_the_wall(e, built, v))  # type: ignore[misc]
        found.append(vent)
    return tuple(found)


def _on_the_wall(part: Part, surfaces: Sequence[Surface], vent: Vent) -> None:
    """A vent stands in plaster: on the wall, and in no opening."""
    surface = next((s for s in surfaces if s.id == vent.surface), None)
    if surface is None:
        return
    wall, point = polygon(surface.outline), shapely.Point(float(vent.at), float(vent.up))
    where = f"at {write(vent.at)}, up {write(vent.up)}"
    u0, v0, u1, v1 = wall.bounds
    if wall.distance(point) > float(HAIR):
        span = f"at {write(u0)} … {write(u1)}, up {write(v0)} … {write(v1)}"
        part.fault(None, "job.vent-off-wall", where, span)
        return
    inside = [o.id for o in surface.openings if polygon(o.outline).contains(point)]
    if inside:
        part.fault(None, "job.vent-in-opening", where, ", ".join(inside))
    elif not _is_old(surface):
        part.fault("surface", "job.not-old", vent.surface, _kinds())


def _eaves(part: Part, draft: Draft, named: tuple[str, ...]) -> tuple[Eave, ...]:
    """One for every wall of a house that is named; a wall has each eave once by its name."""
    found: list[Eave] = []
    seen: set[tuple[str, str]] = set()
    for n, entry in enumerate(part.parts("eave"), 1):
        at = draft.surface_named(entry, "surface", houses=True)
        clear, name = entry.length("clear"), entry.text("name")
        over = draft.houses.get(at or "", [at] if at else [])
        if over and named and not set(over) & set(named):
            entry.fault("surface", "job.not-one-of", ", ".join(over), ", ".join(named))
            continue
        draft.when_built(lambda built, e=entry, o=over: _over_old(e, built, o))  # type: ignore[misc]
        for surface in over:
            if (surface, name) in seen:
                entry.fault("surface", "job.twice", surface, ok.ONCE)
                break
            seen.add((surface, name))
            found.append(Eave(f"eave-{n}", surface, name, clear))
    return tuple(found)


def _over_old(part: Part, built: Sequence[Surface], over: Sequence[str]) -> None:
    """An eave stands over a wall that is coated anew."""
    under = [s for s in built if s.id in over]
    if under and not any(_is_old(s) for s in under):
        part.fault("surface", "job.not-old", ", ".join(s.id for s in under), _kinds())


def _fixture(part: Part) -> Fixture:
    return Fixture(part.text("what", must=True), part.count("count", 1, most=MOST), part.time("each"))
