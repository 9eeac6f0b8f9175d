"""Sentences and values in templates: everything a person reads comes from the catalogues."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from django import template
from django.template import Context
from django.utils import timezone
from django.utils.safestring import SafeString, mark_safe

from darby.desk.put_on.tally import tally
from darby.words import Verbatim, catalogue
from darby.words import day as day_in_words

register = template.Library()

SHAPES = {
    "done": '<path class="m-done" d="M4 4L15 12L4 20"/>',
    "caution": '<path class="m-caution" d="M3 3.5L15 12L3 20.5Z"/>'
    '<path class="m-caution-h" d="M5.2 15.6V8.4M8.6 13.6V10.4"/>',
    "asks": '<circle class="m-asks" cx="9" cy="12" r="5.6"/>',
    "bare": "",
}


@register.simple_tag(takes_context=True)
def say(context: Context, code: str, **values: Any) -> str:
    """A sentence of the catalogue; text among the values is what a person wrote."""
    said = {name: Verbatim(v) if type(v) in (str, SafeString) else v for name, v in values.items()}
    return str(context["setting"].say(code, **said))


@register.simple_tag(takes_context=True)
def refusal(context: Context, code: str, values: Any = None) -> str:
    """A sentence of the catalogue with the values that came with its code."""
    return str(context["setting"].say(code, **(values or {})))


@register.simple_tag(takes_context=True)
def this_moment(context: Context) -> str:
    """When this page was made, in words: a phone may show it days later."""
    return when(context, timezone.now())


@register.simple_tag(takes_context=True)
def word(context: Context, code: str, otherwise: str = "") -> str:
    """The sentence of a code that may have none."""
    return catalogue(context["setting"].language).get(code, otherwise)


@register.simple_tag(takes_context=True)
def when(context: Context, moment: date | datetime) -> str:
    """A day in words; of a moment also the hour."""
    if not isinstance(moment, datetime):
        return day_in_words(moment, context["setting"].language)
    here = timezone.localtime(moment)
    return f"{day_in_words(here.date(), context['setting'].language)}, {here:%H:%M}"


@register.simple_tag(takes_context=True)
def brief(context: Context, day: date) -> str:
    """A day in two short words, for a list: "Sep 30", "30 sep"."""
    setting = context["setting"]
    month = catalogue(setting.language)[f"date.month.{day.month}"][:3]
    return str(setting.say("desk.date", month=Verbatim(month), day=Verbatim(day.day)))


@register.simple_tag(takes_context=True)
def opening_called(context: Context, name: str) -> str:
    """What a person calls an opening: his own name, or the kind in the reader's language with its number."""
    kind, _, number = name.rpartition("-")
    called = catalogue(context["setting"].language).get(f"drawing.opening.{kind or name}", kind or name)
    return f"{called} {number}".strip() if number.isdigit() else name


@register.simple_tag
def shape(state: str, css: str = "mark") -> SafeString:
    """The sign of a state: crow's foot, hatched triangle, open circle, nothing."""
    return mark_safe(f'<svg class="{css}" viewBox="0 0 18 24" aria-hidden="true">{SHAPES[state]}</svg>')


@register.filter
def headed(row: tuple[str, ...], table: Any) -> list[dict[str, Any]]:
    """A table's row as cells that know their heads: on a phone they stand beneath each other."""
    return [{"text": text, "head": table.heads[n] if n < len(table.heads) else "", "right": n in table.right}
            for n, text in enumerate(row)]  # fmt: skip


@register.filter
def spoken(says: dict[str, str], how: str) -> str:
    """Of a sentence in every language and system the reader's."""
    return says.get(how, "")


@register.filter
def words(text: str) -> list[str]:
    """The words of a text, for a list of codes in a template."""
    return text.split()


@register.filter
def metres(length: Any) -> str:
    """A length in metres for a script, to the micrometre."""
    return f"{float(length):.6f}"


@register.filter
def at(row: Any, number: int) -> Any:
    """The cell of this number."""
    return row[number]


@register.filter
def tallied(part: Any) -> SafeString:
    """What goes into a batch, as the crew strikes it."""
    return tally(part.strokes, part=part.part)


@register.filter
def more(fields: Any) -> bool:
    """Whether some of the fields stand one tap further."""
    return any(not field.first for field in fields)


@register.filter
def lined(text: str) -> bool:
    """Whether a text stands on several lines."""
    return "\n" in text


@register.filter
def bare(given: Any) -> list[Any]:
    """Of the sections that go into a page those of which the file says nothing."""
    return [section for section in given if not section.entries]


@register.filter
def shown(one: Any) -> bool:
    """Whether an entry of a list is open at once: he came for it, or something in it is wrong."""
    return one.begun or bool(one.faults) or any(field.faults for field in one.inside)
