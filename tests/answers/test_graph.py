"""The graph by itself, with small stages: what is kept, what waits, what fails alone."""

import gc
from dataclasses import dataclass, field
from types import SimpleNamespace

import pytest

from darby.answers.graph import Later, walk
from darby.answers.stage import Stage, Waiting
from darby.measure.faults import Fault, Unreadable
from darby.rulebook import default
from darby.working import Working


@dataclass
class Counted:
    """A stage's run that counts how often it is called."""

    calls: list = field(default_factory=list)

    def run(self, ask):
        self.calls.append(ask)
        working = Working()
        working.step(f"{ask[0]}/twice", "2 * x", "", "answers.wall.net", x=ask[1])
        if ask[1] < 0:
            raise Unreadable(Fault("answers.book", "", str(ask[1]), "0 or more"))
        return ask[1] * 2, working


def job_of(**sizes):
    surfaces = tuple(SimpleNamespace(id=name) for name in sizes)
    return SimpleNamespace(surfaces=surfaces, sizes=sizes, hash="h", assumed=())


def stages(counted, total=None):
    each = Stage("each", (), "surface", "now", lambda job, book, answers, at: (at, job.sizes[at]), counted.run)
    whole = Stage(
        "whole", ("each",), "job", "now", lambda job, book, answers, at: tuple(answers.good("each").values()),
        lambda ask: (sum(ask), Working()),
    )  # fmt: skip
    slow = Stage("slow", (), "job", "later", lambda job, book, answers, at: ("slow", 1), (total or Counted()).run)
    return each, whole, slow


def ask(job, counted, since=None, later=Later.skip, slow=None):
    return walk(stages(counted, slow), job, default(), version="t", since=since, later=later)


def test_only_what_changed_is_run_again():
    counted = Counted()
    first = ask(job_of(a=1, b=2), counted)
    assert first.of("whole") == 6
    again = ask(job_of(a=1, b=5), counted, since=first)
    assert again.of("whole") == 12
    assert counted.calls == [("a", 1), ("b", 2), ("b", 5)]
    assert again.asked == 2  # b and the whole


def test_an_equal_job_runs_nothing():
    counted = Counted()
    first = ask(job_of(a=1, b=2), counted)
    assert ask(job_of(a=1, b=2), counted, since=first).asked == 0


def test_one_bad_surface_takes_no_other_with_it():
    answers = ask(job_of(a=1, bad=-1, c=3), Counted())
    assert answers.of("whole") == 8
    assert answers.of("each", "bad") == Fault("answers.book", "bad", "-1", "0 or more")
    assert set(answers.unanswered()) == {("each", "bad")}  # a slow stage that nobody asked for is not missing


def test_a_slow_stage_waits_until_it_is_asked_for():
    slow = Counted()
    skipped = ask(job_of(a=1), Counted(), slow=slow)
    assert skipped.of("slow") == Waiting(lacks=("answers.later",))
    assert slow.calls == []
    assert ask(job_of(a=1), Counted(), later=Later.run, slow=slow).of("slow") == 2


def test_steps_are_found_by_key():
    answers = ask(job_of(a=1, b=2), Counted())
    assert answers.step("b/twice").value == 4
    assert [s.key for s in answers.steps()] == ["a/twice", "b/twice"]
    with pytest.raises(KeyError):
        answers.step("c/twice")


def test_a_programming_error_is_not_hidden():
    def broken(ask):
        raise ZeroDivisionError

    stage = Stage("each", (), "surface", "now", lambda job, book, answers, at: at, broken)
    with pytest.raises(ZeroDivisionError):
        walk((stage,), job_of(a=1), default(), version="t", since=None, later=Later.skip)


@pytest.mark.parametrize("was", [True, False])
def test_collecting_garbage_is_left_as_it_was(was):
    def broken(ask):
        assert not gc.isenabled()
        raise ZeroDivisionError

    stage = Stage("each", (), "surface", "now", lambda job, book, answers, at: at, broken)
    (gc.enable if was else gc.disable)()
    try:
        with pytest.raises(ZeroDivisionError):
            walk((stage,), job_of(a=1), default(), version="t", since=None, later=Later.skip)
        assert gc.isenabled() is was
    finally:
        gc.enable()
