"""Whether plaster holds on paint, sealer and old plaster: what his tests say, and what nobody tried."""

from __future__ import annotations

from darby.buildup.model import DOUBTFUL, OLD, BuildUpAsk, Tried, Verdict
from darby.working.model import Note, Quantity, Working, note

UNTRIED = Tried()


def verdict(ask: BuildUpAsk) -> Verdict | None:
    """What his tests say of a doubtful base; None for a base that nobody doubts.

    Hollow plaster comes off. Where a test patch let go or paint comes off under the scraper, nothing bonds: lath goes
    over it. A patch that held, on plaster that sounds solid, means bond; water that soaks in lets it go straight on,
    water that beads (or was not tried on paint) wants the face roughened. Without a pulled patch, or without a tap on
    old plaster, nothing is known: test first. Common practice; for painted masonry the PCA's answer on bonding.
    """
    if ask.base not in DOUBTFUL:
        return None
    tests = ask.tests or UNTRIED
    if tests.tap == "hollow":
        return "do not"
    if tests.pull == "let go" or tests.scrape == "comes off":
        return "lath over"
    if tests.pull is None or (ask.base in OLD and tests.tap is None):
        return "test first"
    return "clean and bond" if tests.water == "soaks in" or _bare(ask, tests) else "roughen and bond"


def _bare(ask: BuildUpAsk, tests: Tried) -> bool:
    return ask.base == "old plaster" and tests.water is None


def no_bond(found: Verdict | None) -> bool:
    """Whether plaster straight on the base is not to be trusted."""
    return found in ("lath over", "do not", "test first")


def said(ask: BuildUpAsk, found: Verdict | None) -> list[Note]:
    """The verdict with its reasons, and the tests that are still to be made."""
    if found is None:
        return []
    book, at = ask.book, ask.at
    tests = ask.tests or UNTRIED
    how = book.number("prep.tests")
    painted = ask.base != "old plaster"
    rules = [how.id, *((book.number("prep.painted").id,) if painted else ())]
    code = f"buildup.verdict.{found.replace(' ', '-')}"
    if found == "do not":
        return [note(code, "stop", at, rules=(how.id, book.number("prep.hollow").id))]
    if found == "lath over":
        notes = [note(code, "caution", at, rules=(*rules, book.number("prep.lath-needed").id))]
    elif found == "test first":
        patch = book.number("prep.test-patch")
        notes = [note(code, "stop", at, rules=(*rules, patch.id))]
        notes += [note(f"buildup.untried.{name}", "assumed", at, rules=(how.id,)) for name in _untried(ask, tests)]
    else:
        notes = [note(code, "caution" if found == "roughen and bond" else "fact", at, rules=tuple(rules))]
    return notes


def _untried(ask: BuildUpAsk, tests: Tried) -> list[str]:
    """The tests that would decide, and nobody made."""
    wanted = ["tap"] if ask.base in OLD else []
    wanted += ["scrape"] if ask.base != "old plaster" else []
    return [name for name in (*wanted, "water", "pull") if getattr(tests, name) is None]


def test_time(w: Working, ask: BuildUpAsk, found: Verdict | None) -> Quantity | None:
    """What it takes to test first [s]; None where the tests are in, or nobody doubts."""
    if found != "test first":
        return None
    figure = ask.book.number("prep.test-hours")
    return w.step(f"{ask.at}/build-up/tests", "hours", figure.unit, "buildup.step.tests", hours=figure)
