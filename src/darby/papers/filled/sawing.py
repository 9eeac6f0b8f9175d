"""The cut list as a sheet a person can saw from: the crew's copy, and the firm's with money."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.drawing import to_svg
from darby.drawing.bars import bar_marks, bar_sheet
from darby.drawing.lettering import size
from darby.measure.units import unit
from darby.papers.filled.parting import joint_called
from darby.papers.filled.places import place
from darby.papers.model import Both, BothCaution, Picture, SawCut, SawingPaper, SawPart, SawRow, StockRow
from darby.quantities.cutting.proof import lines
from darby.words import Verbatim
from darby.working import Amount, Quantity

if TYPE_CHECKING:
    from darby.drawing import Sheet
    from darby.measure.surface import Surface
    from darby.papers.filled.writer import Writer
    from darby.quantities.cutting.model import Bar, Bought, Cut, CutAsk, CutList, CutLists, ProfileCuts
    from darby.words import Language

WIDE = 318.0
"""How long the longest bar is drawn [pt]."""
TO = 16
LETTERS = 26


def cut_list_papers(writer: Writer) -> dict[str, SawingPaper]:
    """The cut list for the crew, and the firm's copy with money and proof; {} where nothing is cut."""
    lists: CutLists | None = writer.answers.answered("cuts")
    if lists is None or not any(x.cuts for x in lists.lists):
        return {}
    return {"cuts.pdf": _paper(writer, lists, money=False), "cuts-money.pdf": _paper(writer, lists, money=True)}


def _paper(writer: Writer, lists: CutLists, *, money: bool) -> SawingPaper:
    ask: CutAsk = writer.answers.kept[("cuts", "job")].ask
    languages = (writer.language,) if money else writer.crew_languages
    longest = max(bar.stock for x in lists.lists if x.cuts for bar in x.cuts.bars)
    sheet = bar_sheet(Fraction(longest), WIDE)
    parts = tuple(_part(writer, x, ask, sheet, languages, money=money) for x in lists.lists if x.cuts)
    blade = "paper.sawing.blade" if ask.kerf else "paper.sawing.snips"
    notes = [Both(*(writer.say(blade, one, blade=Verbatim(_long(writer, ask.kerf, one))) for one in languages))]
    sums: list[tuple[str, str]] = []
    if money and lists.cost is not None and lists.saved is not None:
        sums = [(writer.say("paper.sawing.all"), writer.write(lists.cost)),
                (writer.say("paper.sawing.saved"), writer.write(lists.saved))]  # fmt: skip
    title = "paper.sawing.title-money" if money else "paper.sawing.title"
    return SawingPaper(
        firm=writer.firm,
        stamp=writer.stamp,
        title=writer.say(title, name=Verbatim(writer.answers.job.name)),
        opening=_both(writer, languages, "paper.sawing.opening"),
        parts=parts,
        sums=tuple(sums),
        notes=tuple(notes),
        cautions=(
            *(_not_cut(writer, x, languages) for x in lists.lists if x.fault is not None),
            BothCaution(
                _both(writer, languages, "paper.sawing.sharp"), _both(writer, languages, "paper.sawing.sharp-text")
            ),
        ),
        money=money,
        languages=languages,
    )


def _both(writer: Writer, languages: tuple[Language, ...], code: str, /, **values: object) -> Both:
    return Both(*(writer.say(code, one, **values) for one in languages))


def _long(writer: Writer, length: Fraction | float, language: Language | None = None) -> str:
    """A length to saw: sixteenths of an inch, or millimetres."""
    if writer.system == "metric":
        return writer.write(Quantity(length, unit("mm")), language)
    return writer.feet(length, language, TO)


def _not_cut(writer: Writer, found: ProfileCuts, languages: tuple[Language, ...]) -> BothCaution:
    """A profile that could not be cut, and why."""
    fault = found.fault
    assert fault is not None
    openings, said = [], []
    for one in languages:
        at = piece_called(writer, fault.place, one) or fault.place
        why = writer.say(
            fault.code, one, place=Verbatim(at), found=Verbatim(fault.found), allowed=Verbatim(fault.allowed)
        )
        openings.append(
            writer.say("paper.sawing.not-cut", one, item=Verbatim(_capital(_item(writer, found.item, one))))
        )
        said.append(why)
    return BothCaution(Both(*openings), Both(*said))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _item(writer: Writer, item: str, language: Language) -> str:
    return writer.say(f"quantities.item.{item.replace(' ', '-')}", language)


# --- one profile -------------------------------------------------------------------------------------------


def _part(writer: Writer, found: ProfileCuts, ask: CutAsk, sheet: Sheet, languages: tuple[Language, ...], *,
          money: bool) -> SawPart:  # fmt: skip
    cuts = found.cuts
    assert cuts is not None
    profile = next(p for p in ask.profiles if p.item == found.item)
    notes = []
    if profile.splice is None:
        notes.append(_both(writer, languages, "paper.sawing.one-piece"))
    elif any(len(placed.bars) > 1 for placed in cuts.by_piece):
        least = profile.splice.least or writer.answers.book.number("cutting.splice.least").number
        notes.append(Both(*(writer.say("paper.sawing.splice", one, least=Verbatim(_long(writer, least, one)))
                            for one in languages)))  # fmt: skip
    if cuts.aim == "length" and money:
        notes.append(_both(writer, languages, "paper.sawing.no-price"))
    return SawPart(
        name=Both(*(_capital(_item(writer, found.item, one)) for one in languages)),
        stock=tuple(_stock(writer, bought, languages, money=money) for bought in cuts.bought),
        rows=tuple(_row(writer, cuts, bars, sheet, languages) for bars in cuts.patterns),
        sums=_sums(writer, found) if money else (),
        proved=_proved(writer, cuts) if money else "",
        proof=lines(cuts) if money else (),
        notes=tuple(notes),
    )


def _stock(writer: Writer, bought: Bought, languages: tuple[Language, ...], *, money: bool) -> StockRow:
    length = Both(*(_long(writer, bought.length, one) for one in languages))
    if not money or bought.price is None:
        return StockRow(str(bought.count), length)
    each, all_of = Amount(bought.price), Amount(bought.price * bought.count)
    return StockRow(str(bought.count), length, writer.write(each), writer.write(all_of))


def _sums(writer: Writer, found: ProfileCuts) -> tuple[tuple[str, str], ...]:
    rows = (("cost", found.cost), ("first-fit", found.first_fit), ("saved", found.saved), ("bound", found.bound))
    return tuple((writer.say(f"paper.sawing.{name}"), writer.write(value)) for name, value in rows if value is not None)


def _proved(writer: Writer, cuts: CutList) -> str:
    if cuts.proved_best:
        return writer.say("paper.sawing.proved")
    gap = Amount(cuts.gap) if cuts.aim == "money" else Quantity(cuts.gap, unit("ft-in"))  # type: ignore[arg-type]
    return writer.say("paper.sawing.best-found", gap=gap)


# --- bars --------------------------------------------------------------------------------------------------


def _row(writer: Writer, cuts: CutList, bars: tuple[Bar, ...], sheet: Sheet, languages: tuple[Language, ...]) -> SawRow:
    """Bars sawn alike, drawn once: letter by letter the places that their pieces go to."""
    first = bars[0]
    letters = [(piece_letter(n), Fraction(cut.length)) for n, cut in enumerate(first.cuts)]
    left = _long(writer, first.left) if first.left else ""
    rest = size(first.left, writer.system) if first.left else ""
    marks = bar_marks(Fraction(first.stock), letters, Fraction(cuts.kerf), sheet, rest, writer.system)
    pieces = Verbatim(", ".join(f"{letter} {_long(writer, length)}" for letter, length in letters))
    alt = writer.say("paper.sawing.alt", length=Verbatim(_long(writer, first.stock)), pieces=pieces)
    places: dict[tuple[str, Both], list[str]] = defaultdict(list)
    for n, (letter, length) in enumerate(letters):
        where = Both(*("; ".join(_gathered(writer, [bar.cuts[n] for bar in bars], one)) for one in languages))
        places[_long(writer, length), where].append(letter)
    cut_rows = tuple(SawCut(_run(several), long, where) for (long, where), several in places.items())
    return SawRow(_numbers([bar.number for bar in bars]), _called(writer, bars, languages),
                  Picture(to_svg(marks, sheet, title=alt), alt), cut_rows, left)  # fmt: skip


def piece_letter(n: int) -> str:
    """a, b ... z, then aa, ab ..."""
    more, one = divmod(n, LETTERS)
    return (piece_letter(more - 1) if more else "") + chr(ord("a") + one)


def _run(letters: list[str]) -> str:
    """Pieces alike stand side by side: "c–l"."""
    return letters[0] if len(letters) == 1 else f"{letters[0]}–{letters[-1]}"


def _gathered(writer: Writer, cuts: list[Cut], language: Language) -> list[str]:
    """The same place several times is said once: with how often, or which of its parts they are."""
    alike: dict[tuple[str, int], list[int]] = defaultdict(list)
    for cut in cuts:
        alike[piece_called(writer, cut.piece, language), cut.parts].append(cut.part)
    said = []
    for (where, parts), numbers in alike.items():
        if parts > 1:
            part = _numbers(sorted(numbers))
            code = "paper.sawing.part" if len(numbers) == 1 else "paper.sawing.parts"
            said.append(writer.say(code, language, where=Verbatim(where), part=part, parts=str(parts)))
        else:
            said.append(f"{len(numbers)} × {where}" if len(numbers) > 1 else where)
    return said


def _numbers(numbers: list[int]) -> str:
    """ "1–3", "4": bars that are sawn alike stand side by side."""
    first, last = numbers[0], numbers[-1]
    if last - first + 1 == len(numbers):
        return str(first) if first == last else f"{first}–{last}"
    return ", ".join(str(n) for n in numbers)


def _called(writer: Writer, bars: tuple[Bar, ...], languages: tuple[Language, ...]) -> Both:
    first = bars[0]
    names = ", ".join(dict.fromkeys(bar.offcut for bar in bars if bar.offcut))
    code = "bar-of" if first.offcut is None else "on-truck-called" if names else "on-truck"
    return Both(*(writer.say(f"paper.sawing.{code}", one, length=Verbatim(_long(writer, first.stock, one)),
                             name=Verbatim(names)) for one in languages))  # fmt: skip


def piece_called(writer: Writer, name: str, language: Language) -> str:
    """Where a piece goes: the wall, and the edge, opening or joint of it; by its letter where a joint has one."""
    surface, *rest = name.split("/")
    job = writer.answers.job
    if not any(s.id == surface for s in job.surfaces):
        return name
    if rest[:1] == ["joint"] and len(rest) > 1:
        called = joint_called(writer, surface, rest[1], language)
        return ", ".join(x for x in (writer.place(surface, language), called) if x)
    said = place(job, name, language)
    side = _side(job.surface(surface), rest)
    return f"{said}, {writer.say(f'paper.edge.{side}', language)}" if side else said


def _side(surface: Surface, rest: list[str]) -> str:
    """On which side of its zone a zone's edge lies: edges are called by the corner that they start at."""
    zone = next((z for z in surface.zones if rest[:1] == [z.id] and z.outline is not None), None)
    if zone is None or zone.outline is None:
        return ""
    corners = list(zone.outline)
    n = next((n for n, corner in enumerate(corners) if corner.id == rest[-1]), None)
    if n is None:
        return ""
    a, b = corners[n], corners[(n + 1) % len(corners)]
    us, vs = [float(c.u) for c in corners], [float(c.v) for c in corners]
    if abs(b.u - a.u) < abs(b.v - a.v):
        return "left" if float(a.u + b.u) < min(us) + max(us) else "right"
    return "base" if float(a.v + b.v) < min(vs) + max(vs) else "top"
