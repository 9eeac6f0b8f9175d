"""Dash-bond coat: New York City Building Code 2510.7 (model text of the IBC) and the Portland Cement Association."""

from __future__ import annotations

import pytest

from darby import mix
from darby.rulebook import default
from tests.mix.asking import codes, printed
from tests.published import checked


@checked("copied figure", "NYC Building Code 2510.7; PCA, Plastering concrete masonry: not over two parts of sand")
@pytest.mark.parametrize("figure", ["mix.sand.dash-bond.nyc", "mix.sand.dash-bond.pca"])
def test_as_printed(figure: str) -> None:
    assert printed(figure) == (2,)


@checked("our arithmetic", "NYC Building Code 2510.7: two parts are inside, a hair more is not")
@pytest.mark.parametrize("cement", ["portland", "plastic cement"])
def test_at_the_limit(cement: str) -> None:
    assert mix.check({cement: 1, "sand": 2}, "dash-bond").inside
    assert "mix.sand-over" in codes(mix.check({cement: 1, "sand": 2.01}, "dash-bond"))


@checked("our arithmetic", "NYC Building Code 2510.7 and PCA: the code rules, the association stands behind it")
def test_the_code_is_cited_first() -> None:
    ruled = default().rule("mix.sand", coat="dash-bond", cement="portland")
    assert (ruled.figure.voice, [f.voice for f in ruled.others]) == ("ibc", ["pca"])
