"""Where the price comes from: every line of it by coats, trips and goods; and what the customer might rather have."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from darby.tables.page import Page
from darby.tables.places import place, places
from darby.tables.setting import Setting
from darby.words import Verbatim, catalogue
from darby.working import Amount

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.answers.alternatives import Alternative
    from darby.price.model import Line, Price

TRIPS = "trips"
GROUPS = ("trips", "access", "also", "material")


def built_pages(price: Price, answers: Answers, setting: Setting) -> list[Page]:
    """The price from the sums down: what it adds up to, the coats, the trips, and the rest."""
    heads = (setting.say("cli.price.line"), setting.say("cli.price.amount"))
    numbers = frozenset({1})
    coats: dict[str, list[Line]] = {}
    others: dict[str, list[Line]] = {name: [] for name in GROUPS}
    for line in price.lines:
        if line.code == "price.coat":
            coats.setdefault(line.what, []).append(line)
        else:
            others[_group(line)].append(line)
    rows: list[tuple[str, ...]] = []
    for coat, lines in coats.items():
        rows.append((_called(coat, setting) + ":",))
        rows += [(place(answers, line.at, setting), setting.write(line.amount)) for line in lines]
    pages = [_sums(price, heads, setting)]
    if rows:
        pages.append(Page("price", setting.say("priced.coats"), heads, tuple(rows), right=numbers, whole=numbers))
    for name, lines in others.items():
        said = tuple((_line(line, answers, setting), setting.write(line.amount)) for line in lines)
        if said:
            pages.append(Page("price", setting.say(f"priced.{name}"), heads, said, right=numbers, whole=numbers))
    return pages


def _sums(price: Price, heads: tuple[str, ...], setting: Setting) -> Page:
    loaded = price.loaded
    rows: list[tuple[str, Amount]] = [
        ("price.labor", loaded.labor), ("price.material", loaded.material), ("price.rest", loaded.rest),
        ("price.cost", loaded.cost), ("price.overhead", loaded.overhead), ("price.profit", loaded.profit),
    ]  # fmt: skip
    if price.lift.value:
        rows.append(("price.lift", price.lift))
    said = tuple((setting.say(code), setting.write(amount)) for code, amount in rows)
    last = (setting.say("cli.price.total"), setting.write(price.total))
    one = frozenset({1})
    return Page("price", setting.say("priced.sums"), heads, said, last, right=one, whole=one)


def _group(line: Line) -> str:
    if line.code == "price.material":
        return "material"
    start = line.code.removeprefix("price.").partition("-")[0]
    return start if start in GROUPS else TRIPS


def _line(line: Line, answers: Answers, setting: Setting) -> str:
    """What it is for, and what of it is paid."""
    if line.code == "price.material":
        items = {one.item: one for one in answers.of("order").lines}
        one = items.get(line.what)
        name = (one.name or setting.say(one.says)) if one is not None else line.what
        return name[:1].upper() + name[1:]
    if line.what == TRIPS:
        return setting.say(line.code)
    return f"{_called(line.what, setting)}: {setting.say(line.code).lower()}"


def _called(what: str, setting: Setting) -> str:
    words = catalogue(setting.language)
    codes = (f"cli.work.{what}", f"cli.also.{what}", f"price.access.{what}")
    said = next((words[code] for code in codes if code in words), None) or setting.say("cli.price.access", kind=what)
    return said[:1].upper() + said[1:]


def rather_page(found: Sequence[Alternative], answers: Answers, setting: Setting) -> Page:
    """Each alternative, and what it adds to the price or takes off."""
    rows = tuple((_rather(one, answers, setting), _change(one.change, setting)) for one in found)
    heads = (setting.say("priced.rather.what"), setting.say("cli.moves.then"))
    lines = () if rows else (setting.say("priced.rather.none"),)
    one = frozenset({1})
    return Page("price", setting.say("priced.rather"), heads if rows else (), rows, lines=lines, right=one, whole=one)


def _rather(one: Alternative, answers: Answers, setting: Setting) -> str:
    walls = places(answers, one.surfaces, setting)
    return setting.say(f"paper.rather.{one.code}", walls=Verbatim("; ".join(walls)))


def _change(change: object, setting: Setting) -> str:
    amount = Amount(change)  # type: ignore[arg-type]
    return f"{'+' if amount.value > 0 else ''}{setting.write(amount)}"
