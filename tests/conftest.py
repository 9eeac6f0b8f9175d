"""Counts the published checks by kind and prints the three counts apart at the end of a run."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import settings

from tests.browser import browser

__all__ = ["browser"]
"""One browser for the whole run: fetched by each folder for itself, a worker would start it twice, and cannot."""

COUNTS = pytest.StashKey[Counter[str]]()

# How long an example takes says more about what else the machine does than about the code.
settings.register_profile("darby", deadline=None)
settings.load_profile("darby")


def pytest_configure(config: pytest.Config) -> None:
    config.stash[COUNTS] = Counter()


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    for item in items:
        mark = item.get_closest_marker("published")
        if mark is not None:
            config.stash[COUNTS][mark.kwargs["kind"]] += 1


@pytest.fixture(autouse=True)
def _nothing_wrote_into_a_byte_of_the_interpreter():  # type: ignore[no-untyped-def]
    """Why: ``darby.measure.exact``."""
    yield
    assert bytes([0])[0] == 0


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    counts = config.stash[COUNTS]
    if counts:
        kinds = ", ".join(f"{kind}: {n}" for kind, n in sorted(counts.items()))
        terminalreporter.write_line(f"published checks: {counts.total()} ({kinds})")
