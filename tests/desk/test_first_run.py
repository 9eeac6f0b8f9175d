"""`darby desk` on a bare folder; the copy and the way back; what Django says of the settings."""

import os
import sqlite3
import stat
import subprocess
import sys

import pytest

from darby.desk.backup import NoBackup, backup, restore
from darby.desk.home import Home


def mode(path):
    return stat.S_IMODE(path.stat().st_mode)


def test_folder_and_secret_are_for_this_user_only(desk):
    assert mode(desk.folder) == 0o700
    assert mode(desk.folder / "secret") == 0o600
    assert mode(desk.folder / "desk.sqlite3") == 0o600


def test_a_secret_stays_what_it_is(tmp_path):
    home = Home(tmp_path / "d")
    home.make()
    first = home.secret
    home.make()
    assert home.secret == first and len(first) > 60


def test_the_examples_are_there_and_answer(owner):
    text = owner.get("/").text
    for name in ("Alder Flat fire hall", "Alder Flat, garden wall"):
        assert name in text


def test_writes_are_on_the_disk_before_they_are_told(desk):
    from django.db import connection

    with connection.cursor() as cursor:
        cursor.execute("PRAGMA journal_mode")
        assert cursor.fetchone() == ("wal",)
        cursor.execute("PRAGMA synchronous")
        assert cursor.fetchone() == (2,)


def test_a_copy_while_it_serves_and_the_way_back(desk, owner, tmp_path):
    from darby.desk.kept import saving

    home = Home(desk.folder)
    copy = tmp_path / "copy.sqlite3"
    backup(home, copy)
    assert mode(copy) == 0o600
    person = desk.person("copier", "owner")
    saving.keep("after-the-copy", saving.latest("garden-wall").text, person)
    assert owner.get("/job/after-the-copy/wall/").status == 200
    before = restore(home, copy)
    assert owner.get("/job/after-the-copy/wall/").status == 404
    assert owner.get("/job/garden-wall/wall/").status == 200
    restore(home, before)
    assert owner.get("/job/after-the-copy/wall/").status == 200


@pytest.mark.parametrize("content", [b"", b"not a data base at all", None])
def test_what_is_no_copy_changes_nothing(desk, owner, tmp_path, content):
    file = tmp_path / "bad"
    if content is None:
        with sqlite3.connect(file) as other:
            other.execute("CREATE TABLE something (x)")
    else:
        file.write_bytes(content)
    with pytest.raises(NoBackup):
        restore(Home(desk.folder), file)
    assert owner.get("/job/garden-wall/wall/").status == 200


def test_a_damaged_copy_is_refused(desk, tmp_path):
    copy = tmp_path / "copy.sqlite3"
    backup(Home(desk.folder), copy)
    raw = bytearray(copy.read_bytes())
    raw[4096:8192] = os.urandom(4096)
    copy.write_bytes(raw)
    with pytest.raises(NoBackup):
        restore(Home(desk.folder), copy)


def test_django_finds_nothing_to_say_of_the_settings_under_https(tmp_path):
    home = Home(tmp_path / "d")
    home.make()
    env = os.environ | {"DARBY_DESK_DATA": str(home.folder), "DARBY_DESK_TLS": "1",
                        "DJANGO_SETTINGS_MODULE": "darby.desk.settings"}  # fmt: skip
    command = [sys.executable, "-m", "django", "check", "--deploy", "--fail-level", "WARNING"]
    env.pop("DJANGO_ALLOW_ASYNC_UNSAFE", None)  # the tests set it for themselves
    found = subprocess.run(command, env=env, capture_output=True, text=True, timeout=60, check=False)
    assert found.returncode == 0, found.stderr


def test_migrations_hold_all_that_the_models_say(desk):
    from django.core.management import call_command

    call_command("makemigrations", "--check", "--dry-run", verbosity=0)


def test_other_commands_do_not_load_django():
    code = "import sys, darby.cli.app; assert not {'django', 'waitress'} & set(sys.modules)"
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)


def test_the_command_line_says_where_the_copy_went(desk, tmp_path):
    command = [sys.executable, "-m", "darby", "desk", "--data", str(desk.folder), "backup", str(tmp_path / "c.sqlite3")]
    found = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert found.returncode == 0, found.stderr
    assert "c.sqlite3" in found.stdout
    assert (tmp_path / "c.sqlite3").stat().st_size > 100_000
