"""Every sentence a person reads, in English and Spanish; values are put in with their units."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib import resources
from typing import Literal

from darby.measure.units import System

Language = Literal["en", "es"]
LANGUAGES: tuple[Language, ...] = ("en", "es")


@cache
def catalogue(language: Language) -> Mapping[str, str]:
    """Code to sentence, all files of a language together.

    Raises
    ------
    ValueError
        if a code stands in two files.
    """
    sentences: dict[str, str] = {}
    for path in sorted(resources.files("darby.words").joinpath(language).iterdir(), key=lambda p: p.name):
        for code, sentence in tomllib.loads(path.read_text(encoding="utf-8")).items():
            if code in sentences:
                raise ValueError(f"{language}: {code!r} stands twice, the second time in {path.name}")
            sentences[code] = sentence
    return sentences


def say(
    code: str,
    values: Mapping[str, object] | Iterable[tuple[str, object]] = (),
    language: Language = "en",
    system: System = "us",
) -> str:
    """The sentence of ``code`` with its values written in ``language`` and ``system``.

    Raises
    ------
    KeyError
        if the catalogue lacks the code, or the sentence asks for a value that was not given.
    """
    shown = {name: _text(value, language, system) for name, value in dict(values).items()}
    return catalogue(language)[code].format_map(shown)


def _text(value: object, language: Language, system: System) -> str:
    from darby.measure.writing import shown
    from darby.rulebook.model import Figure
    from darby.working.model import Amount, Quantity

    if isinstance(value, (Quantity, Amount)):
        return shown(value.value, value.unit, system)
    if isinstance(value, Figure):
        return shown(value.value, value.unit, system) if value.value is not None else value.written
    if isinstance(value, str):
        return catalogue(language).get(f"word.{value}", value)
    if isinstance(value, (tuple, list)):
        return ", ".join(_text(v, language, system) for v in value)
    return str(value)
