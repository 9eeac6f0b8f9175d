"""Each of the five examples entered by forms on a phone and on a laptop, in English and in Spanish, to its quote."""

from __future__ import annotations

import pytest

from tests.browser import LAPTOP, PHONE
from tests.desk.conftest import desk
from tests.desk.newcomers import WAYS, Counted, is_the_example

pytestmark = pytest.mark.proof
__all__ = ["desk"]


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["390", "1280"])
@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", WAYS)
def test_entered_by_forms_it_is_the_example(desk, browser, name, language, size):
    page = browser.new_context(viewport=size, reduced_motion="reduce").new_page()
    page.set_default_timeout(30000)
    page.goto(desk.link(f"newcomer {name} {language} {size['width']}", "owner", language=language))
    page.goto(desk.address)
    who = Counted(page)
    money = is_the_example(name, who.enter_job(WAYS[name](language)))
    said, paper = who.quote()
    assert money in said and money in paper
    page.context.close()
