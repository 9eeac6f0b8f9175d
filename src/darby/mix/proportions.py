"""Sand per sum of cementitious materials, lime by suction, against the limits of the coat; a mix proposed inside.

Limits: IRC 2018 Table R702.1(3), IBC 2510.7 and 2512, and project specifications, all in rulebook/mix.toml.
"""

from __future__ import annotations

from dataclasses import replace

from quicktions import Fraction

from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.mix.model import CEMENTS, Coat, MixParts, Suction, Verdict
from darby.rulebook import Book, Figure, Ruled
from darby.working import Note, Quantity, Working, note
from darby.working.model import Grade

PARTS = unit("parts")


def judge(
    working: Working,
    key: str,
    parts: MixParts,
    coat: Coat,
    suction: Suction,
    book: Book,
    scratch: MixParts | None = None,
) -> Verdict:
    """The mix against the limits of its coat; every limit that was met or not is a Note with its figure.

    Parameters
    ----------
    key
        beginning of the keys of the steps, and the place the notes speak of.
    scratch
        the scratch coat under a brown coat; the brown must not carry less sand.
    """
    cementitious = _sum(working, key, parts)
    ratio = working.step(
        f"{key}/sand-ratio", "sand / cementitious", PARTS, "mix.sand-ratio",
        sand=Quantity(parts.sand, PARTS), cementitious=cementitious,
    )  # fmt: skip
    notes: list[Note] = []
    sand = _sand(working, key, ratio, cementitious, coat, parts.cement, book, notes)
    lime = _lime(working, key, parts, coat, suction, book, notes)
    if parts.portland > 0 and parts.masonry > 0:
        _masonry(working, key, parts, book, notes)
    if coat == "brown" and scratch is not None:
        _against_scratch(working, key, ratio, cementitious, scratch, book, notes)
    if coat == "skim":
        notes.append(note("mix.skim-as-base", "assumed", key))
    working.notes.extend(notes)
    inside = all(n.grade not in ("caution", "stop") for n in notes)
    return Verdict(ratio, *sand, *lime, inside, letter(parts, coat, book), tuple(notes))


def letter(parts: MixParts, coat: Coat, book: Book) -> str:
    """The mix's letter as specifications written to C926 use it: C, CL, M, CM, P; F, FL, FM, FCM, FP; "" if none."""
    kind = parts.cement
    if coat == "dash-bond" or (kind != "portland" and parts.lime > 0):
        return ""
    if kind == "portland":
        lime = Fraction(parts.lime) / Fraction(parts.portland)
        if coat == "finish":
            return "F" if at_most(lime, Fraction(book.number("mix.letter.fl").number)) else "FL"
        return "CL" if at_most(Fraction(book.number("mix.letter.cl").number), lime) else "C"
    short = {"masonry cement": "M", "plastic cement": "P", "portland and masonry cement": "CM"}.get(kind, "")
    return f"F{short}" if coat == "finish" and short else short


def _sum(working: Working, key: str, parts: MixParts) -> Quantity:
    names = [name.replace(" ", "_") for name in parts.binders]
    given = {n: Quantity(parts.of(m), PARTS) for n, m in zip(names, parts.binders, strict=True)}
    return working.step(f"{key}/cementitious", " + ".join(names), PARTS, "mix.cementitious", rules=(), **given)


def limits(figure: Figure) -> tuple[float, float]:
    """Least and most of a limit; a single figure is a most."""
    if figure.low is not None and figure.high is not None:
        return figure.low, figure.high
    return 0.0, figure.number


def _within(figure: Figure, x: Quantity) -> int:
    """-1 below the least, 1 above the most, 0 inside."""
    least, most = limits(figure)
    if not at_most(least, x.value):
        return -1
    return 0 if at_most(x.value, most) else 1


def _ruled(book: Book, subject: str, **where: str) -> Ruled | None:
    try:
        return book.rule(subject, **where)
    except KeyError:
        return None


def _range(working: Working, key: str, what: str, figure: Figure, base: Quantity) -> tuple[Quantity | None, Quantity]:
    """The parts that would be inside: limit times what it is counted on. No least where the limit has none."""
    least, most = limits(figure)
    low = None
    if figure.low is not None:
        low = working.step(
            f"{key}/{what}-least", "least * base", PARTS, f"mix.{what}-least", rules=[figure.id],
            least=Quantity(least, PARTS), base=base,
        )  # fmt: skip
    high = working.step(
        f"{key}/{what}-most", "most * base", PARTS, f"mix.{what}-most", rules=[figure.id],
        most=Quantity(most, PARTS), base=base,
    )  # fmt: skip
    return low, high


def _verdict_notes(
    what: str,
    key: str,
    ruled: Ruled,
    x: Quantity,
    span: tuple[Quantity | None, Quantity],
    notes: list[Note],
    **named: object,
) -> None:
    """The ruling's verdict, then every other voice that would say otherwise."""
    side = _within(ruled.figure, x)
    elsewhere = [f for f in ruled.others if _within(f, x) == 0]
    least, most = limits(ruled.figure)
    grade: Grade = "fact"
    if side:
        chosen = ruled.why in ("firm follows", "local rule")
        grade = "caution" if chosen or not elsewhere else "assumed"
    code = {-1: "short", 0: "inside", 1: "over"}[side]
    wanted = span[0] if side < 0 else span[1]
    notes.append(
        note(
            f"mix.{what}-{code}", grade, key, rules=[ruled.figure.id], ratio=x, least=Quantity(least, PARTS),
            most=Quantity(most, PARTS), needs=wanted if wanted is not None else span[1], **named,
        )
    )  # fmt: skip
    for figure in ruled.others:
        if (_within(figure, x) == 0) != (side == 0):
            low, high = limits(figure)
            notes.append(
                note(
                    f"mix.{what}-other-voice", "fact", key, rules=[figure.id], ratio=x, least=Quantity(low, PARTS),
                    most=Quantity(high, PARTS), voice=figure.voice,
                )
            )  # fmt: skip


def _sand(
    working: Working, key: str, ratio: Quantity, cementitious: Quantity, coat: Coat, cement: str, book: Book,
    notes: list[Note],
) -> tuple[Quantity | None, Quantity | None]:  # fmt: skip
    ruled = _ruled(book, "mix.sand", coat=coat, cement=cement)
    if ruled is None or cement == "lime":
        notes.append(note("mix.no-limit", "caution", key, coat=coat, cement=cement))
        return None, None
    span = _range(working, key, "sand", ruled.figure, cementitious)
    _verdict_notes("sand", key, ruled, ratio, span, notes, coat=coat)
    return span


def _lime(
    working: Working, key: str, parts: MixParts, coat: Coat, suction: Suction, book: Book, notes: list[Note]
) -> tuple[Quantity | None, Quantity | None]:
    if parts.cement != "portland":
        if parts.lime > 0 and parts.cement != "lime":
            rule = book.number("mix.lime.none-with")
            notes.append(note("mix.lime-not-with", "stop", key, rules=[rule.id], cement=parts.cement))
        return None, None
    if coat == "dash-bond":
        if parts.lime > 0:
            notes.append(note("mix.dash-lime", "caution", key))
        return None, None
    ruled = _ruled(book, "mix.lime", coat=coat, suction=suction)
    if ruled is None:
        return None, None
    portland = Quantity(parts.portland, PARTS)
    ratio = working.step(
        f"{key}/lime-ratio", "lime / portland", PARTS, "mix.lime-ratio",
        lime=Quantity(parts.lime, PARTS), portland=portland,
    )  # fmt: skip
    span = _range(working, key, "lime", ruled.figure, portland)
    _verdict_notes("lime", key, ruled, ratio, span, notes, coat=coat, suction=suction)
    return span


def _masonry(working: Working, key: str, parts: MixParts, book: Book, notes: list[Note]) -> None:
    """Masonry cement to one part of portland, where the two are mixed."""
    portland = Quantity(parts.portland, PARTS)
    ratio = working.step(
        f"{key}/masonry-ratio", "masonry / portland", PARTS, "mix.masonry-ratio",
        masonry=Quantity(parts.masonry, PARTS), portland=portland,
    )  # fmt: skip
    ruled = book.rule("mix.masonry")
    _verdict_notes("masonry", key, ruled, ratio, _range(working, key, "masonry", ruled.figure, portland), notes)


def _against_scratch(
    working: Working,
    key: str,
    ratio: Quantity,
    cementitious: Quantity,
    scratch: MixParts,
    book: Book,
    notes: list[Note],
) -> None:
    rule = book.number("mix.sand.brown-not-richer")
    under = working.step(
        f"{key}/scratch-ratio", "sand / (" + " + ".join(m.replace(" ", "_") for m in scratch.binders) + ")", PARTS,
        "mix.scratch-ratio", rules=(), sand=Quantity(scratch.sand, PARTS),
        **{m.replace(" ", "_"): Quantity(scratch.of(m), PARTS) for m in scratch.binders},
    )  # fmt: skip
    needs = working.step(
        f"{key}/sand-as-scratch", "scratch * cementitious", PARTS, "mix.sand-as-scratch", rules=[rule.id],
        scratch=under, cementitious=cementitious,
    )  # fmt: skip
    leaner = at_most(under.value, ratio.value)
    code = "mix.brown-leaner" if leaner else "mix.brown-richer"
    grade: Grade = "fact" if leaner else "caution"
    notes.append(note(code, grade, key, rules=[rule.id], ratio=ratio, scratch=under, needs=needs))


def propose(
    working: Working, key: str, coat: Coat, suction: Suction, cement: str, book: Book, scratch: MixParts | None = None
) -> MixParts:
    """A mix inside the limits, for who has none: lime in the middle of its range, sand a third up, to workable parts.

    The Note says where in the range and that it is assumed.
    """
    field = cement.split()[0]
    parts = MixParts(**{field: 1})
    if coat == "dash-bond":
        sand = book.number("mix.propose.dash-bond")
        working.note("mix.proposed-dash", "assumed", key, rules=[sand.id], sand=Quantity(Fraction(sand.number), PARTS))
        return replace(parts, sand=Fraction(sand.number))
    lime_rule = _ruled(book, "mix.lime", coat=coat, suction=suction) if cement == "portland" else None
    if lime_rule is not None:
        parts = replace(parts, lime=_proposed_lime(working, key, lime_rule.figure, book))
    sand_rule = book.number("mix.sand", coat=coat, cement=cement)
    parts = replace(parts, sand=_proposed_sand(working, key, sand_rule, parts, book, scratch))
    least, most = limits(sand_rule)
    working.note(
        "mix.proposed" if parts.lime > 0 else "mix.proposed-no-lime", "assumed", key,
        rules=[sand_rule.id, *([lime_rule.figure.id] if lime_rule else []), "mix.propose.sand.place"],
        three=three_times(working, key, parts, book),
        coat=coat, cement=cement, lime=Quantity(parts.lime, PARTS), sand=Quantity(parts.sand, PARTS),
        least=Quantity(least, PARTS), most=Quantity(most, PARTS),
    )  # fmt: skip
    return parts


def _proposed_lime(working: Working, key: str, figure: Figure, book: Book) -> Fraction:
    least, most = limits(figure)
    found = working.step(
        f"{key}/proposed-lime", "-ceil(-(least + (most - least) * place) / step) * step", PARTS, "mix.proposed-lime",
        rules=[figure.id], least=Quantity(least, PARTS), most=Quantity(most, PARTS),
        place=book.number("mix.propose.lime.place"), step=book.number("mix.propose.lime.step"),
    )  # fmt: skip
    return Fraction(found.value)


def _proposed_sand(
    working: Working, key: str, figure: Figure, parts: MixParts, book: Book, scratch: MixParts | None
) -> Fraction:
    least, most = limits(figure)
    if scratch is not None:
        least = min(max(least, float(_ratio(scratch))), most)
    names = [name.replace(" ", "_") for name in parts.binders]
    found = working.step(
        f"{key}/proposed-sand",
        "ceil((least + (most - least) * place) * (" + " + ".join(names) + ") / step) * step", PARTS,
        "mix.proposed-sand", rules=[figure.id], least=Quantity(least, PARTS), most=Quantity(most, PARTS),
        place=book.number("mix.propose.sand.place"), step=book.number("mix.propose.sand.step"),
        **{n: Quantity(parts.of(m), PARTS) for n, m in zip(names, parts.binders, strict=True)},
    )  # fmt: skip
    return Fraction(found.value)


def _ratio(parts: MixParts) -> Fraction:
    return Fraction(parts.sand) / sum((Fraction(parts.of(m)) for m in parts.binders), Fraction(0))


def three_times(working: Working, key: str, parts: MixParts, book: Book) -> Quantity:
    """Sand by the old rule of three parts to each part of cement plus lime: printed beside a proposal."""
    names = [name.replace(" ", "_") for name in parts.binders]
    return working.step(
        f"{key}/three-times", "times * (" + " + ".join(names) + ")", PARTS, "mix.three-times", rules=(),
        times=book.number("mix.sand.three-times"),
        **{n: Quantity(parts.of(m), PARTS) for n, m in zip(names, parts.binders, strict=True)},
    )  # fmt: skip


def main_of(parts: MixParts) -> str:
    """The material whose bags are counted: the first cement in the mix, or lime."""
    return next((name for name in CEMENTS if parts.of(name) > 0), "lime")
