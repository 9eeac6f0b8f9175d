"""`darby why`: a number down to what was measured, and all numbers of a place."""

import json
import re

import pytest

from tests.cli.running import FIREHALL, darby, job_file

VOLUME = "bay-east/rest/base/volume"


def why(*words, **env):
    result = darby("why", FIREHALL, *words, **env)
    assert result.exit_code == 0, result.stderr
    return result.stdout


def test_a_number_down_to_the_wall():
    said = why(VOLUME)
    # 408 x 3/8 / 12 = 12.75; 10 % = 1.275 and 8 % = 1.02 of it; the joints 0.294
    assert "Mortar for the coat: 15.34 cu ft  [bay-east/rest/base/volume]" in said
    assert "12.75 cu ft + 0.294 cu ft + 1.28 cu ft + 1.02 cu ft = 15.34 cu ft" in said
    assert "408 sq ft × 3/8 in. / 12 = 12.75 cu ft" in said
    assert "408 sq ft × 1 = 408 sq ft" in said


def test_a_source_is_named_in_full_once():
    said = why("job/order/portland/mix/base")
    title = "Working assumptions of darby"
    assert said.count("[openings.rule.net]") > 1
    assert said.count("Modern House Plans") == 1
    assert "source as above" in said
    assert title in said
    assert "published, read" in said
    assert "from memory, not checked against the standard" in said


def test_in_spanish_rule_and_place_are_said_in_spanish_and_the_title_stays():
    said = why(VOLUME, "--es", COLUMNS="250")
    rule = "cada vano se descuenta entero; se suman las mochetas repelladas: Modern House Plans for Everybody"
    assert rule in said
    assert "presupuesto de una casa de pueblo, donde el autor descuenta los vanos enteros; publicado, leído" in said
    assert "openings come off" not in said


def test_what_nobody_published_names_no_title():
    said = why(VOLUME, COLUMNS="250")
    assert "1/8 in.: custom; measure it where joints are raked; common practice, no source" in said
    assert "Custom of the trade" not in said


def test_where_a_number_comes_from_another_place_it_is_said():
    said = why("job/order/mix/base/volume")
    assert "(Engine bay, east wall)" in said
    assert "(Roof parapet)" in said


@pytest.mark.parametrize("key", ["mix/base/batch/bags", "job/trips"])
def test_what_was_found_by_trying_says_how_and_proves_it(key):
    said = why(key)
    assert "mix.largest" not in said
    assert "days.greedy" not in said
    assert "≤" in said or "<=" in said
    assert re.search(r"the largest batch|planned day by day", said)


def test_a_place():
    said = why("bay-east")
    assert said.count("Engine bay, east wall") == 1  # once, over all its numbers
    assert f"[{VOLUME}]" in said
    assert "Why, what was taken for granted" in said
    assert "assumed: Nobody threw water on the block" in said
    assert "Roof parapet" not in said


def test_ways_that_were_not_chosen_are_left_to_who_asks():
    said = why("bay-east")
    assert "build-up/two-coat/" in said
    assert "/build-up/three-coat/" not in said
    assert "bay-east/rest/build-up/three-coat" in said  # named as one that can be asked for
    other = why("bay-east/rest/build-up/three-coat")
    assert "[bay-east/rest/build-up/three-coat/total]" in other


def test_a_place_by_its_name():
    assert why("roof parapet") == why("parapet")


def test_a_zone_a_mix_the_job():
    assert "Engine bay, south wall, the hollow by the small door\n" in why("bay-south/hollow")
    assert "94 lb / 4.507 cu ft" in why("mix/base")
    assert "$213.00/h" in why("job")


def test_everything():
    assert len(why().split("\n")) > 1000


def test_leaving_a_figure_stands_among_the_reasons():
    said = re.sub(r"\n +", " ", why("parapet/rest"))
    assert "You take 5/8 in. in all, against the book's 1/2 in. here." in said
    assert "Your reason: a 5/8 in. cap flashing" in said


def test_a_local_rule_says_why(tmp_path):
    rule = '\n[[rule]]\nsubject = "thickness.block.two-coat"\nvalue = "3/4 in"\nwhy = "the county asks for it"\n'
    path = job_file(tmp_path, ("stands_days = 30", f"stands_days = 30\n{rule}"))
    said = re.sub(r"\n +", " ", darby("why", path, "bay-east").stdout)
    assert "the county asks for it" in said
    assert "3/4 in." in said
    assert "Other voices: 1/2 in. [c926]" in said
    assert "3/4 in.: a local rule: the county asks for it [thickness.block.two-coat.local.job]" in said
    spanish = re.sub(r"\n +", " ", darby("why", path, "bay-east", "--es").stdout)
    assert "3/4 pulg.: una regla local: the county asks for it [thickness.block.two-coat.local.job]" in spanish


def test_who_says_otherwise_stands_behind_the_ruling_voice():
    said = re.sub(r"\s+", " ", darby("why", FIREHALL, "bay-east/rest/build-up/two-coat/total").stdout)
    # the book's voices on two coats on block, as ``darby rules thickness.block.two-coat`` lists them
    assert (
        "[thickness.block.two-coat.c926] Other voices: 1/2 in. [pca], 3/8 to 1/2 in. [sma], 5/8 in. [indian-river]"
        in said
    )


def test_nothing_is_called_so():
    for more in ((), ("--json",)):
        result = darby("why", FIREHALL, "bay-suth", *more)
        assert result.exit_code == 2
        assert result.stdout == ""
        assert "bay-suth" in result.stderr
        assert "bay-south" in result.stderr


def test_json():
    steps = json.loads(darby("why", FIREHALL, "bay-east", "--json").stdout)
    assert VOLUME in steps
    assert all(key.startswith("bay-east/") for key in steps)
    assert list(json.loads(darby("why", FIREHALL, VOLUME, "--json").stdout)) == [VOLUME]


def test_metric_and_spanish():
    # 408 sq ft x 0.0929 = 37.9 m2; 9.525 mm; 0.361 m3
    said = why("bay-east/rest/base/volume-net", "--metric", "--es")
    assert re.search(r"37\.\d+ m² × 9\.5\d* mm", said)
    assert "0.361 m³" in said
    assert "Neto" in said


@pytest.mark.parametrize("columns", [80, 110])
def test_it_keeps_to_the_screen(columns):
    for key in ("bay-south", "job/order/portland/mix/base", "job"):
        wide = [x for x in why(key, COLUMNS=str(columns)).split("\n") if len(x) > columns]
        # a key cannot be broken; nothing else stands on such a line
        assert all(re.fullmatch(r" +\[?[\w/ -]+\]?,?", x) for x in wide), wide
