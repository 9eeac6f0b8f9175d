"""The page reads and writes measures as `measure` does: every way of writing one, and every refusal."""

import random
from fractions import Fraction

import pytest

from darby import measure
from darby.measure import Unreadable
from darby.measure.units import IN
from darby.measure.writing import shown, write
from darby.pocket.packing import number
from tests.browser import opened

LENGTHS = (
    "24'", "24′", "24 ft", "24 feet", "24.5'", "7' 10 1/2\"", "7'10½\"", "7-10 1/2", "7'-10 1/2\"", "7’ 6”",
    "94 1/2 in", "94 1/2 in.", "5/8", "5/8\"", "5/8 in", "⅝ in", "12 mm", "1,25 m", "1.25 m", "2 400 mm", "2.400 m",
    "2400 mm", "6.5 ft", "1.125 in", "1,125 ft", "3 yd", "10", "7 6", "", "  ", "twelve", "7' 13\"", "7.5' 6\"",
    "1/0 in", "1 3/2 in", "12 lb", "1.2.3 ft", "1,200 mm", "1.200,5 m", "-3'", "--3'", "7-1/2", "7 1/2", "0'",
    "24'x", "1'-0\"", "0' 0 1/16\"", "12 \"", "½\"", "10½", "24 lf", "24 FT", "24 Ft.", "3 m.", "6''", "6'' ",
    "x" * 200, "7' 6", "7'6", "٣ ft", "3 cm", "100/3 in",
)  # fmt: skip
OPENINGS = (
    "3068", "2868", "0068", "3' x 4'", "3' by 4'", "36 x 48 in", "900 x 1200 mm", "3-0 x 6-8", "3' x 4' x 5'", "3'",
    "30680", "", "3 x 4", "3' × 4'", "0' x 4'", "12’ x 10’", "2½' x 3'", "door 3068", "3068 x 2",
)  # fmt: skip
SHARES = ("10", "10 %", "7 1/2", "12.5", "12,5%", "0", "100", "-1", "ten", "", "1/3 %", "99")


def core(read, text):
    """Exact text, or the code of what is refused."""
    try:
        found = read(text)
    except Unreadable as error:
        return error.fault.code
    return [f"{f.numerator}/{f.denominator}" for f in (found if isinstance(found, tuple) else (found,))]


@pytest.fixture(scope="module")
def page(browser, firm_sheet):
    """One page for all of them: it is only asked, nothing is typed into it."""
    made = opened(browser, firm_sheet.as_uri())
    yield made
    made.context.close()


def different(page, read, texts, how):
    """Texts that the page and the core do not read alike."""
    sheet = page.evaluate(f"(texts) => texts.map(darby.{how})", list(texts))
    told = zip(texts, sheet, (core(read, text) for text in texts), strict=True)
    return [one for one in told if one[1] != one[2]]


def test_lengths(page):
    assert different(page, measure.length, LENGTHS, "length") == []


def test_openings(page):
    assert different(page, measure.opening_size, OPENINGS, "opening") == []


def test_shares_are_read_as_the_core_reads_them_with_the_sign(page):
    for text, sheet in zip(SHARES, page.evaluate("(texts) => texts.map(darby.share)", list(SHARES)), strict=True):
        signed = core(lambda t: measure.share(t)[0], text if text.endswith("%") else f"{text} %")
        if isinstance(sheet, list):
            assert sheet == signed
        else:
            # the sheet refuses a hundred percent and more, and signs; the core's reading leaves that to who asked
            assert isinstance(signed, str) or not 0 <= Fraction(signed[0]) < 1


MARKS = ("'", '"', " ft", " in", "-", " ", ".", ",", "/", "1", "2", "3", "12", "0", "½", " mm", "m", "x", "’", "”", "′")
NUMBERS = ("7", "12", "0", "10 1/2", "5/8", "3½", "6.5", "1,25", "1.125", "2400", "0.75", "10-1/2", "11 15/16")
AFTER = (
    "'",
    "’",
    " ft",
    '"',
    "”",
    " in",
    " mm",
    " m",
    "m",
    " yd",
    "' 6\"",
    "'-3 1/2\"",
    "-6",
    "' 11",
    "",
    " cm",
    "′ 2″",
)


def test_random_lengths(page):
    dice = random.Random(7)
    noise = ["".join(dice.choices(MARKS, k=dice.randint(1, 7))) for _ in range(2000)]
    sense = [dice.choice(NUMBERS) + dice.choice(AFTER) for _ in range(1000)]
    assert different(page, measure.length, noise + sense, "length") == []
    assert sum(isinstance(core(measure.length, text), list) for text in sense) > 500


def test_random_values_are_written_to_the_digit(page):
    dice = random.Random(11)
    names = [
        "in",
        "ft",
        "ft-in",
        "sq ft",
        "cu ft",
        "cu yd",
        "gal",
        "lb",
        "ton",
        "bags",
        "%",
        "h",
        "$",
        "lb/sq ft",
        "parts",
        "",
    ]
    rows = [(awkward(dice), name) for _ in range(400) for name in names]
    for system in ("us", "metric"):
        page.evaluate("(system) => darby.change({ system })", system)
        given = [[number(value), name] for value, name in rows]
        sheet = page.evaluate("(rows) => rows.map(([value, name]) => darby.shown(value, name))", given)
        core_written = [shown(value, measure.unit(name), system) for value, name in rows]
        assert [one for one in zip(rows, sheet, core_written, strict=True) if one[1] != one[2]] == []


def awkward(dice):
    """Numbers that lie on a half, near one, and anywhere; exact ones and floats."""
    exact = Fraction(dice.randint(-2000, 200_000), dice.choice([1, 2, 8, 16, 32, 100, 200, 1000, 12_700]))
    exact *= dice.choice([Fraction(1), IN, 12 * IN, (12 * IN) ** 2, (12 * IN) ** 3, Fraction(45_359_237, 10**8)])
    return exact if dice.random() < 0.4 else float(exact) * dice.choice([1, 1, 1 + 1e-13, 1 - 1e-13, 1e-4])


def test_floats_come_out_nearest_ties_to_even(page):
    dice = random.Random(5)
    ratios = [Fraction(dice.getrandbits(70), dice.getrandbits(60) + 1) for _ in range(2000)]
    ratios += [Fraction(2**53 + 1, 1), Fraction(2**54 + 3, 2), Fraction(-1, 3), Fraction(0), Fraction(1, 10**30)]
    sheet = page.evaluate("(texts) => texts.map(darby.float)", [str(ratio) for ratio in ratios])
    assert sheet == [float(ratio) for ratio in ratios]


def test_a_length_that_is_exported_is_read_back_exactly(page):
    dice = random.Random(13)
    parts = [Fraction(dice.randint(1, 10**7), dice.choice([1, 16, 7, 1000, 127, 64])) for _ in range(500)]
    lengths = [part * dice.choice([IN, Fraction(1, 1000)]) for part in parts]
    sheet = page.evaluate("(texts) => texts.map(darby.written)", [str(length) for length in lengths])
    assert [measure.length(text) for text in sheet] == lengths
    plain = [(t, w) for t, w in zip(sheet, lengths, strict=True) if (w / IN * 16).denominator == 1]
    assert all(text == write(length) for text, length in plain)
