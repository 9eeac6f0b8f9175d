"""Invented jobs by a seed: walls of every base, shape and condition that the job file knows, openings and zones."""

from __future__ import annotations

from random import Random

import tomli_w

FEET = (("'", 12), (" in", 1))
FINISHES = ("float", "smooth", "dash", "lace", "scraped", "none")


def document(seed: int) -> str:
    """A job file as text."""
    random = Random(seed)
    walls = [_wall(random, n) for n in range(random.randint(1, 5))]
    job = {
        "darby": 1,
        "job": {"name": f"Job {seed}", "as_of": "DATE", "built": random.choice([1925, 1977, 1999, 2026])},
        "wall": walls,
        "coats": {"finish": random.choice(FINISHES), "paint": random.random() < 0.3},
        "also": _also(random),
    }
    if random.random() < 0.4:
        job["house"] = [_house(random)]
    if random.random() < 0.4:
        job["ordered"] = [{"item": "portland", "amount": f"{random.randint(1, 40)} bags"}]
    wanted = [_wanted(random, w) for w in walls if random.random() < 0.4]
    if wanted:
        job["coats"]["on"] = wanted  # type: ignore[index]
    return tomli_w.dumps(job).replace('"DATE"', f"2026-{random.randint(1, 12):02}-{random.randint(1, 28):02}")


def _length(random: Random, low: float, high: float) -> str:
    """As people write it: whole feet, feet and inches with fractions, metres, millimetres."""
    inches = random.randint(int(low * 12 * 16), int(high * 12 * 16)) / 16
    match random.randint(0, 3):
        case 0:
            return f"{max(round(inches / 12), 1)}'"
        case 1:
            feet, rest = divmod(inches, 12)
            sixteenths = int(rest * 16)
            whole, part = divmod(sixteenths, 16)
            fraction = f" {part}/16" if part else ""
            return f"{int(feet)}' {whole}{fraction}\"" if part or whole else f"{int(feet)}'"
        case 2:
            return f"{inches * 25.4:.0f} mm"
        case _:
            return f"{inches * 0.0254:.2f} m"


def _wall(random: Random, n: int) -> dict[str, object]:
    base = random.choice(["block", "block", "concrete", "frame", "lath over block"])
    wall: dict[str, object] = {
        "id": f"w{n}",
        "name": f"Wall {n}",
        "length": _length(random, 13, 60),
        "height": _length(random, 9, 24),
        "base": base,
        "left": _end(random),
        "right": {"kind": "outside corner"},
    }
    if random.random() < 0.5:
        wall["gable"] = _length(random, 1, 6)
    if random.random() < 0.8:
        wall["facing"] = random.choice(["north", "south", "east", "west"])
    if random.random() < 0.7:
        wall["base_edge"] = random.choice(["grade", "base", "roof line"])
    if random.random() < 0.5:
        wall["top"] = random.choice(["drip", "soffit", "top", "roof line"])
    if random.random() < 0.7 and base != "frame":
        wall["out_of_plane"] = random.choice(["1/8 in", "1/4 in", "3/8 in", "5/8 in", "6 mm", "1 in"])
    if base in ("block", "lath over block"):
        wall |= {"block": random.choice(["dense", "lightweight"]), "joints": random.choice(["flush", "struck"])}
    if base == "frame":
        wall |= {"sheathing": random.choice(["wood", "gypsum", "foam", "open studs"]), "studs": "16 in"}
    wall["openings"] = _openings(random)
    if random.random() < 0.3 and base == "block":
        wall["zone"] = [{"id": "patch", "base": "lath over block",
                         "outline": ["0', 0'", "1'-6\", 0'", "1'-6\", 8'", "0', 8'"]}]  # fmt: skip
    return wall


def _end(random: Random) -> dict[str, str]:
    if random.random() < 0.4:
        end = {"kind": "meets old work", "thickness": random.choice(["1/2 in", "7/8 in", "19 mm"])}
        return end | ({"proud": random.choice(["1/2 in", "3/4 in", "7/8 in"])} if random.random() < 0.7 else {})
    return {"kind": random.choice(["outside corner", "inside corner"])}


def _openings(random: Random) -> list[str]:
    """Up to three, side by side from 2 ft on: none touches the next, all fit the shortest wall."""
    reveal = random.choice(["", ', reveal 4"', ', reveal 2 1/2"'])
    every = [
        f"door 3068 at 2'{reveal}",
        f"window 2' x 3' at 6' up 3'{reveal}",
        f"window 2' x 2' 6\" at 9' up 4'{reveal}",
    ]
    return random.sample(every, random.randint(0, 3))


def _house(random: Random) -> dict[str, object]:
    along, across = random.randint(12, 40), random.randint(12, 40)
    return {
        "id": "shed", "name": "Shed", "walls": [f"{along}'", f"{across}'", f"{along}'", f"{across}'"],
        "height": _length(random, 8, 12), "base": "frame", "sheathing": "wood", "studs": "24 in",
        "openings": {"1": ["window 3' x 4' at 4' up 3'"]},
    }  # fmt: skip


def _wanted(random: Random, wall: dict[str, object]) -> dict[str, object]:
    said: dict[str, object] = {"surface": wall["id"], "why": "tried for the proof"}
    if random.random() < 0.5:
        said["finish"] = random.choice(FINISHES)
    if random.random() < 0.4:
        said["total"] = random.choice(["1/2 in", "5/8 in", "3/4 in", "1 in", "22 mm"])
    if random.random() < 0.4 and wall["base"] in ("block", "concrete"):
        said["suction"] = random.choice(["high", "usual", "low", "none"])
    return said


def _also(random: Random) -> list[dict[str, str]]:
    every = [
        {"what": "protect", "says": "shrubs", "hours": "2 h", "area": "120 sq ft"},
        {"what": "mask", "says": "frames", "length": "64'", "hours": "90 min"},
        {"what": "dispose", "says": "bags", "cost": "$95.50"},
    ]
    return random.sample(every, random.randint(0, 3))
