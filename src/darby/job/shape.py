"""The shape pass: no unknown key, none missing, each of its kind. What fails is said and taken out.

What is left goes on to the meaning pass, so a job shows all its faults at once, whatever their depth.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Mapping
from typing import Any, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from darby.job import allowed as ok
from darby.job.part import Reading
from darby.job.places import Loc, nearest, shown

KINDS = {
    "string_type": ok.TEXT,
    "int_type": ok.WHOLE,
    "int_from_float": ok.WHOLE,
    "int_parsing_size": ok.WHOLE,
    "bool_type": ok.YES_NO,
    "list_type": ok.LIST,
    "dict_type": ok.TABLE,
    "model_type": ok.TABLE,
    "model_attributes_type": ok.TABLE,
}
"""What pydantic says is wrong, and what is allowed there in our words."""

_GONE = object()


def check(document: Mapping[str, Any], model: type[BaseModel], reading: Reading) -> dict[str, Any]:
    """The document without what is wrong in shape; each wrong thing is a fault of ``reading``."""
    left: dict[str, Any] = copy.deepcopy(dict(document))
    try:
        model.model_validate(document)
    except ValidationError as error:
        found = [(_way(document, detail), detail) for detail in error.errors(include_url=False)]
        for loc, detail in found:
            reading.fault(loc, *_said(model, loc, detail))
        for loc, detail in found:
            _take_out(left, loc)
            if detail["type"] != "missing":
                reading.taken_out.add(loc)
    return left


def _way(document: Mapping[str, Any], detail: ErrorDetails) -> Loc:
    """The error's way without pydantic's tags: only steps the document has, and a last key that it lacks."""
    here: Any = document
    way: list[str | int] = []
    for n, step in enumerate(detail["loc"]):
        inner = _step(here, step)
        if inner is _GONE:
            if n == len(detail["loc"]) - 1 and detail["type"] == "missing":
                way.append(step)
            continue
        way.append(step)
        here = inner
    return tuple(way)


def _step(here: Any, step: str | int) -> Any:
    if isinstance(here, Mapping):
        return here.get(step, _GONE)
    if isinstance(here, list) and isinstance(step, int) and step < len(here):
        return here[step]
    return _GONE


def _said(model: type[BaseModel], loc: Loc, detail: ErrorDetails) -> tuple[str, ...]:
    """code, found, allowed, nearest."""
    kind = detail["type"]
    if kind == "extra_forbidden":
        key = str(loc[-1])
        allowed = _keys(_model_at(model, loc[:-1]))
        return "job.unknown-key", key, ", ".join(allowed), nearest(key, allowed)
    if kind == "missing":
        return "job.missing", "", f"{loc[-1]} = ..."
    if kind == "literal_error":
        words = re.findall(r"'([^']*)'", str(detail.get("ctx", {}).get("expected", "")))
        return "job.not-one-of", shown(detail["input"]), ", ".join(words), nearest(detail["input"], words)
    if kind == "darby_kind":
        return "job.wrong-kind", shown(detail["input"]), str(detail["ctx"]["allowed"])
    return "job.wrong-kind", shown(detail["input"]), KINDS.get(kind, ok.OTHER)


def _keys(model: type[BaseModel] | None) -> list[str]:
    return [field.alias or name for name, field in model.model_fields.items()] if model else []


def _model_at(model: type[BaseModel], loc: Loc) -> type[BaseModel] | None:
    """The model that speaks for the table at ``loc``."""
    here: Any = model
    for step in loc:
        if isinstance(here, type) and issubclass(here, BaseModel):
            fields = {field.alias or name: field.annotation for name, field in here.model_fields.items()}
            here = fields.get(str(step))
        elif get_origin(here) in (list, dict):
            here = get_args(here)[-1]
        here = _table_of(here)
    return here if isinstance(here, type) and issubclass(here, BaseModel) else None


def _table_of(annotation: Any) -> Any:
    """The model (or list, or dict) inside a union of text and table."""
    if isinstance(annotation, type) or get_origin(annotation) in (list, dict):
        return annotation
    for inner in get_args(annotation):
        found = _table_of(inner)
        if (isinstance(found, type) and issubclass(found, BaseModel)) or get_origin(found) in (list, dict):
            return found
    return annotation


def _take_out(left: dict[str, Any], loc: Loc) -> None:
    """A key goes; an entry of a list becomes None, so that the rest keep their number."""
    here: Any = left
    for step in loc[:-1]:
        here = _step(here, step)
    if isinstance(here, dict):
        here.pop(loc[-1], None)
    elif isinstance(here, list) and isinstance(loc[-1], int) and loc[-1] < len(here):
        here[loc[-1]] = None
