"""A drawing as the desk sends it looks on a page as the one that brings its own colours and weights."""

import pytest

from darby.desk import drawn, once
from darby.drawing import stylesheet

PAGES = ("firehall/wall", "firehall/coats", "firehall/lath", "chimney-soffit/joints", "window-patch/survey",
         "window-patch/patch")  # fmt: skip
INKS = ("ink", "ink2", "hair", "faint", "brick", "slate", "plaster", "lime")


@pytest.fixture(scope="module")
def pairs(desk, owner):
    """Every drawing of some pages, as a file holds it and as the page gets it."""
    found, real = [], drawn.to_svg

    def both(marks, sheet, *, title, bare):
        found.append((real(marks, sheet, title=title), real(marks, sheet, title=title, bare=bare)))
        return found[-1][1]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(drawn, "to_svg", both)
        once._kept.clear()  # what is kept would not be drawn
        for page in PAGES:
            assert owner.get(f"/job/{page}/").status == 200
    return found


def test_it_looks_the_same(browser, pairs):
    page = browser.new_page(viewport={"width": 800, "height": 700})
    inks = ";".join(f"--{name}:hsl({n * 40} 60% 40%)" for n, name in enumerate(INKS))
    seen = set()
    for pair in pairs:
        looks = []
        for svg in pair:
            page.set_content(f"<style>:root{{{inks}}} body{{margin:0}} {stylesheet()}</style>{svg}")
            looks.append(page.screenshot())
        assert looks[0] == looks[1], pair[0][:300]
        seen.add(looks[0])
    page.context.close()
    assert len(seen) >= 8


def test_it_is_shorter(pairs):
    whole, sent = (sum(len(pair[n]) for pair in pairs) for n in (0, 1))
    assert sent < 0.9 * whole
