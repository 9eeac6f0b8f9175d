"""The whole document as pydantic models, made of the sections; its JSON Schema; and the field tables of the docs."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, Field, create_model
from pydantic.json_schema import GenerateJsonSchema

from darby.job.fields import Document
from darby.job.firm import ITEMS
from darby.job.sections import SECTIONS
from darby.job.sections.firm_file import FirmDocument, LengthUnit
from darby.job.upgrades import FIRM_VERSION, VERSION

Kind = Literal["job", "firm"]
SCHEMA = "https://json-schema.org/draft/2020-12/schema"


@cache
def job_document() -> type[BaseModel]:
    """The model of the whole job file, with the firm already laid in."""
    sections: dict[str, Any] = {
        section.key: (section.document, Field(... if section.must else None, description=section.says))
        for section in SECTIONS
    }
    return create_model(
        "JobDocument",
        __base__=Document,
        __doc__="The job file.",
        darby=(int, Field(description=f"Version of the job file: {VERSION}.")),
        units=(
            LengthUnit,
            Field(None, description="What a length without a unit is in. Left out, it is refused."),
        ),
        **sections,
    )


class _Schema(GenerateJsonSchema):
    def default_schema(self, schema: Any) -> dict[str, Any]:
        """None stands for "left out"; the file has no null, so it is no default worth telling."""
        return self.generate_inner(schema["schema"])

    def get_title_from_name(self, name: str) -> str:
        return name


def schema(kind: Kind = "job") -> dict[str, Any]:
    """JSON Schema (2020-12) of the job file or the firm file; dates are text like 2026-09-30."""
    model = job_document() if kind == "job" else FirmDocument
    made: dict[str, Any] = {"$schema": SCHEMA, **model.model_json_schema(schema_generator=_Schema, by_alias=True)}
    version, key = (VERSION, "darby") if kind == "job" else (FIRM_VERSION, "darby_firm")
    made["properties"][key]["const"] = version
    if kind == "job":  # in the job file [firm] holds only what is different
        made["properties"]["firm"] = {"type": "object", "description": made["properties"]["firm"]["description"]}
    made["$defs"] = _used(made)
    return made


def _used(made: dict[str, Any]) -> dict[str, Any]:
    """The definitions something points to, in the order of the document."""
    defs: dict[str, Any] = made["$defs"]
    left = {key: value for key, value in made.items() if key != "$defs"}
    used: dict[str, Any] = {}
    ahead = [left]
    while ahead:
        for name in re.findall(r"'#/\$defs/(\w+)'", repr(ahead.pop(0))):
            if name not in used:
                used[name] = defs[name]
                ahead.append(defs[name])
    return used


# --- the tables of docs/job-file.md ------------------------------------------------------------

MANY = {"table": "tables", "date": "dates", "measure": "measures", "text": "texts"}
START, END = "<!-- made from the models: {kind} -->", "<!-- end: {kind} -->"


def tables(kind: Kind) -> str:
    """The fields of every table of the file, as Markdown."""
    made = schema(kind)
    blocks = [_table("Top of the file", made)]
    blocks += [
        _table(_heading(definition), definition)
        for definition in made.get("$defs", {}).values()
        if "properties" in definition
    ]
    if kind == "firm":
        blocks.append("**What darby orders**: " + ", ".join(f"`{item}`" for item in ITEMS) + ".")
    return "\n\n".join(blocks)


def _heading(definition: dict[str, Any]) -> str:
    return str(definition.get("description", definition.get("title", ""))).split("\n")[0].removesuffix(".")


def _table(heading: str, definition: dict[str, Any]) -> str:
    must = set(definition.get("required", ()))
    lines = [f"**{heading}**", "", "| key | is | must |  |", "|---|---|---|---|"]
    for key, field in definition["properties"].items():
        says = str(field.get("description", "")).replace("|", "\\|")
        lines.append(f"| `{key}` | {_kind(field)} | {'yes' if key in must else ''} | {says} |")
    return "\n".join(lines)


def _kind(field: dict[str, Any]) -> str:
    if "enum" in field:
        return ", ".join(f"`{word}`" for word in field["enum"])
    if "const" in field:
        return f"`{field['const']}`"
    if "$ref" in field:
        return "table"
    if "oneOf" in field or "anyOf" in field:
        return " or ".join(dict.fromkeys(_kind(inner) for inner in field.get("oneOf") or field["anyOf"]))
    if field.get("type") == "array":
        inner = _kind(field["items"])
        return f"list of {MANY.get(inner, inner)}"
    if field.get("type") == ["string", "number"]:
        return "measure"
    if field.get("format") == "date":
        return "date"
    return {"string": "text", "integer": "whole number", "boolean": "true, false", "object": "table"}.get(
        str(field.get("type")), "value"
    )


def codes() -> str:
    """Every code of a fault or an assumption with its sentence, as Markdown."""
    text = resources.files("darby.words").joinpath("en", "job.toml").read_text(encoding="utf-8")
    sentences = {c: s for c, s in tomllib.loads(text).items() if not c.startswith("word.") and c != "job.nearest"}
    rows = [f"| `{code}` | {sentence} |" for code, sentence in sorted(sentences.items())]
    return "\n".join(["| code | says |", "|---|---|", *rows])


def with_tables(text: str) -> str:
    """The text of docs/job-file.md with its generated blocks made anew."""
    blocks = {"job": tables("job"), "firm": tables("firm"), "codes": codes()}
    for kind, block in blocks.items():
        start, end = START.format(kind=kind), END.format(kind=kind)
        before, _, rest = text.partition(start)
        _, _, after = rest.partition(end)
        text = f"{before}{start}\n\n{block}\n\n{end}{after}"
    return text


if __name__ == "__main__":
    page = Path("docs/job-file.md")
    page.write_text(with_tables(page.read_text(encoding="utf-8")), encoding="utf-8")
