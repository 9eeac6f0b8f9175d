"""Another way to build it up: ``choose`` of [[coats.on]] for a zone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, get_args

from darby.job.model import BuildUp

WAYS: tuple[str, ...] = get_args(BuildUp)


def taken(tables: Mapping[str, Any], places: Sequence[str], way: str) -> dict[str, Any]:
    """``tables`` with ``way`` chosen at every place, "surface" or "surface/zone"; what else is said of it stays."""
    coats = dict(tables.get("coats", {}))
    on = [dict(entry) for entry in coats.get("on", [])]
    for place in places:
        surface, _, zone = place.partition("/")
        _choose(on, surface, zone, way)
    return {**tables, "coats": {**coats, "on": on}}


def _choose(on: list[dict[str, Any]], surface: str, zone: str, way: str) -> None:
    """In the entry of the place itself; where only its house has one, in one of its own that says the same besides."""
    entry = next((e for e in on if e.get("surface") == surface and e.get("zone", "") == zone), None)
    if entry is None:
        there = any(e.get("surface") == surface for e in on)
        house = next((e for e in on if "zone" not in e and surface.startswith(f"{e.get('surface')}-")), {})
        said = {} if there else {k: v for k, v in house.items() if k not in ("surface", "zone")}
        entry = {"surface": surface, **({"zone": zone} if zone else {}), **said}
        on.append(entry)
    entry["choose"] = way
