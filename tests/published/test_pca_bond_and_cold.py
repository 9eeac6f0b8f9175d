"""Portland Cement Association, Stucco FAQ: bonding agents, and lower temperatures (as reprinted)."""

from darby.rulebook import default
from tests.published import checked
from tests.published.asking import first_cause, number, written

BOND = "Portland Cement Association, Stucco FAQ, bonding agents"
COLD = "Portland Cement Association, Stucco FAQ, lower temperatures, as reprinted"


@checked("copied figure", COLD)
def test_a_warmed_mix_is_not_hotter():
    assert number("ask.mix.hottest.pca") == (120,)
    assert written("ask.mix.hottest.pca")[1] == "second-hand"


@checked("copied figure", BOND)
def test_painted_masonry_is_roughened_first_and_glue_is_no_guarantee():
    rule = default().rule("ask.painted").figure
    assert rule.written.index("roughened") < rule.written.index("bonding agent")
    assert "no guarantee" in rule.written


@checked("copied figure", f"{BOND}: where plaster lets go")
def test_a_painted_sealed_or_dirty_base_comes_first():
    rule, english, spanish = first_cause("fault.hollow")
    assert all(word in rule.written and word in english for word in ("painted", "sealed", "dirty"))
    assert all(word in spanish for word in ("pintada", "sellada", "sucia"))
