"""Random walls, as they are typed; drawn from a seed, so that a failure can be looked at again."""

import random

from darby.pocket.choices import KINDS

SIZES = (
    "3068",
    "2868",
    "3' x 4'",
    "2' 6\" x 3'",
    "36 x 48 in",
    "900 x 1200 mm",
    "4-0 x 3-6",
    "16' x 7'",
    "1’ x 1’",
    "2½' x 3'",
)
SHARES = ("", "0", "5", "8", "12 1/2 %", "20 %")


def wall(dice, kinds=KINDS, **said):
    """One wall, in whatever units it was measured."""
    kind = dice.choice(kinds)
    made = {
        "name": dice.choice(["", "South side", 'the "long" one', "Ñandú's \\ wall"]),
        "size": size(dice),
        "gable": dice.choice(["", "", "", "3'", "2' 7 1/2\"", "0.9 m"]),
        "faces": dice.choice(["1", "1", "1", "2", "3"]),
        "base": kind.base,
        "choose": "",
        "old": dice.choice(["", "", "", "left", "right"]),
        "openings": [],
    }
    made["proud"] = dice.choice(["3/4 in", "1/2 in", '7/8"', "25 mm", ""]) if made["old"] else ""
    made |= {name: dice.choice(words) for k in KINDS for name, words in k.axes if k.base != kind.base}
    made |= {name: dice.choice(words) for name, words in kind.axes}
    for _ in range(dice.choice([0, 0, 1, 1, 2, 3])):
        made["openings"].append(
            {
                "kind": dice.choice(["door", "window", "vent", "opening"]),
                "size": dice.choice(SIZES),
                "count": dice.choice(["1", "1", "2", "4"]),
                "reveal": dice.choice(["", "", '4"', "3 1/2 in", "100 mm"]),
            }
        )
    return made | said


def size(dice):
    """Length by height."""
    feet, high = dice.randint(6, 70), dice.randint(6, 20)
    inches = f'{dice.randint(0, 11)}{dice.choice(["", " 1/2", " 3/8", " 15/16"])}"'
    return dice.choice(
        [
            f"{feet}' x {high}'",
            f"{feet}' {inches} x {high}' {dice.randint(0, 11)}\"",
            f"{feet} x {high} ft",
            f"{feet}′ × {high}′",
            f"{feet}.{dice.randint(1, 99):02d} ft x {high}'",
            f"{feet * 305} x {high * 305 + 7} mm",
            f"{feet / 4:.2f} m by {high / 4:.2f} m",
        ]
    )


def job(seed, count):
    """A job of so many walls, with its allowances."""
    dice = random.Random(seed)
    allow = {name: dice.choice(SHARES) for name in ("spread", "waste", "bulking", "moisture", "lath")}
    named = dice.choice(["", "Garage for Lew", 'A "quoted" name'])
    customs = ["net", "net", "half", "is-1200", "is-1200-full", "us-60"]
    return {
        "name": named,
        "day": dice.choice(["2026-03-02", "2026-03-06", "2026-11-25"]),
        "custom": dice.choice(customs),
        "allow": allow,
        "walls": [wall(dice) for _ in range(count)],
    }
