"""The set of the example job: looked at by eye, and held here to what a reader with a pencil gets from the job file."""

from __future__ import annotations

import io
import re
from collections import Counter
from dataclasses import fields, is_dataclass, replace
from functools import cache

import pypdf
import pypdfium2
import pytest

import darby
from darby.papers import CrewPaper, Paper, QuotePaper, TicketPaper, not_made, paper_set
from darby.papers.render import KINDS
from darby.words import catalogue
from tests.papers.conftest import answered, example, papers, pdf
from tests.papers.reading import ink, letters, overlaps

NAMES = tuple(papers())
CREW = tuple(name for name in NAMES if name.startswith("crew-"))
INCH = 72.0
each = pytest.mark.parametrize("name", NAMES)


@cache
def sheets(name: str, languages: tuple[str, ...] = ("en", "es"), system: str = "us") -> tuple[str, ...]:
    """The words of each sheet, as a reader has them."""
    pages = pypdf.PdfReader(io.BytesIO(pdf(name, languages, system))).pages
    return tuple(" ".join(page.extract_text().split()) for page in pages)


def words(name: str, languages: tuple[str, ...] = ("en", "es"), system: str = "us") -> str:
    return " ".join(sheets(name, languages, system))


def texts(thing: object) -> list[str]:
    """Every text of a paper's data, but drawings."""
    if is_dataclass(thing):
        return [t for f in fields(thing) if f.name != "svg" for t in texts(getattr(thing, f.name))]
    if isinstance(thing, tuple):
        return [t for part in thing for t in texts(part)]
    return [thing] if isinstance(thing, str) else []


# --- what there is ----------------------------------------------------------------------------------------


def test_the_set_is_whole() -> None:
    walls = ("bay-south", "bay-east", "bay-north", "parapet", "crew-1", "crew-2", "crew-3")
    assert set(paper_set(answered())) == {
        "quote.pdf", "order-alder-flat-building-supply.pdf", "order-cold-fork-sand-gravel.pdf", "tickets.pdf",
        "boards.pdf", "working.pdf", *(f"crew-{wall}.pdf" for wall in walls),
    }  # fmt: skip
    assert not_made(answered()) == ()


TITLES = {
    "quote.pdf": "A price for plastering: Alder Flat fire hall",
    "letter.pdf": "What can be done: Alder Flat fire hall",
    "order-alder-flat-building-supply.pdf": "Order to Alder Flat Building Supply",
    "order-cold-fork-sand-gravel.pdf": "Order to Cold Fork Sand & Gravel",
    "crew-bay-south.pdf": "Crew sheet: Engine bay, south wall",
    "crew-parapet.pdf": "Crew sheet: Roof parapet",
    "tickets.pdf": "Batch tickets: Alder Flat fire hall",
    "boards.pdf": "Sample boards: Alder Flat fire hall",
    "working.pdf": "The working: Alder Flat fire hall",
}


@pytest.mark.parametrize("name", TITLES)
def test_papers_are_titled(name: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf(name)))
    assert reader.metadata is not None and reader.metadata.title == TITLES[name]


@each
def test_every_sheet_says_on_what_it_stands(name: str) -> None:
    for n, text in enumerate(sheets(name), 1):
        assert answered().job_hash[:8] in text and answered().book_version in text, n
        assert "Job 26-41, revision 1" in text and "An invented job." in text, n


@each
def test_every_paper_says_who_governs(name: str) -> None:
    assert re.search(
        r"the local code and licensed practice govern|Local rules and the building official hold", words(name)
    )


@each
def test_every_paper_that_can_hurt_warns(name: str) -> None:
    """Sand alone hurts nobody; every other paper has something that does, or the caution for who reads it."""
    expected = {
        "quote.pdf": "Old paint may hold lead.", "letter.pdf": "Old paint may hold lead.",
        "working.pdf": "29 CFR 1926.1153",
        "order-alder-flat-building-supply.pdf": "harm the lungs as dust", "order-cold-fork-sand-gravel.pdf": "",
    }  # fmt: skip
    assert expected.get(name, "Wet cement burns.") in words(name)


def test_old_work_is_warned_of_where_it_is_met() -> None:
    assert "Asbestos." in words("crew-bay-south.pdf") and "Asbestos." not in words("crew-bay-east.pdf")


def test_standing_is_printed_where_it_decides() -> None:
    # the dash bond of the north wall (its block was found tight) has no published thickness; the others' coats have
    assert words("crew-bay-north.pdf").count("common practice, no source") == 2
    assert "common practice" not in words("crew-bay-east.pdf")
    assert "from memory, not checked against the standard" in words("tickets.pdf")
    assert "figures that are not published (common practice, no source): Self-furring diamond lath" in words(
        "order-alder-flat-building-supply.pdf"
    )
    for standing in ("published, read", "published, second-hand", "common practice, no source", "from memory"):
        assert standing in words("working.pdf")


# --- worked by hand, from the sizes in the job file --------------------------------------------------------

BY_HAND = {
    # 24 x 12 + 24 x 3 / 2 = 324; less the door 3'-0" x 6'-8" = 20 and the engine door 12 x 10 = 120
    "the south wall, net": ("working.pdf", "324 sq ft − 140 sq ft = 184 sq ft"),
    # reveals 4 in. deep: (3 + 2 x 6'-8") / 3 = 5.44 and (12 + 2 x 10) / 3 = 10.67; 184 + 16.11 = 200.1
    "the south wall, measured": ("crew-bay-south.pdf", "Engine bay, south wall 200 sq ft"),
    # the hollow 4'-4" x 8'-6" = 36.83, the door's jamb 6'-8" / 3 = 2.22 and the engine door's 8'-6" / 3 = 2.83
    "the hollow": ("quote.pdf", "the hollow by the small door 42 Three coats on lath"),
    "the rest, 200.1 - 41.9": ("quote.pdf", "Engine bay, south wall, the rest 158"),
    "the east wall, 34 x 12": ("quote.pdf", "Engine bay, east wall 408"),
    # 324 - 20 + 5.44
    "the north wall": ("crew-bay-north.pdf", "Engine bay, north wall 309 sq ft"),
    "the parapet, 45 x 2": ("crew-parapet.pdf", "Roof parapet 90 sq ft"),
    "the crew room, 14 x 8 - 3 x 4": ("crew-crew-1.pdf", "Crew room 1 100 sq ft"),
    "the east wall's base coat, 408 x 3/8 / 12": ("working.pdf", "408 sq ft × 3/8 in. ÷ 12 = 12.75 cu ft"),
    # 1/2 in. new, the old face 7/8 in. out: the block has to come forward
    "the set-back, 7/8 - 1/2": ("crew-bay-south.pdf", "3/8 in. forward"),
    "the office's edge": ("crew-bay-south.pdf", "9 ft 4 in."),
    "above it, 12 - 9'-4\"": ("crew-bay-south.pdf", "2 ft 8 in."),
    # 3 x $34.00 x 1.42 + 2 x $24.00 x 1.42
    "the crew's hour": ("working.pdf", "$144.84/h + $68.16/h = $213.00/h"),
    # areas 200.1 + 408 + 309.4 + 90 + 100 + 80 + 92 = 1,279.6; / 96 = 13.33 cu ft; + 10 % + 8 % = 15.73; / 0.75 = 20.97
    "bags of finish": ("order-alder-flat-building-supply.pdf", "21 bags Cement float finish"),
    # a mixer of 9 cu ft holds 12 bags of 0.75; each takes 1.5 gal
    "water in a batch of finish": ("tickets.pdf", "18 gal"),
    # 21 - 12 = 9 bags, 9 x 1.5 gal
    "the last batch of finish": ("tickets.pdf", "9 bags Cement float finish, bagged, 13.5 gal water"),
    # 2 bags; 3/4 of 2 cu ft of lime at 40 lb
    "lime in a batch of base": ("tickets.pdf", "weigh 60 lb"),
    # 12 % on cost and overhead is 12 / 112 of the price
    "the margin": ("working.pdf", "10.7 %"),
    "September 30 and 30 days": ("quote.pdf", "Price stands until October 30, 2026"),
}  # fmt: skip


@pytest.mark.parametrize("what", BY_HAND)
def test_numbers_worked_by_hand_stand_on_the_papers(what: str) -> None:
    name, expected = BY_HAND[what]
    assert expected in words(name)


def test_the_quote_adds_up_as_printed() -> None:
    quote = papers()["quote.pdf"]
    assert isinstance(quote, QuotePaper)
    cents = [int(re.sub(r"\D", "", row.price)) for row in quote.prices]
    assert sum(cents) == int(re.sub(r"\D", "", quote.total)) and len(cents) == 15


def test_an_order_brings_what_is_not_on_order_yet() -> None:
    text = words("order-alder-flat-building-supply.pdf")
    bring, bags, ordered = re.search(  # type: ignore[union-attr]
        r"(\d+) bags Portland cement, Type I/II 94 lb bag ([\d.]+) bags \([\d,]+ lb\) (\d+) bags", text
    ).groups()
    assert int(ordered) == 10 and int(bring) + 10 - 1 < float(bags) <= int(bring) + 10
    assert "10 bags on order since September 28, 2026" in text


def test_sand_is_brought_by_the_yard() -> None:
    text = words("order-cold-fork-sand-gravel.pdf")
    yards, needed = re.search(r"([\d /]+) cu yd Plaster sand, washed ([\d.]+) cu yd, or [\d.]+ ton", text).groups()  # type: ignore[union-attr]
    assert float(needed) <= float(yards) < float(needed) + 0.5


# --- how it looks -------------------------------------------------------------------------------------------


@each
def test_nothing_is_set_off_the_page(name: str) -> None:
    side, top, bottom = {"tickets": (0.4, 0.25, 0.25), "crew": (0.95, 0.48, 0.3)}.get(
        KINDS[type(papers()[name])], (0.95, 0.54, 0.3)
    )
    for page in pypdfium2.PdfDocument(pdf(name)):
        left, low, right, high = ink(page)
        assert left >= side * INCH - 2 and right >= side * INCH - 2
        assert high >= top * INCH - 2 and low >= bottom * INCH - 2


@each
def test_no_letter_stands_on_another(name: str) -> None:
    for n, page in enumerate(pypdfium2.PdfDocument(pdf(name)), 1):
        assert not overlaps(page), f"sheet {n}"


@each
def test_nothing_is_smaller_than_eight_points(name: str) -> None:
    assert min(x.size for page in pypdfium2.PdfDocument(pdf(name)) for x in letters(page)) >= 8


def test_papers_are_as_long_as_they_need_to_be() -> None:
    assert len(sheets("quote.pdf")) <= 3 and len(sheets("tickets.pdf")) == 3
    for name in CREW:
        paper = papers()[name]
        assert isinstance(paper, CrewPaper)
        drawn = paper.lath is not None  # the sheets of its lath are one drawing more
        assert len(sheets(name)) <= (2 if len(paper.parts) == 1 else 3) + drawn, name


@each
def test_no_heading_is_left_behind(name: str) -> None:
    """What stands last on a sheet, above its foot, is no heading."""
    kind = KINDS[type(papers()[name])]
    heads = {text for code, text in catalogue("en").items() if code.startswith(f"papers.{kind}.")}
    for text in sheets(name):
        body = text.partition("An invented job.")[0].strip()
        assert not [h for h in heads if len(h) > 3 and body.endswith(f" {h}") and h != "Date"]


def test_walls_are_to_a_scale_that_is_said() -> None:
    captions = re.findall(r"([^.]+), (\d+/\d+) in\. to the foot\.", words("quote.pdf"))
    assert len(captions) == 4 and len({scale for _, scale in captions}) == 1


@each
def test_no_unit_has_two_points_and_no_place_an_id(name: str) -> None:
    said = texts(papers()[name])
    assert not [t for t in said if re.search(r"(?<!\.)\.\.(?!\.)", t)]
    ids = re.compile(r"\b(?:bay-(?:south|east|north)|crew-\d|mix/\w+|door-1|window-1)\b")
    assert not [t for t in said if ids.search(t)]


def test_parts_are_fractions_and_water_has_no_false_digits() -> None:
    tickets = papers()["tickets.pdf"]
    assert isinstance(tickets, TicketPaper)
    said = " ".join(texts(tickets))
    assert "7 1/2 damp sand" in said and "15/2" not in said
    waters = [p.count for k in tickets.tickets for p in k.parts if p.what.first == "water" and "–" in p.count]
    assert waters and all(re.fullmatch(r"\d+( 1/2)?–\d+( 1/2)? gal", count) for count in waters)


# --- no money for the crew ----------------------------------------------------------------------------------

MONEY = re.compile(
    r"[$€£¢]|\b(?:price|prices|cost|costs|dollars?|precio|precios|costo|costos|dólares)\b", re.IGNORECASE
)


@pytest.mark.parametrize("name", [*CREW, "tickets.pdf"])
def test_the_crew_reads_no_money(name: str) -> None:
    assert not MONEY.search(words(name))
    quote = papers()["quote.pdf"]
    assert isinstance(quote, QuotePaper)
    amounts = {row.price.lstrip("$") for row in quote.prices} | {quote.total.lstrip("$")}
    assert not [amount for amount in amounts if amount in words(name)]


# --- what is not made ---------------------------------------------------------------------------------------


def test_a_price_that_lacks_something_is_no_quote() -> None:
    job = example()
    firm = replace(job.firm, buys=tuple(b for b in job.firm.buys if b.item != "sealant"))
    answers = darby.answer(replace(job, firm=firm))
    made = paper_set(answers)
    assert "quote.pdf" not in made and "working.pdf" in made
    assert not_made(answers) == ("No quote was written. Still without a price: Sealant.",)
    assert not_made(answers, "es") == ("No se escribió cotización. Falta el precio de: Sellador.",)
    # nobody was named for it, so it stands on a paper of its own
    order = made["order.pdf"]
    assert not isinstance(order, bytes) and "Sealant" in texts(order)


def test_a_firm_without_a_crew_gets_what_can_be_said() -> None:
    job = example()
    answers = darby.answer(replace(job, firm=replace(job.firm, crew=())))
    made = paper_set(answers)
    assert "quote.pdf" not in made and {"tickets.pdf", "crew-bay-east.pdf"} <= set(made)
    assert not_made(answers) == ("No quote was written: there is no price yet.",)
    working = made["working.pdf"]
    assert not isinstance(working, bytes)
    assert any("Waiting for: the firm's crew" in text for text in texts(working))


# --- another language, another system -----------------------------------------------------------------------

NUMBER = re.compile(r"\d+(?:,\d{3})*(?:[./]\d+)*")
SPANISH = ("es", "en")


@pytest.mark.parametrize("name", ["quote.pdf", "letter.pdf", "order-alder-flat-building-supply.pdf", "working.pdf"])
def test_spanish_papers_have_the_same_numbers(name: str) -> None:
    def numbers(paper: Paper) -> Counter[str]:
        # his own words in the job file and the rule book's stay as they are; drawings are the same drawings
        plain = (text.replace("/m3", "/m³") for text in texts(paper))  # the book's unit is no number
        return Counter(n for text in plain for n in NUMBER.findall(text))

    assert numbers(papers()[name]) == numbers(papers(SPANISH)[name])


@pytest.mark.parametrize(
    ("name", "called"),
    [("quote.pdf", "Cotización"), ("letter.pdf", "Carta"), ("order-alder-flat-building-supply.pdf", "Pedido")],
)
def test_spanish_papers_have_no_english_sentence(name: str, called: str) -> None:
    text = words(name, SPANISH)
    english = {s for c, s in catalogue("en").items() if c.startswith(("paper", "drawing", "buildup", "standing"))
               and "{" not in s and len(s.split()) > 2}  # fmt: skip
    assert not [sentence for sentence in english if sentence in text]
    assert called in text


def test_the_crew_reads_spanish_first_where_the_firm_says_so() -> None:
    text = words("crew-bay-south.pdf", SPANISH)
    assert "3/8 pulg. para afuera 3/8 in. forward" in text and "Capa base Base coat" in text
    assert "9 pies 4 pulg." in text and "Las reglas locales y el inspector de obras mandan sobre esta hoja." in text


def test_metric_sheets_are_metric() -> None:
    quote, crew = words("quote.pdf", system="metric"), words("crew-bay-east.pdf", system="metric")
    # 408 sq ft x 0.09290304 = 37.90; 1/2 in. = 12.7 mm; 34 ft = 10.36 m
    assert "Engine bay, east wall 37.9" in quote and "Two coats, 12.7 mm, float finish" in quote
    assert re.search(r"Engine bay, north wall, scale 1:\d+, sizes in millimetres\.", quote)
    assert "Engine bay, east wall 37.9 m²" in crew and "10.36 m" in crew and "9.5 mm" in crew
    own_words = "A 5/8 in. cap flashing is already on"
    for text in (quote.replace(own_words, ""), crew):
        assert not re.search(r"\d (?:in\.|ft|sq ft|cu ft|gal)\b", text)
