"""UFGS 09210 Gypsum Plaster, page 8: sand of float finishes by sieve, put into openings."""

import pytest

from tests.buildup.asking import BOOK, codes, printed, said, up
from tests.published import checked

UFGS = "UFGS 09210, sections 2.5.1 to 2.5.4: No. 16 to 20 coarse float, No. 20 to 30 fine float"


@checked("our arithmetic", f"{UFGS}; openings of those sieves are 1.18, 0.85 and 0.60 mm")
@pytest.mark.parametrize(("figure", "opening"), [("coarse", (0.85, 1.18)), ("fine", (0.6, 0.85))])
def test_float_sands_as_openings(figure, opening):
    assert printed(f"finish.sand.{figure}.ufgs") == opening


@checked("our arithmetic", f"{UFGS}: a float of that sand names it on the sheet")
@pytest.mark.parametrize(("sand", "name"), [("16/20", "coarse"), ("20/30", "fine")])
def test_a_float_finish_names_its_sieves(sand, name):
    answer = up(sand=sand)
    assert said(answer.notes, "sand-by-sieve")["opening"] == BOOK.figures[f"finish.sand.{name}.ufgs"]
    assert answer.chosen.coats[-1].sand == f"finish-{sand.replace('/', '-')}"
    assert "sand-by-sieve" not in codes(up().notes)
