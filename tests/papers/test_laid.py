"""Cut lists and grounds on paper: looked at by eye, and held here to the answers and to sums by hand."""

from __future__ import annotations

import io
import re
from dataclasses import fields, is_dataclass, replace
from decimal import Decimal
from fractions import Fraction
from functools import cache

import pypdf
import pytest

import darby
from darby.answers import Answers
from darby.job.cutting import Cutting, OnTruck
from darby.measure.units import FT, IN
from darby.papers import MoneyOnCrewPaper, Paper, render
from darby.papers.filled.on_request import ON_REQUEST, on_request
from darby.papers.model import SawingPaper, TruingPaper
from tests.papers.conftest import example


def texts(thing: object) -> list[str]:
    """Every text of a paper's data, but drawings."""
    if is_dataclass(thing):
        return [t for f in fields(thing) if f.name != "svg" for t in texts(getattr(thing, f.name))]
    if isinstance(thing, tuple):
        return [t for part in thing for t in texts(part)]
    return [thing] if isinstance(thing, str) else []


@cache
def made(
    languages: tuple[str, ...] = ("en", "es"), system: str = "us", *, spots: bool = False, one_piece: bool = False
) -> tuple[Answers, dict[str, Paper]]:
    """The example's papers on request; ``spots``: with two high spots read, ``one_piece``: with a truck and a saw."""
    job = example()
    firm = replace(job.firm, languages=languages, system=system)  # type: ignore[arg-type]
    if spots:
        (read,) = job.readings
        high = ((12 * FT, Fraction(12) * FT, Fraction(5, 8) * IN),)
        job = replace(job, readings=(replace(read, points=(*read.points, *high)),))
    if one_piece:
        held = (OnTruck("casing bead", Fraction(100) * IN, 1, "red end"),)
        job = replace(job, cuts=Cutting(IN / 8, 2 * FT, ("corner bead",), held))
    answers, papers = on_request(darby.answer(replace(job, firm=firm)), ("all",))
    return answers, {name: paper for several in papers.values() for name, paper in several.items()
                     if not isinstance(paper, bytes)}  # fmt: skip


@cache
def words(name: str, **how: object) -> str:
    pages = pypdf.PdfReader(io.BytesIO(render(made(**how)[1][name]))).pages  # type: ignore[arg-type]
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_each_stage_has_its_papers_and_no_other_is_known() -> None:
    _, papers = made()
    assert set(papers) == {"cuts.pdf", "cuts-money.pdf", "grounds-bay-south.pdf", "truing-bay-south.pdf", "letter.pdf"}
    assert set(ON_REQUEST) == {"cuts", "drawings", "grounds", "ways"}
    with pytest.raises(KeyError):
        on_request(made()[0], ("price",))


def test_a_drawing_file_of_every_wall_without_a_slow_stage() -> None:
    answers = darby.answer(example())
    after, papers = on_request(answers, ("drawings",))
    assert after is answers
    assert set(papers["drawings"]) == {f"wall-{wall.id}.dxf" for wall in answers.job.surfaces}
    assert all(bytes(data).rstrip().endswith(b"EOF") for data in papers["drawings"].values())


@pytest.mark.parametrize("name", ["cuts.pdf", "grounds-bay-south.pdf"])
@pytest.mark.parametrize("spots", [False, True])
def test_the_crews_copy_has_no_money_in_two_languages(name: str, spots: bool) -> None:
    paper = made(spots=spots)[1][name]
    assert not [text for text in texts(paper) if "$" in text]
    assert "$" not in words(name, spots=spots)
    assert paper.languages == ("en", "es")  # type: ignore[union-attr]
    assert paper.money is False  # type: ignore[union-attr]


def test_money_on_a_crews_copy_is_refused() -> None:
    paper = made()[1]["cuts-money.pdf"]
    assert isinstance(paper, SawingPaper)
    with pytest.raises(MoneyOnCrewPaper):
        render(replace(paper, money=False))


# --- cut lists ---------------------------------------------------------------------------------------------


def test_every_piece_of_the_job_is_on_the_sheet_with_its_length() -> None:
    answers, papers = made(("en",))
    paper = papers["cuts.pdf"]
    assert isinstance(paper, SawingPaper)
    for found, part in zip(answers.of("cuts").lists, paper.parts, strict=True):
        bars = {bar.number: bar for bar in found.cuts.bars}
        numbers: list[int] = []
        for row in part.rows:
            first, _, last = row.bars.partition("–")
            here = range(int(first), int(last or first) + 1)
            numbers += here
            for n in here:
                assert {cut.length for cut in row.cuts} == {feet(cut.length) for cut in bars[n].cuts}
                assert sum(pieces(cut.letter) for cut in row.cuts) == len(bars[n].cuts)
        assert sorted(numbers) == sorted(bars)
        assert sum(int(row.count) for row in part.stock) == sum(b.count for b in found.cuts.bought)


def pieces(letters: str) -> int:
    """How many pieces "a" is, or "c–l"."""
    first, _, last = letters.partition("–")
    return ord(last or first) - ord(first) + 1


def feet(length: Fraction) -> str:
    return darby.measure.write(length, "sentence", 16)


def test_bars_are_drawn_to_one_scale() -> None:
    """Of every bar the outlines are as wide as the pieces are long."""
    answers, papers = made(("en",), one_piece=True)
    paper = papers["cuts.pdf"]
    assert isinstance(paper, SawingPaper)
    scales = []
    done = [x for x in answers.of("cuts").lists if x.cuts]
    for found, part in zip(done, paper.parts, strict=True):
        for bars, row in zip(found.cuts.patterns, part.rows, strict=True):
            paths = re.findall(r'<(?:path|polygon)[^>]*class="d-cut-edge"[^>]*>', row.picture.svg)
            assert len(paths) == len(bars[0].cuts)
            for path, cut in zip(paths, bars[0].cuts, strict=True):
                xs = [
                    float(x)
                    for x, _ in re.findall(r"(-?[\d.]+)[ ,](-?[\d.]+)", path.split('d="')[-1].split('points="')[-1])
                ]
                scales.append((max(xs) - min(xs)) / float(cut.length))
    assert max(scales) == pytest.approx(min(scales), rel=0.02)


def test_the_firms_copy_says_what_is_saved_and_why_nothing_is_cheaper() -> None:
    _, papers = made(("en",), one_piece=True)
    paper = papers["cuts-money.pdf"]
    assert isinstance(paper, SawingPaper)
    for part in paper.parts:
        cost, first, saved, _ = (Decimal(value.replace("$", "").replace(",", "")) for _, value in part.sums)
        assert first - cost == saved
        bought = sum(Decimal(row.sum.replace("$", "").replace(",", "")) for row in part.stock)
        assert bought == cost
        assert part.proof
    assert "Proved: nothing is cheaper." in words("cuts-money.pdf", languages=("en",), one_piece=True)


def test_blade_truck_splice_and_what_cannot_be_cut_are_said() -> None:
    said = words("cuts.pdf", one_piece=True)
    assert "The blade takes 1/8 in. with every cut; that is counted in." in said
    assert "8 ft 4 in. on the truck, marked red end" in said
    assert "no part under 2 ft" in said
    # the engine door is 12 ft wide; corner bead comes in 10 ft
    assert "Corner bead is not cut." in said
    assert "Esquinero no se corta." in said


def test_a_piece_is_called_by_its_wall_and_its_edge() -> None:
    said = words("cuts.pdf")
    assert "Crew room 1, window, the left edge" in said
    assert "Roof parapet, the top, parts 1–4 of 5" in said
    assert not re.search(r"\bc\d\b|bay-", said)


# --- grounds -----------------------------------------------------------------------------------------------


def test_every_ground_and_corner_stands_in_the_table_to_a_sixteenth() -> None:
    answers, papers = made(("en",))
    found, paper = answers.of("grounds", "bay-south"), papers["grounds-bay-south.pdf"]
    assert isinstance(paper, TruingPaper)
    every = (*found.grounds, *found.corners)
    assert len(paper.grounds) == len(every)
    for row, ground in zip(paper.grounds, every, strict=True):
        assert row.depth == feet(Fraction(float(ground.depth)).limit_denominator(10**7))
        assert row.ground == feet(Fraction(float(ground.ground)).limit_denominator(10**7))
        assert row.known is ground.known
    assert [row.name.first for row in paper.grounds if not row.known] == [
        "3-3", "4-3", "engine door, lower left corner", "engine door, upper left corner"
    ]  # fmt: skip


def test_within_the_part_on_lath_nothing_is_past_the_limit() -> None:
    """The hollow by the small door hangs on lath: its ground is thick and not ringed; above it the block is bare."""
    _, papers = made(("en",))
    paper = papers["grounds-bay-south.pdf"]
    assert isinstance(paper, TruingPaper)
    past = [row.name.first for row in paper.grounds if row.past]
    assert past == ["door, upper right corner"]
    assert paper.picture.svg.count('class="d-ground-ring"') == 1
    assert "d-past" in paper.map.svg


def test_the_letter_sets_three_faces_side_by_side() -> None:
    answers, papers = made(("en",))
    found, paper = answers.of("grounds", "bay-south"), papers["truing-bay-south.pdf"]
    assert isinstance(paper, TruingPaper)
    assert [row.volume for row in paper.faces] == [f"{float(f.volume) / float(FT) ** 3:.2f} cu ft" for f in found.faces]
    assert [row.cost for row in paper.faces] == [f"${f.cost.value}" for f in found.faces]
    assert [row.chosen for row in paper.faces] == [True, False, False]
    assert len(paper.holdings) == 3
    said = words("truing-bay-south.pdf", languages=("en",))
    assert "Nobody has said yet how it is held." in said
    assert "Between readings nothing is known" in said
    assert "lies farther than 2 ft 6 in. from any reading" in said


def test_each_high_spot_has_its_cost_and_what_knocking_it_down_saves() -> None:
    answers, papers = made(("en",), spots=True)
    found = answers.of("grounds", "bay-south")
    assert found.spots
    letter, crew = papers["truing-bay-south.pdf"], papers["grounds-bay-south.pdf"]
    assert isinstance(letter, TruingPaper)
    assert isinstance(crew, TruingPaper)
    assert [row.saves_money for row in letter.spots] == [f"${s.saves_money.value}" for s in found.spots]
    assert [row.knocked_money for row in letter.spots] == [f"${s.knocked_money.value}" for s in found.spots]
    assert letter.spots[0].by == "1/8 in."
    assert [row.saves_money for row in crew.spots] == [""] * len(found.spots)


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("languages", [("en",), ("es", "en")])
def test_every_copy_is_set_in_every_language_and_system(languages: tuple[str, ...], system: str) -> None:
    for name in made(languages, system)[1]:
        said = words(name, languages=languages, system=system)
        assert "{" not in said
        assert not re.search(r"\b(paper|papers|grounds|cutting)\.[a-z-]+", said), name
        if system == "metric":
            assert " in. " not in said
            assert " pulg. " not in said
