"""What can be chosen in a job's form instead of being typed: its walls by name, and what the firm buys."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from django.urls import reverse

from darby.desk.kept import FIRM, saving
from darby.desk.reading import read
from darby.desk.sketching.lines import SHAPES
from darby.words import catalogue, surface_called

if TYPE_CHECKING:
    from darby.desk.forms import Known
    from darby.tables.setting import Setting

WHOLE = ("house", "garden_wall", "box")
"""Shapes with several walls, which can be meant as a whole."""


def known_of(document: str, setting: Setting) -> Known:
    """By key of the job file, what can be chosen; nothing where the job cannot be read."""
    found = read(document) if document != FIRM else None
    if found is None or found.job is None:
        return {}
    walls = [(s.id, surface_called(s, setting.language)) for s in found.job.surfaces]
    ids = {id for id, _ in walls}
    wholes = [
        (str(entry["id"]), _whole(entry, section, setting))
        for section in SHAPES
        for entry in found.tables.get(section, ())
        if section in WHOLE and entry["id"] not in ids
    ]
    seen = [(str(entry["id"]), str(entry.get("name") or entry["id"]))
            for entry in found.tables.get("survey", ()) if "id" in entry]  # fmt: skip
    surfaces = tuple(dict.fromkeys((*wholes, *walls, *seen)))
    return {"surface": surfaces, "with": tuple(walls), "item": items(setting)}


def _whole(entry: Mapping[str, Any], section: str, setting: Setting) -> str:
    name = str(entry.get("name") or catalogue(setting.language)[f"desk.shape.{section}"])
    return setting.say("desk.form.whole", name=name)


def items(setting: Setting) -> tuple[tuple[str, str], ...]:
    """What the firm buys: (the item, what it is called)."""
    bought = dict.fromkeys(str(row["item"]) for row in _buys() if "item" in row)
    return tuple((item, item_called(item, setting)) for item in bought)


def item_called(item: str, setting: Setting) -> str:
    """What an item of the order is called; the file's own word where it has no other name."""
    return catalogue(setting.language).get(f"quantities.item.{item.replace(' ', '-')}", item)


def to_price(item: str, document: str) -> str:
    """The address of the form where the firm writes what ``item`` costs; it leads back to the quote of ``document``."""
    rows = _buys()
    number = next((n for n, row in enumerate(rows) if row.get("item") == item), len(rows))
    asked = urlencode({"from": f"{document}/quote", "at": f"buys.{number}", f"buys.{number}.item": item})
    return f"{reverse('section', args=[FIRM, 'buys'])}?{asked}"


def _buys() -> list[Mapping[str, Any]]:
    text = saving.firm_text()
    rows = saving.tables(text).get("buys", ()) if text is not None else ()
    return [row for row in rows if isinstance(row, Mapping)]
