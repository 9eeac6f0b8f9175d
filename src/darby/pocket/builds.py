"""What goes on every base that can be chosen, as ``buildup`` answers it: coats, depths, waits, cautions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from darby.answers.mixing import mix_name
from darby.buildup.model import BuildUp, Coat, Option
from darby.job import Job
from darby.measure.limits import at_most
from darby.pocket.asking import AT_ONCE, Asker
from darby.pocket.calendar import Calendar
from darby.pocket.choices import KINDS, entries
from darby.pocket.packing import Pool, Table, amount, number, said, steps
from darby.working import Note, Quantity

SERIOUS = ("caution", "stop")


@dataclass(frozen=True, slots=True)
class Host:
    """A wall that stands for others: one choice, and one of its options."""

    choice: tuple[tuple[str, str], ...]
    option: str

    def entries(self, id: str, **more: Any) -> tuple[dict[str, Any], dict[str, Any]]:
        """The wall as a job file has it, with this way of building up."""
        wall, on = entries(id, dict(self.choice), **more)
        return wall, on | {"choose": self.option}


@dataclass(frozen=True, slots=True)
class Builds:
    """``table`` for the page; walls that stand for all which take the same things, and for all of the same dangers.

    They are numbered as "takes" and "dangers" of the table's ways.
    """

    table: dict[str, Any]
    takes: tuple[Host, ...]
    dangers: tuple[Host, ...]


def builds(ask: Asker) -> Builds:
    """Every choice answered once, and packed."""
    choices = [choice for kind in KINDS for choice in kind.choices()]
    packer = _Packer(Calendar(ask))
    for start in range(0, len(choices), AT_ONCE):
        some = choices[start : start + AT_ONCE]
        job = ask.job(entries(f"w{n}", choice) for n, choice in enumerate(some))
        answers = ask.answers(job, "coats")
        for n, choice in enumerate(some):
            ((_, built),) = answers.of("coats", f"w{n}").zones
            ((_, _, asked),) = answers.kept["coats", f"w{n}"].ask
            packer.add(_Asked(job, f"w{n}", choice, asked.framed), built)
    return packer.done()


COAT = ("name", "mix", "depth", "levels", "times", "notes")
WAY = ("id", "prep", "lath", "paper", "framed", "takes", "dangers")
BODY = ("coats", "depth", "grounds", "bead", "weight", "wander")
WHY = ("reasons", "cautions")
OFFER = ("way", "body", "why")


@dataclass(frozen=True, slots=True)
class _Asked:
    """A sample wall: where it stands, what was chosen, whether it hangs on framing."""

    job: Job
    surface: str
    choice: dict[str, str]
    framed: bool


class _Hosts:
    """A wall for each thing that walls may have in common."""

    def __init__(self) -> None:
        self.found: list[Host] = []
        self.alike = Pool()

    def put(self, choice: dict[str, str], option: Option, *common: object) -> int:
        number = self.alike.put(common)
        if number == len(self.found):
            self.found.append(Host(tuple(choice.items()), option.id))
        return number


class _Packer:
    def __init__(self, calendar: Calendar) -> None:
        self.calendar = calendar
        self.notes, self.lists, self.takes, self.dangers = Pool(), Pool(), _Hosts(), _Hosts()
        self.coats, self.ways, self.bodies, self.whys = Table(COAT), Table(WAY), Table(BODY), Table(WHY)
        self.offers, self.taken = Table(OFFER), Table(("notes",))
        self.sand: dict[str, dict[str, str]] = {}
        self.of_choice: list[int] = []
        self.after: dict[tuple[float, float], list[int]] = {}

    def add(self, asked: _Asked, built: BuildUp) -> None:
        offers = []
        for option in built.options:
            chosen = replace(built, chosen=option)
            names = tuple(mix_name(asked.job, asked.surface, "rest", chosen, coat) for coat in option.coats)
            offers.append(self._offer(asked, option, names))
        taken = self.taken.put(notes=self._noted(n for n in built.notes if n.grade != "fact"))
        self.of_choice.append(self.lists.put([taken, *offers]))

    def _offer(self, asked: _Asked, option: Option, names: tuple[str, ...]) -> int:
        choice, finish = asked.choice, asked.choice["finish"]
        way = self.ways.put(
            id=option.id,
            prep=option.preparation,
            lath=option.lath or "",
            paper=str(option.paper_layers),
            framed=asked.framed,
            takes=self._takes(choice, option, names),
            dangers=self.dangers.put(choice, option, choice["base"], choice.get("behind"), option.preparation),
        )
        body = self.bodies.put(
            coats=[self._coat(finish, coat, name) for coat, name in zip(option.coats, names, strict=True)],
            depth=_depth(option.least, option.nominal, option.most),
            grounds=number(option.grounds.value),
            bead=number(option.bead.value),
            weight=amount(option.weight),
            wander=None if option.wander is None else number(option.wander.value),
        )
        why = self.whys.put(
            reasons=self._noted(n for n in option.reasons if n.code.startswith("buildup.reason.")),
            cautions=self._noted(n for n in option.cautions if n.grade in SERIOUS),
        )
        return self.offers.put(way=way, body=body, why=why)

    def _takes(self, choice: dict[str, str], option: Option, names: tuple[str, ...]) -> int:
        """Walls of one base with the same coats, mixes, lath, paper and bonding agent take the same."""
        base = [choice.get(name) for name in ("base", "behind", "joints")]
        coats, bonded = [coat.name for coat in option.coats], "bonding-agent" in option.preparation
        return self.takes.put(choice, option, base, coats, names, option.lath, option.paper_layers, bonded)

    def _coat(self, finish: str, coat: Coat, mix: str) -> int:
        self._keep_sand(finish, coat)
        if coat.levels and not at_most((float(coat.least) + float(coat.most)) / 2, float(coat.nominal)):
            raise ValueError(f"a {coat.name} coat lies over its nominal on the average: the sheet has no line for it")
        return self.coats.put(
            name=coat.name,
            mix=mix,
            depth=_depth(coat.least, coat.nominal, coat.most),
            levels=coat.levels,
            times={
                "moist": None if coat.moist is None else amount(coat.moist),
                "wait": None if coat.wait_least is None else amount(coat.wait_least),
                "within": None if coat.wait_most is None else amount(coat.wait_most),
                "days": self._days(_time(coat.moist), _time(coat.wait_least)),
            },
            notes=coat.notes,
        )

    def _days(self, moist: float, wait: float) -> list[int]:
        if (moist, wait) not in self.after:
            self.after[moist, wait] = self.calendar.after(moist, wait)
        return self.after[moist, wait]

    def _keep_sand(self, finish: str, coat: Coat) -> None:
        of_finish = self.sand.setdefault(finish, {})
        if of_finish.setdefault(coat.name, coat.sand) != coat.sand:
            raise ValueError(f"sand of a {coat.name} coat under {finish} goes by more than the finish")

    def _noted(self, notes: Iterable[Note]) -> list[int]:
        return [self.notes.put(said(note)) for note in notes]

    def done(self) -> Builds:
        table = {
            "kinds": [{"base": k.base, "axes": [[name, list(words)] for name, words in k.axes]} for k in KINDS],
            "of": steps(self.of_choice),
            "lists": {
                "sizes": [len(offers) for offers in self.lists.things],
                "of": steps(n for offers in self.lists.things for n in offers),
            },
            "taken": self.taken.packed(),
            "offers": self.offers.packed(),
            "ways": self.ways.packed(),
            "bodies": self.bodies.packed(),
            "whys": self.whys.packed(),
            "coats": self.coats.packed(),
            "notes": self.notes.things,
            "sand": self.sand,
        }
        return Builds(table, tuple(self.takes.found), tuple(self.dangers.found))


def _depth(*depths: Quantity) -> list[str | float]:
    return [number(depth.value) for depth in depths]


def _time(quantity: Quantity | None) -> float:
    return float(quantity.value) if quantity is not None else 0.0
