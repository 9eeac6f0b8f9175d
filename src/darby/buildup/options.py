"""One option built whole: coats with their thickness and times, depths, weight, parting, and what has to be said."""

from __future__ import annotations

from dataclasses import dataclass, replace

from darby.buildup import cautions, curing, parting, preparing, thickness
from darby.buildup.finishes import SANDED, sand_of
from darby.buildup.model import BuildUpAsk, Coat, CoatName, Option, OwnCoat
from darby.buildup.recipes import Recipe
from darby.measure.faults import Fault, Unreadable
from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.working.model import Note, Quantity, Working

_INCH = unit("in")

HOW = {"wet dash": "throw-wet", "pebble": "throw-pebbles", "dash": "spatter", "scraped": "scrape-back",
       "skip trowel": "skip"}  # fmt: skip
"""How a finish is made, as the code of a sentence."""


@dataclass(frozen=True, slots=True)
class Built:
    """An option with its working, and what ranks it: ``faults`` heaviest first, then trips."""

    option: Option
    working: Working
    faults: tuple[bool, ...]
    spread: thickness.Spread


@dataclass(frozen=True, slots=True)
class _Depth:
    """Least, nominal and most of one coat or of the whole."""

    least: Quantity
    nominal: Quantity
    most: Quantity


def build(ask: BuildUpAsk, recipe: Recipe, got: preparing.Ground, *, override: bool) -> Built:
    """The option of ``recipe``; with ``override`` what he knows better is put in its place.

    Raises
    ------
    Unreadable
        if his figures contradict each other, or name a coat that this option has not.
    """
    w = Working()
    key = f"{ask.at}/build-up/{recipe.id}"
    own = _own(ask, recipe) if override else {}
    own_total = ask.override.total if override and ask.override else None
    dash = (got.dash or "dash-bond" in own) and not recipe.lath and not recipe.skim
    coats = thickness.names(recipe, ask, dash=dash)
    _known(ask, recipe, coats, own)
    his = None if own_total is None else Quantity(own_total, _INCH)
    thick = thickness.share(w, ask, recipe, key, coats, own, his)
    lies = thickness.spread(w, ask, recipe, key, thick, his=his is not None)
    depths, whole = _depths(w, recipe, key, thick, lies)
    dubbed = recipe.id == "dub-out"
    built, notes = _coats(w, ask, recipe, key, depths, own)
    finish = depths.get("finish")
    plaster = lies.raised
    # over dubbed-out hollows the grounds stand as they do over the rest of the wall
    grounds = plaster if finish is None or recipe.skim else w.step(
        f"{key}/grounds", "total - finish", "in", "buildup.step.grounds",
        rules=(ask.book.number("thickness.measured-from").id,), total=plaster, finish=finish.nominal,
    )  # fmt: skip
    weight = w.step(f"{key}/weight", "density * total", "lb/sq ft", "buildup.step.weight",
                    density=ask.book.number("thickness.weight"), total=whole.nominal)  # fmt: skip
    parted = parting.parted(w, ask, key, plaster)
    layers, paper_rules = preparing.layers(ask) if recipe.lath else (0, ())
    option = Option(
        id=recipe.id,
        preparation=preparing.steps_before(ask, got, lath=recipe.lath, skim=recipe.skim, dub=dubbed),
        coats=built,
        lath=preparing.hung_with(ask) if recipe.lath else None,
        paper_layers=layers,
        least=whole.least,
        nominal=whole.nominal,
        most=whole.most,
        grounds=grounds,
        bead=plaster,
        weight=weight,
        parting=parted.partings,
        set_back=parted.set_back,
        wander=lies.left if lies.left.value and not dubbed else None,
        voices=(thick.ruled.figure, *thick.ruled.others),
    )
    reasons = [
        *cautions.why(ask, option, thick, paper_rules),
        *parting.joints(ask, lath=recipe.lath),
        *parting.beads(ask, lath=recipe.lath, grounds=grounds, bead=plaster),
    ]
    judged = cautions.judge(ask, option, thick, lies, followed=his is not None or _followed(thick))
    if override and ask.override is not None:
        judged.notes.extend(cautions.departures(w, key, ask, thick, his))
    said = [*reasons, *notes, *parted.notes, *judged.notes]
    option = replace(option, reasons=_graded(said, "fact", "assumed"), cautions=_graded(said, "caution", "stop"))
    return Built(option, w, judged.faults, lies)


def _followed(thick: thickness.Thick) -> bool:
    """The firm's own voice, or a local rule: his way, so it is not held against the option."""
    return thick.ruled.why in ("firm follows", "local rule")


def _graded(notes: list[Note], *grades: str) -> tuple[Note, ...]:
    return tuple(n for n in notes if n.grade in grades)


def _own(ask: BuildUpAsk, recipe: Recipe) -> dict[str, OwnCoat]:
    """His coats by name; "skim" is the one coat of a skim."""
    coats = ask.override.coats if ask.override is not None else ()
    named = ((replace(c, name="finish") if c.name == "skim" and recipe.skim else c) for c in coats)
    return {c.name: c for c in named}


def _known(ask: BuildUpAsk, recipe: Recipe, coats: tuple[CoatName, ...], own: dict[str, OwnCoat]) -> None:
    for name in own:
        if name not in coats and not (recipe.id == "dub-out" and name == "scratch"):
            raise Unreadable(Fault("buildup.no-such-coat", ask.at, name, ", ".join(coats)))


def _depths(
    w: Working, recipe: Recipe, key: str, thick: thickness.Thick, lies: thickness.Spread
) -> tuple[dict[CoatName, _Depth], _Depth]:
    """Least, nominal, most of every coat and of the whole: the coat that levels takes all that varies."""
    total, level, taken = lies.raised, thick.coats[recipe.levels], lies.taken
    if lies.raised is not thick.total:
        level = w.step(f"{key}/{recipe.levels}/raised", "level + raised - total", "in", "buildup.step.raised-coat",
                       level=level, raised=lies.raised, total=thick.total)  # fmt: skip
    one_sided = thick.span is not None
    depths = {c: _Depth(q, q, q) for c, q in thick.coats.items()}
    depths[recipe.levels] = _varies(w, f"{key}/{recipe.levels}", level, taken, one_sided)
    whole = _varies(w, key, total, taken, one_sided)
    if recipe.id != "dub-out":
        return depths, whole
    left = lies.left
    half = w.step(f"{key}/scratch/thickness", "left / 2", "in", "buildup.step.dub-out", left=left)
    dubbed: dict[CoatName, _Depth] = {"scratch": _Depth(Quantity(0, _INCH), half, left)}
    nominal = w.step(f"{key}/dubbed/total", "total + dub_out", "in", "buildup.step.dubbed",
                     total=whole.nominal, dub_out=half)  # fmt: skip
    most = w.step(f"{key}/dubbed/most", "most + left", "in", "buildup.step.dubbed-most", most=whole.most, left=left)
    order: tuple[CoatName, ...] = ("dash-bond",) if "dash-bond" in depths else ()
    first = {c: depths.pop(c) for c in order}
    return {**first, **dubbed, **depths}, _Depth(whole.least, nominal, most)


def _varies(w: Working, key: str, nominal: Quantity, taken: Quantity, one_sided: bool) -> _Depth:
    if not taken.value:
        return _Depth(nominal, nominal, nominal)
    part = "taken" if one_sided else "taken / 2"
    least = w.step(f"{key}/least", f"nominal - {part}", "in", "buildup.step.least", nominal=nominal, taken=taken)
    if one_sided:
        return _Depth(least, nominal, nominal)
    most = w.step(f"{key}/most", f"nominal + {part}", "in", "buildup.step.most", nominal=nominal, taken=taken)
    return _Depth(least, nominal, most)


def _coats(
    w: Working, ask: BuildUpAsk, recipe: Recipe, key: str, depths: dict[CoatName, _Depth], own: dict[str, OwnCoat]
) -> tuple[tuple[Coat, ...], list[Note]]:
    coats: list[Coat] = []
    notes: list[Note] = []
    doubled = recipe.id == "double-back" or ask.cure == curing.DOUBLE_BACK
    for n, (name, depth) in enumerate(depths.items()):
        times = curing.times(
            w, ask.book, ask.at, f"{key}/{name}",
            name, cure=ask.cure, doubled=doubled and name == "scratch" and recipe.id != "dub-out",
            last=n == len(depths) - 1, own=own.get(name),
        )  # fmt: skip
        notes += times.notes
        said = _said(ask, recipe, name, depth, notes)
        coats.append(
            Coat(
                name=name,
                least=depth.least,
                nominal=depth.nominal,
                most=depth.most,
                mix="skim" if recipe.skim else name,
                sand=_sand(name, ask),
                levels=name == recipe.levels and not recipe.skim,
                moist=times.moist,
                wait_least=times.least,
                wait_most=times.most,
                notes=said,
            )
        )
    return tuple(coats), notes


def _sand(coat: CoatName, ask: BuildUpAsk) -> str:
    """Which sand: sharp for the dash bond, plaster sand for base coats, for the finish what its texture wants."""
    if coat == "dash-bond":
        return "sharp"
    if coat != "finish" or ask.finish == "none":
        return "plaster"
    sand = sand_of(ask) if ask.finish in SANDED else None
    return f"finish-{ask.finish.replace(' ', '-')}" if sand is None else f"finish-{sand.replace('/', '-')}"


def _said(ask: BuildUpAsk, recipe: Recipe, name: CoatName, depth: _Depth, notes: list[Note]) -> tuple[str, ...]:
    """How the coat is left for the next one, as codes; a coat too heavy for one pass gets its note."""
    said: list[str] = []
    if recipe.id == "dub-out" and name == "scratch":
        said += ["hollows-only", "score"]
    elif name == "scratch":
        said += ["bury-lath", "score"] if recipe.lath else ["score"]
    elif recipe.id == "one-coat":
        said += ["rod-to-grounds", "float-it"]
    elif name == recipe.levels and not recipe.skim:
        said += ["rod-to-grounds", "leave-open"] if ask.finish != "none" else ["rod-to-grounds"]
    elif name == "finish" and ask.finish in HOW:
        said.append(HOW[ask.finish])
    elif name == "dash-bond":
        said.append("leave-rough")
    one = ask.book.number("thickness.one-pass")
    if not at_most(float(depth.most), one.number):
        said.append("two-passes")
        notes.append(cautions.two_passes(ask, name, depth.most, one))
    return tuple(said)
