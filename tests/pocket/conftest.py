"""The sheets that the tests open: made once a run, for the example's firm and for none."""

import base64
import fcntl
import json
import os
import re
import zlib

import pytest

from darby.pocket import pocket_sheet
from tests.answers.jobs import EXAMPLES
from tests.browser import opened

FIRM = EXAMPLES / "firm.toml"


def once(tmp_path_factory, name, make):
    """A file that one worker of the run makes and the others wait for."""
    run = os.environ.get("PYTEST_XDIST_TESTRUNUID")
    folder = tmp_path_factory.getbasetemp().parent if run else tmp_path_factory.mktemp("sheet")
    path = folder / f"{name}-{run or 'alone'}.html"
    with path.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not path.exists():
            path.write_text(make(), encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def firm_sheet(tmp_path_factory):
    """The sheet of the example's firm, with its prices."""
    return once(tmp_path_factory, "firm", lambda: pocket_sheet(FIRM, prices=True))


@pytest.fixture(scope="session")
def lone_sheet(tmp_path_factory):
    """The sheet of nobody's firm, in Spanish."""
    return once(tmp_path_factory, "lone", lambda: pocket_sheet(language="es"))


def tables_of(sheet):
    """The tables that stand in a sheet."""
    packed = re.search(r'id="tables">(.*?)</script>', sheet.read_text(encoding="utf-8"), re.DOTALL)[1]
    return json.loads(zlib.decompress(base64.b64decode(packed), -zlib.MAX_WBITS))


@pytest.fixture(scope="session")
def firm_tables(firm_sheet):
    return tables_of(firm_sheet)


@pytest.fixture
def page(browser, firm_sheet):
    """The sheet on a phone."""
    made = opened(browser, firm_sheet.as_uri())
    yield made
    made.context.close()
