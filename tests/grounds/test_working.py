"""Every number has its working; the proof of a face is arithmetic that a reader can check."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.working import explain
from darby.working.model import Found, Step

from .asking import FOOT, INCH, LEAST, feet, grid, inches, opening, outline, run
from .walls import rough

NUMBER = r"-?\d[\d,]*(?:\.\d+)?"


def worth(text: str) -> float:
    """A printed line's right side as arithmetic: feet, inches and weights, no units (in./ft stays in inches a foot)."""
    plain = re.sub(r"in\./ft|in\.|ft|cu|sq", "", text).replace("×", "*").replace(",", "")
    assert re.fullmatch(r"[\d.+\-*/() ]+", plain), text
    return float(eval(plain))


def checked(proof):
    """Each line's two sides, where it has two, agree to the last digits printed."""
    for line in proof:
        text = line.rpartition(": ")[2]
        if "=" not in text or "<=" in text:
            continue
        for left, right in zip(text.split(" = "), text.split(" = ")[1:], strict=False):
            assert worth(left) == pytest.approx(worth(right), abs=2e-3), line
    return {re.split(r"[: ]", line)[0]: line for line in proof}


def proof_of(working, name, at="bay-south"):
    step = working.steps[f"{at}/grounds/{name}/out"]
    assert isinstance(step, Found)
    return step


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 100_000))
def test_the_proof_of_a_plane_is_true_and_proves_it(seed):
    walls = outline((0, 0), (20, 0), (20, 9), (12, 13), (0, 9))
    holes = (opening("door", 3, 7, 4, 0),)
    found, working = run(rough(20, 9, seed, holes=holes), walls, openings=holes)
    for name in ("plumb", "leaning"):
        step = proof_of(working, name)
        checked(step.proof)
        weights = next(line for line in step.proof if line.startswith("1 = "))
        assert all(float(w) > 0 for w in re.findall(NUMBER, weights.partition("=")[2]))
        # the last line is the bound, and the face does no better and no worse than it
        bound = float(re.match(NUMBER, step.proof[-1])[0])
        assert bound == pytest.approx(inches(step.value), abs=1e-3)
    assert found.face("leaning").holds


def test_the_proof_of_three_readings_by_hand():
    _, working = run(feet([(0, 0, 0), (20, 0, "1/2"), (10, 10, "3/8")]))
    proof = proof_of(working, "leaning").proof
    # the middle of the wall (10, 5) is a quarter of each foot and a half of the head
    assert proof[:3] == (
        'R1: 0", 0": 0.0000 in. + 0.3750 in. = 0.3750 in.',
        "R2: 20', 0\": 0.5000 in. + 0.3750 in. = 0.8750 in.",
        "R3: 10', 10': 0.3750 in. + 0.3750 in. = 0.7500 in.",
    )
    assert proof[3:] == (
        "1 = 0.2500 + 0.2500 + 0.5000",
        "u: 10.0000 ft = 0.2500 × 0.0000 ft + 0.2500 × 20.0000 ft + 0.5000 × 10.0000 ft",
        "v: 5.0000 ft = 0.2500 × 0.0000 ft + 0.2500 × 0.0000 ft + 0.5000 × 10.0000 ft",
        "0.6875 in. = 0.2500 × 0.3750 in. + 0.2500 × 0.8750 in. + 0.5000 × 0.7500 in.",
    )


def test_where_the_lean_is_at_its_limit_the_bound_says_so():
    # the wall leans 1 in. in 10 ft, 1/4 in. is allowed: 3/8 in. at the foot, held by it alone
    _, working = run(grid(20, 10, lambda u, v: -Fraction(v, 10)))
    proof = proof_of(working, "leaning").proof
    assert proof[-1].endswith(" - 5.0000 ft × 0.0250 in./ft")
    assert proof[-1].startswith("0.2500 in. = ")
    assert " + 5.0000 ft" in next(line for line in proof if line.startswith("v: "))
    checked(proof)


def test_fixed_points_stand_in_the_proof():
    _, working = run(grid(20, 10), fixed=feet([(0, 5, 1), (20, 5, 1)]))
    proof = proof_of(working, "plumb").proof
    assert {line[:2] for line in proof if line[0] == "F"} == {"F1", "F2"}
    checked(proof)


def test_what_cannot_be_met_is_missed_in_the_proof_too():
    found, working = run(grid(20, 10), fixed=feet([(0, 5, 1), (10, 5, "3/2"), (20, 5, 1)]))
    proof = proof_of(working, "plumb").proof
    assert "F2: 10', 5': 1.5000 in. - 0.2500 in. = 1.2500 in." in proof
    assert proof[-1].startswith("1.2500 in. = ")
    assert inches(found.chosen.misses) == pytest.approx(1 / 4)
    checked(proof)


def test_the_proof_of_a_wandering_face_is_its_readings_and_its_gaps():
    found, working = run(rough(20, 10, 3))
    proof = proof_of(working, "wandering").proof
    checked(proof)
    named = [line for line in proof if line.startswith("R")]
    assert len(named) == len(found.face("wandering").holds)
    assert all(line.endswith(" = 0.3750 in.") for line in named)
    assert [line.partition(":")[0] for line in proof[len(named) :]] == ["5 ft", "10 ft"]
    assert all(line.endswith("<= 0.2500 in.") for line in proof[len(named) :])


def test_volume_is_area_times_thickness_and_goes_back_to_the_readings():
    found, working = run(grid(20, 10, lambda u, v: Fraction(u, 80)), price=Decimal("900"))
    tree = explain(working, found.chosen.cost.key)
    keys = set()

    def walk(node):
        keys.add(node.key)
        for inner in node.after:
            walk(inner)

    walk(tree)
    root = "bay-south/grounds"
    assert {f"{root}/plumb/volume", f"{root}/plumb/mean", f"{root}/plumb/out", f"{root}/bare", f"{root}/net"} <= keys


def test_every_quantity_of_the_answer_is_a_step_or_was_given():
    found, working = run(rough(20, 10, 4), held="lath", price=Decimal("900"), face="wandering")
    quantities = [found.net, found.volume, found.untrued, found.truing, found.coverage.radius, found.coverage.thin]
    for face in found.faces:
        quantities += [face.volume, face.mean, face.least, face.most, face.lean, face.past, face.cost]
    for ground in (*found.grounds, *found.corners):
        quantities += [ground.depth, ground.ground, ground.line]
    for spot in found.spots:
        quantities += [spot.saves, spot.knocked, spot.saves_money, spot.knocked_money]
    for patch in found.patches:
        quantities += [patch.area, patch.deepest, patch.excess, patch.lifts]
    for way in found.holdings:
        quantities += [way.volume, way.lifts, way.area, way.cost]
    assert all(q.key in working.steps for q in quantities)
    assert [type(v) for s in working.steps.values() for v in [s.value]].count(float) > 50


def test_a_ground_is_the_face_less_the_wall_at_it():
    found, working = run(grid(20, 10, lambda u, v: Fraction(u, 80)), finish=INCH / 8)
    ground = next(g for g in found.grounds if g.id == "2-2")
    depth, wall = (working.steps[f"bay-south/grounds/ground/2-2/{what}"] for what in ("depth", "wall"))
    assert isinstance(depth, Step)
    assert depth.formula == "face - wall"
    assert inches(wall.value) == pytest.approx(5 / 80)
    # 5 ft across, 5 up: half of each of two readings on its square, or of others whose mean it is
    shares = [float(x) for x in re.findall(r"([\d.]+) ×", wall.proof[0])]
    assert sum(shares) == pytest.approx(1, abs=2e-4)
    assert ground.depth.key == depth.key
    assert abs(float(ground.depth) - depth.value) <= float(INCH) / 32 + 1e-12


def test_rules_stand_where_they_decide():
    _, working = run(grid(20, 10, lambda u, v: -Fraction(v, 10)))
    rules = {name: proof_of(working, name).rules for name in ("plumb", "leaning", "wandering")}
    assert rules["plumb"] == ()
    assert rules["leaning"] == ("thickness.base-plane.c926", "thickness.base-plane-length.c926")
    assert rules["wandering"][2:] == (
        "grounds.short-edge.ibc", "grounds.short-gap.ibc", "grounds.long-edge.industry", "grounds.long-gap.industry",
    )  # fmt: skip


def test_the_mean_of_the_bare_wall_is_its_volume_over_its_area():
    _, working = run(grid(20, 10, lambda u, v: Fraction(u, 20)))
    step = working.steps["bay-south/grounds/bare"]
    assert inches(step.value) == pytest.approx(1 / 2)
    assert step.proof[0].endswith("△ = 200 sq ft")
    # 200 sq ft x 1/2 in. = 8.3333 cu ft
    assert step.proof[1] == "8.3333 cu ft / 200 sq ft = 0.5000 in."


def test_keys_are_kept_under_the_surface_and_stay():
    _, first = run(rough(20, 10, 4))
    _, second = run(rough(20, 10, 4), least=LEAST + INCH)
    assert list(first.steps)[:12] == list(second.steps)[:12]
    assert all(key.startswith("bay-south/grounds/") for key in first.steps)
    assert FOOT
