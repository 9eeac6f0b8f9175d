"""`darby papers` and `darby schema`: what is written, where, and what is left alone."""

import json
import re

import jsonschema
import pypdf
import pytest

from tests.cli.running import EXAMPLES, FIREHALL, darby, files_in, job_file, lone_wall


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    folder = tmp_path_factory.mktemp("papers")
    return folder, darby("papers", FIREHALL, "--into", folder)


def test_every_paper_is_written_and_named(written):
    folder, result = written
    assert result.exit_code == 0
    names = set(files_in(folder))
    for name in ("quote", "tickets", "working", "crew-bay-south", "crew-parapet"):
        assert f"firehall/{name}.pdf" in names
    assert len(result.stdout.splitlines()) == len(names) - 1  # the list of the set is not a paper
    for line in result.stdout.splitlines():
        assert line.startswith(f"Wrote {folder}")
        assert line.removeprefix(f"Wrote {folder}/") in names


def test_in_spanish_the_papers_are_in_spanish_and_of_the_same_job(tmp_path, written):
    folder, _ = written
    assert darby("papers", FIREHALL, "--into", tmp_path, "--es").exit_code == 0

    def said(where, name):
        pages = pypdf.PdfReader(where / "firehall" / f"{name}.pdf").pages
        return " ".join(" ".join(page.extract_text() for page in pages).split())

    quote, english = said(tmp_path, "quote"), said(folder, "quote")
    assert "Haremos el repello que aquí se describe." in quote
    assert "We will do the plaster" not in quote
    assert "We will do the plaster" in english
    stamp = re.search(r"revision 1, (\w+)", english).group(1)
    assert f"revisión 1, {stamp}" in quote
    crew = said(tmp_path, "crew-crew-2")  # the firm's other language stands behind it
    assert crew.index("Cuelgue el papel") < crew.index("Hang the paper")


def test_pdfs_are_pdfs(written):
    folder, _ = written
    for name, data in files_in(folder).items():
        if name.endswith(".pdf"):
            assert data.startswith(b"%PDF-")


def test_a_strangers_folder_is_left_alone(tmp_path):
    (tmp_path / "firehall").mkdir()
    (tmp_path / "firehall" / "letter.txt").write_text("mine", encoding="utf-8")
    before = files_in(tmp_path)
    result = darby("papers", FIREHALL, "--into", tmp_path)
    assert result.exit_code == 2
    assert "letter.txt" in result.stderr
    assert files_in(tmp_path) == before


def test_where_nothing_can_be_written(tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    result = darby("papers", FIREHALL, "--into", tmp_path / "file")
    assert result.exit_code == 2
    assert "cannot be written" in result.stderr


def test_a_job_that_waits_has_the_papers_it_can_have_and_no_quote(tmp_path):
    result = darby("papers", lone_wall(tmp_path), "--into", tmp_path / "out")
    assert result.exit_code == 1
    names = {name.rpartition("/")[2] for name in files_in(tmp_path / "out")}
    assert "working.pdf" in names
    assert "quote.pdf" not in names


def test_broken_files_leave_the_old_set(written, tmp_path):
    folder, _ = written
    before = files_in(folder)
    path = job_file(tmp_path, ('length = "34\'"', 'length = "34"'))
    path.rename(tmp_path / "firehall.toml")
    assert darby("papers", tmp_path / "firehall.toml", "--into", folder).exit_code == 2
    assert files_in(folder) == before


@pytest.mark.parametrize(("more", "name"), [((), "firehall.toml"), (("--firm",), "firm.toml")])
def test_schema_is_one_and_takes_the_example(more, name):
    import tomllib

    result = darby("schema", *more)
    assert result.exit_code == 0
    schema = json.loads(result.stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    document = tomllib.loads((EXAMPLES / name).read_text(encoding="utf-8"))
    jsonschema.validate(json.loads(json.dumps(document, default=str)), schema)
