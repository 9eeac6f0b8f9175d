"""`darby pocket`: one file for the phone, whole or not at all."""

import pytest

from darby.pocket import TooLarge
from darby.pocket.asking import PLAIN, Asker
from tests.cli.running import EXAMPLES, darby

FIRM = EXAMPLES / "firm.toml"


@pytest.fixture
def quick(monkeypatch):
    """The sheet itself is made in tests/pocket; here it is what was asked for."""
    asked = []

    def sheet(firm=None, **more):
        asked.append((firm, more))
        if firm is not None:
            Asker(firm).job(PLAIN)
        return "<!doctype html>"

    monkeypatch.setattr("darby.pocket.sheet.pocket_sheet", sheet)
    return asked


def test_it_writes_the_sheet_and_says_what_to_do_with_it(tmp_path, monkeypatch):
    into = tmp_path / "phone" / "walls.html"
    into.parent.mkdir()
    result = darby("pocket", "--firm", FIRM, "--into", into)
    assert result.exit_code == 0, result.stderr
    page = into.read_text(encoding="utf-8")
    assert page.startswith("<!doctype html>") and len(page.encode()) < 250_000
    assert "Wrote" in result.stdout and "Send walls.html to the phone" in result.stdout
    assert "prices" not in result.stdout
    assert [p.name for p in into.parent.iterdir()] == ["walls.html"]


def test_prices_bring_their_warning(tmp_path, quick):
    result = darby("pocket", "--firm", FIRM, "--prices", "--into", tmp_path / "x.html")
    assert result.exit_code == 0, result.stderr
    assert "Whoever holds this phone, or gets the file, sees what you pay." in result.stdout
    assert quick == [(FIRM, {"language": "en", "prices": True})]


def test_prices_of_no_firm_are_refused(tmp_path, quick):
    result = darby("pocket", "--prices", "--into", tmp_path / "x.html")
    assert result.exit_code == 2 and "Prices come from your firm file" in result.stderr
    assert list(tmp_path.iterdir()) == [] and quick == []


def test_in_spanish(tmp_path, quick):
    result = darby("pocket", "--es", "--into", tmp_path / "hoja.html")
    assert result.exit_code == 0 and "Mande hoja.html al teléfono" in result.stdout
    assert quick == [(None, {"language": "es", "prices": False})]


def test_a_firm_file_that_is_wrong_is_said_in_full_and_nothing_is_written(tmp_path, quick):
    firm = tmp_path / "firm.toml"
    firm.write_text('darby_firm = 1\nname = "X"\n[measures]\nmixer = "9"\n[allow]\nwaste = "lots"\n', encoding="utf-8")
    result = darby("pocket", "--firm", firm, "--into", tmp_path / "x.html")
    assert result.exit_code == 2
    told = " ".join(result.stderr.split())  # lines break where the path is long
    assert "mixer" in told and "waste" in told and "Nothing was written" in told
    assert [p.name for p in tmp_path.iterdir()] == ["firm.toml"]


@pytest.mark.parametrize("text", [None, "name = ", "\x00"])
def test_a_firm_file_that_is_none(tmp_path, quick, text):
    firm = tmp_path / "firm.toml"
    if text is not None:
        firm.write_text(text, encoding="utf-8")
    result = darby("pocket", "--firm", firm, "--into", tmp_path / "x.html")
    assert result.exit_code == 2 and "firm" in result.stderr
    assert not (tmp_path / "x.html").exists()


def test_a_place_that_cannot_be_written_to(tmp_path, quick):
    result = darby("pocket", "--into", tmp_path / "nowhere" / "x.html")
    assert result.exit_code == 2 and "cannot be written" in result.stderr and quick == []
    assert darby("pocket", "--into", tmp_path).exit_code == 2


def test_a_sheet_that_grew_too_large_leaves_the_old_one(tmp_path, monkeypatch):
    into = tmp_path / "x.html"
    into.write_text("old", encoding="utf-8")

    def too_large(*_, **__):
        raise TooLarge(300_000)

    monkeypatch.setattr("darby.pocket.sheet.pocket_sheet", too_large)
    result = darby("pocket", "--into", into)
    assert result.exit_code == 2 and "300000" in result.stderr
    assert into.read_text(encoding="utf-8") == "old" and [p.name for p in tmp_path.iterdir()] == ["x.html"]


def test_a_firm_that_follows_a_silent_voice(tmp_path, quick):
    firm = tmp_path / "firm.toml"
    firm.write_text('darby_firm = 1\nname = "X"\n[follow]\nthickness = "nobody"\n', encoding="utf-8")
    result = darby("pocket", "--firm", firm, "--into", tmp_path / "x.html")
    assert result.exit_code == 2 and "nobody" in result.stderr
