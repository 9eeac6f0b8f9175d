"""docs/assumptions.md lists every assumption that a room can make, and no other."""

import ast

from darby.words import LANGUAGES, catalogue
from tests.answers import assumptions
from tests.answers.jobs import firehall as example
from tests.answers.jobs import without_firm


def test_the_list_is_up_to_date():
    page = assumptions.DOC.read_text(encoding="utf-8")
    assert page == assumptions.whole(), "bring it up to date: .venv/bin/python -m tests.answers.assumptions"


def test_every_assumption_of_some_jobs_is_listed(firehall):
    import darby

    listed = set(assumptions.codes())
    jobs = [firehall, darby.answer(without_firm()), darby.answer(example(("paint = false", "paint = true")))]
    seen = {n.code for answers in jobs for n in answers.notes if n.grade == "assumed"}
    assert len(seen) > 25
    assert seen <= listed


def test_every_assumption_can_be_said_in_both_languages():
    for language in LANGUAGES:
        assert set(assumptions.codes()) <= set(catalogue(language))


def test_codes_are_found_however_they_are_put_together():
    tree = ast.parse(
        "def f(self, w):\n"
        "    w.note('a.one', 'assumed', at)\n"
        "    note('a.two' if x else 'a.three', 'assumed', at)\n"
        "    note(f'a.four-{x}', 'assumed', at)\n"
        "    grade = 'caution' if x else 'assumed'\n"
        "    note('a.five', grade, at)\n"
        "    note('a.six', 'fact' if x else 'assumed', at)\n"
        "    self.assume('a.seven', at)\n"
        "    note('a.not', 'caution', at)\n"
        "    note('a.nor', other, at)\n"
    )
    found = set(assumptions._patterns(tree))
    assert found == {"a.one", "a.two", "a.three", "a.four-*", "a.five", "a.six", "a.seven"}
