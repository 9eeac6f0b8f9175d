"""International Building Code 2021, Table 1404.2: least thickness of cement plaster as a weather covering."""

import pytest

from darby.buildup import Override
from tests.buildup.asking import chosen, codes, inch, option, printed
from tests.published import checked

SOURCE = "IBC 2021 in Virginia's edition, Table 1404.2 (transcription)"


@checked("copied figure", SOURCE)
@pytest.mark.parametrize(
    ("figure", "inches"),
    [("lath-three", 0.875), ("solid-three", 0.625), ("block-two", 0.5), ("concrete-two", 0.375)],
)
def test_the_table_stands_in_the_book(figure, inches):
    assert printed(f"thickness.code.ibc.{figure}") == (inches,)


@checked("our arithmetic", f"{SOURCE}: which totals pass")
@pytest.mark.parametrize(
    ("base", "choose", "least"),
    [("frame", "lath-three-coat", "7/8"), ("lath over block", "lath-three-coat", "7/8"), ("block", "three-coat", "5/8"),
     ("concrete", "three-coat", "5/8"), ("block", "two-coat", "1/2"), ("concrete", "two-coat", "3/8")],
)  # fmt: skip
def test_each_row_passes_at_its_least_and_not_a_sixteenth_under(base, choose, least):
    def cautions(total):
        own = Override(total=total)
        return codes(chosen(base=base, choose=choose, out_of_plane=0, override=own).cautions)

    assert "under-code" not in cautions(inch(least))
    assert "under-code" in cautions(inch(least) - inch("1/16"))


@checked("our arithmetic", f"{SOURCE}: no row for one coat")
def test_one_coat_has_no_row():
    assert "no-code-row" in codes(option("heavy-skim").cautions)
