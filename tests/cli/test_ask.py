"""`darby ask` as it is typed: answers, faults, nothing, a job, both languages, for a program."""

import json

import pytest

from tests.cli.running import FIREHALL, darby, job_file, lone_wall


def test_a_question_is_answered_with_who_says_so():
    result = darby("ask", "paint", "friday")
    assert result.exit_code == 0
    assert result.stdout.startswith("When can I paint?\n")
    assert "pH 10 or below" in result.stdout
    assert "For the apprentice: " in result.stdout
    assert "28 days: The science behind painting fresh stucco, inPAINT magazine" in result.stdout
    assert "On this job" not in result.stdout


def test_a_fault_is_found():
    said = darby("ask", "white powder on wall").stdout
    heads = (
        "White powder on the wall",
        "Likely causes",
        "Look at this next",
        "What cures it",
        "Take care: ",
        "Who says",
    )
    places = [said.index(head) for head in heads]
    assert places == sorted(places)
    assert "(published, second-hand)" in said
    assert "(common practice, no source)" in said


def test_nothing_on_that():
    result = darby("ask", "who won the world cup")
    assert result.exit_code == 1
    assert result.stdout.startswith("Nothing on that.")


def test_what_came_close_is_named():
    result = darby("ask", "do i need to be a plumber for this lead pipe thing in the kitchen")
    assert result.exit_code == 1
    assert "The nearest there is" in result.stdout


def test_spanish_when_it_is_asked_in_spanish_or_for():
    assert darby("ask", "cuando", "puedo", "pintar").stdout.startswith("¿Cuándo se puede pintar?\n")
    assert darby("ask", "--es", "paint", "friday").stdout.startswith("¿Cuándo se puede pintar?\n")
    assert darby("ask", "paint friday", DARBY_LANGUAGE="es").stdout.startswith("When can I paint?\n")
    assert darby("ask", "--es", "bitcoin").stdout.startswith("De eso no hay nada.")


def test_metric():
    said = darby("ask", "how thick", "--metric").stdout
    assert "12.7 mm" in said
    assert " in." not in said.partition("Who says so")[0]


@pytest.mark.parametrize("columns", ["40", "80"])
@pytest.mark.parametrize("words", ["how thick", "cuanto tiempo mojarlo", "white powder", "paint friday"])
def test_it_keeps_to_the_screen(columns, words):
    said = darby("ask", words, "--job", FIREHALL, COLUMNS=columns).stdout
    assert max(len(line) for line in said.splitlines()) <= int(columns)


def test_a_job_puts_in_its_own_numbers():
    said = darby("ask", "how many bags", "--job", FIREHALL).stdout
    here = said.partition("On this job\n")[2].partition("\n\n")[0]
    assert "Portland cement" in here
    assert "buy " in here


def test_equal_words_stand_once_with_their_places():
    here = darby("ask", "how thick", "--job", FIREHALL, COLUMNS="400").stdout.partition("On this job\n")[2]
    (line,) = [x for x in here.splitlines() if x.startswith("  - 7/8 in. in all")]
    assert line.endswith("(Engine bay, south wall, the hollow by the small door; Crew room)")


def test_one_wall():
    said = darby("ask", "how thick", "--job", FIREHALL, "--at", "parapet").stdout
    assert "Roof parapet" in said
    assert "Crew room" not in said


def test_a_wall_that_is_not_there():
    result = darby("ask", "how thick", "--job", FIREHALL, "--at", "nowhere")
    assert result.exit_code == 2
    assert "nowhere" in result.stderr
    assert "bay-south" in result.stderr


def test_a_job_that_cannot_say(tmp_path):
    assert "does not answer that yet" in darby("ask", "when next coat", "--job", lone_wall(tmp_path)).stdout


def test_a_local_rule_of_the_job_changes_the_answer(tmp_path):
    rule = '[[rule]]\nsubject = "cure.paint-ph"\nvalue = "9"\nwhy = "our painter asks it"\n\n[coats]\n'
    said = darby("ask", "paint friday", "--job", job_file(tmp_path, ("[coats]\n", rule)), COLUMNS="200").stdout
    assert "pH 9 or below" in said
    assert "9: a local rule: our painter asks it" in said


def test_a_broken_job_is_said_before_anything(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text("darby = 1\n", encoding="utf-8")
    result = darby("ask", "paint", "--job", path)
    assert result.exit_code == 2
    assert result.stdout == ""


def test_for_a_program():
    said = json.loads(darby("ask", "white powder on wall", "--json").stdout)
    assert said["answer"]["id"] == "fault.white-powder"
    assert said["found"][0]["id"] == "fault.white-powder"
    assert {met["typed"] for met in said["found"][0]["because"]} >= {"white", "powder", "wall"}
    assert said["answer"]["causes"][0]["standing"] == "second-hand"
    assert said["answer"]["causes"][1] == {
        "says": said["answer"]["causes"][1]["says"], "figure": None, "standing": "common practice",
    }  # fmt: skip


def test_for_a_program_with_a_job():
    said = json.loads(darby("ask", "paint friday", "--json", "--job", FIREHALL).stdout)
    assert {figure["id"] for figure in said["answer"]["figures"]} >= {"cure.paint-ph.bulletin", "cure.paint-days.label"}
    assert all(set(row) == {"at", "says"} for row in said["here"])
    assert said["here"]


def test_for_a_program_where_nothing_was_found():
    result = darby("ask", "bitcoin", "--json")
    assert result.exit_code == 1
    assert json.loads(result.stdout)["answer"] is None


def test_no_words():
    assert darby("ask").exit_code == 2
