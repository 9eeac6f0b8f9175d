"""Revisions and the log: what is acknowledged is there, once, and stays; two editors meet only where they must."""

import json
import sqlite3
import tomllib
from collections import Counter
from uuid import uuid4

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.desk.kept.merging import changes, merge
from darby.job.alike import same

JOB = """
darby = 1
[job]
name = "Test wall"
as_of = 2026-01-15
[[wall]]
id = "front"
length = "24'"
height = "8'"
base = "concrete"
[[wall]]
id = "back"
length = "12'"
height = "8'"
base = "concrete"
[coats]
finish = "float"
"""


@pytest.fixture
def who(desk):
    return desk.person("keeper", "owner")


@pytest.fixture
def job(who):
    from darby.desk.kept import saving

    name = f"job-{uuid4().hex[:8]}"
    saving.keep(name, JOB, who)
    return name


def test_a_revision_knows_its_parent_who_and_what_changed(job, who):
    from darby.desk.kept import saving

    saved = saving.keep(job, JOB.replace("24'", "26'"), who, base=1)
    assert (saved.revision.number, saved.revision.parent.number) == (2, 1)
    assert saved.revision.changed == ["wall/front/length"]
    assert saved.revision.who == who
    assert saving.latest(job).text == JOB.replace("24'", "26'")


def test_nothing_new_writes_nothing(job, who):
    from darby.desk.kept import saving

    saving.keep(job, JOB, who, base=1)
    saving.keep(job, tomllib.loads(JOB), who, base=1)
    assert [r.number for r in saving.history(job)] == [1]


def test_two_editors_of_different_things_both_stand(job, who):
    from darby.desk.kept import saving

    saving.keep(job, JOB.replace("24'", "26'"), who, base=1)
    saved = saving.keep(job, JOB.replace('"float"', '"smooth"'), who, base=1)
    tables = tomllib.loads(saved.revision.text)
    assert tables["wall"][0]["length"] == "26'"
    assert tables["coats"]["finish"] == "smooth"
    assert saved.also == ("wall/front/length",)


def test_two_walls_of_one_list_do_not_meet(job, who):
    from darby.desk.kept import saving

    saving.keep(job, JOB.replace("24'", "26'"), who, base=1)
    saved = saving.keep(job, JOB.replace("12'", "14'"), who, base=1)
    assert [w["length"] for w in tomllib.loads(saved.revision.text)["wall"]] == ["26'", "14'"]


def test_two_editors_of_the_same_thing_are_told(job, who):
    from darby.desk.kept import saving

    saving.keep(job, JOB.replace("24'", "26'"), who, base=1)
    with pytest.raises(saving.Clash) as told:
        saving.keep(job, JOB.replace("24'", "28'"), who, base=1)
    assert told.value.paths == ("wall/front/length",)
    assert saving.latest(job).number == 2


def test_two_who_wrote_the_same_are_not_told(job, who):
    from darby.desk.kept import saving

    saving.keep(job, JOB.replace("24'", "26'"), who, base=1)
    assert saving.keep(job, JOB.replace("24'", "26'"), who, base=1).revision.number == 2


def test_what_cannot_be_read_is_not_kept(job, who):
    from darby.desk.kept import saving
    from darby.job import JobError

    with pytest.raises(JobError):
        saving.keep(job, JOB.replace("24'", "24 furlongs"), who, base=1)
    assert [r.number for r in saving.history(job)] == [1]


def test_going_back_writes_a_new_revision(job, who):
    from darby.desk.kept import saving

    saving.keep(job, JOB.replace("24'", "26'"), who, base=1)
    saving.go_back(job, 1, who)
    assert [(r.number, r.says) for r in saving.history(job)] == [(3, "back:1"), (2, ""), (1, "")]
    assert saving.latest(job).text == JOB


def test_a_line_sent_twice_is_kept_once(job, who):
    from darby.desk.kept import saving

    id = uuid4()
    assert saving.note_down(id, job, "note", who, said={"text": "scratched"})[1]
    assert not saving.note_down(id, job, "note", who, said={"text": "scratched"})[1]
    assert [e.said["text"] for e in saving.log(job)] == ["scratched"]


def test_another_line_under_the_same_id_is_refused(job, who):
    from darby.desk.kept import saving

    id = uuid4()
    saving.note_down(id, job, "note", who, said={"text": "scratched"})
    with pytest.raises(saving.SentOtherwise):
        saving.note_down(id, job, "note", who, said={"text": "browned"})


def test_a_photograph_is_kept_once_by_its_hash(job, who):
    from darby.desk.kept import saving
    from darby.desk.kept.models import Photograph

    picture = (b"\xff\xd8 not a real picture " + uuid4().bytes, "image/jpeg")
    for _ in range(2):
        saving.note_down(uuid4(), job, "photograph", who, photograph=picture)
    (one,) = {e.photograph_id for e in saving.log(job)}
    assert bytes(Photograph.objects.get(sha256=one).data) == picture[0]


@pytest.mark.parametrize("table", ["kept_revision", "kept_entry", "kept_photograph"])
@pytest.mark.parametrize("say", ["UPDATE {} SET rowid = rowid", "DELETE FROM {}"])
def test_the_data_base_itself_refuses_to_change_them(desk, job, who, table, say):
    from darby.desk.kept import saving

    saving.note_down(uuid4(), job, "photograph", who, photograph=(uuid4().bytes, "image/png"))
    with (
        sqlite3.connect(desk.folder / "desk.sqlite3") as base,
        pytest.raises(sqlite3.IntegrityError, match="only added"),
    ):
        base.execute(say.format(table))


def test_rows_are_not_saved_again(job):
    from darby.desk.kept import saving

    with pytest.raises(TypeError):
        saving.latest(job).save()
    with pytest.raises(TypeError):
        saving.latest(job).delete()


def test_two_who_put_an_opening_in_one_place_are_told(job, who):
    from darby.desk.kept import saving

    for says, fits in (("door 3068 at 2'", True), ("window 3040 at 3', up 3'", False)):
        tables = tomllib.loads(JOB)
        tables["wall"][0]["openings"] = [says]
        if fits:
            saving.keep(job, tables, who, base=1)
            continue
        with pytest.raises(saving.Clash) as told:
            saving.keep(job, tables, who, base=1)
    assert told.value.paths == ("wall/front/openings/2",)
    assert saving.latest(job).number == 2


# --- the text ------------------------------------------------------------------------------------------

WRITTEN = """# whose wall this is
darby = 1

[job]
name = "Test wall"     # as on the letter
as_of = 2026-01-15

# --- walls ---

[[wall]]
id = "front"
length = "24'"         # by tape
height = "8'"
base = 'concrete'
openings = [
  "door 3068 at 2'",   # the old frame
  "window 3040 at 9', up 3'",
]

[coats]
finish = "float"       # as the neighbour's
"""


@pytest.fixture
def written(who):
    from darby.desk.kept import saving

    name = f"job-{uuid4().hex[:8]}"
    saving.keep(name, WRITTEN, who)
    return name


def test_a_remark_alone_is_kept_too(written, who):
    from darby.desk.kept import saving

    said = saving.keep(written, WRITTEN + "# a word to myself\n", who, base=1).revision
    assert (said.number, said.changed, said.text) == (2, [], WRITTEN + "# a word to myself\n")


def test_tables_go_into_the_text_as_it_was_written(written, who):
    from darby.desk.kept import saving

    tables = tomllib.loads(WRITTEN)
    tables["wall"][0]["openings"][0] = "door 3068 at 3'"
    tables["coats"]["finish"] = "smooth"
    saved = saving.keep(written, tables, who, base=1).revision
    assert saved.text == WRITTEN.replace("3068 at 2'", "3068 at 3'").replace('"float"       #', '"smooth"      #')
    assert saved.changed == ["wall/front/openings/1", "coats/finish"]


def test_going_back_brings_the_text_back_with_its_remarks(written, who):
    from darby.desk.kept import saving

    without = "\n".join(row.partition("#")[0] for row in WRITTEN.split("\n")).replace("24'", "26'")
    saving.keep(written, without, who, base=1)
    saving.go_back(written, 1, who)
    assert saving.latest(written).text == WRITTEN


def test_what_two_wrote_comes_together_with_the_remarks_of_both(written, who):
    from darby.desk.kept import saving

    saving.keep(written, WRITTEN.replace("# by tape", "# by laser").replace("24'", "25'"), who, base=1)
    mine = tomllib.loads(WRITTEN)
    mine["wall"][0]["openings"].append("window 3040 at 15', up 3'")
    saved = saving.keep(written, mine, who, base=1).revision
    assert "# by laser" in saved.text
    assert "# the old frame" in saved.text
    assert [tomllib.loads(saved.text)["wall"][0][key] for key in ("length", "openings")] == [
        "25'", ["door 3068 at 2'", "window 3040 at 9', up 3'", "window 3040 at 15', up 3'"]
    ]  # fmt: skip


def test_remarks_that_one_alone_wrote_stay_whoever_came_first(written, who):
    from darby.desk.kept import saving

    tables = tomllib.loads(WRITTEN)
    tables["wall"][0]["length"] = "25'"
    saving.keep(written, tables, who, base=1)
    saved = saving.keep(written, WRITTEN.replace("# by tape", "# by laser"), who, base=1).revision
    assert """length = "25'"         # by laser""" in saved.text.split("\n")
    assert tomllib.loads(saved.text)["wall"][0]["length"] == "25'"


def test_two_who_wrote_another_remark_at_one_place_are_told(written, who):
    from darby.desk.kept import saving

    saving.keep(written, WRITTEN.replace("# by tape", "# by laser"), who, base=1)
    with pytest.raises(saving.Clash) as told:
        saving.keep(written, WRITTEN.replace("# by tape", "# paced"), who, base=1)
    assert told.value.paths == ("#",)
    assert "# by laser" in saving.latest(written).text


def test_a_clash_holds_what_each_changed_and_mine_where_they_meet(written, who):
    from darby.desk.kept import saving

    saving.keep(written, WRITTEN.replace("24'", "25'").replace("8'", "9'"), who, base=1)
    with pytest.raises(saving.Clash) as told:
        saving.keep(
            written, WRITTEN.replace("24'", "26'").replace("'concrete'", "'block'\nblock = 'dense'"), who, base=1
        )
    wall = told.value.both["wall"][0]
    assert (wall["length"], wall["height"], wall["base"]) == ("26'", "9'", "block")


# --- changes and merging, whatever the document --------------------------------------------------------

LEAF = st.one_of(st.integers(0, 5), st.sampled_from(["a", "b"]), st.booleans())
NAMED = st.lists(
    st.fixed_dictionaries({"id": st.sampled_from("xyz")}, optional={"v": LEAF}), max_size=3, unique_by=lambda t: t["id"]
)
TREE = st.recursive(
    LEAF, lambda inner: st.dictionaries(st.sampled_from("klm"), inner, max_size=3) | NAMED, max_leaves=8
)
DOCUMENT = st.dictionaries(st.sampled_from("klmn"), TREE, max_size=4)


@given(DOCUMENT, DOCUMENT)
def test_one_who_changed_nothing_changes_nothing(base, other):
    assert merge(base, base, other) == (other, ())
    assert merge(base, other, base) == (other, ())
    assert merge(base, other, other) == (other, ())


@given(DOCUMENT, DOCUMENT, DOCUMENT)
def test_where_nothing_clashes_it_does_not_matter_who_came_first(base, mine, theirs):
    one, clashes = merge(base, mine, theirs)
    other, again = merge(base, theirs, mine)
    assert sorted(clashes) == sorted(again)
    if not clashes:
        assert not changes(_unordered(one), _unordered(other))


@given(DOCUMENT, DOCUMENT, DOCUMENT)
def test_clashes_are_where_both_changed(base, mine, theirs):
    _, clashes = merge(base, mine, theirs)
    mine, theirs = changes(base, mine), changes(base, theirs)
    for path in clashes:
        assert any(_meet(path, p) for p in mine)
        assert any(_meet(path, p) for p in theirs)


@given(DOCUMENT, DOCUMENT)
def test_changes_are_none_only_if_equal(one, other):
    assert (changes(one, other) == ()) == same(one, other)


# --- lists ---------------------------------------------------------------------------------------------

SAYS = st.sampled_from(["door 3068 at 2'", "window 3040 at 9'", "window 3040 at 14'", "opening 4' x 4' at 20'"])
ENTRY = st.one_of(
    SAYS,
    st.fixed_dictionaries({"size": st.sampled_from(["3040", "3068"]), "at": st.sampled_from(["2'", "9'", "14'"])}),
    st.fixed_dictionaries({"id": st.sampled_from("xyzw"), "at": st.sampled_from(["2'", "9'"])}),
)


def _named_once(rows):
    ids = [row["id"] for row in rows if isinstance(row, dict) and "id" in row]
    return len(ids) == len(set(ids))


ROWS = st.lists(ENTRY, max_size=6).filter(_named_once)


def _held(rows):
    return Counter(json.dumps(row, sort_keys=True) for row in rows)


def _list(base, mine, theirs):
    merged, clashes = merge({"rows": base, "mark": 0}, {"rows": mine, "mark": 1}, {"rows": theirs, "mark": 0, "and": 2})
    assert merged["mark"] == 1
    assert merged["and"] == 2
    return merged["rows"], clashes


@given(ROWS, ROWS)
def test_a_list_that_one_alone_changed_is_as_he_left_it(base, other):
    assert _list(base, other, base) == (other, ())
    assert _list(base, base, other) == (other, ())


@given(ROWS, ROWS, ROWS)
def test_nothing_that_either_added_to_a_list_is_lost_untold(base, mine, theirs):
    merged, clashes = _list(base, mine, theirs)
    if clashes:
        return
    stood, came_out = _held(base), _held(_flat(merged))
    for made in (mine, theirs):
        for row, often in (_held(_flat(made)) - _held(_flat(base))).items():
            assert came_out[row], (row, often)
    for row in came_out:
        assert row in stood or row in _held(_flat(mine)) or row in _held(_flat(theirs)) or row in _held(_flat(base))


def _flat(rows):
    """Plain entries whole, tables key by key: two may have changed two keys of one."""
    return [
        part
        for row in rows
        for part in ([{k: v, "of": row.get("id")} for k, v in row.items()] if isinstance(row, dict) else [row])
    ]


@given(ROWS, ROWS, ROWS)
def test_it_does_not_matter_for_a_list_who_came_first(base, mine, theirs):
    one, clashes = merge(base, mine, theirs)
    other, again = merge(base, theirs, mine)
    assert bool(clashes) == bool(again)
    if not clashes:
        assert _held(one) == _held(other)


@given(ROWS.filter(lambda rows: len(rows) > 1), st.data())
def test_two_who_change_two_entries_of_a_list_both_stand(base, data):
    first = data.draw(st.integers(0, len(base) - 1))
    second = data.draw(st.integers(0, len(base) - 1).filter(lambda n: n != first))
    mine, theirs = list(base), list(base)
    mine[first] = _moved(base[first], "1'")
    theirs[second] = _moved(base[second], "30'")
    wanted = list(mine)
    wanted[second] = theirs[second]
    assert _list(base, mine, theirs) == (wanted, ())


def _moved(row, to):
    return {**row, "at": to} if isinstance(row, dict) else row.partition(" at ")[0] + f" at {to}"


@given(ROWS.filter(bool), st.data())
def test_two_who_change_the_same_entry_are_told(base, data):
    n = data.draw(st.integers(0, len(base) - 1))
    mine, theirs = list(base), list(base)
    mine[n], theirs[n] = _moved(base[n], "1'"), _moved(base[n], "30'")
    _, clashes = _list(base, mine, theirs)
    assert clashes


@pytest.mark.parametrize(
    ("mine", "theirs", "wanted"),
    [
        (["a2", "b", "c"], ["a", "b", "c2"], ["a2", "b", "c2"]),
        (["a2", "b", "c"], ["a", "b2", "c"], ["a2", "b2", "c"]),
        (["a", "b"], ["a", "b", "c", "d"], ["a", "b", "d"]),
        (["a", "b", "c", "mine"], ["a", "b", "c", "theirs"], ["a", "b", "c", "theirs", "mine"]),
        (["new", "a", "b", "c"], ["a", "c"], ["new", "a", "c"]),
        (["a", "b", "c", "new"], ["a", "b", "c", "new"], ["a", "b", "c", "new"]),
        ([], ["a", "b", "c", "d"], ["d"]),
    ],
)
def test_the_order_of_a_list_is_kept(mine, theirs, wanted):
    assert _list(["a", "b", "c"], mine, theirs) == (wanted, ())


@pytest.mark.parametrize(
    ("mine", "theirs", "told"),
    [
        (["a2", "b", "c"], ["a3", "b", "c"], "rows/1"),
        (["a", "b"], ["a", "b", "c2"], "rows/3"),
        (["c", "a", "b"], ["b", "a", "c"], "rows"),
    ],
)
def test_where_two_change_one_entry_it_is_called_by_its_number(mine, theirs, told):
    assert _list(["a", "b", "c"], mine, theirs)[1] == (told,)


def test_walls_in_another_order_are_a_change():
    one = {"wall": [{"id": "a"}, {"id": "b"}]}
    assert changes(one, {"wall": one["wall"][::-1]}) == ("wall",)


def test_two_who_add_the_first_openings_of_a_wall_both_stand():
    wall = {"id": "w", "length": "24'"}
    rows = [[{**wall, "openings": [says]}] for says in ("door 3068 at 2'", "window 3040 at 9'")]
    merged, clashes = merge({"wall": [wall]}, {"wall": rows[1]}, {"wall": rows[0]})
    assert (merged["wall"][0]["openings"], clashes) == (["door 3068 at 2'", "window 3040 at 9'"], ())


def test_two_walls_added_under_one_name_are_told():
    walls = [{"wall": [{"id": "w", key: "24'"}]} for key in ("length", "height")]
    assert merge({}, *walls)[1] == ("wall/w",)


def test_what_reads_otherwise_is_another():
    assert changes({"a": 1}, {"a": True}) == ("a",)
    assert merge({"a": 1}, {"a": True}, {"a": 1}) == ({"a": True}, ())


def _meet(one: str, other: str) -> bool:
    return one == other or one.startswith(f"{other}/") or other.startswith(f"{one}/") or "" in (one, other)


def _unordered(tree):
    if isinstance(tree, dict):
        return {k: _unordered(v) for k, v in tree.items()}
    if isinstance(tree, list):
        return sorted((_unordered(v) for v in tree), key=lambda t: str(t.get("id")) if isinstance(t, dict) else str(t))
    return tree
