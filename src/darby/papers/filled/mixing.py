"""How a mix is called and what its parts are, in the crew's words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.words import Language, Verbatim, surface_called

if TYPE_CHECKING:
    from darby.mix import CoatMix
    from darby.papers.filled.writer import Writer

SUCTIONS = ("none", "low", "usual", "high")


def mix_called(writer: Writer, mix: CoatMix, language: Language) -> str:
    """The coat it is for, and what made it another mix: how its base drinks ("Scratch coat, on lath"), or one wall."""
    name = writer.say(f"paper.mix.{mix.coat}", language)
    more = mix.id.removeprefix("mix/").removeprefix(mix.coat).strip()
    suction = more.rpartition(" ")[2]
    if suction in SUCTIONS:
        on = Verbatim(writer.say(f"paper.mix.on-{suction}", language))
        return writer.say("paper.mix.place", language, name=Verbatim(name), place=on)
    wall = next((surface_called(s, language) for s in writer.answers.job.surfaces if s.id == more), "")
    return writer.say("paper.mix.place", language, name=Verbatim(name), place=Verbatim(wall)) if wall else name


def parts_said(writer: Writer, mix: CoatMix, language: Language) -> str:
    """ "1 portland, 3/4 lime, 5 damp sand", or the name on the bag."""
    if mix.bagged is not None:
        return mix.bagged.name
    if mix.parts is None:
        return ""
    return ", ".join(
        so_much(writer, writer.count(mix.parts.of(m)), material(writer, mix, m, language), language)
        for m in mix.parts.used
    )


def so_much(writer: Writer, count: str, what: str, language: Language) -> str:
    """ "3/4 lime", "3/4 de cal"."""
    return writer.say("paper.mix.so-much", language, count=Verbatim(count), what=Verbatim(what))


def material(writer: Writer, mix: CoatMix, name: str, language: Language) -> str:
    """A material in the crew's words; a bagged one by the name on its bag."""
    return mix.bagged.name if mix.bagged is not None else writer.say(f"paper.material.{name}", language)
