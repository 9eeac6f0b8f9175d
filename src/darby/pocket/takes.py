"""What walls take, as the core orders it: mixes and their batches, packages, and which allowance lies on which coat."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from quicktions import Fraction

from darby.answers import Answers
from darby.mix import Batch, CoatMix, CoatNeed, MixAsk, mixes
from darby.pocket.asking import Asker
from darby.pocket.builds import SERIOUS, Host
from darby.pocket.packing import Pool, amount, number, said
from darby.quantities import OrderLine
from darby.working import Step

PREFIX = "mix/"
BY_AREA = ("lath", "paper", "lath fasteners", "masonry lath fasteners", "bonding agent")
"""What is ordered by the area of a wall. What goes by its edges the sheet leaves to the whole answer."""

EVERYWHERE = ("spread", "waste")
"""Allowances that lie on every coat."""


@dataclass
class Takes:
    """Of each host what its walls take; every mix; every item that is ordered."""

    hosts: list[dict[str, Any]] = field(default_factory=list)
    mixes: Pool = field(default_factory=Pool)
    items: dict[str, Any] = field(default_factory=dict)
    ends: dict[Hashable, Ends] = field(default_factory=dict)
    """How mixes end that were met before."""

    def table(self) -> dict[str, Any]:
        """As the page reads it."""
        return {"takes": self.hosts, "mixes": self.mixes.things, "items": self.items}


def takes(ask: Asker, hosts: Sequence[Host], *, prices: bool) -> Takes:
    """Each host answered as a job of its own."""
    found = Takes()
    for job in ask.jobs(host.entries(f"w{n}") for n, host in enumerate(hosts)):
        answers = ask.answers(job, "volumes", "order")
        mixes = {name: found.mixes.put(mix) for name, mix in _mixes(answers, found.ends)}
        found.hosts.append({"mixes": mixes, **_host(answers)})
        for line in answers.of("order").lines:
            if line.item not in found.items and _on_sheet(line, answers):
                found.items[line.item] = _item(answers, line, prices=prices)
    return found


def _host(answers: Answers) -> dict[str, Any]:
    """Allowances that lie on one coat alone (keys of lath, struck joints), and what is ordered by area."""
    (volumes,) = answers.good("volumes").values()
    coats = volumes.coats
    fills = {c.coat: [a.name for a in c.allowances if a.name not in EVERYWHERE] for c in coats}
    return {
        "fills": {coat: names[0] for coat, names in fills.items() if names},
        "items": [line.item for line in answers.of("order").lines if line.item in BY_AREA],
    }


# --- mixes -------------------------------------------------------------------------------------------

HALF = Fraction(1, 2)
"""The least part of a bag that anybody measures out."""


@dataclass(frozen=True, slots=True)
class Ends:
    """How a mix ends: ``lasts`` its part batches, ``upto`` rows of (mortar left [m3], number of the batch for it)."""

    lasts: tuple[Batch, ...] = ()
    upto: tuple[tuple[float, int], ...] = ()


def _mixes(answers: Answers, ends: dict[Hashable, Ends]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every mix by its name. What hangs on how much of it is mixed is not among its notes."""
    ask: MixAsk = answers.kept["mixes", "job"].ask
    plain, _ = mixes(replace(ask, coats=tuple(replace(need, volume=0) for need in ask.coats)))
    for need in ask.coats:
        mix = plain.of(need.id)
        like = (mix.coat, mix.parts, mix.bagged, need.suction)
        if like not in ends:
            ends[like] = Ends() if mix.batch is None else _ends(ask, need, mix.batch)
        yield mix.id.removeprefix(PREFIX), _mix(mix, ends[like])


def _mix(mix: CoatMix, ends: Ends) -> dict[str, Any]:
    made = mix.materials
    weighed = {
        "portland": made.portland,
        "masonry cement": made.masonry,
        "plastic cement": made.plastic,
        "lime": made.lime,
    }
    parts = mix.parts
    return {
        "coat": mix.coat,
        "parts": {} if parts is None else {name: number(Fraction(parts.of(name))) for name in parts.used},
        "proposed": mix.proposed,
        "bagged": None if mix.bagged is None else {"id": mix.bagged.id, "name": mix.bagged.name},
        "per": {name: number(per.value) for name, per in weighed.items() if per is not None},
        "sand": None if made.sand_loose is None else number(made.sand_loose.value),
        "sandDry": None if made.sand_dry is None else number(made.sand_dry.value),
        "water": None if made.water is None else number(made.water.value),
        "makes": None if made.bag is None else number(made.bag.value),
        "waterEach": None if made.water_each is None else number(made.water_each.value),
        "useWithin": amount(mix.use_within),
        "batch": None if mix.batch is None else _batch(mix.batch),
        "lasts": [_batch(last) for last in ends.lasts],
        "upto": ends.upto,
        "notes": [said(n) for n in mix.notes if n.grade in SERIOUS],
    }


def _ends(ask: MixAsk, need: CoatNeed, full: Batch) -> Ends:
    """What comes last for whatever is left: the core is asked between all amounts at which its answer can change.

    Those are the parts of a full batch by half bags, and what the part batches themselves make. Number -1 is another
    full batch.
    """
    mortar, bags = float(full.mortar.value), Fraction(full.bags.value)
    edges = {mortar * float(n * HALF / bags) for n in range(1, int(bags / HALF) + 1)}
    answered = _asked_for(ask, need, _between(edges))
    edges |= {float(last.mortar.value) for last in answered.values() if last is not None}
    answered = _asked_for(ask, need, _between({edge for edge in edges if edge <= mortar}))
    lasts = list(dict.fromkeys(last for last in answered.values() if last is not None))
    upto = [(edge, -1 if last is None else lasts.index(last)) for (_, edge), last in answered.items()]
    return Ends(tuple(lasts), tuple(upto))


def _between(edges: set[float]) -> list[tuple[float, float]]:
    """Amounts between the edges, each with the edge above it."""
    rising = sorted(edges)
    return [((low + high) / 2, high) for low, high in zip((0.0, *rising), rising, strict=False)]


def _asked_for(
    ask: MixAsk, need: CoatNeed, amounts: Sequence[tuple[float, float]]
) -> dict[tuple[float, float], Batch | None]:
    """The last batch of each amount; None where it is a full one."""
    others = tuple(n for n in ask.coats if n.id != need.id and n.coat == "scratch")  # what a brown coat looks at
    needs = tuple(replace(need, id=f"{need.id} {n}", volume=left) for n, (left, _) in enumerate(amounts))
    answered, _ = mixes(replace(ask, coats=(*others, *needs)))
    found: dict[tuple[float, float], Batch | None] = {}
    for pair, one in zip(amounts, needs, strict=True):
        batches = answered.of(one.id).batches
        assert batches is not None
        found[pair] = batches.last
    return found


def _batch(batch: Batch) -> dict[str, Any]:
    water = (batch.water_least, batch.water_usual, batch.water_most)
    return {
        "bags": number(batch.bags.value),
        "of": [[i.material, number(i.mass.value), number(i.bags.value)] for i in batch.ingredients],
        "sand": None if batch.sand is None else amount(batch.sand.count),
        "water": [None if w is None else number(w.value) for w in water],
        "mortar": number(batch.mortar.value),
    }


# --- packages ----------------------------------------------------------------------------------------


def _on_sheet(line: OrderLine, answers: Answers) -> bool:
    of_mortar = {"portland", "masonry cement", "plastic cement", "lime", "sand", "water"}
    bagged = {mix.bagged.id for mix in answers.of("mixes").coats if mix.bagged is not None}
    return line.item in (of_mortar | bagged | set(BY_AREA))


def _item(answers: Answers, line: OrderLine, *, prices: bool) -> dict[str, Any]:
    """How an item is bought: what one package holds, as the core divides by it, and how packages are rounded."""
    key = f"job/order/{line.item.replace(' ', '-')}"
    firm_buys = answers.job.firm.buy(line.item)
    exact, packages = _step(answers, f"{key}/exact"), _step(answers, f"{key}/packages")
    row: dict[str, Any] = {
        "says": line.says,
        "name": line.name if line.name != line.item else "",
        "written": line.written,
        "each": line.each,
        "needed": line.needed.unit.name,
    }
    if line.packages is None:
        return row
    row["unit"] = line.packages.unit.name
    if exact is not None:
        given = {name: (value, unit) for name, value, unit in exact.given}
        holds = next(value for name, (value, _) in given.items() if name != "needed")
        row |= {"holds": number(holds), "weighed": given["needed"][1].dim != line.needed.unit.dim}
    if packages is not None:
        figures = {name: number(value) for name, value, _ in packages.given if name != "exact"}
        row["round"] = {"formula": packages.formula, "unit": packages.unit.name, "figures": figures}
    row["opened"] = _step(answers, f"{key}/whole") is not None
    if prices and firm_buys is not None:
        row["price"] = number(firm_buys.price)
    return row


def _step(answers: Answers, key: str) -> Step | None:
    try:
        step = answers.step(key)
    except KeyError:
        return None
    return step if isinstance(step, Step) else None
