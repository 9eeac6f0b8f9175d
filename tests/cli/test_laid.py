"""Grounds, cut lists and the straightedge at the command line: papers when asked for, clear faults with exit 2."""

import pytest

from tests.cli.running import darby, files_in, job_file

READ = '[[readings]]\nsurface = "bay-south"\npoints = [{rows}]\n\n'
OF_ONE = '["1\'", "1\'", "0 in"]'
GOOD = ('["1\'", "1\'", "0 in"]', '["23\'", "1\'", "1/8 in"]', '["12\'", "11\'", "0 in"]')
FINISHED = (
    '[[finished]]\nsurface = "bay-east"\npoints = [["1\'", "4\'", "0 in"], ["3\'", "4\'", "3/8 in"], '
    '["5\'", "4\'", "0 in"]]\n\n'
)


def before_coats(more):
    return ("[coats]\n", f"{more}[coats]\n")


def reading(folder, *rows):
    """The example with these readings of the south wall in place of its own."""
    from tests.answers.jobs import JOB

    start = JOB.index("[[readings]]")
    end = JOB.index("]\n\n", start) + len("]\n\n")
    return job_file(folder, (JOB[start:end], READ.format(rows=", ".join(rows))))


@pytest.fixture(scope="module")
def asked(tmp_path_factory):
    folder = tmp_path_factory.mktemp("asked")
    job = job_file(folder)
    return folder, darby("papers", job, "--into", folder / "out", "--with", "cuts", "--with", "grounds")


def test_papers_with_cuts_and_grounds(asked):
    folder, result = asked
    assert result.exit_code == 0
    names = {name.removeprefix("out/job/") for name in files_in(folder)}
    assert {"cuts.pdf", "cuts-money.pdf", "grounds-bay-south.pdf", "truing-bay-south.pdf", "quote.pdf"} <= names


def test_a_part_that_has_no_papers_of_its_own_is_refused(tmp_path):
    result = darby("papers", job_file(tmp_path), "--into", tmp_path / "out", "--with", "price")
    assert result.exit_code == 2
    assert "cuts, drawings, grounds, ways, all" in result.stderr
    assert not (tmp_path / "out").exists()


def test_the_help_says_what_can_be_had_besides():
    page = " ".join(darby("papers", "--help").stdout.split())
    assert "--with PART" in page
    assert "cuts (cut list), drawings (walls as DXF files), grounds (walls that were read), ways (" in page


def test_a_piece_longer_than_any_bar_with_no_splice_rule_is_a_fault(tmp_path):
    job = job_file(tmp_path, before_coats('[cuts]\none_piece = ["corner bead"]\n\n'))
    result = darby("answer", job, "--stage", "cuts")
    assert result.exit_code == 2
    assert "12' is longer than the longest bar, 10', and nobody said it may be spliced" in result.stderr
    assert "casing bead:" in result.stdout  # the other profiles stand
    assert darby("answer", job).exit_code == 0  # nothing else waits for it


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ((), "0 readings do not make a plane"),
        ((OF_ONE,), "1 readings do not make a plane"),
        ((*GOOD, '["25\'", "1\'", "0 in"]'), "is not on the wall"),
        ((*GOOD, '["1\'", "1\'", "1/2 in"]'), "is read twice and differently"),
        ((*GOOD, '["12\'", "2\'", "0 in"]'), "lies in an opening"),
        (('["1\'", "1\'", "0 in"]', '["2\'", "1\'", "0 in"]', '["9\'", "1\'", "0 in"]'), "stand in one line"),
    ],
)
def test_readings_that_cannot_be_are_faults(tmp_path, rows, said):
    result = darby("answer", reading(tmp_path, *rows), "--stage", "grounds")
    assert result.exit_code == 2
    assert said in " ".join(result.stderr.split())


def test_readings_all_on_one_side_are_a_fault_when_the_grounds_are_asked_for(tmp_path):
    rows = ('["1\'", "1\'", "0 in"]', '["3\'", "11\'", "1/8 in"]', '["2\'", "9\'", "0 in"]')
    result = darby("answer", reading(tmp_path, *rows), "--stage", "grounds")
    assert result.exit_code == 2
    assert "all readings lie on one side" in " ".join(result.stderr.split())


def test_a_wild_reading_and_thin_coverage_are_said(tmp_path):
    rows = [f'["{u}\'", "{v}\'", "0 in"]' for u in (1, 3, 22, 23) for v in (1, 5, 9, 11) if not (u == 3 and v < 9)]
    result = darby("answer", reading(tmp_path, *rows, '["2\'", "8\'", "1 1/2 in"]'), "--stage", "grounds")
    page = " ".join(result.stdout.split())
    assert "stands 1 1/2 in. out past its neighbors" in page
    assert "lies farther than 2' 6\" from any reading" in page


def test_a_straightedge_is_rolled_over_the_finished_face(tmp_path):
    job = job_file(tmp_path, before_coats(FINISHED))
    page = " ".join(darby("answer", job, "--stage", "straightedge").stdout.split())
    assert "How true Engine bay, east wall came out" in page
    assert "shows 3/8 in. where 1/4 in. may: a crown" in page
    spanish = " ".join(darby("answer", job, "--stage", "straightedge", "--es").stdout.split())
    assert "un lomo" in spanish
    why = " ".join(darby("why", job, "bay-east/finished").stdout.split())
    assert "grounds.short-gap.ibc" in why
    assert "No finished face was read." in darby("answer", job_file(tmp_path), "--stage", "straightedge").stdout


def test_what_lies_on_the_truck_comes_first(tmp_path):
    truck = '[cuts]\nblade = "1/8 in"\n[[cuts.on_truck]]\nitem = "casing bead"\nlength = "9\'-6\\""\nname = "red"\n\n'
    page = darby("answer", job_file(tmp_path, before_coats(truck)), "--stage", "cuts").stdout
    first = next(line for line in page.splitlines() if line.startswith("1. "))
    assert "9' 6\" red, on the truck" in first


def test_a_bar_may_come_in_several_lengths(tmp_path):
    more = 'package = "10 ft piece"\nprice = "$7.40"\n'
    lengths = f'{more}lengths = [{{ length = "12 ft", price = "$7.50" }}]\n'
    page = darby("answer", job_file(tmp_path, firm=((more, lengths),)), "--stage", "cuts").stdout
    assert "1. 12'" in page
    twice = f'{more}lengths = [{{ length = "10 ft", price = "$7.50" }}]\n'
    assert darby("check", job_file(tmp_path, firm=((more, twice),))).exit_code == 2


def test_every_way_to_hold_it_is_answered_and_the_one_that_was_said_is_marked(tmp_path):
    page = darby("answer", job_file(tmp_path), "--stage", "grounds").stdout
    for way in ("Lath on the hollow", "The face follows the wall", "Dubbed out in lifts"):
        assert way in page
    assert "→" not in page
    said = ('surface = "bay-south"\npoints = [', 'surface = "bay-south"\nheld = "dub out"\npoints = [')
    assert "→ Dubbed out in lifts" in darby("answer", job_file(tmp_path, said), "--stage", "grounds").stdout


def test_the_depth_at_every_corner_is_said(tmp_path):
    page = darby("answer", job_file(tmp_path), "--stage", "grounds").stdout
    assert "engine door, lower left corner" in page
    assert "peak" in page
