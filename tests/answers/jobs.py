"""Jobs for tests: the example with something changed, and plain walls in any number."""

from pathlib import Path

from darby.job import loads

EXAMPLES = Path(__file__).parents[2] / "examples"
JOB = (EXAMPLES / "firehall.toml").read_text(encoding="utf-8")
FIRM = (EXAMPLES / "firm.toml").read_text(encoding="utf-8")


def changed(text, *changes):
    """``text`` with each (old, new) put in exactly once, so that a change that misses its mark fails the test."""
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    return text


def firehall(*changes, firm=()):
    """The example's job with changes to its text and to the firm's."""
    return loads(changed(JOB, *changes), firm=changed(FIRM, *firm))


HEAD = """darby = 1
[job]
name = "Walls"
as_of = 2026-03-02
"""

WALL = """
[[wall]]
id = "wall-{n}"
name = "Wall {n}"
length = "{length}'"
height = "8'"
base = "block"
block = "dense"
joints = "flush"
out_of_plane = "1/8 in"
left = {{ kind = "outside corner" }}
right = {{ kind = "outside corner" }}
base_edge = "grade"
top = "drip"
"""


def walls(count, firm=FIRM):
    """``count`` plain block walls, no two alike."""
    return loads(HEAD + "".join(WALL.format(n=n, length=10 + n % 30) for n in range(count)), firm=firm)


def without_firm():
    """One wall, and nobody said who does it."""
    return loads(HEAD + WALL.format(n=0, length=24))
