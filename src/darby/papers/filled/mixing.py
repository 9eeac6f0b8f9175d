"""How a mix is called and what its parts are, in the crew's words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.papers.filled.writer import Writer
from darby.words import Language

if TYPE_CHECKING:
    from darby.mix import CoatMix


def mix_called(writer: Writer, mix: CoatMix, language: Language) -> str:
    """The coat it is for, and how its base drinks where that made the mix: "Scratch coat, on lath"."""
    name = writer.say(f"paper.mix.{mix.coat}", language)
    suction = mix.id.rpartition(" ")[2]
    return f"{name}, {writer.say(f'paper.mix.on-{suction}', language)}" if suction in ("none", "low", "high") else name


def parts_said(writer: Writer, mix: CoatMix, language: Language) -> str:
    """ "1 portland, 3/4 lime, 5 damp sand", or the name on the bag."""
    if mix.bagged is not None:
        return mix.bagged.name
    if mix.parts is None:
        return ""
    return ", ".join(
        f"{writer.write(mix.parts.of(m), language)} {writer.say(f'paper.material.{m}', language)}"
        for m in mix.parts.used
    )
