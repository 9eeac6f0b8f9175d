"""What is made of answers for a page is made once: answers do not change, so it stays true as long as they stand."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import TYPE_CHECKING, Any, TypeVar, cast

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.working import Found, Step

T = TypeVar("T")
MOST = 160
"""Things kept; the rows of a long page are a few hundred kilobytes."""
MOST_STEPS = 20_000

_kept: OrderedDict[tuple[Hashable, ...], tuple[Answers, Any]] = OrderedDict()
_steps: dict[tuple[Hashable, ...], tuple[Step | Found, Any]] = {}
_lock = Lock()


def once(answers: Answers, *key: Hashable, make: Callable[[], T]) -> T:
    """What ``make`` makes of ``answers`` under ``key``, made the first time only. Nobody may change it."""
    whole = (id(answers), *key)
    with _lock:
        found = _kept.get(whole)
        if found is not None and found[0] is answers:
            _kept.move_to_end(whole)
            return cast(T, found[1])
    value = make()
    with _lock:
        _kept[whole] = (answers, value)  # the answers are held with it, so that no others take their id
        while len(_kept) > MOST:
            _kept.popitem(last=False)
    return value


def once_a_step(step: Step | Found, *key: Hashable, make: Callable[[], T]) -> T:
    """The same for a step: after a change most steps of the working are the very ones of before."""
    whole = (id(step), *key)
    found = _steps.get(whole)
    if found is not None and found[0] is step:
        return cast(T, found[1])
    value = make()
    if len(_steps) > MOST_STEPS:
        _steps.clear()
    _steps[whole] = (step, value)
    return value
