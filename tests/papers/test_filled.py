"""Answers put into words: names of places, spans, packages, standings; a small job and a long one."""

from __future__ import annotations

import io
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pypdf
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

import darby
from darby.answers import Answers
from darby.measure.units import FT, UNITS, unit
from darby.papers import CrewPaper, OrderPaper, QuotePaper, TicketPaper, paper_set, render
from darby.papers.filled.mixing import mix_called, parts_said
from darby.papers.filled.orders import item_called, orders
from darby.papers.filled.parting import letter_of
from darby.papers.filled.parts import label
from darby.papers.filled.places import place, zone_called
from darby.papers.filled.standing import leaning
from darby.papers.filled.workings import working_package
from darby.papers.filled.writer import Writer
from darby.papers.model import RuleRow
from darby.rulebook import default
from darby.words import figure_says, figure_value, figure_where, package_said, units_said
from darby.working import Note, Quantity
from tests.papers.conftest import EXAMPLE, answered, papers
from tests.papers.reading import letters, overlaps


@pytest.fixture(scope="module")
def writer(answers: Answers) -> Writer:
    return Writer(answers)


@pytest.fixture(scope="module")
def spanish() -> Writer:
    return Writer(answered(("es", "en")))


# --- names --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("at", "en", "es"),
    [
        ("job", "", ""),
        ("bay-south", "Engine bay, south wall", "Engine bay, south wall"),
        ("bay-south/rest", "Engine bay, south wall", "Engine bay, south wall"),
        ("bay-south/hollow", "Engine bay, south wall, the hollow by the small door",
         "Engine bay, south wall, the hollow by the small door"),
        ("bay-south/left", "Engine bay, south wall, the left edge", "Engine bay, south wall, la orilla izquierda"),
        ("bay-north/door-1/head", "Engine bay, north wall, door, the head",
         "Engine bay, north wall, puerta, el dintel"),
        ("bay-east/bay-east/top", "Engine bay, east wall, the top", "Engine bay, east wall, lo alto"),
        ("crew", "Crew room", "Crew room"),
        ("crew-1/window-1", "Crew room 1, window", "Crew room 1, ventana"),
        ("nobody", "nobody", "nobody"),
    ],
)  # fmt: skip
def test_places_are_called_by_their_names(writer: Writer, at: str, en: str, es: str) -> None:
    job = writer.answers.job
    assert place(job, at, "en") == en and place(job, at, "es") == es


def test_of_several_zones_the_one_without_a_name_is_the_rest(writer: Writer) -> None:
    job = writer.answers.job
    assert zone_called(job, "bay-south", "rest", "en") == "Engine bay, south wall, the rest"
    assert zone_called(job, "bay-east", "rest", "en") == "Engine bay, east wall"


def test_mixes_are_called_by_coat_and_by_what_made_them_another_mix(writer: Writer, spanish: Writer) -> None:
    mixes = writer.answers.of("mixes")
    called = {mix.id: mix_called(writer, mix, "en") for mix in mixes.coats}
    assert called["mix/base"] == "Base coat" and called["mix/scratch none"] == "Scratch coat, on lath"
    assert mix_called(spanish, mixes.of("mix/scratch none"), "es") == "Capa rayada, sobre malla"
    own = replace(mixes.of("mix/base"), id="mix/base parapet")
    assert mix_called(writer, own, "en") == "Base coat, Roof parapet"
    # the firm's base coat is 1 : 3/4 : 5
    assert parts_said(writer, mixes.of("mix/base"), "en") == "1 portland, 3/4 lime, 5 damp sand"
    assert parts_said(spanish, mixes.of("mix/base"), "es") == "1 de cemento portland, 3/4 de cal, 5 de arena húmeda"


def test_a_list_of_many_names_is_cut_short(writer: Writer) -> None:
    assert writer.listed(["a", "b"]) == "a; b"
    assert writer.listed(list("abcde")) == "a; b; c; d; e"
    assert writer.listed(list("abcdef")) == "a; b; c; d and 2 more"
    assert writer.listed(list("abcdef"), "es") == "a; b; c; d y 2 más"


def test_joints_have_letters() -> None:
    assert [letter_of(n) for n in (0, 1, 25, 26, 27, 52)] == ["A", "B", "Z", "AA", "AB", "BA"]


def test_notes_say_the_edge_by_its_name_and_its_own_sentence_to_whom_it_is_for(writer: Writer) -> None:
    note = next(n for n in writer.answers.notes if n.code == "buildup.set-back-forward")
    assert "At the left edge tell the mason" in writer.note(note)
    assert writer.note(note, "es").startswith("En la orilla izquierda")
    assert writer.note(note, to="crew").startswith("At the left edge bring the base 3/8 in. forward")
    assert "the new face would lie 3/8 in. behind the old" in writer.note(note, to="customer", wall="South")


# --- numbers ------------------------------------------------------------------------------------------------


@given(st.floats(0.001, 0.2), st.floats(0, 0.2), st.sampled_from(["us", "metric"]))
def test_a_span_of_water_only_widens(least: float, more: float, system: str) -> None:
    writer = Writer(answered(system=system))
    gallon = unit("gal")
    text = writer.span(Quantity(least, gallon), Quantity(least + more, gallon), {"gal": Fraction(1, 2)})
    said, _, word = text.rpartition(" ")
    ends = [sum(Fraction(part) for part in end.split(" ")) for end in said.split("–")]
    size = UNITS[word].scale
    assert ends[0] * size <= least * (1 + 1e-8) and ends[-1] * size >= (least + more) * (1 - 1e-8)
    step = Fraction(1, 2) if word == "gal" else 1
    assert all(end / step == int(end / step) for end in ends)
    # and by less than a step at each end
    assert least - float(ends[0] * size) < float(step * size) and float(ends[-1] * size) - least - more < float(
        step * size
    )


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (Fraction(15, 2), "7 1/2"),
        (Fraction(3, 4), "3/4"),
        (13, "13"),
        (1.2, "1.2"),
        (Fraction(1, 3), "0.333"),
        (0, "0"),
    ],
)
def test_bare_numbers_are_fractions_where_they_are_fractions(writer: Writer, value: Fraction, said: str) -> None:
    assert writer.count(value) == said


@pytest.mark.parametrize(
    ("feet", "said"), [(24, "24 ft"), (Fraction(28, 3), "9 ft 4 in."), (Fraction(1, 2), "6 in."), (0, "0 in.")]
)
def test_lengths_are_written_as_they_are_said(writer: Writer, feet: Fraction, said: str) -> None:
    assert writer.feet(feet * unit("ft").scale) == said


def test_areas_are_whole_square_feet_unless_that_is_nothing(writer: Writer) -> None:
    foot = unit("sq ft")
    assert writer.area(Quantity(foot.to_si(Fraction(419, 10)), foot)) == "42 sq ft"
    assert writer.area(Quantity(foot.to_si(Fraction(3, 10)), foot)) == "0.3 sq ft"
    assert Writer(answered(system="metric")).area(Quantity(foot.to_si(408), foot)) == "37.9 m²"


@pytest.mark.parametrize(
    ("number", "said"), [(1266.14, "1,266 lb"), (417.2, "417 lb"), (48.153, "48.2 lb"), (8.562, "8.6 lb")]
)
def test_three_figures_are_enough_for_what_is_rounded_to_packages(writer: Writer, number: float, said: str) -> None:
    pound = unit("lb")
    assert writer.about(Quantity(pound.to_si(number), pound)) == said


def test_less_than_one_bag_is_a_bag(writer: Writer) -> None:
    bags = unit("bags")
    assert writer.counted(Quantity(Fraction(1, 2), bags)) == "1/2 bag"
    assert writer.counted(Quantity(Fraction(7, 2), bags)) == "3 1/2 bags"
    assert writer.counted(Quantity(Fraction(7, 2), bags), "es") == "3 1/2 sacos"


# --- orders -------------------------------------------------------------------------------------------------


def test_packages_are_said_in_the_papers_language(writer: Writer, spanish: Writer) -> None:
    lines = {line.item: line for line in writer.answers.of("order").lines}
    expected = {
        "portland": ("94 lb bag", "saco de 94 lb"),
        "lath": ("27 × 97 in. sheet", "hoja de 27 × 97 pulg."),
        "paper": ("162 sq ft roll", "rollo de 162 pies²"),
        "lath fasteners": ("box of 1000", "caja de 1000"),
        "casing bead": ("10 ft piece", "pieza de 10 pies"),
    }
    for item, (en, es) in expected.items():
        line = lines[item]
        assert package_said(line.written, line.each) == en
        assert package_said(line.written, line.each, "es") == es
    assert units_said("cu yd", "es") == "yd³"
    assert item_called(spanish, lines["casing bead"]) == "Remate (casing bead)"
    assert item_called(writer, lines["float-finish"]) == "Cement float finish, bagged"


def test_what_is_too_much_on_order_is_said() -> None:
    job = answered().job
    more = replace(job.ordered[0], amount=Fraction(20), on=None)
    writer = Writer(darby.answer(replace(job, ordered=(more,))))
    supply = orders(writer, writer.answers.of("order"))["Alder Flat Building Supply"]
    cement = next(row for row in supply.rows if row.item.startswith("Portland"))
    whole = writer.answers.of("order").line("portland").whole.value
    assert cement.count == "0" and cement.ordered == f"20 bags ({20 - int(whole)} bags too many)"


def test_standing_is_the_weakest_figure_behind_a_number(writer: Writer) -> None:
    coats = writer.answers.of("coats", "bay-north").of("rest").chosen
    assert leaning(writer, coats.coat("dash-bond").nominal) == "common practice"  # type: ignore[union-attr]
    assert leaning(writer, coats.coat("finish").nominal) == ""  # type: ignore[union-attr]
    assert leaning(writer, None, Quantity(1)) == ""
    # every soft figure found this way is in the book with just that standing
    book = default()
    soft = {f.standing for f in book.figures.values() if f.id == "thickness.dash-bond.practice"}
    assert soft == {"common practice"}


# --- a small job and a long one -----------------------------------------------------------------------------


def look_over(pdf: bytes) -> int:
    """Letters on letters, and small ones; hands back how many sheets there are."""
    pages = list(pypdfium2.PdfDocument(pdf))
    for page in pages:
        assert not overlaps(page)
        assert min(x.size for x in letters(page)) >= 8
    return len(pages)


def test_the_job_that_darby_new_writes_has_its_papers(tmp_path: Path) -> None:
    from darby.cli.starter import write_starter

    write_starter(tmp_path / "job.toml", None)
    made = paper_set(darby.answer(darby.load(tmp_path / "job.toml")))
    quote, crew, tickets = made["quote.pdf"], made["crew-front.pdf"], made["tickets.pdf"]
    assert isinstance(quote, QuotePaper) and isinstance(crew, CrewPaper) and isinstance(tickets, TicketPaper)
    assert quote.abreast == 1 and len(quote.elevations) == 1 and crew.abreast
    assert [look_over(render(paper)) for paper in (quote, crew, tickets)] == [2, 2, 1]


WALL = """
[[wall]]
id = "wall-{n}"
name = "House {n}, rear wall to the lane"
length = "{long}'"
height = "8'"
facing = "south"
base = "{base}"
base_edge = "grade"
left = {{ kind = "outside corner" }}
right = {{ kind = "outside corner" }}
openings = ["door 3068 at 4', reveal 4\\"", "window 3' x 4' at 12' up 3'"]
"""


def test_a_job_of_thirty_walls_has_its_papers(tmp_path: Path) -> None:
    (tmp_path / "firm.toml").write_text(EXAMPLE.with_name("firm.toml").read_text())
    head = 'darby = 1\n[job]\nname = "Thirty walls along a very long lane"\nas_of = 2026-09-30\nfirm = "firm.toml"\n'
    walls = [WALL.format(n=n, long=20 + n, base=("block", "frame")[n % 3 == 0]) for n in range(1, 31)]
    (tmp_path / "job.toml").write_text("".join([head, *walls]))
    made = paper_set(darby.answer(darby.load(tmp_path / "job.toml")))
    quote, tickets, crew = made["quote.pdf"], made["tickets.pdf"], made["crew-wall-30.pdf"]
    assert isinstance(quote, QuotePaper) and isinstance(tickets, TicketPaper) and isinstance(crew, CrewPaper)
    assert [len(row.places) for row in quote.work] == [20, 10]
    assert len(quote.prices) >= 30 and len(quote.elevations) == 2
    assert all(ticket.where.first.endswith("more") for ticket in tickets.tickets)
    assert look_over(render(quote)) <= 4 and look_over(render(tickets)) == 2
    assert look_over(render(crew)) <= 3  # a wall on lath has its sheets drawn


def test_an_order_for_nobody_says_so() -> None:
    job = answered().job
    firm = replace(job.firm, buys=())
    made = paper_set(darby.answer(replace(job, firm=firm, ordered=())))
    order = made["order.pdf"]
    assert isinstance(order, OrderPaper) and order.title == "Still to be bought: Alder Flat fire hall"
    text = pypdf.PdfReader(io.BytesIO(render(order))).pages[0].extract_text()
    assert "whoever has it" in text and "Package" not in text and "Water" not in text


def test_a_crew_sheet_for_several_alike_says_how_many() -> None:
    job = answered().job
    surfaces = tuple(replace(s, count=5) if s.id == "parapet" else s for s in job.surfaces)
    crew = paper_set(darby.answer(replace(job, surfaces=surfaces)))["crew-parapet.pdf"]
    assert isinstance(crew, CrewPaper) and crew.picture is not None
    assert "Roof parapet, one of 5 alike" in crew.picture.caption and crew.area.first == "450 sq ft"
    assert papers()["crew-parapet.pdf"].area.first == "90 sq ft"  # type: ignore[union-attr]


def test_joints_are_drawn_lettered_and_given_to_the_crew() -> None:
    """The hall's east wall is 34 ft of block with a joint of its own in the middle."""
    crew = papers()["crew-bay-east.pdf"]
    assert isinstance(crew, CrewPaper) and crew.picture is not None
    row = next(row for row in crew.beads if row.edge.first == "joint A")
    assert row.where.first == "upright, 17 ft from the left end" and row.length == "12 ft"
    assert "17′-0″" in crew.picture.svg and "joint" in [item.text for item in crew.picture.key]
    assert any(note.first.startswith("Joint A: 17 ft of plaster moves there.") for note in crew.notes)
    # what is a joint because the base changes is an edge of the south wall already
    south = papers()["crew-bay-south.pdf"]
    assert isinstance(south, CrewPaper) and not [row for row in south.beads if row.edge.first.startswith("joint")]


# --- the working: figures in the paper's language -------------------------------------------------------------


def test_the_figures_behind_a_working_are_said_in_its_language(writer: Writer, spanish: Writer) -> None:
    book = default()
    english, said = (working_package(w).rules for w in (writer, spanish))
    assert [row.id for row in english] == [row.id for row in sorted(said, key=lambda r: ids(english).index(r.id))]
    for row in english:
        figure = book[row.id]
        assert (row.says, row.where) == (figure.says, figure.where)
    for row in said:
        figure = book[row.id]
        assert row.says == figure_says(figure, "es") != figure.says
        assert row.value == figure_value(figure, "es")
        assert row.where == figure_where(figure, "es")
        assert "undated" not in row.source
        assert "n.d." not in row.source
    in_words = {row.id: row.value for row in said if book[row.id].kind == "rule"}
    assert in_words["prep.damp.pca"] == "húmeda pareja, no empapada"


def ids(rows: tuple[RuleRow, ...]) -> list[str]:
    return [row.id for row in rows]


def test_what_proves_a_number_is_in_the_papers_units(spanish: Writer) -> None:
    groups = working_package(spanish).groups
    lines = [line.line for group in groups for part in group.parts for line in part.lines]
    assert any("1.5 sacos: 8.02 pies³ ≤ 9 pies³" in line for line in lines)
    assert not [line for line in lines if " sq ft" in line or " cu ft" in line]


def test_notes_call_corners_joints_and_lengths_by_words(writer: Writer, spanish: Writer) -> None:
    parts = (Quantity(float(10 * FT), UNITS["ft-in"]), Quantity(float(2.5 * FT), UNITS["ft-in"]))
    cut = Note("cutting.spliced", "fact", "job", (("piece", "bay-east/joint/v1"), ("parts", parts)), ())
    said = "Engine bay, east wall, junta A: más larga que cualquier tira, se empalma con 10 pies, 2 pies 6 pulg."
    assert spanish.note(cut) == said
    assert writer.note(cut).endswith("spliced from 10 ft, 2 ft 6 in.")
    ids = ("3-3", "engine-door/base-left")
    near = Quantity(float(2.5 * FT), UNITS["ft"])
    seen = Note("grounds.not-measured", "caution", "bay-south", (("grounds", ids), ("reach", near)), ())
    assert "3-3; engine door, esquina de abajo, izquierda" in spanish.note(seen)
    assert "engine-door" not in writer.note(seen)


def test_the_price_without_waits_is_called_by_what_it_is(writer: Writer, spanish: Writer) -> None:
    any_step = next(iter(writer.answers.steps()))
    step = replace(any_step, key="job/by-area/labor", says="price.labor")
    assert label(writer, step) == "Labor: if no coat had to wait"
    assert label(spanish, step) == "Mano de obra: si ninguna capa esperara"
