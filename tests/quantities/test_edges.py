"""Edges to accessories: every run in exactly one line, nothing lost, nothing twice."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure.surface import EDGE_KINDS
from darby.measure.units import FT, IN
from darby.quantities import EdgeLine, EdgeRun, Order, OrderAsk, accessory_for, order
from darby.quantities.edges import COVERS
from darby.rulebook import default
from darby.words import say
from darby.working import Working
from tests.quantities.asks import BUYS, FIRM, NOTHING, shown


def run(kind: str, where: str = "left", feet: int = 10, **more: object) -> EdgeRun:
    given = {"id": f"w/{kind}", "surface": "w", "base": "block", **more}
    return EdgeRun(where=where, kind=kind, length=feet * FT, **given)  # type: ignore[arg-type]


def placed(*runs: EdgeRun, allow: object = NOTHING) -> Order:
    return order(OrderAsk((), (), runs, buys=BUYS, allow=allow))[0]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("edge", "item", "because"),
    [
        (run("outside corner"), "corner bead", "outside-corner"),
        (run("outside corner", base="frame", lathed=True), "corner bead", "outside-corner"),
        (run("inside corner"), None, "inside-corner-solid"),
        (run("inside corner", base="frame", lathed=True), "corner lath", "inside-corner-lath"),
        (run("inside corner", base="frame", lathed=True, other_base="frame"), "corner lath", "inside-corner-lath"),
        (run("inside corner", base="frame", lathed=True, other_base="block"), "casing bead", "base-from-base"),
        (run("inside corner", other_base="frame"), "casing bead", "base-from-base"),
        (run("grade", "bottom"), "casing bead", "foot-of-masonry"),
        (run("base", "bottom", base="lath over block", lathed=True), "casing bead", "foot-of-masonry"),
        (run("grade", "bottom", base="frame", lathed=True), "weep screed", "foot-of-frame"),
        (run("base", "bottom", base="frame", lathed=True), "weep screed", "foot-of-frame"),
        (run("roof line", "bottom"), "casing bead", "above-roof"),
        (run("roof line", "bottom", base="frame"), "casing bead", "above-roof"),
        (run("roof line", "top"), None, "roof-covers"),
        (run("soffit", "top"), None, "soffit-covers"),
        (run("top", "top"), None, "top-covered"),
        (run("drip", "top"), "drip screed", "drip"),
        (run("jamb", plastered_reveal=True), "corner bead", "plastered-reveal"),
        (run("head", plastered_reveal=True), "corner bead", "plastered-reveal"),
        (run("jamb", base="frame", lathed=True), "casing bead", "opening"),
        (run("sill"), "casing bead", "opening"),
        (run("sill", covered_by="threshold"), None, "covered-by-threshold"),
        (run("top", "top", covered_by="vines"), None, "covered"),
        (run("floor line", base="frame", lathed=True), "expansion joint", "floor-line"),
        (run("floor line"), None, "floor-line-solid"),
        (run("change of base", "field"), "casing bead", "base-from-base"),
        (run("meets old work"), "casing bead", "new-from-old"),
        (run("control joint", "field"), "control joint", "control-joint"),
        (run("outside corner", accessory="none", why="bullnosed by hand"), None, "chosen"),
        (run("outside corner", accessory="casing bead"), "casing bead", "chosen"),
        (run("moat"), None, "unknown-edge"),
    ],
)
def test_what_each_edge_takes_and_why(edge: EdgeRun, item: str | None, because: str) -> None:
    found = accessory_for(edge)
    assert found[:2] == (item, because)
    (line,) = placed(edge).edges
    assert (line.item, line.because) == (item, f"quantities.because.{because}")
    assert line.length == 10 * FT
    for language in ("en", "es"):
        assert say(line.because, (), language)
    for rule in line.rules:
        assert rule in default().figures


def test_every_kind_of_edge_is_known() -> None:
    for kind in EDGE_KINDS:
        assert accessory_for(run(kind))[1] != "unknown-edge"


def test_a_corner_two_walls_share_is_one_corner() -> None:
    """Longer wall takes the bead, the other's run is there but takes none."""
    tall = run("outside corner", id="a/right", surface="a", feet=12, shared="a|b")
    low = run("outside corner", id="b/left", surface="b", feet=8, shared="a|b")
    found = placed(low, tall)
    assert [(x.item, x.length, x.runs) for x in found.edges] == [
        ("corner bead", 12 * FT, ("a/right",)),
        (None, 8 * FT, ("b/left",)),
    ]
    assert found.edges[1].because == "quantities.because.counted-with-other"


def test_a_shared_corner_in_two_pieces_keeps_both() -> None:
    """Where zones cut the corner line, its wall has two runs; both take bead."""
    low = run("outside corner", id="a/right@1", surface="a", feet=4, shared="a|b")
    high = run("outside corner", id="a/right@2", surface="a", feet=4, shared="a|b")
    other = run("outside corner", id="b/left", surface="b", feet=8, shared="a|b")
    lines = placed(low, high, other).edges
    assert [(x.item, x.length) for x in lines] == [("corner bead", 8 * FT), (None, 8 * FT)]


def test_what_measuring_already_said_stands() -> None:
    here = run("outside corner", id="b/left", surface="b", shared="a|b")
    there = run("outside corner", id="a/right", surface="a", shared="a|b", elsewhere="b")
    bare = run("base", id="a/base", surface="a", bare=True)
    lines = {x.because.rpartition(".")[2]: x for x in placed(here, there, bare).edges}
    assert lines["outside-corner"].runs == ("b/left",)
    assert lines["counted-with-other"].runs == ("a/right",)
    assert lines["bare"].runs == ("a/base",)


def test_two_beads_stand_back_to_back_where_base_meets_base() -> None:
    (line,) = placed(run("change of base", "field")).edges
    assert (line.length, line.beads) == (10 * FT, 20 * FT)
    (line,) = placed(run("meets old work", beads=2)).edges
    assert line.beads == 20 * FT
    (line,) = placed(run("soffit", "top")).edges
    assert line.beads == 0


def test_pieces_are_rounded_once_for_the_job() -> None:
    """Three corners of 6' 8": 20 ft, with 7 % 21.4 ft, three pieces of 10 ft and not one a corner."""
    runs = [EdgeRun(f"w{n}", "w", "left", "outside corner", Fraction(20, 3) * FT, "block") for n in range(3)]
    bead = placed(*runs, allow=FIRM).line("corner bead")
    assert bead is not None
    assert [shown(p.amount) for p in bead.made_of] == pytest.approx([20, 1.4])
    assert shown(bead.packages) == 3
    assert shown(placed(*runs).line("corner bead").packages) == 2  # type: ignore[union-attr]


def test_only_parted_edges_are_sealed() -> None:
    sealed = placed(run("jamb", base="frame", lathed=True)).line("sealant")
    assert sealed is not None
    assert shown(sealed.needed) == pytest.approx(120 * 3 / 8 * 1 / 4)
    for edge in (run("grade", "bottom"), run("outside corner"), run("jamb", plastered_reveal=True)):
        assert placed(edge).line("sealant") is None


kinds = st.sampled_from((*EDGE_KINDS, "control joint", "moat"))
runs_of_a_job = st.lists(
    st.builds(
        EdgeRun,
        id=st.just(""),
        surface=st.sampled_from(("a", "b", "c")),
        where=st.sampled_from(("left", "right", "top", "bottom")),
        kind=kinds,
        length=st.fractions(min_value=0, max_value=30, max_denominator=64).map(lambda x: x * IN),
        base=st.sampled_from(("block", "concrete", "frame", "lath over block")),
        lathed=st.booleans(),
        shared=st.sampled_from((None, None, "a|b", "b|c")),
        elsewhere=st.sampled_from(("", "", "", "c")),
        bare=st.booleans(),
        other_base=st.sampled_from((None, "block", "frame")),
        plastered_reveal=st.booleans(),
        covered_by=st.sampled_from((None, None, None, *sorted(COVERS))),
        accessory=st.sampled_from((None, None, None, "none", "casing bead")),
        count=st.integers(1, 5),
    ),
    max_size=24,
).map(lambda runs: [EdgeRun(**{**_fields(r), "id": f"r{n}"}) for n, r in enumerate(runs)])


def _fields(r: EdgeRun) -> dict[str, object]:
    return {name: getattr(r, name) for name in r.__slots__}


@given(runs=runs_of_a_job)
def test_no_length_is_lost_or_counted_twice(runs: list[EdgeRun]) -> None:
    """The sum of all lines is the sum of all runs, exactly; every run stands in one line."""
    lines = placed(*runs).edges
    assert sum((x.length for x in lines), Fraction(0)) == sum((r.length * r.count for r in runs), Fraction(0))
    assert sorted(i for x in lines for i in x.runs) == sorted(r.id for r in runs)
    assert len({(x.item, x.because) for x in lines}) == len(lines)
    by_id = {r.id: r for r in runs}
    for x in lines:
        assert x.length == sum(by_id[i].length * by_id[i].count for i in x.runs)


@given(runs=runs_of_a_job, seed=st.randoms())
def test_the_order_of_runs_does_not_matter(runs: list[EdgeRun], seed: object) -> None:
    mixed = list(runs)
    seed.shuffle(mixed)  # type: ignore[attr-defined]
    assert placed(*mixed) == placed(*runs)


def test_lines_hold_what_the_order_is_made_of() -> None:
    runs = (run("outside corner", id="1"), run("jamb", id="2", plastered_reveal=True), run("grade", "bottom", id="3"))
    found = placed(*runs)
    beads: dict[str, Fraction] = {}
    for line in found.edges:
        assert isinstance(line, EdgeLine)
        beads[str(line.item)] = beads.get(str(line.item), Fraction(0)) + line.beads
    for item, length in beads.items():
        got = found.line(item)
        assert got is not None
        assert float(got.made_of[0].amount) == pytest.approx(float(length))


def test_choices_and_assumptions_are_said() -> None:
    working: Working = order(
        OrderAsk((), (), (run("outside corner", accessory="none", why="bullnose"), run("top", "top"), run("moat")))
    )[1]
    assert {n.code: n.grade for n in working.notes if "edge" in dict(n.values)} == {
        "quantities.edge-chosen": "fact",
        "quantities.assumed.top-covered": "assumed",
        "quantities.unknown-edge": "caution",
    }
