"""Every kind of paper is set, read back and looked over by machine; it was also looked at by eye."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache

import pypdf
import pypdfium2
import pytest

from darby.papers import Both, MoneyOnCrewPaper, Paper, TicketPaper, render
from darby.papers.render import KINDS, labels
from darby.words import LANGUAGES, catalogue
from tests.papers import samples
from tests.papers.reading import ink, letters, overlaps

PAPERS: dict[str, Paper] = {**samples.everything(), **samples.odd()}
INCH = 72.0
each = pytest.mark.parametrize("name", PAPERS)


@cache
def pdf(name: str) -> bytes:
    return render(PAPERS[name])


@cache
def words(name: str) -> str:
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf(name))).pages)
    return " ".join(text.split())


@each
def test_papers_are_titled_tagged_and_say_their_language(name: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf(name)))
    root = reader.trailer["/Root"]
    assert reader.metadata is not None and reader.metadata.title == PAPERS[name].title
    assert reader.metadata.author == "Three Coats & Daughters"
    assert root["/MarkInfo"]["/Marked"] and "/StructTreeRoot" in root
    assert root["/Lang"] in ("en", "es")
    assert b"pdfuaid" in root["/Metadata"].get_object().get_data()


@each
def test_every_sheet_says_whose_job_it_is_and_that_local_rules_come_first(name: str) -> None:
    paper = PAPERS[name]
    reader = pypdf.PdfReader(io.BytesIO(pdf(name)))
    for n, page in enumerate(reader.pages, 1):
        text = " ".join(page.extract_text().split())
        for mark in ("9f2c41d07ab3", "b51c09e2", "26-41"):
            assert mark in text
        if isinstance(paper, TicketPaper):  # cut apart, so that each ticket says which it is
            mine = range(2 * n - 1, min(2 * n, len(paper.tickets)) + 1)
            assert all(re.search(rf"\b{i} (of|de) {len(paper.tickets)}\b", text) for i in mine)
            assert text.count("9f2c41d07ab3") == len(mine)
        else:
            assert re.search(rf"(sheet|hoja) {n} (of|de) {len(reader.pages)}\b", text)
        assert bool(re.search("invented|inventad", text)) is paper.stamp.invented
    assert re.search(r"local (code|rules)|[Rr]eglas locales|Local rules", words(name))


EXPECTED = {
    "quote.pdf": [
        "A price for plastering the fire hall", "the Alder Flat Volunteer Fire Company", "What goes on, and why",
        "Past 5/8 in. it should hang on lath. Common practice, no source.", "$10,480.00", "$20,100.00", "907 sq ft",
        "If you would rather", "A. Dash finish", "less $1,390.00", "Not in this price", "What to expect", "Frost.",
        "Local rules come first.", "Yes, go ahead", "base coat, 3/8 in.", "24′-0″",
        "Price stands until October 30, 2026",
    ],
    "order-alder-flat-building-supply.pdf": [
        "Order for the fire hall", "Alder Flat Building Supply", "45.7 bags", "20 bags", "26 bags Portland cement",
        "$16.80", "$1,508.10", "7 1/2", "27 × 97 in. sheet",
    ],
    "order-unpriced.pdf": ["26 bags Portland cement", "45.7 bags"],
    "crew-bay-south.pdf": [
        "Engine bay, south wall", "nave, pared sur", "13/16 in.", "a las maestras", "Antes de la primera capa",
        "Casing bead, rod, sealant", "perfil terminal", "Tell the mason", "Dígale al albañil",
        "El cemento mojado quema.",
        "9′-4″", "Costumbre del oficio, sin fuente.", "3/8 in. back", "up to the office's roof",
    ],
    "tickets.pdf": ["Base coat capa base", "struck buckets", "cubetas rasas", "17", "1 1/2", "9 to 11", "7 y una parte",
                    "Float finish, bagged", "Last part batch: 1 bag, 3/4 bag lime, 8 1/2 buckets."],
    "working.pdf": [
        "The working: fire hall", "189 sq ft × 1/2 in. ÷ 12 = 7.88 cu ft", "thickness.block.two-coat.c926",
        "second-hand",
        "Weighed over eleven jobs.", "Stands still until answered", "Assumed", "Figures used, and whose they are",
    ],
    "bare-crew.pdf": ["Garden wall", "Las reglas locales y el inspector de obras mandan sobre esta hoja."],
}  # fmt: skip


@pytest.mark.parametrize("name", EXPECTED)
def test_papers_say_what_they_are_given(name: str) -> None:
    missing = [text for text in EXPECTED[name] if text not in words(name)]
    assert not missing


def test_the_lines_of_a_quote_add_up_as_printed() -> None:
    quote = samples.quote()
    cents = [int(re.sub(r"\D", "", row.price)) for row in quote.prices]
    assert sum(cents) == int(re.sub(r"\D", "", quote.total))


@each
def test_nothing_is_set_off_the_page(name: str) -> None:
    """Margins of the look; tickets are cut apart, and a line to cut along comes nearer the edge than lettering."""
    kind = KINDS[type(PAPERS[name])]
    side, top, bottom = {"tickets": (0.4, 0.25, 0.25), "crew": (0.95, 0.48, 0.3)}.get(kind, (0.95, 0.54, 0.3))
    for page in pypdfium2.PdfDocument(pdf(name)):
        left, low, right, high = ink(page)
        assert left >= side * INCH - 2 and right >= side * INCH - 2
        assert high >= top * INCH - 2 and low >= bottom * INCH


@each
def test_no_letter_stands_on_another(name: str) -> None:
    for n, page in enumerate(pypdfium2.PdfDocument(pdf(name)), 1):
        assert not overlaps(page), f"sheet {n}"


@each
def test_nothing_is_smaller_than_eight_and_a_half_points(name: str) -> None:
    sizes = {round(x.size, 2) for page in pypdfium2.PdfDocument(pdf(name)) for x in letters(page)}
    assert sizes and min(sizes) >= 8.5


def test_the_look_over_would_see_a_fault() -> None:
    """A paper that is wrong on purpose: small type, type over type, ink off the page."""
    import typst

    source = b"""#set page(width: 300pt, height: 200pt, margin: 72pt)
    #set document(title: "x")
    #place(dx: -40pt, text(7pt)[small and far out])
    #place(dx: 10pt, dy: 40pt)[over] #place(dx: 12pt, dy: 41pt)[under]"""
    page = pypdfium2.PdfDocument(typst.compile(source))[0]
    assert min(x.size for x in letters(page)) == pytest.approx(7)
    assert ink(page)[0] < 72 - 2
    assert overlaps(page)


def test_a_cut_is_printed_full_size() -> None:
    """Half an inch of plaster on the paper: from the block's edge to the face, by the ink of a quote's cut."""
    bare = samples.QuotePaper(samples.FIRM, samples.STAMP, "t", "c", "p", "u", "o", (), (), "",
                              cuts=(samples.Cut(samples.cut(total=True), "Full size.", ""),))  # fmt: skip
    page = pypdfium2.PdfDocument(render(bare))[0]
    scale = 8
    image = page.render(scale=scale, grayscale=True).to_pil()
    # the sign of inches stands over the middle of the coats; 24 pt under it a row runs between two leaders
    sign = next(x for x in letters(page) if x.text == "″")
    row = int((page.get_height() - sign.box[1] + 24) * scale)
    middle = int((sign.box[0] + sign.box[2]) / 2 * scale)
    runs: list[list[int]] = []
    for x in range(middle - 40 * scale, middle + 40 * scale):
        if image.getpixel((x, row)) < 90:
            if runs and x == runs[-1][-1] + 1:
                runs[-1].append(x)
            else:
                runs.append([x])
    lines = [(run[0] + run[-1] + 1) / 2 / scale for run in runs if len(run) > 0.8 * scale]
    thick = float(sum(coat.thickness for coat in samples.TWO)) / 0.0254
    assert thick == pytest.approx(0.5)
    assert lines[-1] - lines[0] == pytest.approx(thick * INCH, abs=0.3)


MONEY = re.compile(r"[$€£¢]|\b(?:price|prices|cost|costs|total|dollars?|precio|costo|dólares)\b", re.IGNORECASE)


@pytest.mark.parametrize("name", ["crew-bay-south.pdf", "tickets.pdf", "bare-crew.pdf"])
def test_crew_papers_carry_no_money(name: str) -> None:
    own = words(name).replace("firm, people, prices and measurements are made up", "")
    assert not MONEY.search(own)
    for language in LANGUAGES:
        said = [text for code, text in catalogue(language).items() if re.match(r"papers\.(crew|tickets)\.", code)]
        assert said and not [text for text in said if MONEY.search(text)]


def test_money_handed_to_a_crew_paper_is_refused() -> None:
    crew = samples.crew()
    with pytest.raises(MoneyOnCrewPaper, match=r"notes\[0\]\.second"):
        render(replace(crew, notes=(Both("Save lime.", "La cal cuesta $14.20."),)))
    ticket = samples.tickets()
    with pytest.raises(MoneyOnCrewPaper):
        render(replace(ticket, tickets=(replace(ticket.tickets[0], makes=Both("$3")),)))


def test_an_order_without_prices_has_no_money() -> None:
    assert "$" not in words("order-unpriced.pdf") and "Each" not in words("order-unpriced.pdf")


@pytest.mark.parametrize("kind", KINDS.values())
def test_templates_use_every_label_and_no_word_of_their_own(kind: str) -> None:
    from importlib import resources

    folder = resources.files("darby.papers").joinpath("templates")
    house, own = (folder.joinpath(f"{n}.typ").read_text(encoding="utf-8") for n in ("house", kind))
    used = set(re.findall(r"\bt\.([a-z-]+)", house + own))
    known = set(labels(kind, ("en", "es")))
    assert set(re.findall(r"\bt\.([a-z-]+)", own)) <= known
    assert known - {"hold", "local", "local-opening", "kind"} <= used


def test_the_same_paper_is_the_same_file() -> None:
    assert render(samples.quote()) == render(samples.quote())


def test_hostile_text_is_only_text() -> None:
    """What a person wrote is never read as markup."""
    nasty = '#panic("x") *bold* _it_ $x^2$ <tag> @ref \\ // [a] "q" `raw` #{1+1}'
    quote = replace(samples.quote(), customer=nasty, opening=nasty, title=nasty,
                    firm=replace(samples.FIRM, name=nasty))  # fmt: skip
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(render(quote))).pages)
    assert '#panic("x") *bold* _it_ $x^2$ <tag> @ref' in " ".join(text.split())
