"""One desk for the whole folder: made as `darby desk` makes it, with the examples in it."""

import os
from collections.abc import Iterator

import pytest

from tests.desk.running import Desk, started

# Playwright runs an event loop in this thread; what the tests ask Django here is not in it.
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"


@pytest.fixture(scope="session")
def desk(tmp_path_factory) -> Iterator[Desk]:
    made, _ = started(tmp_path_factory.mktemp("desk") / "data")
    yield made  # its threads are daemons: they end with the run, and no answer is cut off
    from darby.desk import pocketing

    pocketing.stop()


@pytest.fixture(scope="session")
def owner(desk):
    return desk.signed_in("owner")


@pytest.fixture(scope="session")
def crew(desk):
    return desk.signed_in("crew")
