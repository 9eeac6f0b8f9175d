"""The sheets that the tests open: made once, for the example's firm and for none."""

import pytest

from darby.pocket import pocket_sheet
from tests.answers.jobs import EXAMPLES
from tests.browser import browser, opened

__all__ = ["browser"]

FIRM = EXAMPLES / "firm.toml"


@pytest.fixture(scope="session")
def firm_sheet(tmp_path_factory):
    """The sheet of the example's firm, with its prices."""
    path = tmp_path_factory.mktemp("sheet") / "pocket.html"
    path.write_text(pocket_sheet(FIRM, prices=True), encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def lone_sheet(tmp_path_factory):
    """The sheet of nobody's firm, in Spanish."""
    path = tmp_path_factory.mktemp("lone") / "pocket.html"
    path.write_text(pocket_sheet(language="es"), encoding="utf-8")
    return path


@pytest.fixture
def page(browser, firm_sheet):
    """The sheet on a phone."""
    made = opened(browser, firm_sheet.as_uri())
    yield made
    made.context.close()
