"""`darby answer` and `darby check` on good jobs: what is printed, how it ends, and that a screen can hold it."""

import json
import re

import pytest

import darby as darby_package
from darby.answers import STAGES
from darby.words import catalogue
from tests.cli.running import FIREHALL, JOBS, darby, job_file, lone_wall

COMMAS = re.compile(r"\d{1,3}(?:,\d{3})*\.\d\d")


@pytest.fixture(scope="module")
def page():
    result = darby("answer", FIREHALL)
    assert result.exit_code == 0
    assert result.stderr == ""
    return result.stdout


def test_there_are_examples():
    assert FIREHALL in JOBS


@pytest.mark.parametrize("path", JOBS, ids=lambda p: p.stem)
def test_every_example_checks_and_answers(path):
    assert darby("check", path).exit_code == 0
    result = darby("answer", path)
    assert result.exit_code == 0, result.stdout[-2000:]


@pytest.mark.parametrize(
    "words",
    [
        # each worked out by hand in tests/answers/test_firehall.py
        r"Engine bay, east wall +408 sq ft +Two coats +3/8 \+ 1/8 in\. +1/2 in\.",
        r"Roof parapet +90 sq ft +Two coats +1/2 \+ 1/8 in\. +5/8 in\.",
        r"Portland cement, Type I/II +1,266\.1 lb +14 × 94 lb bag",
        r"Cement float finish, bagged +20\.97 bags +21 × 80 lb bag",
        r"Self-furring diamond lath, 3\.4 lb +329\.6 sq ft +19 × 27 × 97 in\. sheet",
        r"10 bags on order, 4 bags more to order",
        r"Base coat +1 : 3/4 : 5 \(portland, +",
        r"Brown coat +1 : 1 : 7 1/2 ",
        r"At the left edge tell the mason: bring the base 3/8 in\. forward",
        r"over 1,279\.6 sq ft",
        # 13.47 bags of cement, 8.34 of lime and 20.97 of finish are 42.78; 1,279.6 sq ft on 8 days are 160 a day
        r"3\.34 bags on 100 sq ft: inside what you usually use",
        r"160 sq ft/day: inside what you usually do in a day",
        r"Local codes and licensed practice govern",
        r"An invented example",
    ],
)
def test_what_the_page_says(page, words):
    assert re.search(words, re.sub(r"\n +", " ", page)) or re.search(words, page)


def test_the_printed_column_adds_up_to_the_printed_total(page):
    lines = page[page.index("What it costs") :].split("\n")[3:]
    amounts = [line.rsplit("$", 1)[1].strip() for line in lines[: lines.index(next(x for x in lines if "All of" in x))]
               if "$" in line]  # fmt: skip
    total = next(x for x in lines if "All of it" in x).rsplit("$", 1)[1].strip()
    cents = [int(a.replace(",", "").replace(".", "")) for a in amounts if COMMAS.fullmatch(a)]
    assert len(cents) == 15  # eight places, five other things, two kinds of access
    assert sum(cents) == int(total.replace(",", "").replace(".", ""))


def test_nothing_of_the_program_shows(page):
    """No codes, no ids of zones, no Python."""
    codes = re.findall(r"\b(?:buildup|mix|quantities|days|price|job|answers|cli)\.[a-z-]+\b", page)
    assert codes == []
    for word in ("None", "Fraction", "Quantity(", "rest/", "15/2", "scratch none", "{", "mix/"):
        assert word not in page, word


def test_the_same_thing_is_said_once(page):
    assert page.count("taken as covered by soffit, frieze or cap") == 1
    bullets = [line for line in page.split("\n") if line.startswith("  - ")]
    assert len(bullets) == len(set(bullets))


@pytest.mark.parametrize("columns", [80, 110])
@pytest.mark.parametrize("language", [(), ("--es",)])
def test_no_line_is_wider_than_the_screen(columns, language):
    result = darby("answer", FIREHALL, *language, COLUMNS=str(columns))
    assert max(len(line) for line in result.stdout.split("\n")) <= columns
    assert " …" not in result.stdout


def test_metric_says_metres_and_no_feet():
    page = darby("answer", FIREHALL, "--metric").stdout
    # 408 sq ft x 0.09290304
    assert re.search(r"Engine bay, east wall +37\.9 m² ", page)
    answered = page[: page.index("Take care")]
    # what things and packages are called is the firm's own word; everything that darby measures is metric
    answered = re.sub(r"(× [^\n]+|3 cu yd|3\.4 lb)", "", answered)
    assert not re.search(r"\d (sq ft|cu ft|lb|gal|in\.|ft)\b", answered)


def test_spanish_says_the_same_numbers(page):
    english, page = page, darby("answer", FIREHALL, "--es").stdout
    assert "Cuánto cuesta" in page
    titles = [t for code, t in catalogue("en").items() if code.startswith("cli.") and code.endswith(".title")]
    assert not [t for t in titles if f"\n{t}\n" in page]
    assert re.findall(r"\$[\d,.]+\d", page) == re.findall(r"\$[\d,.]+\d", english)


def test_spanish_names_what_is_mixed():
    page = darby("answer", FIREHALL, "--es", COLUMNS="200").stdout
    assert "1 : 3/4 : 5 (cemento portland, cal, arena)" in page


def test_the_area_of_a_sheet_is_no_other_measure_of_the_lath(tmp_path):
    """Sand is said by the yard and the ton; a sheet's own square feet beside the wall's say nothing."""
    path = job_file(tmp_path, ('firm = "firm.toml"', ""))
    page = darby("answer", path).stdout
    assert re.search(r"Metal lath +[\d.]+ sq ft +\d+ sheets", page)
    assert re.search(r"Plaster sand +[\d.]+ cu yd \([\d.]+ tons\)", page)


def test_the_language_may_come_from_the_system():
    for env in ({"LC_ALL": "es_MX.UTF-8"}, {"DARBY_LANGUAGE": "es"}):
        assert "de mezcla" in darby("sum", "24' x 8', 1/2", **env).stdout
    assert "of mortar" in darby("sum", "24' x 8', 1/2", LC_ALL="de_DE.UTF-8").stdout


def test_json_is_the_document():
    result = darby("answer", FIREHALL, "--json")
    assert result.exit_code == 0
    assert json.loads(result.stdout) == darby_package.answer(darby_package.load(FIREHALL)).to_json()


def test_json_of_one_stage():
    order = json.loads(darby("answer", FIREHALL, "--json", "--stage", "order").stdout)
    assert {line["item"] for line in order["job"]["lines"]} >= {"portland", "lime", "sand"}


@pytest.mark.parametrize("stage", [stage.name for stage in STAGES])
def test_one_stage_alone(stage, page):
    result = darby("answer", FIREHALL, "--stage", stage)
    assert result.exit_code == 0
    assert len(result.stdout) < len(page) / 2


def test_sizes_and_mortar_stand_where_they_are_asked_for():
    sizes = darby("answer", FIREHALL, "--stage", "wall").stdout
    assert re.search(r"Engine bay, south wall +324 sq ft +140 sq ft +184 sq ft", sizes)
    mortar = darby("answer", FIREHALL, "--stage", "volumes").stdout
    # 408 sq ft x 3/8 in.; 10 % of it; 8 % of it
    assert re.search(r"Engine bay, east wall +Base coat +12\.75 cu ft +joints 0\.294 cu ft +15\.34 cu ft", mortar)
    assert re.search(r"uneven 1\.28 cu ft", mortar)


def test_a_stage_that_is_none():
    for more in ((), ("--json",)):
        result = darby("answer", FIREHALL, "--stage", "roof", *more)
        assert result.exit_code == 2
        assert result.stdout == ""
        assert "roof" in result.stderr
        assert "coats" in result.stderr


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_stage_has_a_name(language):
    assert {f"cli.part.{stage.name}" for stage in STAGES} <= set(catalogue(language))


def test_painting_has_a_page_where_anything_is_painted(tmp_path, page):
    assert "\nPainting\n" not in page
    painted = darby("answer", job_file(tmp_path, ("paint = false", "paint = true"))).stdout
    assert "\nPainting\n" in painted


# --- what cannot be answered ------------------------------------------------------------------------------


def test_without_a_firm_what_can_be_answered_is(tmp_path):
    result = darby("answer", lone_wall(tmp_path))
    assert result.exit_code == 1
    assert re.search(r"Wall 0 +192 sq ft +Two coats", result.stdout)
    said = re.sub(r"\n +", " ", result.stdout)
    assert "Days waits for: the firm's crew ([[crew]] in the firm file), the length of a working day" in said
    assert "Price waits for: days." in said
    assert "What it costs" not in said
    assert "nobody said how it is bought" not in said  # once is enough: there is no firm file


def test_a_bad_surface_is_named_beside_the_price_that_is_without_it(tmp_path):
    result = darby("answer", job_file(tmp_path, ('total = "5/8 in"', 'total = "1/16 in"')))
    assert result.exit_code == 1
    said = re.sub(r"\n +", " ", result.stdout)
    assert "Coats (Roof parapet) cannot be answered. The whole is too thin" in said
    assert "This is not the whole job: it is without Roof parapet." in said
    assert re.search(r"- STOP\. [^(]*\(Roof parapet\)", said)
    assert re.search(r"Engine bay, east wall +408 sq ft", said)


def test_an_item_without_a_price_is_named(tmp_path):
    path = job_file(tmp_path, firm=[('item = "backer rod"\npackage = "100 ft roll"\nprice = "$16.00"',
                                     'item = "masonry cement"\npackage = "70 lb bag"\nprice = "$16.00"')])  # fmt: skip
    result = darby("answer", path)
    assert "This is no price yet: backer rod have no price" in re.sub(r"\n +", " ", result.stdout)


# --- check -------------------------------------------------------------------------------------------------


def test_check_says_what_was_taken_for_granted():
    result = darby("check", FIREHALL)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "Alder Flat fire hall: 7 walls, nothing wrong." in result.stdout
    assert "(bay-south/left)" in result.stdout


def test_check_as_json():
    document = json.loads(darby("check", FIREHALL, "--json").stdout)
    assert document["faults"] == []
    assert document["job_hash"] == darby_package.load(FIREHALL).hash
    assert "job.assumed-above" in document["assumed"]
