"""The example, loaded and answered once for all tests that only look at it."""

from pathlib import Path

import pytest

import darby

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="session")
def firehall_job():
    return darby.load(EXAMPLES / "firehall.toml")


@pytest.fixture(scope="session")
def firehall(firehall_job):
    return darby.answer(firehall_job)
