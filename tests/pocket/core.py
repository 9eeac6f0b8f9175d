"""What the core answers to a job file, printed as the sheet prints it."""

from fractions import Fraction

from darby.measure.units import IN
from darby.measure.writing import write
from darby.words import Verbatim, say, written


class Printed:
    """Answers in one language and system."""

    def __init__(self, answers, language="en", system="us"):
        self.answers, self.language, self.system = answers, language, system

    def of(self, quantity):
        return None if quantity is None else written(quantity, self.language, self.system)

    def said(self, note):
        values = dict(note.values)
        if "edge" in values:
            values["edge"] = Verbatim(say(f"pocket.old.{values['edge']}", language=self.language))
        text = say(note.code, values, self.language, self.system).replace("..", ".")
        return f"{say('cli.stop', language=self.language)} {text}" if note.grade == "stop" else text

    def everything(self, items):
        """The same shape as the sheet's."""
        return {
            "walls": [self.wall(surface.id) for surface in self.answers.job.surfaces],
            "mixes": self.mixes(),
            "order": self.order(items),
            "dangers": sorted(self.said(n) for n in self.answers.of("cautions").notes),
        }

    def wall(self, name):
        volumes, coats = self.answers.of("volumes", name), self.answers.of("coats", name)
        (area,), ((_, built),) = volumes.areas, coats.zones
        option = built.chosen
        by_name = {c.name: c for c in option.coats}
        return {
            "id": name,
            "gross": self.of(area.gross),
            "off": self.of(area.off),
            "reveals": self.of(area.reveals),
            "area": self.of(area.area),
            "net": self.of(area.by_net),
            "way": option.id,
            "depth": [self.of(q) for q in (option.least, option.nominal, option.most)],
            "grounds": self.of(option.grounds),
            "bead": self.of(option.bead),
            "weight": self.of(option.weight),
            "cautions": sorted({self.said(n) for n in (*option.cautions, *built.notes) if n.grade != "fact"}),
            "setBack": self.of(option.set_back),
            "coats": [self.coat(volume, by_name[volume.coat]) for volume in volumes.coats],
        }

    def coat(self, volume, coat):
        return {
            "name": volume.coat,
            "mix": volume.mix,
            "depth": [self.of(q) for q in (coat.least, coat.nominal, coat.most)],
            "net": self.of(volume.net),
            "allowances": {a.name: [self.of(a.volume), self.of(a.share)] for a in volume.allowances},
            "total": self.of(volume.total),
            "times": [self.of(q) for q in (coat.moist, coat.wait_least, coat.wait_most)],
        }

    def mixes(self):
        volumes = {m.mix: self.of(m.volume) for m in self.answers.of("order").mortar}
        mixes = self.answers.of("mixes")
        return {name: self.mix(mixes.of(f"mix/{name}"), volume) for name, volume in volumes.items()}

    def mix(self, mix, volume):
        batches = mix.batches
        return {
            "volume": volume,
            "full": self.batch(mix.batch),
            "wholes": str(batches.whole) if batches is not None else None,
            "last": self.batch(batches.last) if batches is not None else None,
            "useWithin": self.of(mix.use_within),
        }

    def batch(self, batch):
        if batch is None:
            return None
        water = (batch.water_least, batch.water_usual, batch.water_most)
        return {
            "bags": write(Fraction(batch.bags.value) * IN, "in").removesuffix('"'),
            "of": [[i.material, self.of(i.mass), self.of(i.bags)] for i in batch.ingredients],
            "sand": None if batch.sand is None else self.of(batch.sand.count),
            "water": [self.of(q) for q in water],
            "mortar": self.of(batch.mortar),
        }

    def order(self, items):
        price = self.answers.answered("price")
        costs = {} if price is None else {x.what: x.amount for x in price.lines if x.group == "material"}
        rows = {}
        for item in items:
            line = self.answers.of("order").line(item)
            assert line is not None, f"the core orders no {item}"
            by_code = {part.says: part.amount for part in (*line.made_of, *line.also)}
            rows[item] = {
                "needed": self.of(line.needed),
                "exact": self.of(line.exact),
                "packages": self.of(line.packages),
                "handed": self.of(line.whole),
                "tons": self.of(by_code.get("quantities.sand-mass")),
                "room": self.of(by_code.get("quantities.bulking-within")),
                "cost": self.of(costs.get(item)),
            }
        return rows


def unlike(sheet, core, at=""):
    """Where the two differ, and how many texts were compared. What only the sheet says (dates) is not looked at."""
    if isinstance(core, dict) and isinstance(sheet, dict):
        found = [unlike(sheet.get(key), value, f"{at}/{key}") for key, value in core.items()]
    elif isinstance(core, list) and isinstance(sheet, list) and len(core) == len(sheet):
        found = [unlike(a, b, f"{at}/{n}") for n, (a, b) in enumerate(zip(sheet, core, strict=True))]
    else:
        return ([] if sheet == core else [f"{at}: sheet {sheet!r}, core {core!r}"]), 1
    return [line for lines, _ in found for line in lines], sum(count for _, count in found)
