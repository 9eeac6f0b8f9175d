"""What a field of the document may hold, for the shape pass: text, measured text, dates, flags. Needs pydantic."""

from __future__ import annotations

from datetime import date, datetime
from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, ConfigDict, Discriminator, Field, PlainValidator, Tag, WithJsonSchema
from pydantic_core import PydanticCustomError

from darby.job import allowed as ok

LARGEST_WHOLE = 10**18


class Document(BaseModel):
    """A table of the document: no key but its own, no value of another kind."""

    model_config = ConfigDict(extra="forbid", strict=True)


def wrong(allowed: str) -> PydanticCustomError:
    """The error of a value of the wrong kind."""
    return PydanticCustomError("darby_kind", "{allowed}", {"allowed": allowed})


def _number(value: object) -> bool:
    """A number, and none so long that writing it down is work."""
    return isinstance(value, float) or (
        isinstance(value, int) and not isinstance(value, bool) and abs(value) < LARGEST_WHOLE
    )


def _measured(value: object) -> object:
    """Text, or a bare number: whether a bare number will do is for the meaning pass to say."""
    if isinstance(value, str) or _number(value):
        return value
    raise wrong(ok.MEASURE)


def _parts(value: object) -> object:
    if isinstance(value, str) or _number(value):
        return value
    raise wrong(ok.NUMBER)


def _day(value: object) -> object:
    if isinstance(value, str) or (isinstance(value, date) and not isinstance(value, datetime)):
        return value
    raise wrong(ok.DATE)


Measured = Annotated[Any, PlainValidator(_measured), WithJsonSchema({"type": ["string", "number"]})]
Parts = Annotated[Any, PlainValidator(_parts), WithJsonSchema({"type": ["string", "number"]})]
Day = Annotated[Any, PlainValidator(_day), WithJsonSchema({"type": "string", "format": "date"})]

_T = TypeVar("_T", bound=Document)

TEXT, TABLE = "as text", "as table"
"""Tags pydantic puts into the way to an error; not steps of the document."""


def _text_or_table(value: object) -> str | None:
    if isinstance(value, str):
        return TEXT
    return TABLE if isinstance(value, dict) else None


OrTable = Discriminator(
    _text_or_table, custom_error_type="darby_kind", custom_error_message="{allowed}",
    custom_error_context={"allowed": ok.TEXT_OR_TABLE},
)  # fmt: skip
"""For a value that is text or a table: ``Annotated[AsText[str] | AsTable[X], OrTable]``."""

AsText = Annotated[str, Tag(TEXT)]
AsTable = Annotated[_T, Tag(TABLE)]


def key(says: str, *, alias: str | None = None) -> Any:
    """A field that may be left out; ``says`` stands in docs and JSON Schema."""
    return Field(default=None, description=says, alias=alias)


def must(says: str, *, alias: str | None = None) -> Any:
    """A field that must be there."""
    return Field(description=says, alias=alias)
