"""Answering again: only what changed is asked anew, and what is kept is the very same answer."""

from dataclasses import replace

import darby
from tests.answers.jobs import firehall as example

PRICE = ('price = "$16.80"', 'price = "$17.10"')
LONGER = ('id = "bay-east"\nname = "Engine bay, east wall"\nlength = "34\'"',
          'id = "bay-east"\nname = "Engine bay, east wall"\nlength = "36\'"')  # fmt: skip


def kept_and_anew(before, after):
    anew = {key for key in after.kept if after.kept[key] is not before.kept.get(key)}
    return set(after.kept) - anew, anew


def test_an_equal_job_asks_nothing(firehall, firehall_job):
    again = darby.answer(firehall_job, since=firehall)
    assert again.asked == 0
    assert all(again.kept[key] is kept for key, kept in firehall.kept.items())


def test_the_same_file_read_twice_asks_nothing(firehall):
    assert darby.answer(example(), since=firehall).asked == 0


def test_a_changed_price_asks_the_price_alone(firehall):
    again = darby.answer(example(firm=[PRICE]), since=firehall)
    assert again.asked == 1
    assert kept_and_anew(firehall, again)[1] == {("price", "job")}
    assert again.of("price").total.value > firehall.of("price").total.value


def test_a_changed_wall_leaves_the_others(firehall):
    again = darby.answer(example(LONGER), since=firehall)
    _, anew = kept_and_anew(firehall, again)
    assert {at for _, at in anew} == {"bay-east", "job"}
    assert {("wall", "bay-east"), ("volumes", "bay-east"), ("order", "job"), ("price", "job")} <= anew
    assert again.asked == len(anew)


def test_what_is_kept_is_what_would_be_answered_afresh(firehall):
    job = example(LONGER, firm=[PRICE])
    kept, fresh = darby.answer(job, since=firehall), darby.answer(job)
    assert fresh.asked > kept.asked
    assert kept.to_json() == fresh.to_json()


def test_another_date_does_not_touch_the_walls(firehall, firehall_job):
    later = replace(firehall_job, as_of=firehall_job.as_of.replace(month=10, day=1))
    _, anew = kept_and_anew(firehall, darby.answer(later, since=firehall))
    assert ("days", "job") in anew
    assert {at for _, at in anew} == {"job"}


def test_another_voice_asks_everything_that_stands_on_the_book(firehall):
    other = darby.answer(example(firm=[('thickness = "c926"', 'thickness = "pca"')]), since=firehall)
    assert other.book_version != firehall.book_version
    _, anew = kept_and_anew(firehall, other)
    assert ("coats", "bay-east") in anew


def test_answers_are_not_changed_by_answering_again(firehall):
    before = firehall.to_json()
    darby.answer(example(LONGER, firm=[PRICE]), since=firehall)
    assert firehall.to_json() == before
